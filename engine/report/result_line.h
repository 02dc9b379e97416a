/* Lines of a page as JSON: what is read, weighed, set, measured or ticked. All may raise.
 */
#ifndef LML_REPORT_RESULT_LINE_H
#define LML_REPORT_RESULT_LINE_H

#include "file/json_write.h"
#include "run/run.h"

/* The reading of a tared scale as lots are added to it. Start with a zeroed one for each list of
 * entries. */
typedef struct lml_result_ladder {
    lua_Integer end; /* where the total is that ends the run; 0 outside of one */
    lml_value shows; /* so far; not yet while `begun` is false */
    bool begun;
} lml_result_ladder;

/* Whether a ladder begins or continues at the entry `i` of the list. To be called for each in
 * turn. */
void lml_result_line_step(lua_State *L, lml_result_ladder *ladder, int part, int entries,
                          lua_Integer i);
/* The members of a line or total; the record is open. */
void lml_result_line_put(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, int part,
                         int entry, const char *page);

#endif
