#include "sheet/html_figure.h"

#include "sheet/datum.h"
#include "sheet/layout.h"
#include "sheet/remark.h"

#include <string.h>

static bool in_number(char c)
{
    return lml_ascii_is_digit(c) || c == '.' || c == ',';
}

static bool is_kind(const lml_json *figure, const char *kind)
{
    return lml_span_is(lml_html_text(figure, "kind"), kind);
}

lml_html_number lml_html_figure_cut(const lml_json *figure)
{
    lml_span text = lml_html_text(figure, "text");
    size_t n = text.length > 0 && text.at[0] == '-' ? 1 : 0;
    if (!lml_span_digit_at(text, n) || is_kind(figure, "moment") || is_kind(figure, "text") ||
        is_kind(figure, "alloy"))
        return (lml_html_number){.number = lml_span_of(NULL), .unit = lml_span_of(NULL)};
    while (n < text.length && in_number(text.at[n]))
        n++;
    if (n < text.length && text.at[n] == ':') /* 14:02 */
        return (lml_html_number){.number = lml_span_of(NULL), .unit = lml_span_of(NULL)};
    lml_html_number cut = {{text.at, n}, {text.at + n, text.length - n}};
    while (cut.unit.length > 0 && cut.unit.at[0] == ' ') {
        cut.unit.at++;
        cut.unit.length--;
    }
    size_t mark = lml_datum_mark_at(cut.unit, 0);
    cut.unit.at += mark;
    cut.unit.length -= mark;
    return cut;
}

double lml_html_figure_number(const lml_json *figure)
{
    lml_span digits = lml_html_figure_cut(figure).number;
    double value = 0, part = 0;
    for (size_t i = 0; i < digits.length; i++) {
        if (digits.at[i] == '.')
            part = 1;
        else if (lml_span_digit_at(digits, i)) {
            value = value * 10 + (digits.at[i] - '0');
            part *= 10;
        }
    }
    if (part > 0)
        value /= part;
    return digits.length > 0 && digits.at[0] == '-' ? -value : value;
}

static void put_moment(lml_html *h, const lml_value *moment, bool has_clock)
{
    lml_html_put(h, "<b>");
    if (has_clock) {
        lml_days_put_clock(moment, h->out);
        lml_html_put(h, "</b><i>");
    }
    lml_days_put_day(h->days, moment, !has_clock, h->out);
    lml_html_put(h, has_clock ? "</i>" : "</b>");
}

void lml_html_figure_put_sentence(lml_html *h, const lml_json *record, const char *name)
{
    lml_html_figure_put_text(h, lml_html_text(record, name));
}

static bool is_number(lml_span word)
{
    for (size_t i = 0; i < word.length; i++)
        if (!lml_span_digit_at(word, i) && !strchr(".,/+-", word.at[i]))
            return false;
    return word.length > 0 && lml_span_digit_at(word, word.length - 1);
}

/* Cu, in "Cu 88": its number stays with it. */
static bool is_symbol(lml_span word)
{
    bool small = word.length < 2 || (word.at[1] >= 'a' && word.at[1] <= 'z');
    return word.length > 0 && word.length <= 2 && word.at[0] >= 'A' && word.at[0] <= 'Z' && small;
}

/* No line ends between a number and its unit. */
static void put_unbroken(lml_html *h, lml_span text)
{
    size_t from = 0, word = 0;
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] != ' ')
            continue;
        lml_span said = {text.at + word, i - word};
        if (is_number(said) || (is_symbol(said) && lml_span_digit_at(text, i + 1))) {
            lml_escape_put(h->out, (lml_span){text.at + from, i - from});
            lml_html_put(h, LML_NO_BREAK);
            from = i + 1;
        }
        word = i + 1;
    }
    lml_escape_put(h->out, (lml_span){text.at + from, text.length - from});
}

void lml_html_figure_put_text(lml_html *h, lml_span sentence)
{
    lml_builder text = lml_builder_on(h->out->alloc, 0);
    lml_days_put_sentence(h->days, sentence, &text);
    if (lml_builder_status(&text, NULL) != LML_OK)
        h->out->status = text.status;
    else if (text.at)
        put_unbroken(h, (lml_span){text.at, text.length});
    lml_builder_free(&text);
}

/* A figure that has no text of its own: a bare number, a list, words. */
static void put_datum(lml_html *h, const lml_json *figure)
{
    if (is_kind(figure, "text")) {
        lml_html_figure_put_sentence(h, figure, "value");
        return;
    }
    lml_builder text = lml_builder_on(h->out->alloc, 0);
    lml_datum_put(figure, &text);
    if (lml_builder_status(&text, NULL) != LML_OK)
        h->out->status = text.status;
    else if (text.at)
        lml_escape_put(h->out, (lml_span){text.at, text.length});
    lml_builder_free(&text);
}

void lml_html_figure_put(lml_html *h, const lml_json *figure)
{
    lml_value moment;
    bool has_clock;
    long minutes;
    lml_html_put(h, "<span class=\"fig\">");
    lml_html_number cut = lml_html_figure_cut(figure);
    if (is_kind(figure, "moment") &&
        lml_days_read(lml_html_text(figure, "value"), &moment, &has_clock)) {
        put_moment(h, &moment, has_clock);
    } else if (lml_days_long_time(figure, &minutes)) {
        lml_builder_add_format(h->out, "<b>%ld</b><i>h</i>", minutes / 60);
        if (minutes % 60)
            lml_builder_add_format(h->out, " <b>%02ld</b><i>min</i>", minutes % 60);
    } else if (cut.number.length > 0) {
        lml_html_put(h, "<b>");
        lml_escape_put(h->out, cut.number);
        lml_html_put(h, "</b>");
        if (cut.unit.length > 0) {
            lml_html_put(h, "<i>");
            lml_escape_put(h->out, cut.unit);
            lml_html_put(h, "</i>");
        }
    } else {
        lml_html_put(h, "<b class=\"words\">");
        put_datum(h, figure);
        lml_html_put(h, "</b>");
    }
    lml_html_put(h, "</span>");
}

void lml_html_figure_put_plain(lml_html *h, const lml_json *figure)
{
    lml_value moment;
    bool has_clock;
    long minutes;
    if (is_kind(figure, "moment") &&
        lml_days_read(lml_html_text(figure, "value"), &moment, &has_clock)) {
        lml_days_put_day(h->days, &moment, !has_clock, h->out);
        if (has_clock) {
            lml_html_put(h, " ");
            lml_days_put_clock(&moment, h->out);
        }
    } else if (lml_days_long_time(figure, &minutes)) {
        lml_builder_add_format(h->out, "%ld h", minutes / 60);
        if (minutes % 60)
            lml_builder_add_format(h->out, " %02ld min", minutes % 60);
    } else {
        put_datum(h, figure);
    }
}

/* The number of a limit large, its unit small. */
static void put_limit(lml_html *h, const lml_json *limit, bool unit)
{
    lml_html_number cut = lml_html_figure_cut(limit);
    long minutes;
    lml_html_put(h, "<b>");
    if (cut.number.length == 0 || lml_days_long_time(limit, &minutes)) {
        lml_html_figure_put_plain(h, limit);
        lml_html_put(h, "</b>");
        return;
    }
    lml_escape_put(h->out, cut.number);
    lml_html_put(h, "</b>");
    if (!unit)
        return;
    lml_html_put(h, "<i>");
    lml_escape_put(h->out, cut.unit);
    lml_html_put(h, "</i>");
}

void lml_html_figure_put_bold_limits(lml_html *h, const lml_json *line)
{
    const lml_json *least = lml_json_member(line, "least"), *most = lml_json_member(line, "most");
    if (least && most) {
        bool alike =
            lml_span_equal(lml_html_figure_cut(least).unit, lml_html_figure_cut(most).unit);
        put_limit(h, least, !alike);
        lml_html_put(h, " <i>to</i> ");
        put_limit(h, most, true);
    } else if (least || most) {
        put_limit(h, least ? least : most, true);
        lml_html_put(h, least ? "<i>or more</i>" : "<i>or less</i>");
    }
}

bool lml_html_figure_has_limits(const lml_json *line)
{
    return lml_json_member(line, "least") || lml_json_member(line, "most");
}

void lml_html_figure_put_limits(lml_html *h, const lml_json *line)
{
    const lml_json *least = lml_json_member(line, "least"), *most = lml_json_member(line, "most");
    long minutes;
    if (least && most) {
        lml_html_number a = lml_html_figure_cut(least), b = lml_html_figure_cut(most);
        if (a.number.length > 0 && lml_span_equal(a.unit, b.unit) &&
            !lml_days_long_time(least, &minutes) && !lml_days_long_time(most, &minutes))
            lml_escape_put(h->out, a.number);
        else
            lml_html_figure_put_plain(h, least);
        lml_html_put(h, " to ");
        lml_html_figure_put_plain(h, most);
    } else if (least || most) {
        lml_html_figure_put_plain(h, least ? least : most);
        lml_html_put(h, least ? " or more" : " or less");
    }
}

static const lml_json *remark_of_code(const lml_json *result, lml_span code)
{
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    while (r && !lml_span_equal(lml_html_text(r, "code"), code))
        r = lml_json_next(r);
    return r;
}

void lml_html_figure_put_withheld(lml_html *h, const lml_json *entry, lml_span recipe)
{
    lml_span by = lml_html_text(entry, "withheld_by");
    const lml_json *why = by.length > 0 ? remark_of_code(h->result, by) : NULL;
    if (!why)
        why = lml_remark_withholding(h->result, recipe, lml_html_text(entry, "of"));
    lml_html_put(h, "<span class=\"held\"><b class=\"donot\">DO NOT</b>");
    if (!h->working) { /* why is the studio's own business */
        lml_html_put(h, " <small>not resolved yet: please ask the studio</small>");
    } else if (why && why != h->said) {
        lml_html_put(h, " <small>");
        lml_html_figure_put_sentence(h, why, "text");
        lml_html_put(h, "</small>");
        h->said = why;
    }
    lml_html_put(h, "</span>");
}
