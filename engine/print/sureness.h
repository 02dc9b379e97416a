/* Sureness: prints how far off a job's figures may be.
 *
 *     lml_sureness_print(call, "jobs/x.json", report, err);
 */
#ifndef LML_PRINT_SURENESS_H
#define LML_PRINT_SURENESS_H

#include "file/json.h"
#include "terminal/call.h"

/* `report` is the record that lml_sure_write fills. */
lml_status lml_sureness_print(lml_call *call, const char *job, const lml_json *report,
                              lml_error *err);

/* A first estimate, to be improved by more runs: a line for each figure. */
lml_status lml_sureness_print_first(lml_call *call, const lml_json *report, lml_error *err);

#endif
