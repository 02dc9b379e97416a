#include "shelf/house_unit.h"

#include "unit/unit_table.h"
#include "value/show.h"

#include <stdio.h>

static lml_span named(const lml_json *house, lml_wanted kind)
{
    return lml_json_text(lml_json_member(lml_json_member(house, "units"), lml_wanted_name(kind)));
}

lml_span lml_house_unit(const lml_json *house, lml_wanted kind, char room[LML_UNIT_TEXT])
{
    lml_span unit = named(house, kind);
    if (unit.length == 0 && kind == LML_WANT_FINE_MASS)
        return named(house, LML_WANT_MASS);
    if (unit.length > 0 || kind != LML_WANT_TEMPERATURE_DIFFERENCE)
        return unit;
    lml_span scale = named(house, LML_WANT_TEMPERATURE);
    if (scale.length == 0)
        return scale;
    int length = snprintf(room, LML_UNIT_TEXT, "\316\224%.*s", LML_SPAN_SHOWN(scale));
    return (lml_span){room, length > 0 && length < LML_UNIT_TEXT ? (size_t)length : 0};
}

/* What recipes round in before they say it. */
static lml_wanted rounded_in(const lml_value *v)
{
    static const struct {
        unsigned unit;
        lml_wanted kind;
    } metric[] = {{LML_U_G, LML_WANT_MASS},
                  {LML_U_MM, LML_WANT_LENGTH},
                  {LML_U_DEGC, LML_WANT_TEMPERATURE},
                  {LML_U_DELTA_C, LML_WANT_TEMPERATURE_DIFFERENCE}};
    for (size_t i = 0; i < sizeof metric / sizeof *metric; i++)
        if (lml_unit_equal(v->unit, lml_unit_one(metric[i].unit, 1)))
            return v->kind == LML_FINE_MASS ? LML_WANT_FINE_MASS : metric[i].kind;
    return LML_WANT_ANYTHING;
}

lml_value lml_house_unit_said(const lml_json *house, const lml_value *v)
{
    lml_value out = *v;
    if (!house || v->kept || v->decimals == LML_SHORTEST || v->kind > LML_FINE_MASS)
        return out;
    char room[LML_UNIT_TEXT];
    lml_wanted kind = rounded_in(v);
    lml_span unit = kind == LML_WANT_ANYTHING ? (lml_span){0} : lml_house_unit(house, kind, room);
    if (unit.length == 0 || lml_span_is(unit, lml_unit_at(v->unit.id[0])->name) ||
        lml_show_value_in(v, unit, &out, NULL))
        return *v;
    return out;
}
