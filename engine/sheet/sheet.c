#include "sheet/sheet.h"
#include "sheet/entries.h"
#include "sheet/foot.h"
#include "sheet/page.h"
#include "base/letter.h"
#include "sheet/days.h"
#include "sheet/fact.h"
#include "sheet/line.h"
#include "sheet/picture.h"
#include "sheet/grid.h"
#include "sheet/remark.h"
#include "sheet/fold.h"

#include <stdio.h>
#include <string.h>

enum { INDENT = 4, SIGN_NAME = 16 };

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static lml_span built(const lml_builder *b)
{
    return b->at ? (lml_span){b->at, b->length} : lml_span_of(NULL);
}

static const lml_json *first_page(const lml_json *result)
{
    return lml_json_first(lml_json_member(result, "sheets"));
}

bool lml_sheet_has(const lml_json *result, const char *page)
{
    return lml_entries_any(lml_entries_of(result, page));
}

/* The kind of the last entry decides whether an empty line comes before the next. */
typedef enum kind { NOTHING, HEADING, LINE, TEXT, GRID, SIGN, PICTURE, REMARK, PART } kind;

static kind kind_of(const lml_json *entry)
{
    static const struct {
        const char *is;
        kind kind;
    } kinds[] = {{"line", LINE},       {"total", LINE},    {"box", LINE},
                 {"heading", HEADING}, {"text", TEXT},     {"grid", GRID},
                 {"sign", SIGN},       {"remark", REMARK}, {"part", PART}};
    lml_span is = member_text(entry, "is");
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (lml_span_is(is, kinds[i].is))
            return kinds[i].kind;
    return lml_picture_is(entry) ? PICTURE : NOTHING;
}

/* A working page saves its lines, so that a day fits on one sheet of paper: rules and headings part
 * what stands on it, and empty lines only what else would be read as one. */
static void space(lml_page *page, kind last, kind next)
{
    bool beside = next == REMARK && last != TEXT && last != PART; /* what it concerns */
    bool apart = !page->working && !beside;
    if (last != NOTHING && last != HEADING && apart)
        lml_layout_gap(&page->layout);
}

static void note_start(lml_page *page)
{
    if (page->starts < LML_PAGE_STARTS)
        page->start[page->starts++] = page->layout.out->length;
}

static void draw_title(lml_page *page, size_t at, lml_span text)
{
    lml_cell cell = {text, at, page->layout.width - at, true};
    lml_layout_row(&page->layout, &cell, 1);
}

static void draw_entries(lml_page *page, const lml_json *entries);

/* On a working page the rule fills the title's own line. */
static void draw_part_title(lml_page *page, lml_span title)
{
    lml_layout *layout = &page->layout;
    size_t columns = lml_letter_columns_of(title), width = layout->width;
    if (!page->working) {
        draw_title(page, 0, title);
        lml_layout_rule(layout, 0, columns < width ? columns : width, '-');
        return;
    }
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_span(&line, title);
    if (columns + 2 < width) {
        lml_builder_add_text(&line, LML_NO_BREAK);
        lml_builder_add_repeat(&line, '-', width - columns - 1);
    }
    draw_title(page, 0, built(&line));
    lml_layout_scrap(layout, &line);
}

/* A part of cautions alone needs no title. */
static bool only_cautions(const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e))
        if (!lml_span_is(member_text(e, "level"), "caution") &&
            !(kind_of(e) == PART && only_cautions(lml_json_member(e, "entries"))))
            return false;
    return true;
}

/* A caution that several steps give is printed once on a page, at its first place: said again
 * further down, by this recipe or another, it cannot be drawn away from where it is first
 * needed. */
static bool said_already(const lml_page *page, const lml_json *remark)
{
    return lml_entries_said_before(page->entries, remark);
}

/* Whether it is at the head of the page or beside its line, or was said before. */
static bool stands_elsewhere(const lml_page *page, const lml_json *remark)
{
    return said_already(page, remark) ||
           (page->head && lml_entries_at_head(page->result, remark)) ||
           lml_entries_line_of(&page->asides, remark);
}

/* Whether anything stands here: of a part whose remarks are all drawn elsewhere, nothing does. */
static bool anything_stands(const lml_page *page, const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        kind this = kind_of(e);
        if (this == PART ? anything_stands(page, lml_json_member(e, "entries"))
                         : this != REMARK || !stands_elsewhere(page, e))
            return true;
    }
    return false;
}

/* A part of a letter that begins with a heading of its own title, "Quotation: A ring". */
static bool heads_itself(const lml_json *entries, lml_span title)
{
    const lml_json *first = lml_json_first(entries);
    lml_span heading = kind_of(first) == HEADING ? member_text(first, "text") : title;
    return title.length > 0 && heading.length > title.length &&
           memcmp(heading.at, title.at, title.length) == 0 && heading.at[title.length] == ':';
}

static void draw_part(lml_page *page, const lml_json *part)
{
    lml_span outer = page->recipe, title = member_text(part, "title");
    const lml_json *entries = lml_json_member(part, "entries");
    if (!anything_stands(page, entries))
        return;
    for (const lml_json *inner = part; inner; inner = lml_entries_only_part(entries)) {
        page->recipe = member_text(inner, "recipe");
        entries = lml_json_member(inner, "entries");
    }
    bool joined = lml_json_yes(lml_json_member(part, "joined"));
    if (!page->working || !only_cautions(entries)) {
        note_start(page);
        if (joined)
            draw_title(page, 1, title);
        else if (!heads_itself(entries, title))
            draw_part_title(page, title.length > 0 ? title : page->recipe);
    }
    draw_entries(page, entries);
    page->recipe = outer;
}

static void draw_beside(void *data, const lml_json *remark)
{
    lml_page *page = data;
    if (!said_already(page, remark) && !(page->head && lml_entries_at_head(page->result, remark)))
        lml_remark_draw(page, remark);
}

/* What a text says, or that it is left out, having a figure that is withheld. */
static void draw_text(lml_page *page, const lml_json *entry)
{
    lml_builder line = lml_layout_scratch(&page->layout);
    if (lml_json_yes(lml_json_member(entry, "withheld")))
        lml_builder_add_text(&line, LML_LEFT_OUT);
    else
        lml_days_put_sentence(lml_page_days(page), member_text(entry, "text"), &line);
    lml_layout_text(&page->layout, INDENT, built(&line));
    lml_layout_scrap(&page->layout, &line);
}

/* A name and a line to write on, for each who signs. */
static void draw_sign(lml_page *page, const lml_json *sign)
{
    lml_layout_text(&page->layout, INDENT, member_text(sign, "label"));
    const lml_json *who = lml_json_first(lml_json_member(sign, "who"));
    for (; who; who = lml_json_next(who)) {
        size_t at = INDENT + SIGN_NAME;
        lml_builder line = lml_layout_scratch(&page->layout);
        lml_builder_add_repeat(&line, '_', page->layout.width - at);
        lml_cell cells[] = {{lml_json_text(who), INDENT, SIGN_NAME - 1, false},
                            {built(&line), at, page->layout.width - at, false}};
        lml_layout_gap(&page->layout);
        lml_layout_row(&page->layout, cells, 2);
        lml_layout_scrap(&page->layout, &line);
    }
}

/* Which lines go into one run: what is only read goes into one paragraph on working pages, and a
 * list of moments has columns of its own. */
typedef enum sort { ANY, FACT, TIMED } sort;

static sort sort_of(const lml_page *page, const lml_json *line)
{
    if (page->terse && lml_fact_is(line))
        return FACT;
    return lml_json_member(line, "at") || lml_json_member(line, "after") ? TIMED : ANY;
}

static void draw_lines(lml_page *page, const lml_json *first, const lml_json *end)
{
    while (first != end) {
        sort this = sort_of(page, first);
        const lml_json *next = lml_json_next(first);
        const lml_json *last = first; /* at the bench a total ends its run */
        while (next != end && sort_of(page, next) == this &&
               !(page->terse && lml_span_is(member_text(last, "is"), "total"))) {
            last = next;
            next = lml_json_next(next);
        }
        if (this == FACT)
            lml_fact_draw(page, first, next);
        else
            lml_line_draw(page, first, next);
        first = next;
    }
}

static void draw_entries(lml_page *page, const lml_json *entries)
{
    kind last = NOTHING;
    bool was_left_out = false; /* once is enough for sentences in a row */
    const lml_json *entry = lml_json_first(entries);
    while (entry) {
        kind this = kind_of(entry);
        const lml_json *next = lml_json_next(entry);
        bool left_out = this == TEXT && lml_json_yes(lml_json_member(entry, "withheld"));
        if ((this == REMARK && stands_elsewhere(page, entry)) || (left_out && was_left_out)) {
            entry = next;
            continue;
        }
        was_left_out = left_out;
        space(page, last, this);
        switch (this) {
        case LINE:
            while (next && kind_of(next) == LINE)
                next = lml_json_next(next);
            draw_lines(page, entry, next);
            for (const lml_json *e = entry; e != next; e = lml_json_next(e))
                lml_entries_concerning(&page->asides, e, draw_beside, page);
            break;
        case HEADING:
            note_start(page);
            draw_title(page, 1, member_text(entry, "text"));
            break;
        case TEXT:
            draw_text(page, entry);
            break;
        case GRID:
            next = lml_grid_draw(page, entry);
            break;
        case SIGN:
            draw_sign(page, entry);
            break;
        case PICTURE:
            lml_picture_draw(page, entry);
            break;
        case REMARK:
            lml_remark_draw(page, entry);
            break;
        case PART:
            draw_part(page, entry);
            break;
        case NOTHING:
            break;
        }
        last = this;
        entry = next;
    }
}

/* One of the sentences of foot.h, after an empty line or not. */
static void draw_sentence(lml_page *page, bool apart,
                          void (*write)(const lml_json *result, lml_builder *out))
{
    lml_builder line = lml_layout_scratch(&page->layout);
    write(page->result, &line);
    if (line.length > 0) {
        if (apart)
            lml_layout_gap(&page->layout);
        lml_layout_text(&page->layout, 0, built(&line));
    }
    lml_layout_scrap(&page->layout, &line);
}

static void draw_codes(lml_page *page, const char *level, const char *words)
{
    lml_builder line = lml_layout_scratch(&page->layout);
    lml_foot_write_codes(page->result, level, words, &line);
    if (line.length > 0)
        lml_layout_text(&page->layout, 0, built(&line));
    lml_layout_scrap(&page->layout, &line);
}

static void draw_lists(lml_page *page)
{
    draw_sentence(page, true, lml_foot_write_assumed);
    draw_sentence(page, true, lml_foot_write_changed);
}

static void draw_foot(lml_page *page)
{
    draw_sentence(page, true, lml_foot_write_house_rules);
    draw_sentence(page, true, lml_foot_write_worked);
}

/* Why it is stopped: all of it, before anything else is read. */
static void draw_reasons(lml_page *page)
{
    const lml_json *r = lml_json_first(lml_json_member(page->result, "remarks"));
    for (; r; r = lml_json_next(r))
        if (lml_remark_holds(r))
            lml_remark_draw(page, r);
}

static bool is_stopped(const lml_json *result)
{
    return lml_json_yes(lml_json_member(result, "stopped"));
}

/* The studio reads what to mend; a client's page says no more than that it is not to be handed out.
 */
static void draw_banner(lml_page *page, bool always)
{
    if (!is_stopped(page->result) || !(always || lml_entries_withhold(page->entries)))
        return;
    draw_title(page, 0, lml_span_of(lml_foot_banner(page->result, page->working)));
    if (page->head) {
        draw_reasons(page);
    } else if (page->working) {
        draw_codes(page, "stop", "Stops: ");
        draw_codes(page, "confirm", "Open points: ");
    }
    lml_layout_gap(&page->layout);
}

/* "Slagrose Casting Loft, for Tobiah Merrowick, Tue 24 Nov 2026". */
static void write_whose(lml_page *page, lml_builder *out)
{
    const lml_json *job = lml_json_member(page->result, "job");
    lml_span client = member_text(job, "client");
    lml_value date;
    bool has_clock;
    lml_builder_add_span(out, member_text(lml_json_member(page->result, "house"), "name"));
    if (client.length > 0) {
        lml_builder_add_text(out, out->length > 0 ? ", for " : "For ");
        lml_builder_add_span(out, client);
    }
    if (!lml_days_read(member_text(job, "date"), &date, &has_clock))
        return;
    lml_builder day = lml_layout_scratch(&page->layout);
    lml_days_put_day(lml_page_days(page), &date, true, &day);
    lml_builder_add_text(out, out->length > 0 ? ", " : "");
    lml_layout_add_unbroken(out, built(&day));
    lml_layout_scrap(&page->layout, &day);
}

static void draw_head(lml_page *page, const char *name)
{
    lml_layout *layout = &page->layout;
    const lml_json *job = lml_json_member(page->result, "job");
    lml_span title = member_text(job, "title");
    if (title.length == 0)
        title = member_text(job, "recipe");
    size_t right = layout->width - lml_letter_columns_of(lml_span_of(name));
    lml_layout_gap(layout);
    if (lml_json_kind_of(lml_json_member(page->result, "gates")) == LML_JSON_NULL)
        lml_layout_text(
            layout, 0,
            lml_span_of("RUN WITHOUT GATES: no stops for law, physics or health were checked"));
    lml_cell head[] = {{title, 0, right - 2, true},
                       {lml_span_of(name), right, layout->width - right, false}};
    lml_layout_row(layout, head, 2);
    lml_builder line = lml_layout_scratch(layout);
    write_whose(page, &line);
    if (line.length > 0)
        lml_layout_text(layout, 0, built(&line));
    lml_layout_scrap(layout, &line);
    lml_layout_rule(layout, 0, layout->width, '=');
}

/* Remarks that no page holds, such as those of a gate over the finished result. */
static void draw_homeless(lml_page *page)
{
    const lml_json *remark = lml_json_first(lml_json_member(page->result, "remarks"));
    bool first = true;
    for (; remark; remark = lml_json_next(remark)) {
        if (lml_entries_have_anywhere(page->result, remark) ||
            (page->head && lml_remark_holds(remark)))
            continue;
        if (first)
            lml_layout_gap(&page->layout);
        first = false;
        lml_remark_draw(page, remark);
    }
}

enum { LANDSCAPE = 160, COLUMN = (LANDSCAPE - LML_FOLD_GAP) / 2 };

static lml_page page_of(const lml_json *result, const lml_sheet_look *look, lml_builder *out,
                        bool working)
{
    size_t width = look->width < LML_LAYOUT_LEAST ? LML_LAYOUT_LEAST : look->width;
    if (look->landscape)
        width = LANDSCAPE;
    return (lml_page){
        .layout = {.out = out, .width = width, .bold = look->bold && !look->landscape},
        .result = result,
        .working = working,
        .typed = look->typed,
        .recipe = member_text(lml_json_member(result, "job"), "recipe")};
}

static bool wanted(const lml_sheet_look *look, const lml_json *page)
{
    return lml_entries_names(look->page, lml_json_name(page)) && lml_entries_any(page);
}

static void draw_page(const lml_json *result, const lml_sheet_look *look, const lml_json *entries,
                      lml_builder *out)
{
    const lml_entries_kind *as = lml_entries_kind_of(lml_json_name(entries));
    lml_page page = page_of(result, look, out, as->working);
    page.entries = entries;
    lml_entries_find_asides(entries, &page.asides);
    page.terse = lml_span_is(lml_json_name(entries), "bench") ||
                 lml_span_is(lml_json_name(entries), "piece");
    draw_head(&page, as->title);
    bool client = lml_span_is(lml_json_name(entries), "client");
    bool bench = lml_span_is(lml_json_name(entries), "bench");
    page.head = bench && is_stopped(result);
    size_t body = out->length;
    if (look->landscape)
        page.layout.width = COLUMN;
    draw_banner(&page, client || bench);
    const lml_json *of_root = entries;
    for (const lml_json *only = lml_entries_only_part(entries); only;
         only = lml_entries_only_part(of_root)) {
        page.recipe = member_text(only, "recipe"); /* the head is title enough */
        of_root = lml_json_member(only, "entries");
    }
    draw_entries(&page, of_root);
    if (bench)
        draw_homeless(&page);
    if (bench)
        draw_sentence(&page, false, lml_foot_write_count);
    if (bench && lml_sheet_has(result, "cost")) {
        draw_sentence(&page, false, lml_foot_write_short);
    } else {
        if (bench || lml_span_is(lml_json_name(entries), "cost")) {
            draw_lists(&page);
        }
        if (as->working && (bench || !page.terse))
            draw_foot(&page);
    }
    if (look->landscape)
        lml_fold(&page, body, COLUMN);
}

static void draw_without_bench(const lml_json *result, const lml_sheet_look *look, bool any,
                               lml_builder *out)
{
    lml_page page = page_of(result, look, out, true);
    page.head = !any && is_stopped(result);
    if (!any) {
        draw_head(&page, "RESULTS");
        draw_banner(&page, true);
        lml_line_draw_results(&page);
    }
    draw_homeless(&page);
    if (!any) {
        draw_sentence(&page, false, lml_foot_write_count);
        draw_lists(&page);
        draw_foot(&page);
    }
}

lml_status lml_sheet_draw(const lml_json *result, const lml_sheet_look *look, lml_builder *out,
                          lml_error *err)
{
    if (lml_json_kind_of(lml_json_member(result, "results")) != LML_JSON_RECORD ||
        lml_json_kind_of(lml_json_member(result, "sheets")) != LML_JSON_RECORD)
        return lml_fail(err, LML_FAULT, "this is not a result: it has neither results nor sheets");
    bool any = false;
    for (const lml_json *page = first_page(result); page; page = lml_json_next(page)) {
        if (!wanted(look, page))
            continue;
        draw_page(result, look, page, out);
        any = true;
    }
    if (look->page && !any)
        return lml_fail(err, LML_NOT_FOUND, "the sheet \"%s\" is empty", look->page);
    if (!look->page && !lml_sheet_has(result, "bench"))
        draw_without_bench(result, look, any, out);
    return lml_builder_status(out, err);
}

static bool drawn(const lml_json *result, const lml_sheet_look *look, const lml_json *remark)
{
    if (!look->page)
        return true;
    for (const lml_json *page = first_page(result); page; page = lml_json_next(page))
        if (lml_entries_names(look->page, lml_json_name(page)) && lml_entries_have(page, remark))
            return true;
    /* The bench page has at its head what stops the job, whatever page that is of. */
    return lml_entries_names(look->page, lml_span_of("bench")) &&
           ((lml_sheet_has(result, "bench") && is_stopped(result)) ||
            !lml_entries_have_anywhere(result, remark));
}

/* A stop or an open point is named with its own code each time; a caution says all it has to say.
 */
static bool said_before(const lml_json *remarks, const lml_json *remark)
{
    const lml_json *r = lml_json_first(remarks);
    while (r != remark && !lml_entries_same_words(r, remark))
        r = lml_json_next(r);
    return r != remark;
}

lml_status lml_sheet_draw_unseen(const lml_json *result, const lml_sheet_look *look,
                                 bool nothing_drawn, lml_builder *out, lml_error *err)
{
    lml_page page = page_of(result, look, out, true);
    const lml_json *remarks = lml_json_member(result, "remarks");
    for (const lml_json *remark = lml_json_first(remarks); remark; remark = lml_json_next(remark)) {
        bool caution = nothing_drawn && lml_span_is(member_text(remark, "level"), "caution");
        bool seen = !nothing_drawn && drawn(result, look, remark);
        if ((caution && !said_before(remarks, remark)) || (lml_remark_holds(remark) && !seen))
            lml_remark_draw(&page, remark);
    }
    return lml_builder_status(out, err);
}
