#include "sheet/height.h"

#include "sheet/height_item.h"
#include "sheet/html_line.h"
#include "sheet/typeset.h"

#include <math.h>

enum {
    SPARE = 1,  /* millimetres, for what a browser sets otherwise */
    LEAST = 4,  /* a card begins on a sheet of which this part is left */
    PIECES = 3, /* to a column */
};

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static double most(double a, double b)
{
    return a > b ? a : b;
}

static double lines_of(lml_span text, double points, bool bold, double width)
{
    lml_typeset t = {.width = width, .lines = 1};
    lml_typeset_run(&t, text, points, bold);
    return t.lines;
}

/* ---- cards ------------------------------------------------------------------------------------
 */

/* Items in two columns, as low as they can be. */
static double columns_height(const lml_height_sight *s, const lml_item *items, size_t count)
{
    double all = 0, left = 0;
    for (size_t i = 0, n; i < count; i += n)
        all += lml_height_item_of(s, items + i, count - i, &n);
    double best = all;
    for (size_t i = 0, n; i < count; i += n) {
        left += lml_height_item_of(s, items + i, count - i, &n);
        best = most(left, all - left) < best ? most(left, all - left) : best;
    }
    return best;
}

static bool is_wide(const lml_item *item)
{
    return (lml_html_is(item->entry, "curve") || lml_html_is(item->entry, "flow")) &&
           !lml_html_withheld(item->entry);
}

static double card_height(const lml_html *h, const lml_card *card, unsigned density)
{
    lml_height_sight s = {h, density, (h->width - 4) / 2, false};
    bool titled = card->title.length > 0 && (!card->remarks || card->holds);
    double high = lml_height_item_title(density, titled);
    if (!card->wide) {
        double width = card->across ? 2 : 1;
        for (size_t i = 0, n; i < card->count; i += n) {
            high += lml_height_item_of(&s, card->items + i, card->count - i, &n) / width;
            s.headed = card->items[i].is == LML_ITEM_HEADING;
        }
        return high;
    }
    size_t at = 0, n;
    while (!is_wide(&card->items[at]))
        at++;
    high += 1.4 + columns_height(&s, card->items, at);
    high += lml_height_item_of(&s, card->items + at, card->count - at, &n);
    return high + columns_height(&s, card->items + at + n, card->count - at - n);
}

/* Cautions below a picture across the page: they stand at the head of either column. */
static bool is_below_picture(const lml_cards *cards, size_t at)
{
    return at > 0 && cards->cards[at - 1].wide && cards->cards[at].remarks;
}

/* Where the second of two columns begins, so that the higher one is as low as it can be. Cautions
 * that end a page belong to no step, and stand where there is room. */
static lml_height_columns split(const lml_html *h, const lml_cards *cards, size_t from, size_t to,
                                unsigned density)
{
    double all = 0, left = 0, loose = 0;
    bool floats = to - from > 1 && to == cards->count && cards->cards[to - 1].last &&
                  cards->cards[to - 1].remarks;
    if (floats)
        loose = card_height(h, &cards->cards[--to], density);
    for (size_t i = from; i < to; i++)
        all += card_height(h, &cards->cards[i], density);
    if (to - from == 1 && cards->cards[from].remarks)
        all /= 2; /* it goes across */
    lml_height_columns best = {.second = to, .high = most(all, loose)};
    double first = is_below_picture(cards, from) ? card_height(h, &cards->cards[from], density) : 0;
    for (size_t i = from; i + 1 < to; i++) {
        left += card_height(h, &cards->cards[i], density);
        for (int over = 0; over <= (i > from && first > 0); over++) {
            double one = left - over * first, other = all - one;
            bool under = floats && one < other;
            double high = most(one + (under ? loose : 0), other + (under ? 0 : loose));
            if (high < best.high)
                best = (lml_height_columns){i + 1, under, over, high};
        }
    }
    return best;
}

lml_height_columns lml_height_split(const lml_html *h, const lml_cards *cards, size_t from,
                                    size_t to)
{
    return split(h, cards, from, to, h->density);
}

static double cards_height(const lml_html *h, const lml_cards *cards, size_t from, size_t to,
                           unsigned density)
{
    double high = 0;
    size_t run = from;
    for (size_t i = from; i <= to; i++) {
        if (i < to && lml_html_part_beside(h, &cards->cards[i]))
            continue;
        if (i > run)
            high += split(h, cards, run, i, density).high;
        if (i < to)
            high += card_height(h, &cards->cards[i], density);
        run = i + 1;
    }
    return high;
}

/* ---- sheets of paper --------------------------------------------------------------------------
 */

/* h1 and .which b: 15pt, .d2 11.5pt, of lines of 1.08, four at most; header.work p: 8pt, .d2 7.2pt,
 * of lines of 1.22; gaps of 6mm and, .d2, 4mm. .381 and .43 are those lines in millimetres a point.
 * What the rule below and the word before the file take is fitted in Chromium, November 2026. */
static double head_height(const lml_html *h, unsigned density)
{
    bool dense = density == LML_HEIGHT_DENSEST;
    const lml_json *job = member(h->result, "job");
    lml_span title = lml_html_text(job, "title");
    title = title.length > 0 ? title : lml_html_text(job, "recipe");
    lml_span file = lml_html_file(h->result);
    double points = dense ? 11.5 : 15, below = dense ? 7.2 : 8;
    double which = lml_typeset_width(file, 7, false) + (dense ? 14.8 : 14) + 6;
    double title_wide = lml_typeset_width(title, points, true), rest = most(h->width - which, 20);
    double about =
        lml_typeset_width(lml_html_text(member(h->result, "house"), "name"), below, false) +
        lml_typeset_width(lml_html_text(job, "client"), below, false) +
        lml_typeset_width(lml_span_of(" . for  . Wed 24 Nov 2026"), below, false);
    double lines = lines_of(title, points, true, rest);
    double high = (lines > 4 ? 4 : lines) * points * .381 + (dense ? 2.1 : 2.6);
    if (!dense || title_wide + 4.1 + about > rest)
        high += (about > rest ? 2 : 1) * below * .43;
    return high;
}

/* Reasons are estimated a little too high: by no more than this do they not fill a sheet. */
enum { SLACK = 10 };

lml_height_page lml_height_page_of(const lml_html *h, double reasons, double foot)
{
    lml_height_page page = {h->height - reasons, h->height, foot, 0};
    double head = head_height(h, 0) - SLACK;
    for (; page.room < head && page.later > head; page.room += page.later)
        page.before++;
    return page;
}

/* How many items, of those drawn together, stand in one piece no higher than that. */
static size_t piece_of(const lml_height_sight *s, const lml_item *items, size_t count,
                       double most_high)
{
    size_t n;
    double high = lml_height_item_of(s, items, count, &n);
    bool rows = n > 1 && (items[0].row || lml_html_line_is(&items[0]));
    size_t pieces = rows && high > most_high ? (size_t)ceil(high / most_high) : 1;
    return (n + pieces - 1) / pieces;
}

/* The item at which a card that starts here is to end, before what no longer goes into it. A
 * heading stays with what it is above. */
static size_t end_of_piece(const lml_height_sight *s, const lml_card *card, double most_high)
{
    double high = 0;
    for (size_t at = 0, n, all; at < card->count; at += n) {
        n = piece_of(s, card->items + at, card->count - at, most_high);
        high += lml_height_item_of(s, card->items + at, n, &all);
        bool headed = at > 0 && card->items[at - 1].is == LML_ITEM_HEADING;
        if (at > (headed ? 1 : 0) && high > most_high)
            return at - headed;
    }
    return card->count;
}

void lml_height_cut(const lml_html *h, lml_cards *cards, lml_height_page page)
{
    lml_height_sight s = {h, 0, (h->width - 4) / 2, false};
    double head = head_height(h, 0) + SPARE;
    double room = most(page.room - head, (page.later - head) / LEAST);
    for (size_t i = 0; i < cards->count; i++) {
        lml_card *card = &cards->cards[i];
        bool whole = !card->goes_on && card_height(h, card, 0) <= room;
        if (!whole && lml_html_part_beside(h, card))
            lml_html_part_split(cards, i, end_of_piece(&s, card, room / PIECES));
    }
}

/* Cards are put onto a sheet of paper while there is room; the number of sheets. */
static unsigned break_pages(const lml_html *h, lml_cards *cards, lml_height_page page,
                            unsigned density)
{
    double head = head_height(h, density) + SPARE;
    double room = page.room - head, later = page.later - head, foot = page.foot;
    unsigned pages = 1;
    size_t from = 0;
    for (size_t i = 0; i < cards->count; i++) {
        bool last = i + 1 == cards->count;
        double high = cards_height(h, cards, from, i + 1, density);
        bool full = i == 0 && room < later / LEAST; /* of reasons */
        cards->cards[i].breaks = (i > from || full) && high + (last ? foot : 0) > room;
        if (!cards->cards[i].breaks)
            continue;
        from = i;
        room = later;
        pages++;
    }
    return pages;
}

unsigned lml_height_choose(const lml_html *h, lml_cards *cards, lml_height_page page,
                           unsigned *density)
{
    unsigned pages[LML_DENSITIES];
    *density = 0;
    for (unsigned d = 0; d < LML_DENSITIES; d++) {
        pages[d] = break_pages(h, cards, page, d);
        *density = pages[d] < pages[*density] ? d : *density;
    }
    break_pages(h, cards, page, *density);
    return page.before + pages[*density];
}

double lml_height_remark(const lml_html *h, const lml_json *remark)
{
    lml_height_sight s = {h, 0, h->width, false};
    return lml_height_item_remark(&s, remark);
}

/* Markup between < and > is as wide as nothing. .end .foot: 6.6pt; .8 above it and lines of 2.75
 * are fitted in Chromium, November 2026. */
double lml_height_markup(const lml_html *h, lml_span markup)
{
    lml_typeset t = {.width = h->width, .lines = 1};
    while (markup.length > 0) {
        const char *tag = memchr(markup.at, '<', markup.length);
        size_t said = tag ? (size_t)(tag - markup.at) : markup.length;
        lml_typeset_run(&t, (lml_span){markup.at, said}, 6.7, false);
        const char *end = tag ? memchr(tag, '>', markup.length - said) : NULL;
        size_t done = end ? (size_t)(end + 1 - markup.at) : markup.length;
        markup = (lml_span){markup.at + done, markup.length - done};
    }
    return .8 + t.lines * 2.75;
}
