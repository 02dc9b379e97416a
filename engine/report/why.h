/* Why: how a figure of a run that was traced came about, as the steps that lead to it.
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

#endif
