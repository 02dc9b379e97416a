/* Page: what the parts of one sheet share while it is drawn.
 *
 * The bench and the metal statement are working papers: they have boxes to fill in by hand, codes,
 * and the words that settle an open point. The client's page has none of these.
 */
#ifndef LML_SHEET_PAGE_H
#define LML_SHEET_PAGE_H

#include "file/json.h"
#include "sheet/layout.h"

enum { LML_PAGE_STARTS = 64 };

typedef struct lml_page {
    lml_layout layout;
    const lml_json *result;
    bool working;                          /* for the studio's own eyes */
    bool terse;                            /* worked by at the bench: facts go into one paragraph */
    const lml_json *entries;               /* all of this page; NULL for what stands on none */
    lml_span recipe;                       /* whose entries are being drawn */
    size_t start[LML_PAGE_STARTS], starts; /* where in the text its parts and headings begin */
} lml_page;

#endif
