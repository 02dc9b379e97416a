/* What may follow a unit: "W" is a watt within a unit and tungsten behind one. */
#include "value/ending.h"
#include "value/metal.h"

#include <criterion/criterion.h>

static lml_ending of(const char *unit)
{
    return lml_ending_of(lml_span_of(unit));
}

Test(ending, a_letter_that_a_product_waits_for_is_a_unit)
{
    static const char *const within[] = {"V · W", "V *W", "V / W", "V * W", "V /  W"};
    for (size_t i = 0; i < sizeof within / sizeof *within; i++)
        cr_expect(of(within[i]).word.length == 0, "%s", within[i]);
    cr_expect(lml_span_is(of("g W").word, "W") && lml_span_is(of("g W").unit, "g"));
}

/* The last byte of a per mille sign is that of no dot: the shortest text before an ending. */
Test(ending, a_metal_stands_behind_a_fineness)
{
    static const char *const behind[] = {"‰ Au", "‰  Au", "g Au", "% Au", "mg/g Au"};
    for (size_t i = 0; i < sizeof behind / sizeof *behind; i++) {
        lml_ending e = of(behind[i]);
        cr_expect(e.metal == LML_Au && e.mode == LML_NO_MODE && lml_span_is(e.word, "Au"), "%s",
                  behind[i]);
        cr_expect(!e.unit.length || e.unit.at[e.unit.length - 1] != ' ', "%s", behind[i]);
    }
    cr_expect(of("Au").metal == LML_NO_METAL && of("").word.length == 0,
              "nothing stands before it");
}

Test(ending, a_pressure_says_from_where)
{
    cr_expect_eq(of("kPa abs").mode, LML_ABSOLUTE);
    cr_expect_eq(of("inHg vac").mode, LML_VACUUM);
    cr_expect(lml_span_is(of("inHg vac").unit, "inHg"));
    cr_expect_eq(of("inHg").mode, LML_NO_MODE);
}
