/* Sheet: a finished result drawn as text, for the bench, the client and the metal account.
 *
 * It draws the result and calculates nothing: figures arrive as text in the house's units. A
 * withheld figure prints as DO NOT with its reason. Everything is there without colour; with `bold`
 * the figures to copy and the words DO NOT are bold besides.
 *
 *     lml_sheet_look look = { .page = NULL, .width = 80 };
 *     lml_sheet_draw(lml_json_root(result), &look, &builder, err);
 */
#ifndef LML_SHEET_SHEET_H
#define LML_SHEET_SHEET_H

#include "file/json.h"

typedef struct lml_sheet_look {
    const char *page; /* "bench", or several: "client,metal"; NULL for all with content */
    size_t width;     /* columns; less than 40 counts as 40 */
    bool bold;
    bool landscape; /* two columns of text side by side, 160 wide, never bold: for paper */
    lml_span typed; /* settings of the command line that the job was run with, to be copied */
} lml_sheet_look;

/* Whether a page of this name holds anything. */
bool lml_sheet_has(const lml_json *result, const char *page);
/* Draw one page or all. A result without any page draws its results as lines. Remarks that are on
 * no page follow at the end of the bench sheet, or of the last page when there is none. LML_FAULT
 * when `result` is not a result; LML_NOT_FOUND when the page asked for holds nothing;
 * LML_NO_MEMORY, LML_LIMIT. */
lml_status lml_sheet_draw(const lml_json *result, const lml_sheet_look *look, lml_builder *out,
                          lml_error *err);
/* Draw the stops and open points that lml_sheet_draw with the same look leaves out; with
 * `nothing_drawn` all of them, and the cautions. Else a caution goes with its page. */
lml_status lml_sheet_draw_unseen(const lml_json *result, const lml_sheet_look *look,
                                 bool nothing_drawn, lml_builder *out, lml_error *err);

#endif
