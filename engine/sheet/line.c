/* A run of lines: label, figure, where the figure came from, and a box for what was really weighed.
 *
 * All lines of a run share their columns, so that a finger can go down the figures. On a narrow
 * page the boxes go under their lines first, then the origins, then the figures; a figure is never
 * cut.
 */
#include "sheet/line.h"
#include "sheet/datum.h"
#include "sheet/line_text.h"
#include "base/letter.h"
#include "sheet/remark.h"

enum { INDENT = 4, GAP = 2, DEEPER = 6, WORDS_MOST = 36, LABEL_LEAST = 16, REASON_LEAST = 24 };
/* One word to the layout, so that a box never breaks. */
#define FOUR_BLANKS LML_NO_BREAK LML_NO_BREAK LML_NO_BREAK LML_NO_BREAK
#define BOX "[" FOUR_BLANKS FOUR_BLANKS FOUR_BLANKS "]"

typedef struct item {
    lml_span record;
    lml_span label, value, origin, reason, recorded; /* set once `run.text` has stopped growing */
    size_t label_at, value_at, origin_at, recorded_at, reason_at;
    lml_figure figure;
    bool total, box, big, tick;
} item;

typedef struct run {
    item *items;
    size_t count, filled;
    lml_builder text; /* values, origins and reasons, one after the other */
    lml_align align;
    size_t label, figure, origin, box; /* widths in columns */
    bool box_below, origin_below, figure_below;
} run;

static size_t grow(size_t *most, lml_span text)
{
    size_t columns = lml_letter_columns_of(text);
    if (columns > *most)
        *most = columns;
    return columns;
}

/* Why a figure is withheld is the studio's own business: a refiner's terms, a cost, a doubt about
 * the metal. */
static void append_reason_of(lml_page *page, const lml_json *by, lml_span give, lml_builder *out)
{
    if (!page->working) {
        lml_builder_add_text(out, "not resolved yet: please ask the studio");
        return;
    }
    const lml_json *remark = lml_remark_called(page->result, lml_json_text(by));
    if (!remark)
        remark = lml_remark_withholding(page->result, page->recipe, give);
    lml_span text = lml_json_text(lml_json_member(remark, "text"));
    if (text.length > 0)
        lml_builder_add_span(out, text);
    else
        lml_builder_add_text(out, "the reasons are beside STOP and ASK");
}

static void append_reason(lml_page *page, const lml_json *entry, lml_builder *out)
{
    append_reason_of(page, lml_json_member(entry, "withheld_by"),
                     lml_json_text(lml_json_member(entry, "of")), out);
}

/* The empty box with its unit at the end; nothing where it has none, or one that is too long. */
static void put_box_of_unit(lml_span unit, lml_builder *out)
{
    enum { WIDE = 12 };
    size_t columns = lml_letter_columns_of(unit);
    if (columns == 0 || columns >= WIDE)
        return;
    lml_builder_add_char(out, '[');
    for (size_t i = columns; i < WIDE; i++)
        lml_builder_add_text(out, LML_NO_BREAK);
    lml_builder_add_span(out, unit);
    lml_builder_add_char(out, ']');
}

/* The label, and whose metal it is. */
static void append_label(const lml_page *page, const lml_json *entry, lml_builder *out)
{
    lml_span owner = lml_json_text(lml_json_member(entry, "owner"));
    lml_days_put_sentence(lml_page_days(page), lml_json_text(lml_json_member(entry, "label")), out);
    if (owner.length > 0) {
        lml_builder_add_text(out, " (");
        lml_builder_add_span(out, owner);
        lml_builder_add_char(out, ')');
    }
}

static bool is_ticked(const lml_page *page, const lml_json *entry)
{
    lml_span act = lml_json_text(lml_json_member(entry, "act"));
    return page->working && (lml_span_is(act, "tick") || lml_json_member(entry, "shows"));
}

/* Texts go into one builder that moves as it grows: so only where they start is kept for now. */
static void read_item(lml_page *page, run *r, const lml_json *entry, const lml_json *before,
                      item *it)
{
    lml_days days = lml_page_days(page);
    bool withheld = lml_json_yes(lml_json_member(entry, "withheld"));
    it->total = lml_span_is(lml_json_text(lml_json_member(entry, "is")), "total");
    it->big = lml_json_yes(lml_json_member(entry, "big"));
    if (page->working && !withheld) {
        it->record = lml_json_text(lml_json_member(entry, "record"));
        it->box = it->record.length > 0;
        it->tick = !it->total && is_ticked(page, entry);
    }
    it->label_at = r->text.length;
    append_label(page, entry, &r->text);
    it->value_at = r->text.length;
    if (withheld)
        lml_builder_add_text(&r->text, "DO NOT");
    else
        lml_line_text_put(days, entry, before, &r->text);
    it->origin_at = r->text.length;
    lml_span origin = lml_json_text(lml_json_member(entry, "origin"));
    if (origin.length > 0 && !withheld) {
        lml_builder_add_char(&r->text, '(');
        lml_builder_add_span(&r->text, origin);
        lml_builder_add_char(&r->text, ')');
    }
    it->recorded_at = r->text.length;
    if (it->box)
        lml_line_text_put_recorded(days, entry, &r->text);
    if (it->box && r->text.length == it->recorded_at)
        put_box_of_unit(lml_json_text(lml_json_member(entry, "unit")), &r->text);
    it->reason_at = r->text.length;
    if (withheld)
        append_reason(page, entry, &r->text);
}

static void read_result(lml_page *page, run *r, lml_span text, const lml_json *datum, item *it)
{
    it->label_at = r->text.length;
    lml_builder_add_span(&r->text, text);
    it->value_at = r->text.length;
    if (datum)
        lml_datum_put(datum, &r->text);
    else
        lml_builder_add_text(&r->text, "DO NOT");
    it->origin_at = it->recorded_at = it->reason_at = r->text.length;
    if (!datum)
        append_reason_of(page, NULL, text, &r->text);
}

static bool open_run(lml_page *page, run *r, size_t count)
{
    *r = (run){.count = count, .text = lml_layout_scratch(&page->layout)};
    r->items = lml_alloc_get(page->layout.out->alloc, count * sizeof *r->items);
    if (!r->items) {
        page->layout.out->status = LML_NO_MEMORY;
        return false;
    }
    return true;
}

static item *next_item(run *r)
{
    item *it = &r->items[r->filled++];
    *it = (item){.total = false};
    return it;
}

/* A stop may withhold many figures; its reason is read once. */
static void say_once(run *r, size_t index)
{
    for (size_t i = 0; i < index; i++)
        if (r->items[index].reason.length > 0 &&
            lml_span_equal(r->items[i].reason, r->items[index].reason))
            r->items[index].reason = lml_span_of("for the same reason");
}

/* The empty box, or what was recorded in its place. */
static lml_span box_of(const item *it)
{
    return it->recorded.length > 0 ? it->recorded : lml_span_of(BOX);
}

static void settle_texts(run *r)
{
    for (size_t i = 0; i < r->count; i++) {
        item *it = &r->items[i];
        const char *base = r->text.at ? r->text.at : "";
        size_t end = i + 1 < r->count ? it[1].label_at : r->text.length;
        it->label = lml_span_between(base + it->label_at, base + it->value_at);
        it->value = lml_span_between(base + it->value_at, base + it->origin_at);
        it->origin = lml_span_between(base + it->origin_at, base + it->recorded_at);
        it->recorded = lml_span_between(base + it->recorded_at, base + it->reason_at);
        it->reason = lml_span_between(base + it->reason_at, base + end);
        say_once(r, i);
        it->figure = lml_figure_cut(it->value);
        lml_align_add(&r->align, &it->figure);
        grow(&r->label, it->label);
        grow(&r->origin, it->origin);
        if (it->box) {
            size_t width =
                lml_letter_columns_of(box_of(it)) + 1 + lml_letter_columns_of(it->record);
            r->box = width > r->box ? width : r->box;
        }
    }
    if (r->align.words > WORDS_MOST)
        r->align.words = WORDS_MOST;
    r->figure = lml_align_width(&r->align);
}

static size_t taken(const run *r)
{
    size_t columns = INDENT;
    if (!r->figure_below)
        columns += GAP + r->figure;
    if (r->origin > 0 && !r->origin_below)
        columns += GAP + r->origin;
    if (r->box > 0 && !r->box_below)
        columns += GAP + r->box;
    return columns;
}

/* Give up, one after the other, what can stand under the line, until a readable label fits. */
static void choose_columns(run *r, size_t width)
{
    bool *steps[] = {&r->box_below, &r->origin_below, &r->figure_below};
    size_t least = r->label < LABEL_LEAST ? r->label : LABEL_LEAST;
    for (size_t i = 0; i < 3 && taken(r) + least > width; i++)
        *steps[i] = true;
    size_t room = width > taken(r) ? width - taken(r) : 1;
    if (r->label > room)
        r->label = room;
}

static size_t place_box(const item *it, size_t at, size_t width, lml_cell cells[2])
{
    size_t box = lml_letter_columns_of(box_of(it));
    cells[0] = (lml_cell){box_of(it), at, box, false};
    cells[1] = (lml_cell){it->record, at + box + 1, width - at - box - 1, false};
    return 2;
}

/* A label that its column would break over three lines stands above its figure. Words seldom fill a
 * column: one and a half times its width is a choice of ours. */
static bool is_above(const lml_page *page, const run *r, const item *it)
{
    size_t label = lml_letter_columns_of(it->label);
    return r->figure_below || (2 * label > 3 * r->label && INDENT + label <= page->layout.width);
}

/* Whether nothing is beside the figure, so that it may follow its long label on the same line. */
static bool follows(const lml_page *page, const run *r, const item *it)
{
    size_t taken =
        INDENT + lml_letter_columns_of(it->label) + GAP + it->figure.whole + it->figure.rest;
    return !r->figure_below && !it->box && it->origin.length + it->reason.length == 0 &&
           taken <= page->layout.width;
}

static void draw_item(lml_page *page, const run *r, const item *it)
{
    lml_layout *layout = &page->layout;
    size_t width = layout->width, count = 0;
    lml_cell cells[6];
    bool loud = it->big || it->reason.length > 0;
    size_t at = INDENT + r->label + GAP;
    if (r->figure_below)
        at = DEEPER;
    if (it->total && !page->terse && r->figure > 0 && !r->figure_below)
        lml_layout_rule(layout, at, r->figure, '-');
    if (it->tick)
        cells[count++] = (lml_cell){lml_span_of("[" LML_NO_BREAK "]"), 0, 3, false};
    else if (it->big)
        cells[count++] = (lml_cell){lml_span_of(">>"), 0, 2, true};
    bool above = is_above(page, r, it);
    cells[count++] = (lml_cell){it->label, INDENT, above ? width - INDENT : r->label, it->big};
    if (above && follows(page, r, it)) {
        size_t after = INDENT + lml_letter_columns_of(it->label) + GAP;
        cells[count - 1].width = after - INDENT;
        cells[count++] = (lml_cell){it->value, after, width - after, loud};
        lml_layout_row(layout, cells, count);
        return;
    }
    if (above) {
        lml_layout_row(layout, cells, count);
        count = 0;
    }
    cells[count++] = lml_align_place(&r->align, &it->figure, at, loud);
    at += r->figure + GAP;
    bool reason_beside = it->reason.length > 0 && at + REASON_LEAST <= width;
    if (reason_beside) {
        cells[count++] = (lml_cell){it->reason, at, width - at, false};
    } else {
        if (r->origin > 0 && !r->origin_below) {
            cells[count++] = (lml_cell){it->origin, at, r->origin, false};
            at += r->origin + GAP;
        }
        if (it->box && !r->box_below)
            count += place_box(it, at, width, &cells[count]);
    }
    lml_layout_row(layout, cells, count);
    if (it->reason.length > 0 && !reason_beside)
        lml_layout_text(layout, DEEPER, it->reason);
    if (r->origin_below && it->origin.length > 0)
        lml_layout_text(layout, DEEPER, it->origin);
    if (it->box && r->box_below)
        lml_layout_row(layout, cells, place_box(it, DEEPER, width, cells));
}

/* What a client must find is set apart from its neighbours; on the bench its mark is enough. */
static void draw_run(lml_page *page, run *r)
{
    settle_texts(r);
    choose_columns(r, page->layout.width);
    for (size_t i = 0; i < r->count; i++) {
        if (!page->working && i > 0 && r->items[i].big != r->items[i - 1].big)
            lml_layout_gap(&page->layout);
        draw_item(page, r, &r->items[i]);
    }
}

static void close_run(lml_page *page, run *r)
{
    lml_alloc_free(page->layout.out->alloc, r->items, r->count * sizeof *r->items);
    lml_layout_scrap(&page->layout, &r->text);
}

/* What is only there to be written down or ticked is for the studio alone. */
static bool shown(const lml_page *page, const lml_json *entry)
{
    return page->working || lml_json_member(entry, "value") ||
           lml_json_yes(lml_json_member(entry, "withheld")) || !lml_json_member(entry, "record");
}

void lml_line_draw(lml_page *page, const lml_json *first, const lml_json *end)
{
    size_t count = 0;
    for (const lml_json *entry = first; entry != end; entry = lml_json_next(entry))
        count += shown(page, entry);
    run r;
    if (count == 0 || !open_run(page, &r, count))
        return;
    const lml_json *before = NULL;
    for (const lml_json *entry = first; entry != end; entry = lml_json_next(entry)) {
        if (!shown(page, entry))
            continue;
        read_item(page, &r, entry, before, next_item(&r));
        before = entry;
    }
    draw_run(page, &r);
    close_run(page, &r);
}

void lml_line_draw_results(lml_page *page)
{
    const lml_json *results = lml_json_member(page->result, "results");
    const lml_json *withheld = lml_json_member(page->result, "withheld");
    size_t count = lml_json_count(results) + lml_json_count(withheld);
    run r;
    if (count == 0 || !open_run(page, &r, count))
        return;
    for (const lml_json *datum = lml_json_first(results); datum; datum = lml_json_next(datum))
        read_result(page, &r, lml_json_name(datum), datum, next_item(&r));
    for (const lml_json *name = lml_json_first(withheld); name; name = lml_json_next(name))
        read_result(page, &r, lml_json_text(name), NULL, next_item(&r));
    draw_run(page, &r);
    close_run(page, &r);
}
