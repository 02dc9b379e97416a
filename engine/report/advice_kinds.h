/* What the kinds of names tell before a run: part of what lemel check says.
 *
 *     job.aa, sheet.clent, use.need { waxx = ... }     no such name, through locals too
 *     sheet.client:lin(...), job.worked:upto "1 h"     no such method
 *     wax < 3, wax == "2 g", job.how == "maybe"        compared with what it never equals
 *     wax + price, labour + 25                         kinds that no sum has
 *     sheet:stop("x", "...", { "chrage" })             withholds what is no give
 */
#ifndef LML_REPORT_ADVICE_KINDS_H
#define LML_REPORT_ADVICE_KINDS_H

#include "report/advice_names.h"
#include "run/run.h"

/* `tell_wrong` gets the reason of a refusal, and what no run gets past. LML_NO_MEMORY. */
lml_status lml_advice_kinds(lml_run *run, lml_span source, const lml_recipe *recipe,
                            lml_advice_tell *tell, lml_advice_tell *tell_wrong, void *self,
                            lml_error *err);

#endif
