/* A finished run as JSON text: results, settings, sheets, remarks. */
#ifndef LML_REPORT_RESULT_H
#define LML_REPORT_RESULT_H

#include "file/json_write.h"
#include "run/run.h"

/* The two values that lml_work_job_run left are on top of the stack. Appends to `b`; *stopped is
 * whether a remark withholds anything. LML_NO_MEMORY, LML_LIMIT, LML_BAD_RECIPE (a result that is
 * nested too deep). */
lml_status lml_result_write(lml_run *run, lml_builder *b, bool *stopped, lml_error *err);
/* The same for results that are only compared: "worked" (the recipes' names), "stopped", "results",
 * "withheld", and of "remarks" the level and code of each that withholds something. */
lml_status lml_result_write_bare(lml_run *run, lml_builder *b, bool *stopped, lml_error *err);
/* "worked": the recipes, with the one they were used by, and scripts, in the order in which they
 * took part. May raise. */
void lml_result_put_worked(lua_State *L, lml_json_writer *w);

/* Push the text of a setting as a result has it, of the value at index. Raises. */
void lml_result_push_setting(lua_State *L, int value, const char *from);

#endif
