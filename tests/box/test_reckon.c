/* One sum: a text of the value grammar, or a Lua expression over values. */
#include "worked.h"

static char *reckon(const char *expression, const char *unit, int digits, lml_error *e)
{
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_text text;
    char *copy = NULL;
    memset(e, 0, sizeof *e);
    if (lml_engine_reckon(engine, expression, unit, digits, &text, e) == LML_OK) {
        copy = (char *)malloc(text.length + 1);
        memcpy(copy, text.text, text.length + 1);
        lml_text_free(engine, &text);
    }
    lml_engine_free(engine);
    return copy;
}

static void expect_answer(const char *expression, const char *unit, int digits, const char *answer)
{
    lml_error e;
    char *text = reckon(expression, unit, digits, &e);
    cr_expect(text && strcmp(text, answer) == 0, "%s: %s", expression, text ? text : e.message);
    free(text);
}

static void expect_refusal(const char *expression, const char *unit, const char *message)
{
    lml_error e;
    char *text = reckon(expression, unit, 0, &e);
    cr_expect(!text && strstr(e.message, message), "%s: %s", expression, text ? text : e.message);
    free(text);
}

/* The troy ounce is 31.1034768 g exactly: NIST SP 811 (2008), Appendix B.8. */
Test(reckon, a_value_in_another_unit)
{
    expect_answer("1 ozt", "g", 0, "31.1034768 g");
    expect_answer("  1 ozt ", "g", 4, "31.10 g");
    expect_answer("100 °C", "°F", 0, "212 °F");
    expect_answer("2 1/2 dwt", NULL, 0, "2.5 dwt");
    expect_refusal("1 ozt", "mL", "");
    expect_refusal("1 oz", NULL, "oz");
    expect_refusal("1 ozt g", NULL, "");
}

/* Sums of decimals come to decimals; --digits shows what doubles make of them. */
Test(reckon, no_noise_of_doubles)
{
    expect_answer("Q'7.2 g Au' + Q'1.8 g Au'", NULL, 0, "9 g Au");
    expect_answer("Q'7.2 g Au' + Q'1.8 g Au'", NULL, 17, "8.999999999999999 g Au");
    expect_answer("(0.1 + 0.2)", NULL, 0, "0.3");
    expect_answer("3 * Q'8 %' - 0.2", NULL, 0, "4 %");
    expect_answer("Q'585 ‰' / Q'750 ‰'", NULL, 0, "0.78");
    expect_answer("Q'1 g' / 3", NULL, 0, "0.333333333333333 g");
    expect_answer("Q'12.3..12.5 g'", NULL, 0, "12.3..12.5 g");
    expect_answer("Q'20 USD' / 3", NULL, 0, "6.666667 USD");
    expect_answer("(Q'2 g' / 3):nearest '0.01 g'", NULL, 0, "0.67 g");
    expect_answer("1 g", "dwt", 0, "0.6430149313725596 dwt"); /* no sum */
}

Test(reckon, an_expression)
{
    expect_answer("Q\"2 dwt\" + Q\"1 g\"", "dwt", 6, "2.64301 dwt");
    expect_answer("Q'3 g' > Q'1 dwt'", NULL, 0, "true");
    expect_answer("(2 + 3) * 4", NULL, 0, "20");
    expect_answer("'a' .. 'b'", NULL, 0, "ab");
    expect_answer("''", NULL, 0, "");
    expect_answer("'a\\27b\\255'", NULL, 0, "a?b?");
    expect_answer("max(Q'1 g', Q'2 g')", NULL, 0, "2 g");
    expect_refusal("Q'1 g' + Q'1 mL'", NULL,
                   "expression:1: a mass (1 g) and a volume (1 mL) cannot be added");
    expect_refusal("Q'1 g' +", NULL, "expression:1:");
    expect_refusal("job.wax == Q'1 g'", NULL, "'job' is not known here");
    expect_refusal("use.need {}", NULL, "does not list");
    expect_refusal("'a' .. 'b'", "g", "no unit that could be changed");
    expect_refusal("Q'1 g' end while true do", NULL, "expression:1:");
    expect_refusal("(function () while true do end end)()", NULL, "more work than it is allowed");
}
