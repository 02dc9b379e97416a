#include "cli/about.h"
#include "cli/work.h"

static lml_status put_about(lml_call *call, const lml_json *about, const char *from, lml_error *err)
{
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_work_put(&w, about);
        return lml_work_end(&w, err);
    }
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    lml_about_draw(&layout, about, from);
    return lml_builder_status(&call->out, err);
}

lml_status lml_cmd_inspect(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words != 1) {
        lml_fail(err, LML_USAGE, "lemel inspect wants one recipe");
        return lml_error_hint(err, "lemel recipes lists the recipes within reach");
    }
    lml_target target = lml_find_recipe(a->word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *about = NULL;
    lml_status status = lml_find_kit(call, &target, &kit, err);
    const lml_kit_text *text = NULL;
    if (status == LML_OK) {
        text = lml_kit_find(&kit, LML_PUT_RECIPE, target.recipe);
        status = lml_work_inspect(&kit, text->name, &answer, err);
    }
    if (status == LML_OK)
        status = lml_work_parse(call, &answer, &about, err);
    if (status == LML_OK)
        status = put_about(call, lml_json_root(about), text->from, err);
    lml_json_free(about);
    lml_builder_free(&answer);
    lml_kit_free(&kit);
    return status;
}
