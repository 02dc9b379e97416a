/* A grid: rows of figures under headings, decimals aligned in each column.
 *
 * A grid wider than the page first narrows its columns of words, then has the unit of a column in
 * its heading instead of beside each figure, then folds: the columns that do not fit follow in a
 * second band that begins with the first column again.
 */
#include "sheet/grid.h"
#include "sheet/line_text.h"
#include "sheet/remark.h"
#include "base/letter.h"

#include <string.h>

enum { INDENT = 4, GAP = 2, WORDS_LEAST = 16 };

typedef struct column {
    lml_span heading;
    lml_span unit; /* of all its figures */
    bool mixed;    /* they have several, or a spread */
    lml_align align;
    size_t figures;      /* what the figures need: never less */
    size_t width, least; /* what the column has, and what it may shrink to */
} column;

typedef struct grid {
    lml_page *page;
    lml_days days;
    const lml_json *first, *end; /* of the grids that are drawn alike */
    const lml_json *rows, *total;
    column *columns;
    size_t count;
    bool bare;        /* the units are in the headings */
    lml_builder cell; /* the text of the cells in hand */
} grid;

static const lml_json *item_at(const lml_json *list, size_t index)
{
    const lml_json *item = lml_json_first(list);
    while (item && index-- > 0)
        item = lml_json_next(item);
    return item;
}

static lml_span member_text(const lml_json *cell, const char *name)
{
    return lml_json_text(lml_json_member(cell, name));
}

/* "g Au" of "28.632 g Au", which is a number and its unit and nothing else; a time is not: 120 min
 * is printed as 2 h. */
static lml_span unit_of(const lml_json *cell)
{
    lml_span text = member_text(cell, "text"), unit = member_text(cell, "unit");
    const char *blank = text.length > 0 ? memchr(text.at, ' ', text.length) : NULL;
    bool alone = blank && lml_span_equal(unit, lml_span_between(blank + 1, text.at + text.length));
    return alone && !lml_span_is(member_text(cell, "kind"), "time") ? unit : lml_span_of(NULL);
}

/* Cells of words have none, and leave it to the others. */
static void note_unit(column *c, const lml_json *cell)
{
    if (member_text(cell, "text").length == 0)
        return;
    lml_span unit = unit_of(cell);
    c->mixed =
        c->mixed || unit.length == 0 || (c->unit.length > 0 && !lml_span_equal(c->unit, unit));
    c->unit = unit;
}

static bool has_unit_above(const grid *g, const column *c)
{
    return g->bare && c->unit.length > 0 && !c->mixed;
}

static lml_span heading_text(grid *g, const column *c)
{
    size_t start = g->cell.length;
    lml_builder_add_span(&g->cell, c->heading);
    if (has_unit_above(g, c)) {
        lml_builder_add_text(&g->cell, ", ");
        lml_layout_add_unbroken(&g->cell, c->unit);
    }
    return g->cell.at ? (lml_span){g->cell.at + start, g->cell.length - start} : lml_span_of(NULL);
}

/* Append a cell's text to the builder; its span is true until the next append. */
static lml_span cell_text(grid *g, const column *c, const lml_json *cell)
{
    size_t start = g->cell.length;
    lml_span text = member_text(cell, "text");
    if (has_unit_above(g, c) && text.length > 0)
        lml_builder_add(&g->cell, text.at, text.length - c->unit.length - 1);
    else if (lml_json_yes(lml_json_member(cell, "withheld")))
        lml_builder_add_text(&g->cell, "DO NOT");
    else if (lml_json_yes(lml_json_member(cell, "box")))
        lml_builder_add_text(&g->cell, "[" LML_NO_BREAK LML_NO_BREAK "]");
    else
        lml_line_text_put_figure(g->days, cell, &g->cell);
    if (!g->cell.at)
        return lml_span_of(NULL);
    return (lml_span){g->cell.at + start, g->cell.length - start};
}

static size_t longest_word(lml_span text)
{
    size_t most = 0;
    while (text.length > 0) {
        size_t length = 0;
        while (length < text.length && text.at[length] != ' ')
            length++;
        size_t columns = lml_letter_columns_of((lml_span){text.at, length});
        most = columns > most ? columns : most;
        length += length < text.length;
        text = (lml_span){text.at + length, text.length - length};
    }
    return most;
}

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

static void measure_row(grid *g, const lml_json *row)
{
    size_t i = 0;
    for (const lml_json *cell = lml_json_first(row); cell && i < g->count;
         cell = lml_json_next(cell), i++) {
        g->cell.length = 0;
        column *c = &g->columns[i];
        lml_figure figure = lml_figure_cut(cell_text(g, c, cell));
        note_unit(c, cell);
        lml_align_add(&c->align, &figure);
        if (figure.words)
            c->least = larger(c->least, longest_word(figure.text));
    }
}

static void measure(grid *g, const lml_json *headings)
{
    size_t i = 0;
    for (const lml_json *h = lml_json_first(headings); h; h = lml_json_next(h), i++)
        g->columns[i] = (column){.heading = lml_json_text(h),
                                 .unit = g->bare ? g->columns[i].unit : lml_span_of(NULL),
                                 .mixed = g->bare && g->columns[i].mixed};
    for (const lml_json *e = g->first; e != g->end; e = lml_json_next(e)) {
        const lml_json *row = lml_json_first(lml_json_member(e, "rows"));
        for (; row; row = lml_json_next(row))
            measure_row(g, row);
        measure_row(g, lml_json_member(e, "total"));
    }
    for (i = 0; i < g->count; i++) {
        column *c = &g->columns[i];
        lml_align figures = c->align;
        figures.words = 0;
        c->figures = lml_align_width(&figures);
        g->cell.length = 0;
        lml_span words = heading_text(g, c);
        c->width = larger(lml_align_width(&c->align), lml_letter_columns_of(words));
        c->least = c->least < WORDS_LEAST ? c->least : WORDS_LEAST;
        c->least = larger(larger(c->least, c->figures), 1);
        size_t heading = longest_word(words);
        c->least = larger(c->least, heading < WORDS_LEAST ? heading : WORDS_LEAST);
    }
}

static size_t total_width(const grid *g)
{
    size_t width = INDENT;
    for (size_t i = 0; i < g->count; i++)
        width += g->columns[i].width + (i > 0 ? GAP : 0);
    return width;
}

/* Take a column's worth from the widest that can still give, until the grid fits or none can. */
static void narrow(grid *g)
{
    while (total_width(g) > g->page->layout.width) {
        column *widest = NULL;
        for (size_t i = 0; i < g->count; i++) {
            column *c = &g->columns[i];
            if (c->width > c->least && (!widest || c->width > widest->width))
                widest = c;
        }
        if (!widest)
            return;
        widest->width--;
    }
}

/* How many columns from `from` on stand in one band beside the first. */
static size_t band_end(const grid *g, size_t from)
{
    size_t used = INDENT + (from > 0 ? g->columns[0].width + GAP : 0);
    size_t cells = from > 0 ? 1 : 0;
    size_t end = from;
    while (end < g->count) {
        size_t next = used + g->columns[end].width + (end > from ? GAP : 0);
        if (end > from && (next > g->page->layout.width || cells == LML_LAYOUT_CELLS))
            break;
        used = next;
        cells++;
        end++;
    }
    return end;
}

/* Column positions of a band: the first column, then `from` to `end`. */
typedef struct band {
    size_t from, end;
} band;

static size_t band_width(const grid *g, band b)
{
    size_t width = b.from > 0 ? g->columns[0].width : 0;
    for (size_t i = b.from; i < b.end; i++)
        width += g->columns[i].width + (width > 0 ? GAP : 0);
    return width;
}

static lml_cell place_cell(grid *g, size_t index, const lml_json *row, size_t at)
{
    const column *c = &g->columns[index];
    lml_figure figure = lml_figure_cut(cell_text(g, c, item_at(row, index)));
    lml_align align = c->align;
    align.words = c->width;
    return lml_align_place(&align, &figure, at, false);
}

/* All texts of the row are in the builder before the first span is taken, so that none moves. */
static void draw_row(grid *g, band b, const lml_json *row)
{
    lml_cell cells[LML_LAYOUT_CELLS];
    g->cell.length = 0;
    size_t each = 0;
    for (const lml_json *cell = lml_json_first(row); cell && each < g->count;
         cell = lml_json_next(cell))
        cell_text(g, &g->columns[each++], cell);
    g->cell.length = 0;
    size_t count = 0, at = INDENT;
    if (b.from > 0) {
        cells[count++] = place_cell(g, 0, row, at);
        at += g->columns[0].width + GAP;
    }
    for (size_t i = b.from; i < b.end; i++) {
        cells[count++] = place_cell(g, i, row, at);
        at += g->columns[i].width + GAP;
    }
    lml_layout_row(&g->page->layout, cells, count);
}

/* A heading ends where the figures of its column end, and starts where words start. */
static lml_cell heading_cell(grid *g, const column *c, size_t at)
{
    lml_span words = heading_text(g, c);
    size_t wide = lml_letter_columns_of(words);
    size_t right = c->align.words == 0 && wide < c->figures ? c->figures - wide : 0;
    return (lml_cell){words, at + right, c->width - right, true};
}

static void draw_headings(grid *g, band b)
{
    lml_cell cells[LML_LAYOUT_CELLS];
    size_t count = 0, at = INDENT;
    g->cell.length = 0; /* as in draw_row */
    for (size_t i = 0; i < g->count; i++)
        heading_text(g, &g->columns[i]);
    g->cell.length = 0;
    if (b.from > 0) {
        cells[count++] = heading_cell(g, &g->columns[0], at);
        at += g->columns[0].width + GAP;
    }
    for (size_t i = b.from; i < b.end; i++) {
        cells[count++] = heading_cell(g, &g->columns[i], at);
        at += g->columns[i].width + GAP;
    }
    lml_layout_row(&g->page->layout, cells, count);
}

static void draw_band(grid *g, band b)
{
    lml_layout *layout = &g->page->layout;
    size_t width = band_width(g, b);
    draw_headings(g, b);
    if (!g->page->working)
        lml_layout_rule(layout, INDENT, width, '-');
    for (const lml_json *row = lml_json_first(g->rows); row; row = lml_json_next(row))
        draw_row(g, b, row);
    if (lml_json_count(g->total) > 0) {
        lml_layout_rule(layout, INDENT, width, '-');
        draw_row(g, b, g->total);
    }
}

static void draw(grid *g, const lml_json *entry)
{
    g->rows = lml_json_member(entry, "rows");
    g->total = lml_json_member(entry, "total");
    g->columns[0].heading = lml_json_text(lml_json_first(lml_json_member(entry, "columns")));
    if (lml_json_yes(lml_json_member(entry, "withheld"))) {
        draw_headings(g, (band){0, band_end(g, 0)});
        lml_remark_draw_withheld(g->page, entry);
        return;
    }
    for (size_t from = 0; from < g->count;) {
        band b = {from, band_end(g, from)};
        if (from > 0)
            lml_layout_gap(&g->page->layout);
        draw_band(g, b);
        from = b.end;
    }
}

/* Whether an entry is a grid with the same headings but for the first. */
static bool is_alike(const lml_json *entry, const lml_json *headings)
{
    const lml_json *own = lml_json_first(lml_json_member(entry, "columns"));
    const lml_json *other = lml_json_first(headings);
    if (!own || !other)
        return false;
    do {
        own = lml_json_next(own);
        other = lml_json_next(other);
    } while (own && other && lml_span_equal(lml_json_text(own), lml_json_text(other)));
    return !own && !other;
}

const lml_json *lml_grid_draw(lml_page *page, const lml_json *entry)
{
    const lml_json *headings = lml_json_member(entry, "columns"), *end = lml_json_next(entry);
    while (end && is_alike(end, headings))
        end = lml_json_next(end);
    grid g = {.page = page,
              .days = lml_page_days(page),
              .first = entry,
              .end = end,
              .count = lml_json_count(headings),
              .cell = lml_layout_scratch(&page->layout)};
    if (g.count == 0)
        return end;
    const lml_alloc *alloc = page->layout.out->alloc;
    g.columns = lml_alloc_get(alloc, g.count * sizeof *g.columns);
    if (!g.columns) {
        page->layout.out->status = LML_NO_MEMORY;
        return end;
    }
    measure(&g, headings);
    narrow(&g);
    if (total_width(&g) > page->layout.width) {
        g.bare = true;
        measure(&g, headings);
        narrow(&g);
    }
    for (const lml_json *e = entry; e != end; e = lml_json_next(e)) {
        if (e != entry && !page->working)
            lml_layout_gap(&page->layout);
        draw(&g, e);
    }
    lml_alloc_free(alloc, g.columns, g.count * sizeof *g.columns);
    lml_layout_scrap(&page->layout, &g.cell);
    return end;
}
