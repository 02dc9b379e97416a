#include "cli/complain.h"
#include "cli/work.h"

static lml_status check_job(const lml_call *call, const lml_target *target, const lml_kit *kit,
                            lml_error *err)
{
    lml_job_text job;
    lml_status status = lml_work_read_job(call, target, &job, err);
    if (status != LML_OK)
        return status;
    status = lml_work_check(kit, &job, err);
    lml_builder_free(&job.text);
    return status;
}

/* To describe a recipe, all of its declaration has to be read and checked. */
static lml_status check_recipe(const lml_call *call, const lml_target *target, const lml_kit *kit,
                               lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    const lml_kit_text *text = lml_kit_find(kit, LML_PUT_RECIPE, target->recipe);
    lml_status status = lml_work_inspect(kit, text->name, &answer, err);
    lml_builder_free(&answer);
    return status;
}

static lml_status check(const lml_call *call, const char *word, lml_error *err)
{
    lml_target target = lml_find_target(word);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = target.kind == LML_TARGET_RECIPE ? check_recipe(call, &target, &kit, err)
                                                  : check_job(call, &target, &kit, err);
    lml_kit_free(&kit);
    return status;
}

static void put_finding(lml_json_writer *w, const char *word, const lml_error *error)
{
    lml_json_open_record(w);
    lml_json_put_member(w, "target", word);
    lml_json_put_name(w, lml_span_of("sound"));
    lml_json_put_yes_no(w, error->status == LML_OK);
    if (error->status != LML_OK)
        lml_json_put_member(w, "message", error->message);
    if (error->hint[0])
        lml_json_put_member(w, "hint", error->hint);
    lml_json_close(w);
}

lml_status lml_cmd_check(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words == 0)
        return lml_fail(err, LML_USAGE, "lemel check wants job files or recipes");
    bool json = lml_call_wants_json(call);
    lml_status first = LML_OK;
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    if (json)
        lml_json_open_list(&w);
    for (size_t i = 0; i < a->words; i++) {
        lml_error error = {.status = LML_OK};
        lml_status status = check(call, a->word[i], &error);
        if (json)
            put_finding(&w, a->word[i], &error);
        else if (status != LML_OK)
            lml_complain_write(&error, &call->aside);
        else if (!lml_call_quiet(call))
            lml_append_format(&call->out, "%s: sound\n", a->word[i]);
        first = first == LML_OK ? status : first;
    }
    if (json) {
        lml_json_close(&w);
        lml_status wrote = lml_work_end(&w, err);
        first = first == LML_OK ? wrote : first;
    }
    return first;
}
