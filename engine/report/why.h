/* Why: how a figure of a traced run was calculated, as the steps that lead to it.
 *
 *     lml_why_write(&run, "price", &w, err);        run.box.trace recorded it
 */
#ifndef LML_REPORT_WHY_H
#define LML_REPORT_WHY_H

#include "file/json_write.h"
#include "run/run.h"

/* The part of the recipe stands on top of the stack, as lml_work_job_run leaves it. The members:
 * see lml_engine_why. LML_NOT_FOUND with the nearest name, or saying that it is withheld. */
lml_status lml_why_write(lml_run *run, const char *figure, lml_json_writer *w, lml_error *err);

/* The steps of all figures of the part at the index, as the member "why" of its result: "figures",
 * by name the place of their first step; "steps" and "whole" as of one. Figures that nobody knows
 * steps of, and those withheld, are left out. Raises. */
void lml_why_put_all(lua_State *L, lml_json_writer *w, int part);
/* Raise unless each number and value that the part at the index gives by itself has steps, and the
 * first is that figure. */
void lml_why_check(lua_State *L, int part);

#endif
