/* The pages of a part as JSON: entries, with what a stop withholds left blank wherever it was
 * printed. All may raise; the writer is the caller's.
 */
#ifndef LML_REPORT_RESULT_SHEET_H
#define LML_REPORT_RESULT_SHEET_H

#include "file/json_write.h"
#include "run/run.h"

/* The entries of a page, those of the parts within it included, as a list. */
void lml_result_sheet_put(lua_State *L, lml_json_writer *w, int part, const char *page);
bool lml_result_sheet_has_entries(lua_State *L, int part, const char *page);
/* The members of a remark; the record is open. */
void lml_result_sheet_put_remark(lua_State *L, lml_json_writer *w, int part, int remark);
/* The names that a remark withholds, as "recipe.name": a member of the record that is open. */
void lml_result_sheet_put_withholds(lua_State *L, lml_json_writer *w, int part, int remark);

#endif
