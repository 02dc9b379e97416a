/* HTML: sheets of a result as one file for a browser to show and print.
 *
 * It has no script and loads nothing: style and pictures are in it, its policy forbids everything
 * else, and every text goes through lml_escape_put. It draws the result and calculates nothing of
 * the trade. Black on white. It is well-formed XML too.
 *
 *     lml_html_look look = {.pages = "bench,piece", .paper = LML_PAPER_A4};
 *     lml_html_draw(lml_json_root(result), &look, &builder, err);
 */
#ifndef LML_SHEET_HTML_H
#define LML_SHEET_HTML_H

#include "file/json.h"

typedef enum lml_html_paper { LML_PAPER_OF_HOUSE, LML_PAPER_A4, LML_PAPER_LETTER } lml_html_paper;

typedef struct lml_html_look {
    const char *pages; /* as lml_entries_names reads them; NULL for all with content */
    lml_html_paper paper;
    lml_span typed; /* settings of the command line that the job was run with, to be copied */
} lml_html_look;

/* LML_FAULT when `result` is not a result; LML_NOT_FOUND when there is nothing on the pages asked
 * for; LML_NO_MEMORY, LML_LIMIT. */
lml_status lml_html_draw(const lml_json *result, const lml_html_look *look, lml_builder *out,
                         lml_error *err);

/* The style sheet, which the build makes of sheet.css. */
extern const char lml_html_style[];

#endif
