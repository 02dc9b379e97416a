/* What a line says after its label, as one text: its figure, its limits, when it is done.
 */
#ifndef LML_SHEET_LINE_TEXT_H
#define LML_SHEET_LINE_TEXT_H

#include "sheet/days.h"

/* A figure as it is printed: a moment as a day and a clock, a long time in hours and minutes. */
void lml_line_text_put_figure(lml_days days, const lml_json *figure, lml_builder *out);
/* All of the line; nothing where it has none of that. `before` is the line above it in a list, NULL
 * without one: a day is said once. */
void lml_line_text_put(lml_days days, const lml_json *line, const lml_json *before,
                       lml_builder *out);
/* What the record holds for it: "37.66 g   Thu 26 Nov 14:50"; nothing where it holds nothing. */
void lml_line_text_put_recorded(lml_days days, const lml_json *line, lml_builder *out);

#endif
