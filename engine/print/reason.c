#include "print/reason.h"

#include "base/decimal.h"
#include "base/real.h"
#include "sheet/layout.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { INDENT = 3, INPUTS_SHOWN = 8, DIGITS = 8 };

typedef struct tree {
    lml_layout layout;
    const lml_json **step;
    bool *shown;
    size_t count, depth;
} tree;

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static const lml_json *input(const tree *t, const lml_json *of)
{
    double place = lml_json_number(of);
    return place >= 0 && place < (double)t->count ? t->step[(size_t)place] : NULL;
}

/* The input at `index` as a text; "" where there are fewer. */
static lml_span input_text(const tree *t, const lml_json *step, size_t index)
{
    const lml_json *of = lml_json_first(lml_json_member(step, "of"));
    while (of && index-- > 0)
        of = lml_json_next(of);
    return of ? text_of(input(t, of), "is") : (lml_span){"", 0};
}

/* ---- what a step does, in words ---- */

/* Words before, between and after what went in. */
typedef struct phrase {
    const char *how, *before, *between, *last; /* before the third */
} phrase;
static const phrase phrases[] = {
    {"+", "", " + ", ""},
    {"-", "", " - ", ""},
    {"*", "", " \303\227 ", ""},
    {"/", "", " / ", ""},
    {"//", "", " whole steps of ", ""},
    {"%", "what is left of ", " in steps of ", ""},
    {"^", "", " to the power ", ""},
    {"negative", "minus ", "", ""},
    {"up_to", "", " up to a step of ", ""},
    {"down_to", "", " down to a step of ", ""},
    {"nearest", "", " to the nearest ", ""},
    {"rounded", "", " rounded ", " to "},
    {"as", "", " in ", ""},
    {"number", "", " as a bare number in ", ""},
    {"max", "the largest of ", ", ", ", "},
    {"min", "the smallest of ", ", ", ", "},
    {"sum", "the sum of ", ", ", ", "},
    {"mean", "the mean of ", ", ", ", "},
    {"abs", "the size of ", "", ""},
    {"Q", "", "", ""},
    {"fill", "words with ", ", ", ", "},
    {"tostring", "", "", ""},
    {"its", "", ", its ", ""},
    {"share", "", " shared by ", ", "},
    {"sign", "the sign of ", "", ""},
    {"time_of_day", "the hour of ", "", ""},
    {"floor", "the whole part of ", "", ""},
    {"plain", "calculated with plain numbers from ", ", ", ", "},
};

/* A number with more digits than anybody reads is cut to eight; the result as JSON has them all. */
static void add_short(lml_builder *line, lml_span text)
{
    while (text.length > 0) {
        lml_decimal d;
        size_t used = lml_ascii_is_digit(text.at[0]) ? lml_decimal_read(text, &d) : 0;
        if (used > DIGITS + 1 && d.decimals > 0) {
            double x = lml_decimal_scale(&d, (lml_rational){1, 1});
            double before = x >= 1 ? floor(lml_real_log10(x)) + 1 : 0;
            char number[LML_NUMBER_TEXT];
            lml_decimal_write_fixed(x, (lml_rational){1, 1},
                                    before < DIGITS ? (int)(DIGITS - before) : 0, LML_HALF_EVEN,
                                    number);
            lml_builder_add_text(line, number);
        } else {
            used = used > 0 ? used : 1;
            lml_builder_add(line, text.at, used);
        }
        text = (lml_span){text.at + used, text.length - used};
    }
}

static void add_inputs(const tree *t, const lml_json *step, const char *between, const char *last,
                       lml_builder *line)
{
    size_t count = lml_json_count(lml_json_member(step, "of"));
    for (size_t i = 0; i < count && i < INPUTS_SHOWN; i++) {
        lml_builder_add_text(line, i == 0 ? "" : i == 1 ? between : last);
        add_short(line, input_text(t, step, i));
    }
    if (count > INPUTS_SHOWN)
        lml_builder_add_format(line, " and %zu more", count - INPUTS_SHOWN);
}

static void add_how(const tree *t, const lml_json *step, lml_builder *line)
{
    lml_span how = text_of(step, "how"), member = text_of(step, "member");
    for (size_t i = 0; i < sizeof phrases / sizeof phrases[0]; i++)
        if (lml_span_is(how, phrases[i].how)) {
            lml_builder_add_text(line, phrases[i].before);
            add_inputs(t, step, phrases[i].between, phrases[i].last, line);
            return;
        }
    lml_builder_add_span(line, how);
    if (member.length > 0)
        lml_builder_add_format(line, ", its %.*s", LML_SPAN_SHOWN(member));
    lml_builder_add_text(line, ", of ");
    add_inputs(t, step, ", ", ", ", line);
}

static void add_place(const lml_json *step, lml_builder *line)
{
    lml_span file = text_of(step, "file");
    double number = lml_json_number(lml_json_member(step, "line"));
    if (file.length == 0)
        return;
    lml_builder_add_format(line, "  [%.*s", LML_SPAN_SHOWN(file));
    if (number > 0)
        lml_builder_add_format(line, ":%.0f", number);
    lml_builder_add_char(line, ']');
}

/* ---- the tree ---- */

static void put_line(tree *t, size_t level, lml_builder *line)
{
    size_t at = level * INDENT, most = t->layout.width / 2;
    lml_layout_text(&t->layout, at < most ? at : most,
                    (lml_span){line->at ? line->at : "", line->length});
    lml_layout_scrap(&t->layout, line);
}

/* A constant is in the line above already. */
static bool is_constant(const lml_json *step)
{
    return !lml_json_member(step, "how") && !lml_json_member(step, "what");
}

static bool is_said(const lml_json *step)
{
    return lml_json_member(step, "what") != NULL;
}

static void put_step(tree *t, const lml_json *step, size_t index, size_t level);

static void put_inputs(tree *t, const lml_json *step, size_t level)
{
    const lml_json *of = lml_json_first(lml_json_member(step, "of"));
    size_t left = lml_json_count(lml_json_member(step, "of"));
    const bool few = lml_span_is(text_of(step, "how"), "plain");
    for (size_t shown = 0; of && !(few && shown == INPUTS_SHOWN); of = lml_json_next(of), left--) {
        const lml_json *in = input(t, of);
        if (!in || is_constant(in))
            continue;
        put_step(t, in, (size_t)lml_json_number(of), level);
        shown++;
    }
    if (left == 0)
        return;
    lml_builder line = lml_layout_scratch(&t->layout);
    lml_builder_add_format(&line, "and %zu more, which --format json lists", left);
    put_line(t, level, &line);
}

/* Nothing but a zero, in whatever unit. */
static bool is_zero(lml_span text)
{
    lml_decimal d;
    size_t used = lml_decimal_read(text, &d);
    return used > 0 && lml_decimal_scale(&d, (lml_rational){1, 1}) == 0;
}

/* A sum with zero is not worth showing: continue with what it was added to. */
static const lml_json *past_zeros(const tree *t, const lml_json *step, size_t *index)
{
    for (;;) {
        lml_span how = text_of(step, "how"), is = text_of(step, "is");
        bool sum = lml_span_is(how, "+"), difference = lml_span_is(how, "-");
        const lml_json *of = lml_json_first(lml_json_member(step, "of")), *found = NULL;
        if ((!sum && !difference) || lml_json_count(lml_json_member(step, "of")) != 2)
            return step;
        const lml_json *second = lml_json_next(of);
        if (is_zero(input_text(t, step, 1)) && lml_span_equal(input_text(t, step, 0), is))
            found = of;
        else if (sum && is_zero(input_text(t, step, 0)) &&
                 lml_span_equal(input_text(t, step, 1), is))
            found = second;
        if (!found || is_zero(is) || is_constant(input(t, found)))
            return step;
        *index = (size_t)lml_json_number(found);
        step = input(t, found);
    }
}

static void put_step(tree *t, const lml_json *step, size_t index, size_t level)
{
    step = past_zeros(t, step, &index);
    lml_span is = text_of(step, "is"), source = text_of(step, "source");
    lml_builder line = lml_layout_scratch(&t->layout);
    add_short(&line, is);
    if (is_said(step)) {
        lml_builder_add_format(&line, ": %.*s", LML_SPAN_SHOWN(text_of(step, "what")));
        if (source.length > 0)
            lml_builder_add_format(&line, ", %.*s", LML_SPAN_SHOWN(source));
        add_place(step, &line);
        put_line(t, level, &line);
        return;
    }
    lml_builder_add_text(&line, " = ");
    add_how(t, step, &line);
    if (source.length > 0)
        lml_builder_add_format(&line, "; %.*s", LML_SPAN_SHOWN(source));
    add_place(step, &line);
    bool deep = level >= t->depth && lml_json_count(lml_json_member(step, "of")) > 0;
    if (t->shown[index])
        lml_builder_add_text(&line, ", as above");
    else if (deep)
        lml_builder_add_text(&line, " ...");
    put_line(t, level, &line);
    if (t->shown[index] || deep)
        return;
    t->shown[index] = true;
    put_inputs(t, step, level + 1);
}

/* What the recipe gives with a text. */
static void put_beside(tree *t, const lml_json *list)
{
    const lml_json *one = lml_json_first(list);
    if (one)
        lml_layout_text(&t->layout, INDENT, lml_span_of("the recipe gives with it:"));
    for (; one; one = lml_json_next(one)) {
        const lml_json *is = lml_json_member(one, "is");
        lml_span text = text_of(is, "text");
        lml_builder line = lml_layout_scratch(&t->layout);
        lml_builder_add_format(&line, "%.*s is %.*s", LML_SPAN_SHOWN(text_of(one, "figure")),
                               LML_SPAN_SHOWN(text.length > 0 ? text : text_of(is, "value")));
        put_line(t, 2, &line);
    }
}

static lml_status print(tree *t, const lml_json *report)
{
    const lml_json *given = lml_json_member(report, "is");
    lml_span figure = text_of(report, "figure"), is = text_of(given, "text");
    if (is.length == 0)
        is = text_of(given, "value"); /* of a text */
    lml_builder line = lml_layout_scratch(&t->layout);
    lml_builder_add_format(&line, "%.*s is %.*s", LML_SPAN_SHOWN(figure), LML_SPAN_SHOWN(is));
    if (t->count == 0 && lml_span_is(text_of(given, "kind"), "text"))
        lml_builder_add_text(&line, ": a text, and only values have steps");
    else if (t->count == 0)
        lml_builder_add_text(&line, ": no step over values leads to it");
    put_line(t, 0, &line);
    if (t->count > 0)
        put_step(t, t->step[0], 0, 1);
    put_beside(t, lml_json_member(report, "beside"));
    if (!lml_json_yes(lml_json_member(report, "whole")))
        lml_layout_text(&t->layout, 0, lml_span_of("not all steps could be kept"));
    return LML_OK;
}

lml_status lml_reason_print(lml_call *call, const lml_json *report, size_t depth, lml_error *err)
{
    const lml_json *steps = lml_json_member(report, "steps");
    tree t = {.layout = {.out = &call->out, .width = call->width, .bold = call->bold},
              .count = lml_json_count(steps),
              .depth = depth};
    size_t room = t.count + 1;
    t.step = lml_alloc_get(&call->alloc, room * sizeof *t.step);
    t.shown = lml_alloc_get(&call->alloc, room * sizeof *t.shown);
    lml_status status =
        t.step && t.shown ? LML_OK : lml_fail(err, LML_NO_MEMORY, "out of memory for the steps");
    if (status == LML_OK) {
        size_t i = 0;
        for (const lml_json *s = lml_json_first(steps); s; s = lml_json_next(s)) {
            t.shown[i] = false;
            t.step[i++] = s;
        }
        status = print(&t, report);
    }
    lml_alloc_free(&call->alloc, t.step, t.step ? room * sizeof *t.step : 0);
    lml_alloc_free(&call->alloc, t.shown, t.shown ? room * sizeof *t.shown : 0);
    return status == LML_OK ? lml_builder_status(&call->out, err) : status;
}
