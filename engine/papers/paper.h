/* Paper: what the functions of this floor share. Each takes texts and gives texts; of the engine
 * they use its memory alone. */
#ifndef LML_PAPERS_PAPER_H
#define LML_PAPERS_PAPER_H

#include "base/text.h"
#include "file/json.h"
#include "lemel.h"

/* Read a result of lml_engine_run, however long it is. LML_BAD_DATA. */
lml_status lml_paper_result(const lml_alloc *alloc, const lml_text *result, lml_json_document **out,
                            lml_error *err);
/* Hand a builder's text over, or free it when `status` or its own is not LML_OK. `out` NULL: nobody
 * wants it. */
lml_status lml_paper_take(lml_builder *b, lml_status status, lml_text *out, lml_error *err);
/* The same for the new text of a paper and the report on it: both are handed over, or neither. */
lml_status lml_paper_take_both(lml_builder *text, lml_text *after, lml_builder *told,
                               lml_text *report, lml_status status, lml_error *err);

#endif
