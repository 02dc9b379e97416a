#include "sheet/html_part.h"

#include "sheet/entries.h"
#include "sheet/html_figure.h"
#include "sheet/html_grid.h"
#include "sheet/html_line.h"
#include "sheet/html_remark.h"
#include "sheet/picture_curve.h"
#include "sheet/picture_flow.h"
#include "sheet/picture_section.h"
#include "sheet/remark.h"

/* ---- the entries of a page, card by card ------------------------------------------------------
 */

/* At most two items an entry, since a part also ends, and one for each row. */
static size_t count_entries(const lml_json *entries)
{
    size_t count = 0;
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e))
        count += 2 + count_entries(lml_json_member(e, "entries")) +
                 lml_json_count(lml_json_member(e, "rows"));
    return count;
}

/* A caution that several steps give is printed once on a page, at its first place. */
static bool said_before(const lml_html *h, const lml_json *remark)
{
    return lml_entries_said_before(h->entries, remark);
}

static void push(lml_cards *out, size_t *used, lml_item item)
{
    if (*used < out->most)
        out->items[(*used)++] = item;
}

/* Whether a remark is drawn at the head of the page, or was before. */
static bool stands_elsewhere(const lml_html *h, const lml_json *remark)
{
    return said_before(h, remark) || (h->head && lml_entries_at_head(h->result, remark));
}

static bool is_line(const lml_json *entry)
{
    return lml_html_is(entry, "line") || lml_html_is(entry, "box") || lml_html_is(entry, "total");
}

typedef struct taken {
    const lml_html *h;
    lml_cards *out;
    size_t *used;
    lml_span recipe;
} taken;

static void push_remark(void *data, const lml_json *remark)
{
    taken *t = data;
    if (!stands_elsewhere(t->h, remark))
        push(t->out, t->used,
             (lml_item){.is = LML_ITEM_ENTRY, .entry = remark, .recipe = t->recipe});
}

/* What is said of these lines stands after their run. */
static void take_concerning(const lml_html *h, const lml_json *first, const lml_json *last,
                            lml_span recipe, lml_cards *out, size_t *used)
{
    taken t = {h, out, used, recipe};
    for (const lml_json *e = first; e; e = e == last ? NULL : lml_json_next(e))
        lml_entries_concerning(&h->asides, e, push_remark, &t);
}

/* What a recipe that hands on to others notes itself, about no line of the page: it is at the
 * foot. */
static bool is_loose(const lml_html *h, const lml_json *remark)
{
    return h->loose && lml_html_is(remark, "remark") &&
           lml_span_is(lml_html_text(remark, "level"), "note") &&
           !lml_entries_line_of(&h->asides, remark);
}

/* So that a list taller than a sheet of paper can be cut between its rows. */
static void push_rows(const lml_json *grid, lml_span recipe, lml_cards *out, size_t *used)
{
    const lml_json *row = lml_json_first(lml_json_member(grid, "rows"));
    for (; row; row = lml_json_next(row))
        push(out, used,
             (lml_item){.is = LML_ITEM_ENTRY, .entry = grid, .row = row, .recipe = recipe});
}

static void take(const lml_html *h, const lml_json *entries, lml_span recipe, unsigned depth,
                 lml_cards *out, size_t *used)
{
    const lml_json *run = NULL; /* the first of the lines in hand */
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        bool heading = lml_html_is(e, "heading");
        if ((depth == 0 && is_loose(h, e)) ||
            (lml_html_is(e, "remark") &&
             (stands_elsewhere(h, e) || lml_entries_line_of(&h->asides, e))))
            continue;
        if (!lml_html_is(e, "part")) {
            lml_item_is is = !heading     ? LML_ITEM_ENTRY
                             : depth == 0 ? LML_ITEM_TITLE
                                          : LML_ITEM_HEADING;
            if (h->bench && lml_html_is(e, "grid") && !lml_html_withheld(e))
                push_rows(e, recipe, out, used);
            else
                push(out, used, (lml_item){.is = is, .entry = e, .recipe = recipe});
            run = !is_line(e) ? NULL : run ? run : e;
            if (run && !(lml_json_next(e) && is_line(lml_json_next(e)))) {
                take_concerning(h, run, e, recipe, out, used);
                run = NULL;
            }
            continue;
        }
        if (!lml_entries_any(lml_json_member(e, "entries")))
            continue;
        bool apart = depth == 0 && !lml_json_yes(lml_json_member(e, "joined"));
        push(out, used,
             (lml_item){.is = depth == 0 ? LML_ITEM_TITLE : LML_ITEM_HEADING,
                        .entry = e,
                        .recipe = recipe});
        const lml_json *inner = e;
        for (const lml_json *only = e; only;
             only = lml_entries_only_part(lml_json_member(inner, "entries")))
            inner = only;
        take(h, lml_json_member(inner, "entries"), lml_html_text(inner, "recipe"), depth + 1, out,
             used);
        if (apart)
            push(out, used, (lml_item){.is = LML_ITEM_BREAK});
    }
}

static lml_span title_of(const lml_item *item)
{
    lml_span title = lml_html_text(item->entry, "title");
    if (title.length == 0)
        title = lml_html_text(item->entry, "text");
    return title.length > 0 ? title : lml_html_text(item->entry, "recipe");
}

static void look_at(lml_card *card)
{
    card->headings = 0;
    card->remarks = true;
    card->holds = card->wide = false;
    for (size_t i = 0; i < card->count; i++) {
        const lml_json *e = card->items[i].entry;
        card->headings += card->items[i].is == LML_ITEM_HEADING;
        card->remarks = card->remarks && lml_html_is(e, "remark");
        card->holds = card->holds || (lml_html_is(e, "remark") && lml_remark_holds(e));
        card->wide = card->wide ||
                     ((lml_html_is(e, "curve") || lml_html_is(e, "flow")) && !lml_html_withheld(e));
    }
}

/* Whether from here on the card has nothing but cautions, and a picture across the page before
 * them. */
static bool is_tail(const lml_card *card, const lml_item *from, const lml_item *end)
{
    bool wide = false, bare = from < end;
    for (const lml_item *i = card->items; i < from; i++)
        wide = wide || lml_html_is(i->entry, "curve") || lml_html_is(i->entry, "flow");
    for (const lml_item *i = from; bare && i < end; i++)
        bare = i->is == LML_ITEM_ENTRY && lml_html_is(i->entry, "remark");
    return wide && bare;
}

/* A card of the bench ends before a heading, so that a column or a sheet may begin with it; not
 * after remarks alone, which stay with it. */
static bool ends_before(const lml_html *h, const lml_card *card, const lml_item *item)
{
    bool bare = true;
    for (size_t i = 0; bare && i < card->count; i++)
        bare = lml_html_is(card->items[i].entry, "remark");
    return h->bench && item->is == LML_ITEM_HEADING && !bare;
}

static void cut_cards(const lml_html *h, lml_cards *out, size_t used)
{
    for (size_t i = 0; i < used;) {
        lml_card card = {.title = lml_span_of(NULL)};
        if (out->items[i].is == LML_ITEM_TITLE)
            card.title = title_of(&out->items[i++]);
        card.items = &out->items[i];
        size_t end = i;
        while (end < used &&
               (out->items[end].is == LML_ITEM_ENTRY || out->items[end].is == LML_ITEM_HEADING))
            end++;
        while (i < used &&
               (out->items[i].is == LML_ITEM_ENTRY || out->items[i].is == LML_ITEM_HEADING) &&
               !is_tail(&card, &out->items[i], &out->items[end]) &&
               !ends_before(h, &card, &out->items[i])) {
            card.count++;
            i++;
        }
        if (i < used && out->items[i].is == LML_ITEM_BREAK)
            i++;
        look_at(&card);
        if (card.count > 0)
            out->cards[out->count++] = card;
    }
    lml_card *last = out->count > 1 ? &out->cards[out->count - 1] : NULL;
    if (!last)
        return;
    last->last = true;
    last->across = last->remarks && last[-1].wide; /* nothing is beside it */
}

void lml_html_part_split(lml_cards *cards, size_t card, size_t at)
{
    lml_card *one = &cards->cards[card], *rest = one + 1;
    if (cards->count == cards->most || at == 0 || at >= one->count)
        return;
    memmove(rest + 1, rest, (cards->count++ - card - 1) * sizeof *rest);
    *rest = *one;
    rest->items += at;
    rest->count -= at;
    rest->goes_on = true;
    one->count = at;
    one->last = false;
    look_at(one);
    look_at(rest);
}

/* The head of the page is title enough for what is all that stands on it. */
static const lml_json *root_of(const lml_json *entries, lml_span *recipe)
{
    for (const lml_json *only = lml_entries_only_part(entries); only;
         only = lml_entries_only_part(entries)) {
        *recipe = lml_html_text(only, "recipe");
        entries = lml_json_member(only, "entries");
    }
    return entries;
}

bool lml_html_part_hands_on(const lml_json *entries)
{
    lml_span recipe;
    const lml_json *e = lml_json_first(root_of(entries, &recipe));
    while (e && !(lml_html_is(e, "part") && lml_entries_any(lml_json_member(e, "entries"))))
        e = lml_json_next(e);
    return e != NULL;
}

const lml_json *lml_html_part_loose(const lml_html *h, const lml_json *after)
{
    lml_span recipe;
    const lml_json *e = after ? lml_json_next(after) : lml_json_first(root_of(h->entries, &recipe));
    while (e && !is_loose(h, e))
        e = lml_json_next(e);
    return e;
}

lml_status lml_html_part_read(const lml_html *h, const lml_json *entries, lml_cards *out)
{
    *out = (lml_cards){.most = count_entries(entries) + 1};
    out->items = lml_alloc_get(h->out->alloc, out->most * sizeof *out->items);
    out->cards = lml_alloc_get(h->out->alloc, out->most * sizeof *out->cards);
    if (!out->items || !out->cards) {
        lml_html_part_free(h, out);
        return LML_NO_MEMORY;
    }
    size_t used = 0;
    lml_span recipe = lml_html_text(lml_json_member(h->result, "job"), "recipe");
    entries = root_of(entries, &recipe);
    take(h, entries, recipe, 0, out, &used);
    cut_cards(h, out, used);
    return LML_OK;
}

void lml_html_part_free(const lml_html *h, lml_cards *cards)
{
    if (cards->items)
        lml_alloc_free(h->out->alloc, cards->items, cards->most * sizeof *cards->items);
    if (cards->cards)
        lml_alloc_free(h->out->alloc, cards->cards, cards->most * sizeof *cards->cards);
    *cards = (lml_cards){.most = 0};
}

/* ---- what stands under one title --------------------------------------------------------------
 */

static void draw_text(lml_html *h, const lml_json *entry)
{
    lml_html_put(h, "<p>");
    if (lml_html_withheld(entry))
        lml_html_put(h, LML_LEFT_OUT);
    else
        lml_html_figure_put_sentence(h, entry, "text");
    lml_html_put(h, "</p>\n");
}

static bool is_picture(const lml_json *entry)
{
    return lml_html_is(entry, "curve") || lml_html_is(entry, "flow") ||
           lml_html_is(entry, "section");
}

/* A vessel is beside the lines that follow it, up to the next clock. */
static size_t draw_section(lml_html *h, lml_item *items, size_t count)
{
    size_t n = 1;
    lml_html_put(h, "<div class=\"beside\"><figure>");
    lml_picture_section_draw(h, items[0].entry);
    lml_html_put(h, "</figure><div>");
    for (; n < count && lml_html_line_is(&items[n]) && !lml_html_line_is_timed(&items[n]); n++)
        lml_html_line_draw_stacked(h, &items[n]);
    lml_html_put(h, "</div></div>\n");
    return n;
}

static size_t draw_picture(lml_html *h, lml_item *items, size_t count)
{
    const lml_json *entry = items[0].entry;
    if (lml_html_withheld(entry)) { /* nothing of it is drawn */
        lml_html_put(h, "<p class=\"remark stop\">");
        lml_html_figure_put_withheld(h, entry, items[0].recipe);
        lml_html_put(h, "</p>\n");
        return 1;
    }
    if (lml_html_is(entry, "section"))
        return draw_section(h, items, count);
    if (lml_html_is(entry, "curve"))
        lml_picture_curve_draw(h, items, count);
    else
        lml_picture_flow_draw(h, entry);
    return 1;
}

/* How many items were drawn. */
static size_t draw_item(lml_html *h, lml_item *items, size_t count)
{
    const lml_json *entry = items[0].entry;
    if (items[0].drawn)
        return 1;
    if (lml_html_line_is(&items[0]))
        return lml_html_line_draw(h, items, count);
    if (is_picture(entry))
        return draw_picture(h, items, count);
    if (lml_html_is(entry, "grid"))
        return lml_html_grid_draw(h, items, count);
    if (lml_html_is(entry, "text"))
        draw_text(h, entry);
    else if (lml_html_is(entry, "sign"))
        lml_html_grid_draw_sign(h, entry);
    else if (lml_html_is(entry, "remark"))
        lml_html_remark_draw(h, entry);
    return 1;
}

static bool is_caution(const lml_item *item)
{
    return item->is == LML_ITEM_ENTRY && lml_html_is(item->entry, "remark") &&
           lml_span_is(lml_html_text(item->entry, "level"), "caution");
}

/* Cautions one after the other: on a full page they run on. */
static size_t draw_cautions(lml_html *h, lml_item *items, size_t count)
{
    size_t n = 0;
    lml_html_put(h, "<div class=\"hazards\">");
    while (n < count && is_caution(&items[n]))
        lml_html_remark_draw(h, items[n++].entry);
    lml_html_put(h, "</div>\n");
    return n;
}

/* Under each heading a group that no page or column parts. */
static void draw_items(lml_html *h, lml_item *items, size_t count)
{
    bool open = false;
    for (size_t i = 0; i < count;) {
        if (items[i].is != LML_ITEM_HEADING) {
            i += is_caution(&items[i]) ? draw_cautions(h, &items[i], count - i)
                                       : draw_item(h, &items[i], count - i);
            h->headed = false;
            continue;
        }
        lml_html_put(h, open ? "</div>\n<div class=\"group\"><h3>" : "<div class=\"group\"><h3>");
        lml_escape_put(h->out, title_of(&items[i]));
        lml_html_put(h, "</h3>\n");
        h->headed = open = true;
        i++;
    }
    if (open)
        lml_html_put(h, "</div>\n");
}

/* A wide picture parts its card: what comes before it and after it stays in columns. */
static void draw_wide(lml_html *h, lml_card *card)
{
    size_t at = 0;
    while (at < card->count && !((lml_html_is(card->items[at].entry, "curve") ||
                                  lml_html_is(card->items[at].entry, "flow")) &&
                                 !lml_html_withheld(card->items[at].entry)))
        at++;
    if (at > 0) {
        lml_html_put(h, "<div class=\"cols\">");
        draw_items(h, card->items, at);
        lml_html_put(h, "</div>\n");
    }
    size_t after = at + draw_item(h, &card->items[at], card->count - at);
    bool more = false;
    for (size_t i = after; i < card->count; i++)
        more = more || !card->items[i].drawn;
    if (more) {
        lml_html_put(h, "<div class=\"cols\">");
        draw_items(h, card->items + after, card->count - after);
        lml_html_put(h, "</div>\n");
    }
}

bool lml_html_part_beside(const lml_html *h, const lml_card *card)
{
    bool columns = h->bench || lml_span_is(h->page, "cost");
    return columns && !card->wide && !card->across;
}

void lml_html_part_draw(lml_html *h, lml_card *card)
{
    h->said = NULL;
    lml_builder_add_format(h->out, "<article class=\"card%s%s%s\">\n", card->wide ? " wide" : "",
                           card->holds ? " holds" : "",
                           card->headings > 1 || card->across ? " long" : "");
    bool bare = h->bench && card->remarks && !card->holds; /* a hazard alone needs no heading */
    /* A letter needs no title above a heading. */
    bare = bare || (!h->working && card->items[0].is == LML_ITEM_HEADING);
    if (card->title.length > 0 && !bare) {
        lml_html_put(h, "<h2>");
        if (h->bench && !card->goes_on)
            lml_builder_add_format(h->out, "<span class=\"n\">%u</span>", ++h->steps);
        lml_html_put(h, "<span>");
        lml_escape_put(h->out, card->title);
        lml_html_put(h, card->goes_on ? ", continued</span></h2>\n" : "</span></h2>\n");
    }
    if (card->wide && h->bench) {
        draw_wide(h, card);
    } else if (card->across && h->bench) {
        lml_html_put(h, "<div class=\"cols\">");
        draw_items(h, card->items, card->count);
        lml_html_put(h, "</div>\n");
    } else {
        draw_items(h, card->items, card->count);
    }
    lml_html_put(h, "</article>\n");
}
