/* Facts: lines of a working page that are only read, in one paragraph.
 */
#ifndef LML_SHEET_FACT_H
#define LML_SHEET_FACT_H

#include "sheet/page.h"

/* A line that is read, and neither acted on, recorded, printed large, timed nor withheld. */
bool lml_fact_is(const lml_json *line);
/* Those up to, not including, `end`: "Metal: yellow 14K; Crucible: small, 71 % full". */
void lml_fact_draw(lml_page *page, const lml_json *first, const lml_json *end);

#endif
