#include "papers/paper.h"

/* Every value but the outermost has a byte of its own and one that parts it from the next. */
lml_status lml_paper_result(const lml_alloc *alloc, const lml_text *result, lml_json_document **out,
                            lml_error *err)
{
    lml_json_limits limits = {.size = result->length + 1, .nodes = result->length / 2 + 1};
    return lml_json_read(alloc, (lml_span){result->text, result->length}, &limits, "the result",
                         out, err);
}

lml_status lml_paper_take_both(lml_builder *text, lml_text *after, lml_builder *told,
                               lml_text *report, lml_status status, lml_error *err)
{
    if (status == LML_OK)
        status = lml_builder_status(told, err);
    status = lml_output_take(text, status, after, err);
    return lml_output_take(told, status, report, err);
}
