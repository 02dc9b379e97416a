/* Ring sizes, ring blanks and wire by number against what is printed for them, and back again. */
#include "reference.h"
#include "shipped.h"

/* A Lua expression over the modules, in `unit`. */
static double reckon(lml_engine *engine, const char *expression, const char *unit)
{
    char whole[600];
    snprintf(whole, sizeof whole,
             "(function() local r, g = require 'ring_sizes', require 'wire_gauge' return %s end)()",
             expression);
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_reckon(engine, whole, unit, 0, &text, &e), LML_OK, "%s: %s", whole,
                 e.message);
    double value = strtod(text.text, NULL);
    lml_text_free(engine, &text);
    return value;
}

/* "{ system = ..., size = ..., text = ... }, { US = ..., UK = ... }" */
static const char *size_of(ref_row *row, const char *system, double size, char *out, size_t room)
{
    int line = (int)ref_input_or(row, "line", 1);
    snprintf(out, room, "{system='%s', size=%.10g, text='it'}, {US=r.us_lines[%d]}", system, size,
             line);
    return out;
}

/* What the chart gives goes back to the size it came from. */
static void goes_back(lml_engine *engine, ref_row *row, const char *system, double size)
{
    char expression[400];
    snprintf(expression, sizeof expression,
             "(r.size_of(r.diameter({system='%s', size=%.10g, text='it'}, {US=r.us_lines[%d]}), "
             "'%s', {US=r.us_lines[%d]}))",
             system, size, (int)ref_input_or(row, "line", 1), system,
             (int)ref_input_or(row, "line", 1));
    cr_expect_float_eq(reckon(engine, expression, NULL), size, 1e-9, "%s", ref_where(row));
}

static void check_size(lml_engine *engine, ref_row *row, const char *what)
{
    const char *system = ref_input_text(row, "system");
    double size = ref_input(row, "size");
    char chosen[200], expression[400];
    snprintf(expression, sizeof expression, "(r.diameter(%s))%s",
             size_of(row, system, size, chosen, sizeof chosen),
             strcmp(what, "circumference") == 0 ? " * pi" : "");
    ref_expect(row, reckon(engine, expression, "mm"));
    goes_back(engine, row, system, size);
}

Test(ring_sizes, reference)
{
    lml_engine *engine = shipped_engine();
    ref_table *t = ref_open("ring_sizes.tsv");
    char expression[300];
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        const char *what = ref_cell(row, "case");
        if (strcmp(what, "diameter") == 0 || strcmp(what, "circumference") == 0) {
            check_size(engine, row, what);
        } else {
            if (strcmp(what, "step") == 0)
                snprintf(expression, sizeof expression, "r.step('US', {US=r.us_lines[%d]}) * pi",
                         (int)ref_input(row, "line"));
            else if (strcmp(what, "blank") == 0)
                snprintf(expression, sizeof expression, "r.blank(Q'%.10g mm', Q'%.10g mm')",
                         ref_input(row, "diameter"), ref_input(row, "thickness"));
            else if (strcmp(what, "gauge") == 0)
                snprintf(expression, sizeof expression, "g.thickness(%d)",
                         (int)ref_input(row, "number"));
            else
                ref_fail("%s: no case %s", ref_where(row), what);
            ref_expect(row, reckon(engine, expression, "mm"));
        }
        ref_end_row(row);
    }
    lml_engine_free(engine);
}

/* A size between those of the sticks is refused with its neighbours. */
Test(ring_sizes, on_no_stick)
{
    static const struct {
        const char *size, *says;
    } cases[] = {{"6.25, text='JP 6 1/4'",
                  "JP 6 1/4 is not on any ring stick: JP sizes are whole or half. "
                  "The nearest are JP 6 and JP 6 1/2"},
                 {"29.75, text='it'", "it is not on any ring stick: JP sizes are whole or half. "
                                      "The nearest are JP 29 1/2 and JP 30"},
                 {"30.25, text='it'", "it is off the chart: JP sizes run from JP 1 to JP 30"},
                 {"6.5, text='it'", "it has one"}};
    lml_engine *engine = shipped_engine();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char whole[300];
        snprintf(
            whole, sizeof whole,
            "(function() local d, why = require('ring_sizes').diameter({system='JP', size=%s}) "
            "return d and 'it has one' or why end)()",
            cases[i].size);
        lml_text text;
        lml_error e;
        cr_assert_eq(lml_engine_reckon(engine, whole, NULL, 0, &text, &e), LML_OK, "%s", e.message);
        cr_expect_str_eq(text.text, cases[i].says);
        lml_text_free(engine, &text);
    }
    lml_engine_free(engine);
}

/* The stock that is picked is never thinner than what is asked, and two numbers on would be. */
Test(ring_sizes, gauge_at_least)
{
    lml_engine *engine = shipped_engine();
    char expression[200];
    for (int hundredths = 30; hundredths < 600; hundredths += 7) {
        double asked = hundredths / 100.0;
        snprintf(expression, sizeof expression, "select(2, g.at_least(Q'%.2f mm'))", asked);
        cr_expect_geq(reckon(engine, expression, "mm"), asked - 1e-9);
        snprintf(expression, sizeof expression, "g.thickness((g.at_least(Q'%.2f mm')) + 2)", asked);
        cr_expect_lt(reckon(engine, expression, "mm"), asked);
    }
    lml_engine_free(engine);
}
