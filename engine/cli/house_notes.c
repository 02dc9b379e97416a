#include "cli/house_notes.h"

#include "cli/ask.h"
#include "sheet/layout.h"

/* A house's units do not concern that recipe. */
static const char STUDIO[] = "{\"recipe\":\"studio\",\"house\":{\"units\":{}}}";

static void tell(const lml_call *call, const lml_json *result, lml_builder *out)
{
    lml_layout layout = {.out = out, .width = call->width, .bold = call->bold};
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r))
        if (lml_span_is(lml_json_text(lml_json_member(r, "level")), "note"))
            lml_layout_text(&layout, 2, lml_json_text(lml_json_member(r, "text")));
}

lml_status lml_house_notes_tell(const lml_call *call, const lml_kit *kit, lml_builder *out,
                                lml_error *err)
{
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = "house.json"};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    lml_error ignored;
    bool stopped = false;
    lml_builder_add_text(&job.text, STUDIO);
    lml_status status = lml_builder_status(&job.text, err);
    if (status == LML_OK && lml_ask_run(kit, &job, &answer, &stopped, &ignored) == LML_OK)
        status = lml_ask_parse(call, &answer, &result, err);
    if (result)
        tell(call, lml_json_root(result), out);
    lml_json_free(result);
    lml_builder_free(&answer);
    lml_builder_free(&job.text);
    return status;
}
