#include "sheet/height.h"

#include "base/letter.h"
#include "sheet/html_line.h"
#include "sheet/html_box.h"
#include "sheet/picture_small.h"

/* Millimetres, by density: as sheet.css has them. */
static const double row_high[LML_DENSITIES] = {9.3, 8.2, 7.2},
                    box_high[LML_DENSITIES] = {8.2, 7.6, 7},
                    small_line[LML_DENSITIES] = {2.95, 2.8, 2.6}, gap[LML_DENSITIES] = {1.4, 1, .6},
                    curve_high[LML_DENSITIES] = {48, 43, 37},
                    section_high[LML_DENSITIES] = {40, 36.5, 33};
static const double small_letter = 1.27, letter = 1.47, fact_high = 4, head_high = 15;

static double lines_of(double letters, double letter_wide, double width)
{
    double lines = 1;
    for (double left = letters * letter_wide; left > width; left -= width)
        lines++;
    return lines;
}

static double letters(const lml_json *entry, const char *name)
{
    return (double)lml_letter_columns_of(lml_html_text(entry, name));
}

static double remark_height(const lml_json *remark, unsigned density, double width)
{
    double asked = letters(remark, "text"), why = letters(remark, "reason");
    double said = (why > 0 ? why + asked / 2 : asked) + 14; /* of a question its first clause */
    return lines_of(said, small_letter, width - 6) * small_line[density] +
           (density == 0 ? 1.1 : .7);
}

static double grid_height(const lml_json *grid, double width)
{
    double high = 4.5;
    size_t columns = lml_json_count(lml_json_member(grid, "columns"));
    const lml_json *row = lml_json_first(lml_json_member(grid, "rows"));
    for (; row; row = lml_json_next(row)) {
        double most = 1;
        for (const lml_json *c = lml_json_first(row); c; c = lml_json_next(c)) {
            double said = letters(c, "text") > 0 ? letters(c, "text") : letters(c, "value");
            double lines = lines_of(said, letter, width * 1.4 / (double)(columns + 1));
            most = lines > most ? lines : most;
        }
        high += most * 3.7 + 1.1;
    }
    return high + (lml_json_count(lml_json_member(grid, "total")) > 0 ? 5 : 0);
}

/* A line by itself; what is only read shares its row with its like. */
static double line_height(const lml_html *h, const lml_item *items, size_t at, size_t count,
                          unsigned density)
{
    const lml_json *line = items[at].entry;
    if (lml_html_line_is_timed(&items[at]))
        return lml_html_text(line, "record").length > 0 ? box_high[density] + 1 : 5;
    switch (lml_html_act_of(h, line)) {
    case LML_HTML_READ:
        if (h->working && lml_picture_small_can_show(line))
            return 12.8;
        if (lml_html_is(line, "total"))
            return 9.2; /* and the head of its ladder */
        return lml_json_yes(lml_json_member(line, "big")) ? 6 : fact_high * .75;
    case LML_HTML_MEASURE: {
        bool more = (at + 1 < count && lml_html_line_is(&items[at + 1]) &&
                     lml_html_act_of(h, items[at + 1].entry) == LML_HTML_MEASURE) ||
                    (at > 0 && lml_html_line_is(&items[at - 1]) &&
                     lml_html_act_of(h, items[at - 1].entry) == LML_HTML_MEASURE);
        return more && !lml_json_yes(lml_json_member(line, "big")) ? (box_high[density] + 8.5) / 3
                                                                   : row_high[density];
    }
    case LML_HTML_WEIGH:
        return row_high[density] + .3;
    case LML_HTML_SET:
        return row_high[density] - .8;
    case LML_HTML_TICK:
        return lml_json_member(line, "record") ? row_high[density] + 1.2 : 6;
    }
    return fact_high;
}

static double item_height(const lml_html *h, const lml_item *items, size_t at, size_t count,
                          unsigned density, double width)
{
    const lml_json *entry = items[at].entry;
    if (items[at].is == LML_ITEM_HEADING)
        return 4.4;
    if (lml_html_line_is(&items[at]))
        return line_height(h, items, at, count, density);
    if (lml_html_withheld(entry))
        return 8;
    if (lml_html_is(entry, "remark"))
        return remark_height(entry, density, width);
    if (lml_html_is(entry, "grid"))
        return grid_height(entry, width);
    if (lml_html_is(entry, "section"))
        return section_high[density];
    if (lml_html_is(entry, "curve"))
        return curve_high[density] + 13;
    if (lml_html_is(entry, "flow"))
        return 48;
    if (lml_html_is(entry, "sign"))
        return 20;
    return lines_of(letters(entry, "text"), letter, width) * 3.6 + .6;
}

/* A vessel stands beside the lines that follow it, up to the next clock: what these are higher. */
static double beside_section(const lml_card *card, size_t at, unsigned density, size_t *next)
{
    double high = 0;
    for (*next = at + 1; *next < card->count && lml_html_line_is(&card->items[*next]) &&
                         !lml_html_line_is_timed(&card->items[*next]);
         ++*next)
        high += lml_html_text(card->items[*next].entry, "record").length > 0
                    ? row_high[density] + 4.6
                    : fact_high;
    high += 1;
    return high > section_high[density] ? high : section_high[density];
}

static double card_height(const lml_html *h, const lml_card *card, unsigned density)
{
    double width = (h->width - 4) / 2,
           high = gap[density] + (card->title.length > 0 && !card->remarks ? 5.6 : 0);
    for (size_t i = 0, next; i < card->count; i = next) {
        next = i + 1;
        if (lml_html_is(card->items[i].entry, "section") &&
            !lml_html_withheld(card->items[i].entry)) {
            high += beside_section(card, i, density, &next);
            continue;
        }
        bool wide =
            lml_html_is(card->items[i].entry, "curve") || lml_html_is(card->items[i].entry, "flow");
        double one = item_height(h, card->items, i, card->count, density, width);
        high +=
            card->wide && !wide ? one / 2 : one; /* in two columns before and after the picture */
    }
    return high;
}

/* Where the second of two columns begins, so that the higher one is as low as it can be: its
 * height. */
static double split(const lml_html *h, const lml_cards *cards, size_t from, size_t to,
                    unsigned density, size_t *at)
{
    double all = 0, left = 0, best = 0;
    for (size_t i = from; i < to; i++)
        all += card_height(h, &cards->cards[i], density);
    best = all;
    *at = to;
    for (size_t i = from; i + 1 < to; i++) {
        left += card_height(h, &cards->cards[i], density);
        double higher = left > all - left ? left : all - left;
        if (higher < best) {
            best = higher;
            *at = i + 1;
        }
    }
    return best;
}

size_t lml_height_split(const lml_html *h, const lml_cards *cards, size_t from, size_t to)
{
    size_t at;
    split(h, cards, from, to, h->density, &at);
    return at;
}

static double cards_height(const lml_html *h, const lml_cards *cards, size_t from, size_t to,
                           unsigned density)
{
    double high = 0;
    size_t run = from;
    for (size_t i = from; i <= to; i++) {
        if (i < to && lml_html_part_beside(h, &cards->cards[i]))
            continue;
        size_t at;
        high += split(h, cards, run, i, density, &at);
        if (i < to)
            high += card_height(h, &cards->cards[i], density);
        run = i + 1;
    }
    return high;
}

/* Cards are put onto a sheet of paper while there is room; the number of sheets. */
static unsigned break_pages(const lml_html *h, lml_cards *cards, double room, double foot,
                            unsigned density)
{
    unsigned pages = 1;
    size_t from = 0;
    for (size_t i = 0; i < cards->count; i++) {
        bool last = i + 1 == cards->count;
        double high = head_high + cards_height(h, cards, from, i + 1, density);
        cards->cards[i].breaks = i > from && high + (last ? foot : 0) > room;
        if (!cards->cards[i].breaks)
            continue;
        from = i;
        pages++;
    }
    return pages;
}

unsigned lml_height_choose(const lml_html *h, lml_cards *cards, double room, double foot,
                           unsigned *density)
{
    unsigned pages[LML_DENSITIES];
    *density = 0;
    for (unsigned d = 0; d < LML_DENSITIES; d++) {
        pages[d] = break_pages(h, cards, room, foot, d);
        *density = pages[d] < pages[*density] ? d : *density;
    }
    break_pages(h, cards, room, foot, *density);
    return pages[*density];
}

double lml_height_remark(const lml_html *h, const lml_json *remark)
{
    return remark_height(remark, 0, h->width);
}
