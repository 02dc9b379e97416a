/* Reason: prints where a figure comes from, as a tree from the figure down.
 *
 *     lml_reason_print(call, report, 3, err);
 */
#ifndef LML_PRINT_REASON_H
#define LML_PRINT_REASON_H

#include "file/json.h"
#include "terminal/call.h"

/* `report` as lml_engine_why gives it; steps deeper than `depth` are counted, not shown. */
lml_status lml_reason_print(lml_call *call, const lml_json *report, size_t depth, lml_error *err);

#endif
