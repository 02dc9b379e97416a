/* Page: shared state of the parts of a sheet while it is drawn.
 *
 * The bench and the metal statement are working papers: they have boxes to fill in by hand, codes,
 * and the commands that confirm an open point. The client's page has none of these.
 */
#ifndef LML_SHEET_PAGE_H
#define LML_SHEET_PAGE_H

#include "sheet/entries.h"
#include "file/json.h"
#include "sheet/days.h"
#include "sheet/layout.h"

enum { LML_PAGE_STARTS = 64 };

typedef struct lml_page {
    lml_layout layout;
    const lml_json *result;
    bool working;                          /* for the studio's own eyes */
    bool head;                             /* stops and open points stand at its head */
    bool terse;                            /* worked by at the bench: facts go into one paragraph */
    const lml_json *entries;               /* all of this page; NULL for what stands on none */
    lml_entries_asides asides;             /* its remarks beside a line */
    lml_span recipe;                       /* whose entries are being drawn */
    lml_span typed;                        /* settings that the job was run with, to be copied */
    size_t start[LML_PAGE_STARTS], starts; /* where in the text its parts and headings begin */
} lml_page;

/* Days as this page writes them: a letter says the year. */
static inline lml_days lml_page_days(const lml_page *page)
{
    lml_days days = lml_days_of(page->result);
    if (!page->working)
        days.year = 0;
    return days;
}

#endif
