/* A finished run as JSON text: results, settings, sheets, remarks. */
#ifndef LML_REPORT_RESULT_H
#define LML_REPORT_RESULT_H

#include "run/run.h"

/* The two values that lml_work_job_run left are on top of the stack. Appends to `b`; *stopped is
 * whether a remark withholds anything. LML_NO_MEMORY, LML_LIMIT, LML_BAD_RECIPE (a result that is
 * nested too deep). */
lml_status lml_result_write(lml_run *run, lml_builder *b, bool *stopped, lml_error *err);

#endif
