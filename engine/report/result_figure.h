/* One figure or text of a page, as JSON, in the unit that the house uses there. All may raise.
 */
#ifndef LML_REPORT_RESULT_FIGURE_H
#define LML_REPORT_RESULT_FIGURE_H

#include "file/json_write.h"
#include "run/run.h"

/* How a figure is printed: on which page; in which unit, or NULL for the house's; to which step, or
 * NULL. */
typedef struct lml_result_figure {
    const char *page, *unit;
    const lml_value *step;
} lml_result_figure;

/* The figure at index as a record. A unit that does not fit is ignored if `unit_may_fit`. */
void lml_result_figure_put(lua_State *L, lml_json_writer *w, int index, lml_result_figure how,
                           bool unit_may_fit);
/* The unit that the house sets for a kind on that page; empty if none. */
lml_span lml_result_figure_unit_of(lua_State *L, const char *kind, const char *page);
/* The members of the figure at index, in the house's form on that page; the record is open. */
void lml_result_figure_put_shown(lua_State *L, lml_json_writer *w, int index, const char *page);
/* The text field of an entry as a member, except the figures in it that are withheld. */
void lml_result_figure_put_words(lua_State *L, lml_json_writer *w, int part, int entry,
                                 const char *field);
/* The same of the text at the index. */
void lml_result_figure_put_words_at(lua_State *L, lml_json_writer *w, int part, int index,
                                    const char *called);

#endif
