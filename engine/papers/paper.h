/* Paper: shared by the functions of this floor. Each takes texts and returns texts; of the engine
 * they use only its allocator. */
#ifndef LML_PAPERS_PAPER_H
#define LML_PAPERS_PAPER_H

#include "base/text.h"
#include "face/output.h"
#include "file/json.h"
#include "lemel.h"

/* Read a result of lml_engine_run, however long it is. LML_BAD_DATA. */
lml_status lml_paper_result(const lml_alloc *alloc, const lml_text *result, lml_json_document **out,
                            lml_error *err);
/* Hand over the new text of a paper and the report on it, as lml_output_take does: both, or
 * neither.
 */
lml_status lml_paper_take_both(lml_builder *text, lml_text *after, lml_builder *told,
                               lml_text *report, lml_status status, lml_error *err);

#endif
