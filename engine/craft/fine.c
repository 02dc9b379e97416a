#include "craft/fine.h"

#include "craft/check.h"

static lml_status check_fineness(double fineness, const char *what, lml_error *err)
{
    return lml_check_between(fineness, 0, 1, what, err);
}

lml_status lml_fine_content(double mass, double fineness, double *fine, lml_error *err)
{
    if (lml_check_not_negative(mass, "the mass (kg)", err) ||
        check_fineness(fineness, "the fineness (parts of 1)", err))
        return LML_BAD_VALUE;
    *fine = mass * fineness;
    return LML_OK;
}

lml_status lml_fine_of_karat(double karat, double *fineness, lml_error *err)
{
    if (lml_check_between(karat, 0, 24, "the karat", err))
        return LML_BAD_VALUE;
    *fineness = karat / 24;
    return LML_OK;
}

static lml_status refuse_addition(double from, double target, double added, lml_error *err)
{
    char is[LML_NUMBER_TEXT], due[LML_NUMBER_TEXT], add[LML_NUMBER_TEXT];
    lml_status status =
        lml_fail(err, LML_BAD_VALUE, "adding metal of %s ‰ cannot bring %s ‰ to %s ‰",
                 lml_check_text(added * 1000, add), lml_check_text(from * 1000, is),
                 lml_check_text(target * 1000, due));
    lml_error_hint(err,
                   target > from ? "to raise it, add metal finer than %s ‰"
                                 : "to lower it, add metal below %s ‰",
                   due);
    return status;
}

lml_status lml_fine_addition(double mass, double from, double target, double added, double *add,
                             lml_error *err)
{
    if (lml_check_not_negative(mass, "the mass (kg)", err) ||
        check_fineness(from, "the fineness of the metal (parts of 1)", err) ||
        check_fineness(target, "the fineness to reach (parts of 1)", err) ||
        check_fineness(added, "the fineness of what is added (parts of 1)", err))
        return LML_BAD_VALUE;
    if (from == target) {
        *add = 0;
        return LML_OK;
    }
    if (target > from ? added <= target : added >= target)
        return refuse_addition(from, target, added, err);
    return lml_check_result(mass * (target - from) / (added - target), "the metal to add", add,
                            err);
}

lml_status lml_fine_blend(const double mass[], const double fineness[], size_t lots,
                          double *fineness_out, lml_error *err)
{
    double total = 0, fine = 0;
    for (size_t i = 0; i < lots; i++) {
        double content;
        lml_status status = lml_fine_content(mass[i], fineness[i], &content, err);
        if (status != LML_OK)
            return lml_error_context(err, status, "in lot %zu", i + 1);
        total += mass[i];
        fine += content;
    }
    if (lml_check_positive(total, "the mass of all lots together (kg)", err))
        return LML_BAD_VALUE;
    *fineness_out = fine / total;
    return LML_OK;
}

lml_status lml_fine_split(double total, double target, const double fineness[2], double mass[2],
                          lml_error *err)
{
    if (lml_check_not_negative(total, "the mass to make (kg)", err) ||
        check_fineness(target, "the fineness to reach (parts of 1)", err) ||
        check_fineness(fineness[0], "the fineness of the first lot (parts of 1)", err) ||
        check_fineness(fineness[1], "the fineness of the second lot (parts of 1)", err))
        return LML_BAD_VALUE;
    double low = fineness[0] < fineness[1] ? fineness[0] : fineness[1];
    double high = fineness[0] < fineness[1] ? fineness[1] : fineness[0];
    char text[LML_NUMBER_TEXT];
    if (low == high)
        return lml_fail(err, LML_BAD_VALUE,
                        "both lots are %s ‰, so the proportions cannot be determined",
                        lml_check_text(low * 1000, text));
    if (lml_check_between(target, low, high, "the fineness to reach, between those of the two lots",
                          err))
        return LML_BAD_VALUE;
    mass[0] = total * (fineness[1] - target) / (fineness[1] - fineness[0]);
    mass[1] = total - mass[0];
    return LML_OK;
}
