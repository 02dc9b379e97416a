/* Escape: the one way by which a text of a job, house or recipe gets into HTML or SVG.
 *
 * No element, attribute or entity can come of it, between tags or within a quoted attribute.
 * Control characters, the marks that turn the direction of writing, and what is no UTF-8 become
 * '?', as on a terminal.
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
