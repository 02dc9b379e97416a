/* Work: runs a recipe and the recipes it uses.
 *
 * For every recipe that takes part it builds `job` and `house`, calls `work`, checks the results,
 * runs the gates, and keeps a part for the sheets.
 *
 *     lml_work_job_run(run, "need", err);      its results and its part are on the stack
 */
#ifndef LML_RUN_WORK_H
#define LML_RUN_WORK_H

#include "run/run.h"

/* Values on the stack below a recipe when it starts, the same in a job and in a proof: the depth
 * must not reveal which of the two it is in. */
enum { LML_WORK_HEIGHT = 8 };
/* The length of the stack then: from there it grows by doubling. */
enum { LML_WORK_STACK = 2000 };

/* Run `recipe` from run->given. On success two values are on the stack: nothing but in a traced
 * run, where it is the results (a record view), and the part. */
lml_status lml_work_job_run(lml_run *run, const char *recipe, lml_error *err);

/* Behind a job's own recipe that ended with an error: push its part, and say from which step of a
 * traced run the error came; 0: from none. False, and nothing, where no recipe had begun. Inside a
 * protected call. */
bool lml_work_push_ended(lua_State *L, uint32_t *step);

/* As lml_work_job_run, without running: every figure of the job is read and checked. */
lml_status lml_work_job_check(lml_run *run, const char *recipe, lml_error *err);
/* For use inside a protected call: run a recipe with the arguments at index `arguments` (a table),
 * or from run->given when it is 0, under the part at index `parent` (0: none). Pushes results and
 * part, which is nil where the answer of an earlier run is reused and nothing stops. Raises. */
void lml_work_recipe(lua_State *L, const char *name, int arguments, int parent);

#endif
