#include "sheet/html.h"

#include "sheet/entries.h"
#include "sheet/foot.h"
#include "sheet/height.h"
#include "sheet/html_figure.h"
#include "sheet/html_part.h"
#include "sheet/html_remark.h"
#include "sheet/remark.h"

/* Paper and its margins in millimetres: a browser's own are wider than a bench page can spare. */
static const struct paper {
    const char *name;
    double width, height, across, down;
} papers[] = {
    [LML_PAPER_A4] = {"A4", 210, 297, 8, 8}, [LML_PAPER_LETTER] = {"letter", 215.9, 279.4, 8, 7}};

static const struct paper *paper_of(const lml_json *result, lml_html_paper asked)
{
    lml_span house = lml_html_text(lml_json_member(result, "house"), "paper");
    if (asked == LML_PAPER_OF_HOUSE)
        asked = lml_span_is(house, "Letter") ? LML_PAPER_LETTER : LML_PAPER_A4;
    return &papers[asked];
}

static lml_span title_of(const lml_json *result)
{
    const lml_json *job = lml_json_member(result, "job");
    lml_span title = lml_html_text(job, "title");
    return title.length > 0 ? title : lml_html_text(job, "recipe");
}

static void put_date(lml_html *h)
{
    lml_value date;
    lml_span text = lml_html_text(lml_json_member(h->result, "job"), "date");
    if (text.length > 0 && lml_days_read(text, &date, NULL))
        lml_days_put_day(h->days, &date, true, h->out);
}

/* ---- head and foot of a page ------------------------------------------------------------------
 */

static void put_between(lml_html *h, bool *any)
{
    if (*any)
        lml_html_put(h, " \302\267 ");
    *any = true;
}

/* "2 of 2" of a page that takes several sheets of paper. */
static void draw_working_head(lml_html *h, const char *name, unsigned sheet, unsigned sheets)
{
    const lml_json *job = lml_json_member(h->result, "job");
    lml_span studio = lml_html_text(lml_json_member(h->result, "house"), "name");
    lml_html_put(h, "<header class=\"work\"><div><h1>");
    lml_escape_put(h->out, title_of(h->result));
    lml_html_put(h, "</h1><p>");
    bool any = false;
    if (studio.length > 0) {
        put_between(h, &any);
        lml_escape_put(h->out, studio);
    }
    if (lml_html_text(job, "client").length > 0) {
        put_between(h, &any);
        lml_html_put(h, "for ");
        lml_escape_put_member(h->out, job, "client");
    }
    if (lml_html_text(job, "date").length > 0) {
        put_between(h, &any);
        put_date(h);
    }
    lml_html_put(h, "</p></div><div class=\"which\"><b>");
    lml_html_put(h, name);
    lml_html_put(h, "</b><small>");
    if (sheets > 1)
        lml_builder_add_format(h->out, "<b>%u of %u</b> ", sheet, sheets);
    lml_escape_put(h->out, lml_html_file(h->result));
    lml_html_put(h, "</small></div></header>\n");
}

static void draw_letter_head(lml_html *h, const char *name)
{
    lml_html_put(h, "<header class=\"letter\"><p class=\"studio\">");
    lml_escape_put_member(h->out, lml_json_member(h->result, "house"), "name");
    lml_html_put(h, "</p><p class=\"meta\">");
    lml_escape_put_member(h->out, lml_json_member(h->result, "job"), "client");
    lml_html_put(h, "<br/>");
    put_date(h);
    lml_html_put(h, "</p></header>\n<h1>");
    if (!lml_span_is(h->page, "client")) {
        lml_html_put(h, name);
        lml_html_put(h, ": ");
    }
    lml_escape_put(h->out, title_of(h->result));
    lml_html_put(h, "</h1>\n");
}

static void put_escaped(lml_html *h, const char *open, const lml_builder *text, const char *close)
{
    if (lml_builder_status(text, NULL) != LML_OK)
        h->out->status = text->status;
    if (text->length == 0)
        return;
    lml_html_put(h, open);
    lml_escape_put(h->out, (lml_span){text->at, text->length});
    lml_html_put(h, close);
}

static void draw_sentence(lml_html *h, const char *open,
                          void (*write)(const lml_json *result, lml_builder *out))
{
    lml_builder text = lml_builder_on(h->out->alloc, 0);
    write(h->result, &text);
    put_escaped(h, open, &text, "</p>\n");
    lml_builder_free(&text);
}

static void draw_codes(lml_html *h, const char *level, const char *words)
{
    lml_builder text = lml_builder_on(h->out->alloc, 0);
    lml_foot_write_codes(h->result, level, words, &text);
    put_escaped(h, " <small>", &text, "</small>");
    lml_builder_free(&text);
}

static void draw_banner(lml_html *h, bool always)
{
    if (lml_json_kind_of(lml_json_member(h->result, "gates")) == LML_JSON_NULL)
        lml_html_put(h,
                     "<p class=\"banner\">RUN WITHOUT GATES: no stops for law, physics or health "
                     "were checked</p>\n");
    if (!lml_json_yes(lml_json_member(h->result, "stopped")) ||
        !(always || lml_entries_withhold(h->entries)))
        return;
    lml_html_put(h, "<p class=\"banner\">");
    lml_html_put(h, lml_foot_banner(h->result, h->working));
    if (h->working && !h->head) {
        draw_codes(h, "stop", "Stops: ");
        draw_codes(h, "confirm", "Open points: ");
    }
    lml_html_put(h, "</p>\n");
    const lml_json *r = h->head ? lml_json_first(lml_json_member(h->result, "remarks")) : NULL;
    for (; r; r = lml_json_next(r))
        if (lml_remark_holds(r))
            lml_html_remark_draw(h, r);
}

/* Remarks that no page holds, such as those of a gate over the finished result. */
static void draw_homeless(lml_html *h)
{
    const lml_json *r = lml_json_first(lml_json_member(h->result, "remarks"));
    for (; r; r = lml_json_next(r))
        if (!lml_entries_have_anywhere(h->result, r) && !(h->head && lml_remark_holds(r)))
            lml_html_remark_draw(h, r);
}

static void draw_foot(lml_html *h, bool lists)
{
    static const char small[] = "<p class=\"foot\">";
    bool bench = lml_span_is(h->page, "bench");
    if (bench && lml_entries_any(lml_entries_of(h->result, "cost"))) {
        draw_sentence(h, small, lml_foot_write_short);
        return;
    }
    if (lists || bench || lml_span_is(h->page, "cost")) {
        draw_sentence(h, small, lml_foot_write_assumed);
        draw_sentence(h, small, lml_foot_write_changed);
    }
    draw_sentence(h, small, lml_foot_write_house_rules);
    draw_sentence(h, small, lml_foot_write_worked);
}

/* What the recipe of the page notes itself, and the foot: side by side where there is room. */
static void draw_end(lml_html *h)
{
    size_t start = h->out->length;
    lml_html_put(h, "<div class=\"end\">");
    size_t bare = h->out->length;
    for (const lml_json *r = lml_html_part_loose(h, NULL); r; r = lml_html_part_loose(h, r))
        lml_html_remark_draw(h, r);
    if (lml_span_is(h->page, "bench"))
        draw_sentence(h, "<p class=\"foot\">", lml_foot_write_count);
    draw_foot(h, false);
    if (h->out->length == bare)
        h->out->length = start; /* there is nothing */
    else
        lml_html_put(h, "</div>\n");
}

/* ---- a page -----------------------------------------------------------------------------------
 */

/* A page's name as a class: letters alone. */
static void put_class(lml_html *h)
{
    for (size_t i = 0; i < h->page.length; i++)
        if (h->page.at[i] >= 'a' && h->page.at[i] <= 'z')
            lml_builder_add_char(h->out, h->page.at[i]);
}

static const char *name_of(lml_span page)
{
    static const struct {
        const char *page, *name;
    } names[] = {{"bench", "Bench"}, {"piece", "Piece"},     {"client", "For the client"},
                 {"metal", "Metal"}, {"receipt", "Receipt"}, {"consent", "Consent"},
                 {"card", "Card"},   {"cost", "Cost"},       {"results", "Results"}};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (lml_span_is(page, names[i].page))
            return names[i].name;
    return "Sheet";
}

/* How high banner and reasons are. */
static double reasons_height(const lml_html *h)
{
    enum { BANNER = 11 };
    double high = lml_json_yes(lml_json_member(h->result, "stopped")) ? BANNER : 0;
    const lml_json *r = h->head ? lml_json_first(lml_json_member(h->result, "remarks")) : NULL;
    for (; r; r = lml_json_next(r))
        if (lml_remark_holds(r))
            high += lml_height_remark(h, r);
    return high;
}

/* What is not cut into sheets here may run over one: then its head is printed again. */
static bool repeats_head(const lml_html *h)
{
    return h->working && !h->bench;
}

static void open_section(lml_html *h, unsigned sheet, unsigned sheets)
{
    lml_html_put(h, "<section class=\"sheet ");
    lml_html_put(h, h->working ? "working " : "paper ");
    put_class(h);
    lml_builder_add_format(h->out, " d%u\">\n", h->density);
    if (repeats_head(h))
        lml_html_put(h, "<table class=\"again\"><thead><tr><td>");
    if (h->working)
        draw_working_head(h, name_of(h->page), sheet, sheets);
    else
        draw_letter_head(h, name_of(h->page));
    if (repeats_head(h))
        lml_html_put(h, "</td></tr></thead><tbody><tr><td>\n");
}

static void close_section(lml_html *h)
{
    lml_html_put(h, repeats_head(h) ? "</td></tr></tbody></table></section>\n" : "</section>\n");
}

/* Where a run of cards in two columns ends. */
static size_t end_of_run(const lml_html *h, const lml_cards *cards, size_t from)
{
    size_t to = from + 1;
    while (to < cards->count && !cards->cards[to].breaks &&
           lml_html_part_beside(h, &cards->cards[to]))
        to++;
    return to;
}

static void draw_run(lml_html *h, lml_cards *cards, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++)
        lml_html_part_draw(h, &cards->cards[i]);
}

/* Two columns. Browsers differ in how they break columns of their own over paper, so a page that
 * fits its paper says itself where the second begins. */
static void draw_columns(lml_html *h, lml_cards *cards, size_t from, size_t to)
{
    if (!h->bench) {
        lml_html_put(h, "<div class=\"cols\">\n");
        draw_run(h, cards, from, to);
        lml_html_put(h, "</div>\n");
        return;
    }
    lml_height_columns two = lml_height_split(h, cards, from, to);
    size_t last = two.left ? to - 1 : to, first = two.over ? from + 1 : from;
    lml_html_put(h, "<div class=\"pair\"><div>\n");
    draw_run(h, cards, first, two.second);
    draw_run(h, cards, last, to);
    lml_html_put(h, "</div><div>\n");
    draw_run(h, cards, from, first);
    draw_run(h, cards, two.second, last);
    lml_html_put(h, "</div></div>\n");
}

/* One with a wide picture spans both columns. */
static void draw_cards(lml_html *h, lml_cards *cards, unsigned sheet, unsigned sheets)
{
    for (size_t i = 0; i < cards->count;) {
        if (cards->cards[i].breaks) {
            close_section(h);
            open_section(h, ++sheet, sheets);
        }
        if (!lml_html_part_beside(h, &cards->cards[i])) {
            lml_html_part_draw(h, &cards->cards[i++]);
            continue;
        }
        size_t to = end_of_run(h, cards, i);
        if (h->bench && to == i + 1 && cards->cards[i].remarks) { /* nothing is beside it */
            cards->cards[i].across = true;
            lml_html_part_draw(h, &cards->cards[i++]);
            continue;
        }
        draw_columns(h, cards, i, to);
        i = to;
    }
}

/* The end of the page is drawn first, since what stands above it has to leave room. */
static void draw_end_apart(lml_html *h, lml_builder *end)
{
    lml_builder *out = h->out;
    h->out = end;
    if (lml_span_is(h->page, "bench"))
        draw_homeless(h);
    if (h->working)
        draw_end(h);
    h->out = out;
    if (end->status != LML_OK)
        out->status = end->status;
}

static lml_status draw_page(lml_html *h)
{
    lml_cards cards;
    lml_status status = lml_html_part_read(h, h->entries, &cards);
    if (status != LML_OK)
        return status;
    unsigned sheets = 1, before = 0;
    lml_builder end = lml_builder_on(h->out->alloc, 0);
    draw_end_apart(h, &end);
    h->density = 0;
    if (h->bench) {
        double foot = lml_height_markup(h, (lml_span){end.at, end.at ? end.length : 0});
        lml_height_page page = lml_height_page_of(h, reasons_height(h), foot);
        before = page.before;
        lml_height_cut(h, &cards, page);
        sheets = lml_height_choose(h, &cards, page, &h->density);
    }
    open_section(h, 1, sheets);
    draw_banner(h, lml_span_is(h->page, "bench") || lml_span_is(h->page, "client"));
    draw_cards(h, &cards, before + 1, sheets);
    lml_builder_add_span(h->out, (lml_span){end.at ? end.at : "", end.at ? end.length : 0});
    close_section(h);
    lml_builder_free(&end);
    lml_html_part_free(h, &cards);
    return LML_OK;
}

/* The results as a list, of a recipe that draws no sheet. */
static void draw_results(lml_html *h)
{
    const lml_json *titles = lml_json_member(h->result, "titles");
    const lml_json *r = lml_json_first(lml_json_member(h->result, "results"));
    h->head = lml_json_yes(lml_json_member(h->result, "stopped"));
    lml_html_put(h, "<section class=\"sheet working results d0\">\n");
    draw_working_head(h, "Results", 1, 1);
    draw_banner(h, true);
    lml_html_put(h, "<table class=\"sums\"><tbody>");
    for (; r; r = lml_json_next(r)) {
        lml_span title = lml_html_text(titles, lml_json_name(r).at);
        lml_html_put(h, "<tr><td>");
        lml_escape_put(h->out, title.length > 0 ? title : lml_json_name(r));
        lml_html_put(h, "</td><td class=\"v\">");
        lml_html_figure_put(h, r);
        lml_html_put(h, "</td></tr>\n");
    }
    const lml_json *w = lml_json_first(lml_json_member(h->result, "withheld"));
    for (; w; w = lml_json_next(w)) {
        lml_html_put(h, "<tr><td>");
        lml_escape_put(h->out, lml_json_text(w));
        lml_html_put(h, "</td><td class=\"v\"><b class=\"donot\">DO NOT</b></td></tr>\n");
    }
    lml_html_put(h, "</tbody></table>\n");
    draw_homeless(h);
    draw_sentence(h, "<p class=\"foot\">", lml_foot_write_count);
    draw_foot(h, true);
    lml_html_put(h, "</section>\n");
}

/* ---- the document -----------------------------------------------------------------------------
 */

static void open_document(lml_html *h, const struct paper *paper)
{
    lml_html_put(h,
                 "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\"><head>"
                 "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                 "style-src 'unsafe-inline'\"/>\n<meta charset=\"utf-8\"/><meta name=\"viewport\" "
                 "content=\"width=device-width, initial-scale=1\"/>\n<title>");
    lml_escape_put(h->out, title_of(h->result));
    lml_html_put(h, "</title>\n<style>\n");
    lml_builder_add_format(h->out, "@page { size: %s; margin: %dmm %d.%dmm; }\n", paper->name,
                           (int)paper->down, (int)paper->across, (int)(paper->across * 10) % 10);
    lml_html_put(h, lml_html_style);
    lml_html_put(h, "</style></head><body>\n");
}

static lml_status draw_pages(lml_html *h, const lml_html_look *look, bool *any)
{
    const lml_json *page = lml_json_first(lml_json_member(h->result, "sheets"));
    lml_status status = LML_OK;
    for (; page && status == LML_OK; page = lml_json_next(page)) {
        if (!lml_entries_names(look->pages, lml_json_name(page)) || !lml_entries_any(page))
            continue;
        h->page = lml_json_name(page);
        h->entries = page;
        lml_entries_find_asides(page, &h->asides);
        h->working = lml_entries_kind_of(h->page)->working;
        h->bench = lml_span_is(h->page, "bench") || lml_span_is(h->page, "piece");
        h->head =
            lml_span_is(h->page, "bench") && lml_json_yes(lml_json_member(h->result, "stopped"));
        h->days = lml_days_of(h->result);
        if (!h->working)
            h->days.year = 0;
        h->loose = h->bench && lml_html_part_hands_on(page);
        h->steps = 0;
        status = draw_page(h);
        *any = true;
    }
    return status;
}

lml_status lml_html_draw(const lml_json *result, const lml_html_look *look, lml_builder *out,
                         lml_error *err)
{
    if (lml_json_kind_of(lml_json_member(result, "results")) != LML_JSON_RECORD ||
        lml_json_kind_of(lml_json_member(result, "sheets")) != LML_JSON_RECORD)
        return lml_fail(err, LML_FAULT, "this is not a result: it has neither results nor sheets");
    const struct paper *paper = paper_of(result, look->paper);
    lml_html h = {.out = out,
                  .result = result,
                  .working = true,
                  .page = lml_span_of("results"),
                  .days = lml_days_of(result),
                  .typed = look->typed,
                  .width = paper->width - 2 * paper->across - .3, /* .sheet's padding */
                  .height = paper->height - 2 * paper->down};
    bool any = false;
    open_document(&h, paper);
    lml_status status = draw_pages(&h, look, &any);
    if (status != LML_OK)
        return lml_fail(err, status, "out of memory");
    if (!any && look->pages)
        return lml_fail(err, LML_NOT_FOUND, "the sheet \"%s\" is empty", look->pages);
    if (!any)
        draw_results(&h);
    lml_html_put(&h, "</body></html>\n");
    return lml_builder_status(out, err);
}
