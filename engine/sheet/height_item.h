/* Height of an item: how high a caution, a run of lines, a table or a picture comes out in a column
 * of a working page, as the other modules draw it and sheet.css sets it.
 */
#ifndef LML_SHEET_HEIGHT_ITEM_H
#define LML_SHEET_HEIGHT_ITEM_H

#include "sheet/html_page.h"

enum { LML_HEIGHT_DENSEST = LML_DENSITIES - 1 };

/* Where it stands. */
typedef struct lml_height_sight {
    const lml_html *h;
    unsigned density;
    double width; /* millimetres */
    bool headed;  /* a heading stands just above */
} lml_height_sight;

/* Of the items from the first on that are drawn together; `next` is how many those are. */
double lml_height_item_of(const lml_height_sight *s, const lml_item *items, size_t count,
                          size_t *next);
double lml_height_item_remark(const lml_height_sight *s, const lml_json *remark);
/* What a card has above and below its items. */
double lml_height_item_title(unsigned density, bool titled);

#endif
