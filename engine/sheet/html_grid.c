#include "sheet/html_grid.h"

#include "sheet/html_figure.h"
#include "sheet/typeset.h"

static bool is_moment(const lml_json *cell)
{
    return lml_span_is(lml_html_text(cell, "kind"), "moment");
}

/* Figures line up at the right; words and moments begin at the left. */
static bool is_figure(const lml_json *cell)
{
    return lml_html_figure_cut(cell).number.length > 0 && !is_moment(cell);
}

static const lml_json *cell_at(const lml_json *row, size_t column)
{
    const lml_json *cell = lml_json_first(row);
    while (cell && column-- > 0)
        cell = lml_json_next(cell);
    return cell;
}

/* Whether a column has figures and no words. */
static bool has_figures(const lml_json *grid, size_t column)
{
    bool any = false;
    const lml_json *row = lml_json_first(lml_json_member(grid, "rows"));
    for (; row; row = lml_json_next(row)) {
        const lml_json *cell = cell_at(row, column);
        if (lml_json_kind_of(cell) != LML_JSON_RECORD || lml_html_withheld(cell) ||
            lml_json_member(cell, "box"))
            continue;
        if (!is_figure(cell))
            return false;
        any = true;
    }
    return any;
}

/* The longest that a line of these words has to be: figures are not broken. */
static double least_width(lml_span words, double points, bool whole)
{
    double most = 0;
    for (size_t i = 0, from = 0; i <= words.length; i++) {
        if (i < words.length && (whole || words.at[i] != ' '))
            continue;
        double wide = lml_typeset_width((lml_span){words.at + from, i - from}, points, false);
        most = wide > most ? wide : most;
        from = i + 1;
    }
    return most;
}

static lml_span said_in(const lml_json *cell)
{
    lml_span said = lml_html_text(cell, "text");
    said = said.length > 0 ? said : lml_html_text(cell, "value");
    return said.length > 0 ? said : lml_json_text(cell);
}

/* Whether figures and words all stand unbroken in its columns; what is wider breaks anywhere, so
 * that nothing runs off the paper. */
static bool fits(const lml_html *h, const lml_json *grid)
{
    double points = h->working ? 8.4 : 10.4, all = 0; /* .grid td */
    size_t column = 0;
    const lml_json *name = lml_json_first(lml_json_member(grid, "columns"));
    for (; name; name = lml_json_next(name), column++) {
        double most = least_width(lml_json_text(name), 6.8, false);
        const lml_json *row = lml_json_first(lml_json_member(grid, "rows"));
        for (; row; row = lml_json_next(row)) {
            const lml_json *cell = cell_at(row, column);
            double wide = least_width(said_in(cell), points, is_figure(cell) || is_moment(cell));
            most = wide > most ? wide : most;
        }
        all += most + 2;
    }
    size_t abreast = lml_span_is(h->page, "cost") ? 3 : h->bench ? 2 : 1;
    double width = h->width - (h->working ? 0 : 14);
    return all < (width - 4 * (double)(abreast - 1)) / (double)abreast - 1;
}

static void draw_cell(lml_html *h, const lml_json *cell)
{
    bool box = lml_json_member(cell, "box") != NULL;
    lml_html_put(h, box               ? "<td class=\"c\">"
                    : is_figure(cell) ? "<td class=\"r\">"
                    : is_moment(cell) ? "<td class=\"m\">"
                                      : "<td>");
    if (lml_html_withheld(cell)) {
        lml_html_put(h, "<b class=\"donot\">DO NOT</b>");
    } else if (box) {
        lml_html_put(h, "<span class=\"tick\"></span><small>");
        lml_escape_put_member(h->out, cell, "record");
        lml_html_put(h, "</small>");
    } else if (lml_json_kind_of(cell) == LML_JSON_RECORD) {
        lml_html_figure_put_plain(h, cell);
    } else {
        lml_escape_put(h->out, lml_json_text(cell));
    }
    lml_html_put(h, "</td>");
}

static void draw_row(lml_html *h, const lml_json *row, const char *open)
{
    lml_html_put(h, open);
    for (const lml_json *cell = lml_json_first(row); cell; cell = lml_json_next(cell))
        draw_cell(h, cell);
    lml_html_put(h, "</tr>\n");
}

size_t lml_html_grid_run(const lml_item *items, size_t count)
{
    size_t n = 1;
    while (items[0].row && n < count && items[n].row && items[n].entry == items[0].entry)
        n++;
    return n;
}

size_t lml_html_grid_draw(lml_html *h, const lml_item *items, size_t count)
{
    const lml_json *grid = items[0].entry;
    size_t column = 0, run = lml_html_grid_run(items, count);
    lml_html_put(h, fits(h, grid) ? "<table class=\"grid fit\"><thead><tr>"
                                  : "<table class=\"grid\"><thead><tr>");
    const lml_json *name = lml_json_first(lml_json_member(grid, "columns"));
    for (; name; name = lml_json_next(name), column++) {
        lml_html_put(h, has_figures(grid, column) ? "<th class=\"r\">" : "<th>");
        lml_escape_put(h->out, lml_json_text(name));
        lml_html_put(h, "</th>");
    }
    lml_html_put(h, "</tr></thead>\n<tbody>");
    if (lml_html_withheld(grid)) {
        lml_builder_add_format(h->out, "<tr><td colspan=\"%u\">", (unsigned)column);
        lml_html_figure_put_withheld(h, grid, items[0].recipe);
        lml_html_put(h, "</td></tr>");
    }
    const lml_json *row =
        items[0].row ? items[0].row : lml_json_first(lml_json_member(grid, "rows"));
    const lml_json *last = items[run - 1].row;
    for (const lml_json *end = last ? lml_json_next(last) : NULL; row != end;
         row = lml_json_next(row))
        draw_row(h, row, "<tr>");
    bool ends = !last || !lml_json_next(last);
    if (ends && lml_json_count(lml_json_member(grid, "total")) > 0)
        draw_row(h, lml_json_member(grid, "total"), "<tr class=\"total\">");
    lml_html_put(h, "</tbody></table>\n");
    return run;
}

void lml_html_grid_draw_sign(lml_html *h, const lml_json *sign)
{
    lml_html_put(h, "<div class=\"signs\"><span class=\"lab\">");
    lml_escape_put_member(h->out, sign, "label");
    lml_html_put(h, "</span>");
    const lml_json *who = lml_json_first(lml_json_member(sign, "who"));
    for (; who; who = lml_json_next(who)) {
        lml_html_put(h, "<span class=\"sign\"><small>");
        lml_escape_put(h->out, lml_json_text(who));
        lml_html_put(h, "</small></span>");
    }
    lml_html_put(h, "</div>\n");
}
