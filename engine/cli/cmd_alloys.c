#include "cli/cmd.h"
#include "file/json_write.h"
#include "studio/find.h"

/* The words go into one text: names that have all of them are listed. */
static lml_status write_job(const lml_arguments *a, lml_builder *job, lml_error *err)
{
    lml_builder like = lml_builder_on(job->alloc, 0);
    for (size_t i = 0; i < a->words; i++) {
        if (i > 0)
            lml_builder_add_char(&like, ' ');
        lml_builder_add_text(&like, a->word[i]);
    }
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", "alloys");
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    if (like.length > 0) {
        lml_json_write_name(&w, lml_span_of("like"));
        lml_json_write_text(&w, (lml_span){like.at, like.length});
    }
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        status = lml_builder_status(&like, err);
    lml_builder_free(&like);
    return status;
}

lml_status lml_cmd_alloys(lml_call *call, lml_error *err)
{
    lml_target target = {.kind = LML_TARGET_RECIPE, .recipe = lml_span_of("alloys")};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = LML_JOB_TYPED};
    lml_status status = write_job(&call->arguments, &job.text, err);
    if (status == LML_OK)
        status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, &target, &job, &kit, err);
    lml_kit_free(&kit);
    lml_builder_free(&job.text);
    return status;
}
