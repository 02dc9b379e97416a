/* Escape: every text of a job, house or recipe goes into HTML or SVG through this.
 *
 * It cannot produce an element, attribute or entity, between tags or within a quoted attribute.
 * Control characters, marks that change the writing direction, and invalid UTF-8 become '?', as on
 * a terminal.
 *
 *     lml_escape_put(out, lml_span_of("a < b"));      a &lt; b
 */
#ifndef LML_SHEET_ESCAPE_H
#define LML_SHEET_ESCAPE_H

#include "base/text.h"

void lml_escape_put(lml_builder *out, lml_span text);
/* The text of a member of a record; nothing where it has none. */
struct lml_json;
void lml_escape_put_member(lml_builder *out, const struct lml_json *record, const char *name);

#endif
