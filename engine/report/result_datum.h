/* One checked value of Lua as a datum of a result. All may raise; the writer is the caller's.
 */
#ifndef LML_REPORT_RESULT_DATUM_H
#define LML_REPORT_RESULT_DATUM_H

#include "file/json_write.h"
#include "run/run.h"

/* The figures and remarks written so far in the current result, and where. The same figure is on
 * several pages: its members are copied from the first place. */
enum { LML_RESULT_FIGURES = 256, LML_RESULT_REMARKS = 64 };
typedef struct lml_result_figures {
    const lml_builder *to;
    struct {
        lml_value value, shown;
        size_t place, length; /* 0: nothing yet */
    } figure[LML_RESULT_FIGURES];
    struct {
        const void *entry;
        size_t place, length;
        uint64_t cost;            /* in steps */
    } remark[LML_RESULT_REMARKS]; /* is on its page, and in the list of all */
} lml_result_figures;

void lml_result_figures_begin(lml_result_figures *all, const lml_builder *to);

/* The members of the datum of the checked value at index; the record is open. `shown` is the same
 * value in the unit of a sheet, or NULL. LML_BAD_RECIPE when it is nested too deep. */
void lml_result_datum_put(lua_State *L, lml_json_writer *w, int index, const lml_value *shown);
void lml_result_datum_put_text(lua_State *L, lml_json_writer *w, int index);
/* The text field of the table as a member; false, and nothing, when it has none. */
bool lml_result_datum_put_field(lua_State *L, lml_json_writer *w, int table, const char *field);

#endif
