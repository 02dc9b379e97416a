#include "print/reason.h"

#include "base/decimal.h"
#include "base/real.h"
#include "print/short.h"
#include "sheet/layout.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { INDENT = 3, INPUTS_SHOWN = 8 };

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

static bool is_constant(const lml_json *step)
{
    return !lml_json_member(step, "how") && !lml_json_member(step, "what");
}

/* The input at `index` as a text; "" where there are fewer. */
static lml_span input_text(const tree *t, const lml_json *step, size_t index)
{
    const lml_json *of = lml_json_first(lml_json_member(step, "of"));
    while (of && index-- > 0)
        of = lml_json_next(of);
    return of ? text_of(input(t, of), "is") : (lml_span){"", 0};
}

/* What went into the step one after the other, and what each is called in the table that it came
 * in; empty where it came in none. */
typedef struct inputs {
    const lml_json *of, *called;
} inputs;

static inputs inputs_of(const lml_json *step)
{
    return (inputs){lml_json_first(lml_json_member(step, "of")),
                    lml_json_first(lml_json_member(step, "called"))};
}

static void go_on(inputs *i)
{
    i->of = lml_json_next(i->of);
    i->called = i->called ? lml_json_next(i->called) : NULL;
}

static lml_span called_of(const inputs *i)
{
    return lml_json_text(i->called);
}

static void add_called(lml_builder *line, lml_span called)
{
    lml_builder_add_span(line, called);
    lml_builder_add_text(line, called.length > 0 ? " " : "");
}

/* ---- what a step does, in words ---- */

/* Words before, between and after what went in. */
typedef struct phrase {
    const char *how, *before, *between, *last; /* before the third */
    bool bare;                                 /* a text in it needs no quotes: a unit, a step */
} phrase;
static const phrase phrases[] = {
    {"+", "", " + ", "", false},
    {"-", "", " - ", "", false},
    {"*", "", " \303\227 ", "", false},
    {"/", "", " / ", "", false},
    {"//", "the whole steps in ", " of ", "", false},
    {"%", "what is left of ", " after steps of ", "", false},
    {"^", "", " to the power ", "", false},
    {"negative", "minus ", "", "", false},
    {"up_to", "", " up to a step of ", "", true},
    {"down_to", "", " down to a step of ", "", true},
    {"nearest", "", " to the nearest ", "", true},
    {"rounded", "", " rounded ", " to a step of ", true},
    {"as", "", " in ", "", true},
    {"as_house", "", " in the house's unit of ", " to the nearest ", true},
    {"number", "", " as a bare number in ", "", true},
    {"max", "the largest of ", ", ", ", ", false},
    {"min", "the smallest of ", ", ", ", ", false},
    {"sum", "the sum of ", ", ", ", ", false},
    {"mean", "the mean of ", ", ", ", ", false},
    {"abs", "the absolute value of ", "", "", false},
    {"Q", "read from ", "", "", false},
    {"fill", "the words ", " with ", ", ", false},
    {"tostring", "", "", "", false},
    {"share", "", " shared in the proportions ", ", ", false},
    {"sign", "the sign of ", "", "", false},
    {"root", "the square root of ", "", "", false},
    {"ceil", "the whole number at or above ", "", "", false},
    {"deviation", "the standard deviation of ", "", "", false},
    {"metal_in", "the metal that holds ", " at ", "", false},
    {"log", "the natural logarithm of ", "", "", false},
    {"exp", "e to the power ", "", "", false},
    {"time_of_day", "the time of day of ", "", "", false},
    {"floor", "the whole number at or below ", "", "", false},
    {"fineness", "the fineness of ", " in ", "", true},
    {"zero", "nothing, in the unit of ", "", "", false},
    {"alloy", "an alloy of ", ", ", ", ", false},
    {"assay", "an assay of ", ", ", ", ", false},
    {"plain", "calculated from the bare numbers ", ", ", ", ", false},
};
/* The same of two. */
static const phrase of_two[] = {
    {"max", "the larger of ", " and ", "", false},
    {"min", "the smaller of ", " and ", "", false},
    {"root", "the root of ", " of order ", "", false},
};

/* What a function may have read besides what is named. */
static bool is_other(const lml_json *step)
{
    return lml_span_is(text_of(step, "is"), "other bare numbers");
}

static void add_input(lml_builder *line, lml_span text, bool bare)
{
    bool quoted = bare && text.length > 2 && text.at[0] == '"' && text.at[text.length - 1] == '"';
    lml_short_add(line, quoted ? (lml_span){text.at + 1, text.length - 2} : text);
}

/* Whether the bare number is in the words already, to the digits that are shown: a script hands the
 * same one on in many places. */
static bool is_again(tree *t, const lml_json *step, const lml_json *of)
{
    lml_builder is = lml_layout_scratch(&t->layout), before = lml_layout_scratch(&t->layout);
    const lml_json *other = lml_json_first(lml_json_member(step, "of"));
    bool again = false;
    lml_short_add(&is, text_of(input(t, of), "is"));
    for (; other != of && !again; other = lml_json_next(other)) {
        before.length = 0;
        lml_short_add(&before, text_of(input(t, other), "is"));
        again = lml_span_equal(lml_builder_span(&before), lml_builder_span(&is));
    }
    lml_layout_scrap(&t->layout, &is);
    lml_layout_scrap(&t->layout, &before);
    return again;
}

/* Of many inputs those that have steps of their own come first; bare constants say little. */
static void add_inputs(tree *t, const lml_json *step, const phrase *words, lml_builder *line)
{
    size_t count = lml_json_count(lml_json_member(step, "of")), shown = 0;
    const bool plain = lml_span_is(text_of(step, "how"), "plain"), many = count > INPUTS_SHOWN;
    for (int round = many ? 0 : 2; round < (many ? 2 : 3); round++)
        for (inputs i = inputs_of(step); i.of && shown < INPUTS_SHOWN; go_on(&i)) {
            const lml_json *in = input(t, i.of);
            if (round < 2 && (in && is_constant(in)) == (round == 0))
                continue;
            if (plain && is_again(t, step, i.of)) {
                count -= count > shown;
                continue;
            }
            if (in && is_other(in) && shown > 0)
                lml_builder_add_text(line, " and ");
            else
                lml_builder_add_text(line, shown == 0   ? ""
                                           : shown == 1 ? words->between
                                                        : words->last);
            add_called(line, called_of(&i));
            add_input(line, text_of(in, "is"), words->bare);
            shown++;
        }
    if (count > shown)
        lml_builder_add_format(line, " and %zu more", count - shown);
}

static const phrase *phrase_of(const lml_json *step)
{
    const lml_span how = text_of(step, "how");
    const size_t count = lml_json_count(lml_json_member(step, "of"));
    for (size_t i = 0; count == 2 && i < sizeof of_two / sizeof of_two[0]; i++)
        if (lml_span_is(how, of_two[i].how))
            return &of_two[i];
    for (size_t i = 0; i < sizeof phrases / sizeof phrases[0]; i++)
        if (lml_span_is(how, phrases[i].how))
            return &phrases[i];
    return NULL;
}

/* What it is of: "the liquidus of rose 9K"; with a member of that, "the composition of rose 9K, its
 * Zn". */
static void add_its(const tree *t, const lml_json *step, lml_builder *line)
{
    lml_span member = text_of(step, "member");
    lml_builder_add_text(line, "the ");
    add_input(line, input_text(t, step, 1), true);
    lml_builder_add_text(line, " of ");
    lml_short_add(line, input_text(t, step, 0));
    if (member.length > 0)
        lml_builder_add_format(line, ", its %.*s", LML_SPAN_SHOWN(member));
}

/* The fineness that a bare number is made: "0.747 as a fineness of Au". */
static bool add_made(const tree *t, const lml_json *step, lml_builder *line)
{
    if (!lml_span_is(text_of(step, "how"), "fineness") ||
        !lml_span_starts(input_text(t, step, 0), "\""))
        return false;
    lml_short_add(line, input_text(t, step, 1));
    lml_builder_add_text(line, " as a fineness of ");
    add_input(line, input_text(t, step, 0), true);
    return true;
}

/* Of a share which it is, counted from 1. */
static void add_part(const lml_json *step, lml_builder *line)
{
    uint64_t part = 0;
    lml_span member = text_of(step, "member");
    for (size_t i = 1; lml_span_digit_at(member, i); i++)
        part = part * 10 + (uint64_t)(member.at[i] - '0');
    if (lml_span_is(text_of(step, "how"), "share") && member.length > 0)
        lml_builder_add_format(line, "part %" PRIu64 " of ", part + 1);
}

/* Whether it may be a bare number that was there: of whole ones there are many alike. */
static bool is_one_of(const tree *t, const lml_json *step)
{
    const lml_json *of = lml_json_first(lml_json_member(step, "of"));
    while (of && !lml_span_equal(text_of(input(t, of), "is"), text_of(step, "is")))
        of = lml_json_next(of);
    return of && lml_span_is(text_of(step, "how"), "plain");
}

static void add_how(tree *t, const lml_json *step, lml_builder *line)
{
    static const phrase list = {"", "", ", ", ", ", false};
    lml_span how = text_of(step, "how"), member = text_of(step, "member");
    const phrase *words = phrase_of(step);
    if (add_made(t, step, line))
        return;
    if (lml_span_is(how, "its")) {
        add_its(t, step, line);
        return;
    }
    if (words) {
        const bool one = is_one_of(t, step);
        add_part(step, line);
        lml_builder_add_text(line, is_other(step) ? ""
                                   : one          ? "one of the bare numbers "
                                                  : words->before);
        add_inputs(t, step, words, line);
        lml_builder_add_text(line, one ? ", or calculated from them" : "");
        if (lml_span_is(how, "number") && lml_json_count(lml_json_member(step, "of")) == 1)
            lml_builder_add_text(line, " as a bare number");
        return;
    }
    if (member.length > 0)
        lml_builder_add_format(line, "the %.*s of ", LML_SPAN_SHOWN(member));
    lml_builder_add_format(line, member.length > 0 ? "%.*s for " : "%.*s of ", LML_SPAN_SHOWN(how));
    add_inputs(t, step, &list, line);
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

/* The constant that the step only reads: Q "0.3 g"; NULL. */
static const lml_json *read_by(const tree *t, const lml_json *step)
{
    const lml_json *of = lml_json_member(step, "of");
    const lml_json *in = lml_json_count(of) == 1 ? input(t, lml_json_first(of)) : NULL;
    return in && lml_span_is(text_of(step, "how"), "Q") && is_constant(in) ? in : NULL;
}

/* Whether the constant is in the line above already, and there is no more to be said of it: the
 * name of a metal, a unit or a part. */
static bool is_told(const lml_json *constant, const lml_json *into, bool is_read)
{
    static const char *const named[] = {"its", "fineness", "as", "number", "fill", "Q"};
    lml_span is = text_of(constant, "is"), how = text_of(into, "how");
    bool here = lml_span_equal(text_of(constant, "file"), text_of(into, "file")) &&
                lml_json_number(lml_json_member(constant, "line")) ==
                    lml_json_number(lml_json_member(into, "line"));
    bool text = !is_read && is.length > 0 && is.at[0] == '"';
    bool name = text && lml_span_starts(how, "craft.");
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        name = name || (text && lml_span_is(how, named[i]));
    here = here || (is_read && lml_span_starts(is, "\"1 ")); /* of a unit: 180 × 1 min */
    return name ||
           (here && !lml_json_member(constant, "name") && !lml_json_member(constant, "calculated"));
}

/* `called`: in the table that it came in. */
static void put_constant(tree *t, lml_span is, lml_span called, const lml_json *constant,
                         size_t level)
{
    lml_span named = text_of(constant, "name"), source = text_of(constant, "source");
    lml_builder line = lml_layout_scratch(&t->layout);
    add_called(&line, called);
    lml_short_add(&line, is);
    if (named.length > 0)
        lml_builder_add_format(&line, ": %.*s", LML_SPAN_SHOWN(named));
    else if (lml_json_member(constant, "calculated"))
        lml_builder_add_text(&line, ": a bare number that the script calculated or was given");
    if (source.length > 0)
        lml_builder_add_format(&line, "%s %.*s", named.length > 0 ? "," : ":",
                               LML_SPAN_SHOWN(source));
    add_place(constant, &line);
    put_line(t, level, &line);
}

static bool is_said(const lml_json *step)
{
    return lml_json_member(step, "what") != NULL;
}

static void put_step(tree *t, const lml_json *step, lml_span called, size_t index, size_t level);

/* Of a bare number that is written nowhere no more is known: several of a table are told together.
 */
static bool is_unknown(const lml_json *in, const inputs *i)
{
    return in && is_constant(in) && called_of(i).length > 0 &&
           lml_json_member(in, "calculated") != NULL;
}

static void put_unknown(tree *t, const lml_json *step, size_t level)
{
    lml_builder line = lml_layout_scratch(&t->layout);
    const lml_json *last = NULL;
    size_t count = 0;
    for (inputs i = inputs_of(step); i.of; go_on(&i)) {
        const lml_json *in = input(t, i.of);
        if (!is_unknown(in, &i))
            continue;
        lml_builder_add_text(&line, count++ > 0 ? ", " : "");
        add_called(&line, called_of(&i));
        lml_short_add(&line, text_of(in, "is"));
        last = in;
    }
    if (count > 0) {
        lml_builder_add_text(&line,
                             count > 1 ? ": bare numbers that the script calculated or was given"
                                       : ": a bare number that the script calculated or was given");
        add_place(last, &line);
        put_line(t, level, &line);
    } else {
        lml_layout_scrap(&t->layout, &line);
    }
}

static void put_inputs(tree *t, const lml_json *step, size_t level)
{
    size_t left = lml_json_count(lml_json_member(step, "of"));
    const bool few = lml_span_is(text_of(step, "how"), "plain");
    inputs i = inputs_of(step);
    for (size_t shown = 0; i.of && !(few && shown == INPUTS_SHOWN); go_on(&i), left--) {
        const lml_json *in = input(t, i.of);
        const lml_json *constant = !in ? NULL : is_constant(in) ? in : read_by(t, in);
        if (!in || is_unknown(in, &i) || (constant && is_told(constant, step, constant != in)))
            continue;
        if (constant)
            put_constant(t, text_of(in, "is"), called_of(&i), constant, level);
        else
            put_step(t, in, called_of(&i), (size_t)lml_json_number(i.of), level);
        shown++;
    }
    put_unknown(t, step, level);
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

/* Whether the step only shows what went in, in the same words: a rounding that changed nothing, the
 * sum of one, the only share. */
static bool is_reshown(const tree *t, const lml_json *step)
{
    static const char *const shows[] = {"as",    "nearest", "up_to", "down_to", "rounded",
                                        "share", "sum",     "mean",  "max",     "min"};
    lml_span how = text_of(step, "how");
    for (size_t i = 0; i < sizeof shows / sizeof *shows; i++)
        if (lml_span_is(how, shows[i]))
            return (i < 5 || lml_json_count(lml_json_member(step, "of")) <= (i == 5 ? 2 : 1)) &&
                   lml_span_equal(input_text(t, step, 0), text_of(step, "is"));
    return false;
}

/* Whether the input changes nothing in it: + 0, × 1, the larger of it and 0; behind it also - 0
 * and / 1. */
static bool is_nothing(const tree *t, const lml_json *step, size_t index)
{
    const lml_span how = text_of(step, "how"), text = input_text(t, step, index);
    if (lml_span_is(how, "+") || lml_span_is(how, "max") || (index == 1 && lml_span_is(how, "-")))
        return is_zero(text);
    return (lml_span_is(how, "*") || (index == 1 && lml_span_is(how, "/"))) &&
           lml_span_is(text, "1");
}

/* A step that changed nothing is not worth showing: continue with what it was made of. */
static const lml_json *past_nothing(const tree *t, const lml_json *step, size_t *index)
{
    for (;;) {
        const lml_span is = text_of(step, "is");
        const lml_json *of = lml_json_first(lml_json_member(step, "of")), *found = NULL;
        const bool same = of && is_reshown(t, step),
                   two = of && lml_json_count(lml_json_member(step, "of")) == 2;
        for (size_t i = 0; !same && two && !found && i < 2; i++)
            if (is_nothing(t, step, 1 - i) && lml_span_equal(input_text(t, step, i), is))
                found = i == 0 ? of : lml_json_next(of);
        found = same ? of : found;
        if (!found || (!same && is_zero(is)) || is_constant(input(t, found)))
            return step;
        *index = (size_t)lml_json_number(found);
        step = input(t, found);
    }
}

static void put_step(tree *t, const lml_json *step, lml_span called, size_t index, size_t level)
{
    step = past_nothing(t, step, &index);
    const lml_json *constant = read_by(t, step);
    if (constant) {
        put_constant(t, text_of(step, "is"), called, constant, level);
        return;
    }
    lml_span is = text_of(step, "is"), source = text_of(step, "source");
    lml_builder line = lml_layout_scratch(&t->layout);
    add_called(&line, called);
    lml_short_add(&line, is);
    if (is_said(step)) {
        lml_builder_add_format(&line, ": %.*s", LML_SPAN_SHOWN(text_of(step, "what")));
        if (source.length > 0)
            lml_builder_add_format(&line, ", %.*s", LML_SPAN_SHOWN(source));
        add_place(step, &line);
        put_line(t, level, &line);
        return;
    }
    lml_builder_add_text(&line, is_other(step) ? ": " : " = ");
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
        const lml_span title = text_of(one, "title"), named = text_of(one, "figure");
        lml_builder line = lml_layout_scratch(&t->layout);
        if (title.length > 0)
            lml_builder_add_format(&line, "%.*s (%.*s): ", LML_SPAN_SHOWN(title),
                                   LML_SPAN_SHOWN(named));
        else
            lml_builder_add_format(&line, "%.*s is ", LML_SPAN_SHOWN(named));
        lml_builder_add_span(&line, text.length > 0 ? text : text_of(is, "value"));
        add_place(one, &line);
        put_line(t, 2, &line);
        if (lml_json_member(one, "row"))
            lml_layout_text(&t->layout, 3 * INDENT, text_of(one, "row"));
    }
}

static bool is_of_several(const lml_json *given)
{
    lml_json_kind kind = lml_json_kind_of(lml_json_member(given, "value"));
    return kind == LML_JSON_LIST || kind == LML_JSON_RECORD;
}

/* Of a list or a record: how the first figure in it is named. */
static void add_first(lml_builder *line, lml_span figure, const lml_json *given)
{
    lml_builder_add_format(line, ": name a figure in it, as %.*s", LML_SPAN_SHOWN(figure));
    while (is_of_several(given)) {
        const lml_json *value = lml_json_member(given, "value");
        given = lml_json_first(value);
        if (lml_json_kind_of(value) == LML_JSON_LIST) {
            lml_builder_add_text(line, "[0]");
        } else if (given) {
            const lml_span name = lml_json_name(given);
            lml_builder_add_format(line, ".%.*s", LML_SPAN_SHOWN(name));
        }
    }
}

/* What was promised is kept; what led to it is asked for apart. */
static void put_afresh(tree *t, const lml_call *call)
{
    static const char promised[] = "promised.";
    const lml_span what = t->count > 0 ? text_of(t->step[0], "what") : (lml_span){"", 0};
    if (what.length < sizeof promised || memcmp(what.at, promised, sizeof promised - 1) != 0)
        return;
    lml_builder line = lml_layout_scratch(&t->layout);
    lml_builder_add_text(&line, "what leads to it without the offer: lemel why");
    for (size_t i = 0; i < 2; i++) {
        lml_builder_add_char(&line, ' ');
        lml_layout_put_word(&line, lml_span_of(call->arguments.word[i]));
    }
    lml_builder_add_text(&line, " --afresh");
    put_line(t, 0, &line);
}

static lml_status print(tree *t, const lml_call *call, const lml_json *report)
{
    const lml_json *given = lml_json_member(report, "is");
    lml_span figure = text_of(report, "figure"), is = text_of(given, "text");
    if (is.length == 0)
        is = text_of(given, "value"); /* of a text */
    lml_builder line = lml_layout_scratch(&t->layout);
    if (is_of_several(given))
        lml_builder_add_format(&line, "%.*s is a %.*s", LML_SPAN_SHOWN(figure),
                               LML_SPAN_SHOWN(text_of(given, "kind")));
    else
        lml_builder_add_format(&line, "%.*s is %.*s", LML_SPAN_SHOWN(figure), LML_SPAN_SHOWN(is));
    if (t->count == 0 && lml_span_is(text_of(given, "kind"), "text"))
        lml_builder_add_text(&line, ": a text, and only values have steps");
    else if (is_of_several(given))
        add_first(&line, figure, given);
    else if (t->count == 0)
        lml_builder_add_text(&line, ": no step over values leads to it");
    if (t->count == 0)
        add_place(report, &line);
    put_line(t, 0, &line);
    if (t->count == 0 && lml_json_member(report, "row"))
        lml_layout_text(&t->layout, 2 * INDENT, text_of(report, "row"));
    if (t->count > 0)
        put_step(t, t->step[0], (lml_span){"", 0}, 0, 1);
    put_afresh(t, call);
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
        status = print(&t, call, report);
    }
    lml_alloc_free(&call->alloc, t.step, t.step ? room * sizeof *t.step : 0);
    lml_alloc_free(&call->alloc, t.shown, t.shown ? room * sizeof *t.shown : 0);
    return status == LML_OK ? lml_builder_status(&call->out, err) : status;
}
