#include "craft/heat.h"

#include "base/real.h"
#include "craft/check.h"
#include <math.h>

static const double pi = 3.14159265358979323846;
/* First zero of the Bessel function J0, and J1 there: Abramowitz and Stegun, Handbook of
 * Mathematical Functions (1964), Table 9.5. */
static const double zero_of_j0 = 2.4048255577, j1_at_zero = 0.5191474973;

lml_status lml_heat_needed(const lml_heat_load *load, double *joules, lml_error *err)
{
    if (lml_check_positive(load->mass, "the mass to heat (kg)", err) ||
        lml_check_positive(load->capacity, "the heat capacity (J/(kg·K))", err) ||
        lml_check_not_negative(load->fusion, "the heat of fusion (J/kg)", err) ||
        lml_check_positive(load->from, "the temperature at the start (K)", err) ||
        lml_check_positive(load->to, "the temperature to reach (K)", err))
        return LML_BAD_VALUE;
    if (load->to < load->from) {
        lml_fail(err, LML_BAD_VALUE, "it is at %.6g K but is to be heated to %.6g K, which is less",
                 load->from, load->to);
        lml_error_hint(err,
                       "if it is already hot enough it needs no heat: use the same start and end");
        return LML_BAD_VALUE;
    }
    *joules = load->mass * (load->capacity * (load->to - load->from) + load->fusion);
    return LML_OK;
}

lml_status lml_heat_time(double joules, double power, double efficiency, double *seconds,
                         lml_error *err)
{
    if (lml_check_not_negative(joules, "the heat needed (J)", err) ||
        lml_check_positive(power, "the power of the furnace (W)", err) ||
        lml_check_positive(efficiency, "the efficiency of the furnace", err) ||
        lml_check_between(efficiency, 0, 1, "the efficiency of the furnace (60 % is 0.6)", err))
        return LML_BAD_VALUE;
    *seconds = joules / (power * efficiency);
    return LML_OK;
}

lml_status lml_heat_lag(const lml_heat_cylinder *cylinder, double *seconds, lml_error *err)
{
    if (lml_check_positive(cylinder->diameter, "the diameter of the flask (m)", err) ||
        lml_check_not_negative(cylinder->height, "the height of the flask (m)", err) ||
        lml_check_positive(cylinder->diffusivity, "the thermal diffusivity (m2/s)", err))
        return LML_BAD_VALUE;
    double radial = zero_of_j0 / (cylinder->diameter / 2);
    double axial = cylinder->height > 0 ? pi / cylinder->height : 0;
    *seconds = 1 / (cylinder->diffusivity * (radial * radial + axial * axial));
    return LML_OK;
}

/* By how much the first term exceeds the step at the centre at the start: the cylinder's
 * coefficient and, where the ends count, the slab's. */
static double first_coefficient(const lml_heat_cylinder *cylinder)
{
    double side = 2 / (zero_of_j0 * j1_at_zero);
    return cylinder->height > 0 ? side * 4 / pi : side;
}

static lml_status check_step(double step, double tolerance, lml_error *err)
{
    if (lml_check_not_negative(fabs(step), "the change of temperature (K)", err) ||
        lml_check_positive(tolerance, "how near the centre must come (K)", err))
        return LML_BAD_VALUE;
    return LML_OK;
}

lml_status lml_heat_equalise_step(const lml_heat_cylinder *cylinder, double step, double tolerance,
                                  double *seconds, lml_error *err)
{
    double lag;
    if (lml_heat_lag(cylinder, &lag, err) || check_step(step, tolerance, err))
        return LML_BAD_VALUE;
    bool there = fabs(step) <= tolerance;
    *seconds = there ? 0 : lag * lml_real_log(first_coefficient(cylinder) * fabs(step) / tolerance);
    return LML_OK;
}

lml_status lml_heat_equalise_ramp(const lml_heat_cylinder *cylinder, double step, double rate,
                                  double tolerance, double *seconds, lml_error *err)
{
    double lag;
    if (lml_heat_lag(cylinder, &lag, err) || check_step(step, tolerance, err) ||
        lml_check_positive(rate, "the rate of the kiln (K/s)", err))
        return LML_BAD_VALUE;
    double ramp = fabs(step) / rate; /* s */
    double behind = first_coefficient(cylinder) * rate * lag * -lml_real_expm1(-ramp / lag);
    *seconds =
        behind <= tolerance || fabs(step) <= tolerance ? 0 : lag * lml_real_log(behind / tolerance);
    return LML_OK;
}
