/* Record gate: what was done although its gate was shut, and what was recorded and never done.
 *
 *     s = lml_record_gate_check(alloc, known->result, name, at, err);   "lit" while it is DO NOT
 *     s = lml_record_gate_check_back(record, entry, name, err);    "not poured" takes "poured" back
 */
#ifndef LML_PAPERS_RECORD_GATE_H
#define LML_PAPERS_RECORD_GATE_H

#include "base/builder.h"
#include "file/json.h"
#include "lemel.h"

/* Why the box of that name, which is ticked, may not be ticked at that moment: it is withheld on
 * the sheets, boxes above it are still empty, or what was read is too old; nothing is added: it
 * may. */
void lml_record_gate_shut(const lml_json *result, lml_span name, const char *at, lml_builder *why);
/* LML_STOPPED where it may not. */
lml_status lml_record_gate_check(const lml_alloc *alloc, const lml_json *result, lml_span name,
                                 const char *at, lml_error *err);

/* "not poured" needs a "poured" before it that was not taken back yet, and none behind it, which
 * would count on; what was weighed is weighed again. LML_USAGE. */
lml_status lml_record_gate_check_back(const lml_json *record, const lml_entry *entry, lml_span name,
                                      lml_error *err);

#endif
