#include "sheet/picture.h"

#include "base/letter.h"
#include "sheet/datum.h"
#include "sheet/line_text.h"
#include "sheet/remark.h"

enum { INDENT = 4, GAP = 2, COLUMNS = 7 };

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(member(record, name));
}

bool lml_picture_is(const lml_json *entry)
{
    lml_span is = text_of(entry, "is");
    return lml_span_is(is, "curve") || lml_span_is(is, "flow") || lml_span_is(is, "section");
}

/* ---- a table of texts --------------------------------------------------------------------------
 */

/* Texts one after the other; where each ends. */
typedef struct table {
    lml_layout *layout;
    lml_builder text;
    size_t width[COLUMNS], columns;
} table;

static lml_span span_at(const table *t, size_t start, size_t end)
{
    return t->text.at ? (lml_span){t->text.at + start, end - start} : lml_span_of(NULL);
}

/* Write the item, a cell after the other, with where each ends. */
typedef void write_row(const lml_page *page, const lml_json *entry, const lml_json *item,
                       lml_builder *out, size_t *ends);

static void for_each_row(table *t, const lml_page *page, const lml_json *entry,
                         const lml_json *items, write_row *write, bool draw)
{
    for (const lml_json *item = lml_json_first(items); item; item = lml_json_next(item)) {
        size_t ends[COLUMNS], start = 0, at = INDENT;
        lml_cell cells[COLUMNS];
        t->text.length = 0;
        write(page, entry, item, &t->text, ends);
        for (size_t c = 0; c < t->columns; c++) {
            lml_span cell = span_at(t, start, ends[c]);
            size_t wide = lml_letter_columns_of(cell);
            if (!draw && wide > t->width[c])
                t->width[c] = wide;
            bool last = c + 1 == t->columns;
            size_t room = t->layout->width > at ? t->layout->width - at : 1;
            cells[c] = (lml_cell){cell, at, last ? room : t->width[c], false};
            at += t->width[c] + GAP;
            start = ends[c];
        }
        if (draw)
            lml_layout_row(t->layout, cells, t->columns);
    }
}

/* Where names are long the widest column gives, and its cells go on below. */
static void narrow(table *t)
{
    enum { LEAST = 12 };
    size_t all = INDENT;
    for (size_t c = 0; c < t->columns; c++)
        all += t->width[c] + (c > 0 ? GAP : 0);
    for (; all > t->layout->width; all--) {
        size_t widest = 0;
        for (size_t c = 1; c + 1 < t->columns; c++)
            widest = t->width[c] > t->width[widest] ? c : widest;
        if (t->width[widest] <= LEAST)
            return;
        t->width[widest]--;
    }
}

static void draw_rows(lml_page *page, const lml_json *entry, const lml_json *items, size_t columns,
                      write_row *write)
{
    table t = {
        .layout = &page->layout, .text = lml_layout_scratch(&page->layout), .columns = columns};
    for_each_row(&t, page, entry, items, write, false);
    narrow(&t);
    for_each_row(&t, page, entry, items, write, true);
    lml_layout_scrap(&page->layout, &t.text);
}

/* ---- curve -------------------------------------------------------------------------------------
 */

static void put_clock(const lml_json *figure, lml_builder *out)
{
    lml_value moment;
    if (lml_days_read(text_of(figure, "value"), &moment, NULL))
        lml_days_put_clock(&moment, out);
}

/* "1 up", "150 °C", "180 °C/h", "90 min", "03:50 to 05:20". */
static void write_step(const lml_page *page, const lml_json *curve, const lml_json *step,
                       lml_builder *out, size_t *ends)
{
    lml_days days = lml_page_days(page);
    size_t number = 1;
    const lml_json *s = lml_json_first(member(curve, "steps"));
    for (; s != step; s = lml_json_next(s))
        number++;
    lml_builder_add_format(out, "%zu %s", number,
                           lml_json_yes(member(step, "down")) ? "down to" : "up to");
    ends[0] = out->length;
    lml_line_text_put_figure(days, member(step, "to"), out);
    ends[1] = out->length;
    if (member(step, "rate"))
        lml_line_text_put_figure(days, member(step, "rate"), out);
    ends[2] = out->length;
    if (member(step, "hold")) {
        lml_builder_add_text(out, "hold ");
        lml_line_text_put_figure(days, member(step, "hold"), out);
    }
    ends[3] = out->length;
    put_clock(member(step, "there"), out);
    lml_builder_add_text(out, " to ");
    put_clock(member(step, "ends"), out);
    if (text_of(step, "name").length > 0) {
        lml_builder_add_text(out, "  ");
        lml_builder_add_span(out, text_of(step, "name"));
    }
    ends[4] = out->length;
}

/* "Nobody is there 22:00 to 06:30; at 06:30 it is at 290 °C." */
static void draw_alone(lml_page *page, const lml_json *curve)
{
    const lml_json *nobody = member(curve, "nobody");
    lml_builder line = lml_layout_scratch(&page->layout);
    if (nobody) {
        lml_builder_add_text(&line, "Nobody is there ");
        lml_builder_add_span(&line, text_of(member(nobody, "from"), "value"));
        lml_builder_add_text(&line, " to ");
        lml_builder_add_span(&line, text_of(member(nobody, "to"), "value"));
    }
    const lml_json *read = lml_json_first(member(curve, "reads"));
    for (; read; read = lml_json_next(read)) {
        lml_builder_add_text(&line, line.length > 0 ? "; at " : "At ");
        put_clock(member(read, "at"), &line);
        lml_builder_add_text(&line, " it is at ");
        lml_line_text_put_figure(lml_page_days(page), member(read, "value"), &line);
    }
    if (line.length > 0)
        lml_layout_text(&page->layout, INDENT, (lml_span){line.at, line.length});
    lml_layout_scrap(&page->layout, &line);
}

/* ---- flow --------------------------------------------------------------------------------------
 */

static const lml_json *place_called(const lml_json *flow, lml_span name)
{
    const lml_json *place = lml_json_first(member(flow, "places"));
    while (place && !lml_span_equal(text_of(place, "name"), name))
        place = lml_json_next(place);
    return place;
}

static bool ends_with(lml_span text, lml_span end)
{
    return text.length >= end.length &&
           lml_span_equal((lml_span){text.at + text.length - end.length, end.length}, end);
}

static void put_place(const lml_json *flow, lml_span name, lml_builder *out)
{
    const lml_json *place = place_called(flow, name);
    lml_span owner = text_of(place, "owner"), mark = text_of(place, "mark");
    lml_builder_add_span(out, name);
    if (ends_with(name, owner)) /* which tells it from its like */
        owner.length = 0;
    if (ends_with(name, mark))
        mark.length = 0;
    if (owner.length + mark.length == 0)
        return;
    lml_builder_add_text(out, " (");
    lml_builder_add_span(out, owner);
    lml_builder_add_text(out, owner.length > 0 && mark.length > 0 ? ", " : "");
    lml_builder_add_span(out, mark);
    lml_builder_add_char(out, ')');
}

static void write_move(const lml_page *page, const lml_json *flow, const lml_json *move,
                       lml_builder *out, size_t *ends)
{
    put_place(flow, text_of(move, "from"), out);
    ends[0] = out->length;
    lml_builder_add_text(out, "to ");
    put_place(flow, text_of(move, "to"), out);
    ends[1] = out->length;
    lml_line_text_put_figure(lml_page_days(page), member(move, "value"), out);
    ends[2] = out->length;
}

/* ---- section -----------------------------------------------------------------------------------
 */

static void put_size(const lml_json *body, lml_builder *out)
{
    lml_datum_write(member(body, "diameter"), out);
    lml_builder_add_text(out, " by ");
    lml_datum_write(member(body, "height"), out);
}

static void put_clearance(const lml_json *clearance, const char *where, lml_span body,
                          lml_builder *out)
{
    lml_datum_write(member(clearance, "value"), out);
    lml_builder_add_text(out, where);
    lml_builder_add_span(out, body);
    if (lml_json_yes(member(clearance, "under"))) {
        lml_builder_add_text(out, " (at least ");
        lml_datum_write(member(clearance, "least"), out);
        lml_builder_add_char(out, ')');
    }
}

/* "A: 63.5 mm by 76.2 mm; 10.75 mm beside the tree, 16.5 mm above it." */
static void draw_section(lml_page *page, const lml_json *section)
{
    lml_builder line = lml_layout_scratch(&page->layout);
    lml_span vessel = text_of(member(section, "vessel"), "name");
    lml_span body = text_of(member(section, "body"), "name");
    if (vessel.length > 0) {
        lml_builder_add_span(&line, vessel);
        lml_builder_add_text(&line, ": ");
    }
    put_size(member(section, "vessel"), &line);
    lml_builder_add_text(&line, "; ");
    put_clearance(member(section, "wall"), body.length > 0 ? " beside the " : " beside it", body,
                  &line);
    lml_builder_add_text(&line, ", ");
    put_clearance(member(section, "top"), " above it", (lml_span){"", 0}, &line);
    lml_layout_text(&page->layout, INDENT, (lml_span){line.at, line.at ? line.length : 0});
    lml_layout_scrap(&page->layout, &line);
}

/* ------------------------------------------------------------------------------------------------
 */

void lml_picture_draw(lml_page *page, const lml_json *entry)
{
    lml_span is = text_of(entry, "is"), title = text_of(entry, "title");
    if (lml_json_yes(member(entry, "withheld"))) {
        lml_remark_draw_withheld(page, entry);
        return;
    }
    if (title.length > 0)
        lml_layout_text(&page->layout, 1, title);
    if (lml_span_is(is, "curve")) {
        draw_rows(page, entry, member(entry, "steps"), 5, write_step);
        draw_alone(page, entry);
    } else if (lml_span_is(is, "flow")) {
        draw_rows(page, entry, member(entry, "moves"), 3, write_move);
    } else {
        draw_section(page, entry);
    }
}
