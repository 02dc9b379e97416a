#include "cli/house_notes.h"

#include "cli/ask.h"
#include "sheet/layout.h"
#include "studio/find.h"

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

/* What the recipe of a studio gives; empty where it refuses the house. */
static lml_status run(const lml_call *call, const lml_kit *kit, lml_builder *answer, lml_error *err)
{
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = "house.json"};
    lml_error ignored;
    bool stopped = false;
    lml_builder_add_text(&job.text, STUDIO);
    lml_status status = lml_builder_status(&job.text, err);
    if (status == LML_OK && lml_ask_run(kit, &job, answer, &stopped, &ignored) != LML_OK)
        answer->length = 0;
    lml_builder_free(&job.text);
    return status;
}

lml_status lml_house_notes_tell(const lml_call *call, const lml_kit *kit, lml_builder *out,
                                lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    lml_status status = run(call, kit, &answer, err);
    if (status == LML_OK && answer.length > 0)
        status = lml_ask_parse(call, &answer, &result, err);
    if (result)
        tell(call, lml_json_root(result), out);
    lml_json_free(result);
    lml_builder_free(&answer);
    return status;
}

static lml_status ask_next(lml_session *s, lml_builder *asked, bool *any, lml_error *err)
{
    lml_kit kit = lml_kit_on(&s->call->alloc);
    lml_builder answer = lml_builder_on(&s->call->alloc, 0);
    lml_status status = lml_find_kit(s->call, NULL, &kit, err);
    if (status == LML_OK)
        status = run(s->call, &kit, &answer, err);
    *any = false;
    const lml_text ran = {.text = answer.at, .length = answer.length};
    if (status == LML_OK && answer.length > 0)
        status = lml_session_mend(s, &ran, asked, any, err);
    lml_builder_free(&answer);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_house_notes_ask(lml_session *s, lml_error *err)
{
    lml_builder asked = lml_builder_on(&s->call->alloc, 0);
    lml_status status = LML_OK;
    for (bool any = true; status == LML_OK && any && !s->ended;)
        status = ask_next(s, &asked, &any, err);
    lml_builder_free(&asked);
    return status;
}
