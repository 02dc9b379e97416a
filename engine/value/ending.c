#include "value/ending.h"
#include "unit/unit_table.h"

static bool joins(char c)
{
    return c == '*' || c == '/' || c == '(' ||
           (c & 0x80); /* · and ⋅ end in such a byte, as do ° ‰ */
}

lml_ending lml_ending_of(lml_span unit)
{
    unit = lml_span_trim(unit);
    lml_ending e = {.unit = unit, .word = {unit.at + unit.length, 0}};
    size_t blank = unit.length;
    while (blank > 0 && unit.at[blank - 1] != ' ')
        blank--;
    lml_span before = lml_span_trim((lml_span){unit.at, blank});
    if (before.length == 0)
        return e;
    lml_span word = {unit.at + blank, unit.length - blank};
    char last = before.at[before.length - 1];
    bool after_ratio =
        before.length >= 3 && lml_span_is((lml_span){before.at + before.length - 3, 3}, "‰");
    if (joins(last) && !after_ratio) /* "W" after "V ·" is a watt, after "g" tungsten */
        return e;
    e.mode = lml_span_is(word, "abs")   ? LML_ABSOLUTE
             : lml_span_is(word, "vac") ? LML_VACUUM
                                        : LML_NO_MODE;
    e.metal = lml_metal_by_symbol(word);
    if (e.mode || e.metal) {
        e.unit = before;
        e.word = word;
    }
    return e;
}

bool lml_ending_is_water_ratio(lml_unit u)
{
    return u.id[0] == LML_U_ML && u.power[0] == 1 && u.id[1] == LML_U_HUNDRED_G &&
           u.power[1] == -1 && u.id[2] == 0;
}
