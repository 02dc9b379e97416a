/* Record gate: what was done although its gate was shut, and what was recorded and never done.
 *
 *     s = lml_record_gate_check(known->result, name, err);      "lit" while the sheet says DO NOT
 *     s = lml_record_gate_check_back(record, name, at, err);    "not poured" takes "poured" back
 */
#ifndef LML_PAPERS_RECORD_GATE_H
#define LML_PAPERS_RECORD_GATE_H

#include "file/json.h"

/* Why the box of that name, which is ticked, is withheld on the sheets; empty: it is not. */
lml_span lml_record_gate_shut(const lml_json *result, lml_span name);
/* LML_STOPPED where it is. */
lml_status lml_record_gate_check(const lml_json *result, lml_span name, lml_error *err);

/* Of an entry of that moment: "not poured" needs a "poured" before it that was not taken back yet,
 * and what was weighed is weighed again. LML_USAGE. */
lml_status lml_record_gate_check_back(const lml_json *record, lml_span name, const char *at,
                                      lml_error *err);

#endif
