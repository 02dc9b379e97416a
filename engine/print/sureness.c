#include "print/sureness.h"

#include "base/decimal.h"
#include "base/real.h"
#include "print/short.h"
#include "sheet/layout.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { INDENT = 3, NUMBER_MOST = 14 /* letters: an amount of money is never longer */ };
static const double LEAST_PART = 0.005; /* what prints as 0 % is none */

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static double number_of(const lml_json *record, const char *name)
{
    return lml_json_number(lml_json_member(record, name));
}

/* ---- numbers ---- */

/* So many that the deviation has two digits: more would be chance. */
static int decimals_for(double deviation)
{
    double power = deviation > 0 ? floor(lml_real_log10(deviation)) : 0;
    return power >= 1 ? 0 : power <= -14 ? 15 : (int)(1 - power);
}

static void add_number(lml_builder *out, double x, int decimals)
{
    char text[LML_NUMBER_TEXT];
    lml_decimal_write_fixed(x, (lml_rational){1, 1}, decimals, LML_HALF_EVEN, text);
    lml_builder_add_text(out, text);
}

static void add_unit(lml_builder *out, const lml_json *figure)
{
    lml_span unit = text_of(figure, "unit");
    if (unit.length > 0)
        lml_builder_add_char(out, ' ');
    lml_builder_add_span(out, unit);
}

/* A figure in its unit; a moment is a text already. */
static void add_figure(lml_builder *out, const lml_json *figure, const lml_json *of, int decimals)
{
    if (lml_json_kind_of(of) == LML_JSON_TEXT) {
        lml_builder_add_span(out, lml_json_text(of));
        return;
    }
    add_number(out, lml_json_number(of), decimals);
    add_unit(out, figure);
}

static bool is_moment(const lml_json *figure)
{
    return lml_json_kind_of(lml_json_member(figure, "likely")) == LML_JSON_TEXT;
}

static void add_deviation(lml_builder *out, const lml_json *figure, double deviation, int decimals)
{
    lml_builder_add_text(out, " ± ");
    if (is_moment(figure)) {
        add_number(out, deviation / 60, decimals_for(deviation / 60));
        lml_builder_add_text(out, " min");
        return;
    }
    add_number(out, deviation, decimals);
    add_unit(out, figure);
}

/* Two digits, and never a chance of 0 or 1 where there is another. */
static void add_percent(lml_builder *out, double part)
{
    double percent = part * 100;
    add_number(out, percent, decimals_for(fmin(percent, 100 - percent)));
    lml_builder_add_text(out, " %");
}

/* ---- lines ---- */

static void put_line(lml_layout *layout, size_t at, lml_builder *line)
{
    lml_layout_text(layout, at, lml_builder_span(line));
    lml_layout_scrap(layout, line);
}

static const lml_json *input_at(const lml_json *report, lml_span path)
{
    const lml_json *i = lml_json_first(lml_json_member(report, "inputs"));
    while (i && !lml_span_equal(text_of(i, "path"), path))
        i = lml_json_next(i);
    return i;
}

static void put_parts(lml_layout *layout, const lml_json *report, const lml_json *figure)
{
    const lml_json *part = lml_json_first(lml_json_member(figure, "from"));
    for (; part && number_of(part, "part") >= LEAST_PART; part = lml_json_next(part)) {
        lml_span path = text_of(part, "input");
        const lml_json *input = input_at(report, path);
        lml_span name = text_of(input, "name"), text = text_of(input, "text");
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_format(&line, "%.0f %% of it from %.*s: ", 100 * number_of(part, "part"),
                               LML_SPAN_SHOWN(path));
        if (name.length > 0)
            lml_builder_add_format(&line, "%.*s, ", LML_SPAN_SHOWN(name));
        lml_builder_add_span(&line, text);
        put_line(layout, (size_t)2 * INDENT, &line);
    }
}

static void put_linear(lml_layout *layout, const lml_json *figure, int decimals)
{
    const lml_json *linear = lml_json_member(figure, "linear");
    if (!linear || lml_json_yes(lml_json_member(linear, "agrees")))
        return;
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, "taken as linear: ");
    add_figure(&line, figure, lml_json_member(linear, "low"), decimals);
    lml_builder_add_text(&line, " to ");
    add_figure(&line, figure, lml_json_member(linear, "high"), decimals);
    lml_builder_add_text(&line, ", which is not the same; the runs above are right");
    put_line(layout, (size_t)2 * INDENT, &line);
}

static void add_likely(lml_builder *line, const lml_json *figure)
{
    double deviation = number_of(figure, "deviation");
    int decimals = decimals_for(deviation);
    add_figure(line, figure, lml_json_member(figure, "likely"), decimals);
    add_deviation(line, figure, deviation, decimals);
    lml_builder_add_text(line, "; 95 %: ");
    add_figure(line, figure, lml_json_member(figure, "low"), decimals);
    lml_builder_add_text(line, " to ");
    add_figure(line, figure, lml_json_member(figure, "high"), decimals);
}

static void put_figure(lml_layout *layout, const lml_json *report, const lml_json *figure)
{
    double deviation = number_of(figure, "deviation"), draws = number_of(figure, "draws"),
           all = number_of(report, "draws");
    int decimals = decimals_for(deviation);
    lml_span name = text_of(figure, "name");
    lml_builder is = lml_layout_scratch(layout);
    const lml_span text = text_of(figure, "is");
    if (strcspn(text.at, " ") > NUMBER_MOST)
        lml_short_add(&is, text);
    else
        lml_builder_add_span(&is, text);
    lml_cell cells[] = {{name, INDENT, layout->width / 2 - INDENT - 1, false},
                        {lml_builder_span(&is), layout->width / 2, layout->width / 2, true}};
    lml_layout_row(layout, cells, 2);
    lml_layout_scrap(layout, &is);
    if (draws >= 2 && deviation > 0) {
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_text(&line, "likely ");
        add_likely(&line, figure);
        put_line(layout, (size_t)2 * INDENT, &line);
    }
    lml_span rounded = text_of(figure, "rounded");
    if (rounded.length > 0) {
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_format(&line, "rounded %.*s to a step: a safe bound, in each run too",
                               LML_SPAN_SHOWN(rounded));
        put_line(layout, (size_t)2 * INDENT, &line);
    }
    if (draws < all) {
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_format(&line, "given in %.0f of %.0f runs only%s", draws, all,
                               draws >= 2 && deviation == 0 ? ", the same in each" : "");
        put_line(layout, (size_t)2 * INDENT, &line);
    }
    put_parts(layout, report, figure);
    put_linear(layout, figure, decimals);
}

/* A figure that nothing uncertain moves. */
static bool is_still(const lml_json *report, const lml_json *figure)
{
    return number_of(figure, "draws") == number_of(report, "draws") &&
           number_of(figure, "deviation") == 0;
}

static void put_still(lml_layout *layout, const lml_json *report)
{
    lml_builder line = lml_layout_scratch(layout);
    const lml_json *f = lml_json_first(lml_json_member(report, "figures"));
    for (; f; f = lml_json_next(f))
        if (is_still(report, f))
            lml_builder_add_format(&line, "%s%.*s",
                                   line.length > 0 ? ", " : "the same in every run: ",
                                   LML_SPAN_SHOWN(text_of(f, "name")));
    if (line.length > 0) {
        lml_layout_gap(layout);
        put_line(layout, 0, &line);
    } else {
        lml_layout_scrap(layout, &line);
    }
}

static void put_stops(lml_layout *layout, const lml_json *report)
{
    double all = number_of(report, "draws");
    const lml_json *stop = lml_json_first(lml_json_member(report, "stops"));
    if (stop) {
        lml_span title = lml_span_of("stops and points to confirm that were met");
        lml_layout_gap(layout);
        lml_layout_row(layout, &(lml_cell){title, 0, layout->width, true}, 1);
    }
    for (; stop; stop = lml_json_next(stop)) {
        double draws = number_of(stop, "draws");
        const bool ends = lml_span_is(text_of(stop, "level"), "stop");
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_format(&line, "%s %.*s: in %.0f of %.0f runs, ", ends ? "STOP" : "CONFIRM",
                               LML_SPAN_SHOWN(text_of(stop, "code")), draws, all);
        add_percent(&line, draws / all);
        put_line(layout, INDENT, &line);
    }
}

static void put_end(lml_layout *layout, const lml_json *report)
{
    const lml_json *died = lml_json_member(report, "died");
    if (died) {
        lml_builder line = lml_layout_scratch(layout);
        lml_layout_gap(layout);
        lml_builder_add_format(&line, "%.0f runs failed; the first one: %.*s",
                               number_of(died, "draws"), LML_SPAN_SHOWN(text_of(died, "message")));
        put_line(layout, 0, &line);
    }
    if (lml_json_yes(lml_json_member(report, "stable")))
        return;
    lml_layout_gap(layout);
    lml_layout_text(
        layout, 0,
        lml_span_of("not stable yet: more runs may move these figures by more than half "
                    "of the first digit of what stands after ±"));
}

lml_status lml_sureness_print(lml_call *call, const char *job, const lml_json *report,
                              lml_error *err)
{
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    lml_builder line = lml_layout_scratch(&layout);
    lml_builder_add_format(&line, "%s: %.0f runs, each with other values of what has a spread", job,
                           number_of(report, "draws"));
    put_line(&layout, 0, &line);
    lml_layout_gap(&layout);
    const lml_json *f = lml_json_first(lml_json_member(report, "figures"));
    for (; f; f = lml_json_next(f))
        if (!is_still(report, f))
            put_figure(&layout, report, f);
    put_still(&layout, report);
    put_stops(&layout, report);
    put_end(&layout, report);
    return lml_builder_status(&call->out, err);
}

lml_status lml_sureness_print_first(lml_call *call, const lml_json *report, lml_error *err)
{
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    lml_layout_text(&layout, 0, lml_span_of("a first answer, of 1,000 runs:"));
    const lml_json *f = lml_json_first(lml_json_member(report, "figures"));
    for (; f; f = lml_json_next(f)) {
        if (number_of(f, "draws") < 2 || number_of(f, "deviation") == 0)
            continue;
        lml_builder line = lml_layout_scratch(&layout);
        lml_builder_add_format(&line, "%.*s  ", LML_SPAN_SHOWN(text_of(f, "name")));
        add_likely(&line, f);
        put_line(&layout, INDENT, &line);
    }
    lml_layout_gap(&layout);
    return lml_builder_status(&call->out, err);
}
