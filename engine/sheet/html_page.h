/* Shared state of the parts of an HTML page while it is drawn.
 */
#ifndef LML_SHEET_HTML_PAGE_H
#define LML_SHEET_HTML_PAGE_H

#include "sheet/entries.h"
#include "sheet/days.h"
#include "sheet/escape.h"

/* One entry of a page, taken out of the parts around it. */
typedef enum lml_item_is {
    LML_ITEM_ENTRY,
    LML_ITEM_TITLE,   /* a part, or a heading outside of every part */
    LML_ITEM_HEADING, /* within one */
    LML_ITEM_BREAK    /* a part has ended */
} lml_item_is;

typedef struct lml_item {
    lml_item_is is;
    const lml_json *entry;
    const lml_json *row; /* of a grid on a bench page: each is an item */
    lml_span recipe;     /* whose it is */
    bool drawn;          /* beside a picture before it */
} lml_item;

/* A title and what stands under it. */
typedef struct lml_card {
    lml_span title;
    lml_item *items;
    size_t count;
    size_t headings;
    bool wide;    /* it has a curve or a flow */
    bool last;    /* of those of its page */
    bool breaks;  /* a new sheet of paper begins with it */
    bool remarks; /* it has nothing else */
    bool across;  /* it goes across the page although it has no picture */
    bool holds;   /* a stop or an open point is among them */
    bool goes_on; /* what the card before it began, which is taller than a sheet of paper */
} lml_card;

enum { LML_DENSITIES = 3 };

typedef struct lml_html {
    lml_builder *out;
    const lml_json *result, *entries;
    lml_entries_asides asides; /* remarks of the page beside a line */
    lml_span page;
    bool working; /* for the studio's own eyes */
    bool bench;   /* worked by: bench and piece */
    bool loose;   /* what the page's own recipe notes is at the foot */
    bool head;    /* stops and open points stand at the head of the page */
    lml_days days;
    lml_span typed;       /* settings that the job was run with, to be copied */
    const lml_json *said; /* the reason that a DO NOT of this card gave */
    bool headed;          /* a heading stands just above */
    unsigned ids, steps;  /* of hatchings; of titles */
    unsigned density;     /* 0 is the roomiest */
    double height;        /* the same, of one sheet of paper */
    double width;         /* millimetres within the margins */
} lml_html;

static inline void lml_html_put(lml_html *h, const char *markup)
{
    lml_builder_add_text(h->out, markup);
}

static inline lml_span lml_html_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The job's file with its folder, as heads name it: where the studio lies on this computer is
 * nobody's business, and takes a line. */
static inline lml_span lml_html_file(const lml_json *result)
{
    lml_span file =
        lml_html_text(lml_json_member(lml_json_member(result, "inputs"), "job"), "file");
    size_t at = file.length;
    for (int folders = 0; at > 0; at--)
        if (file.at[at - 1] == '/' && folders++ == 1)
            break;
    return (lml_span){file.at + at, file.length - at};
}

static inline bool lml_html_is(const lml_json *entry, const char *kind)
{
    return lml_span_is(lml_html_text(entry, "is"), kind);
}

static inline bool lml_html_acts(const lml_json *entry, const char *act)
{
    return lml_span_is(lml_html_text(entry, "act"), act);
}

static inline bool lml_html_withheld(const lml_json *entry)
{
    return lml_json_yes(lml_json_member(entry, "withheld"));
}

/* Millimetres, on a page that is more or less full: as high as leaves the bench page of a casting
 * on one sheet. A choice of ours, tried in Chromium, November 2026. */
static inline double lml_html_curve_high(unsigned density)
{
    return density == 0 ? 48 : density == 1 ? 43 : 34;
}
static inline double lml_html_section_high(unsigned density)
{
    return density == 0 ? 40 : density == 1 ? 36.5 : 33;
}

#endif
