#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/gather.h"
#include "papers/given.h"
#include "studio/find.h"

#include <string.h>

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words >= 2 && !strchr(a->word[0], '=') && !strchr(a->word[1], '='))
        return LML_OK;
    lml_fail(err, LML_USAGE,
             a->words == 0 ? "lemel learn needs an allowance, and the jobs that say something of it"
                           : "lemel learn needs job files or folders of them, as in: lemel learn "
                             "need.history jobs");
    lml_error_hint(err, "lemel learn need.history jobs");
    return LML_USAGE;
}

/* The words that are NAME=VALUE go behind the others; the first of them, or the number of words. */
static size_t part_words(lml_arguments *a)
{
    size_t paths = 0;
    for (size_t i = 0; i < a->words; i++) {
        const char *word = a->word[i];
        if (strchr(word, '='))
            continue;
        memmove(a->word + paths + 1, a->word + paths, (i - paths) * sizeof *a->word);
        a->word[paths++] = word;
    }
    return paths;
}

/* A job of the recipe learn, with what the others say. */
static lml_status write_job(lml_call *call, const lml_kit *kit, const lml_jobs *jobs,
                            lml_builder *job, lml_error *err)
{
    lml_gathered gathered;
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "recipe", "learn");
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "allowance", call->arguments.word[0]);
    lml_json_write_name(&w, lml_span_of("recorded"));
    lml_status status = lml_gather_write(call, kit, jobs, &w, &gathered, err);
    if (status != LML_OK)
        return status;
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    status = lml_json_writer_end(&w, err);
    if (status == LML_OK && gathered.run == 0)
        return lml_fail(err, LML_BAD_DATA, "none of the jobs could be run");
    return status;
}

static lml_status learn(lml_call *call, const lml_target *first, size_t paths, const lml_jobs *jobs,
                        lml_kit *kit, lml_error *err)
{
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = LML_JOB_TYPED};
    lml_status status = write_job(call, kit, jobs, &job.text, err);
    if (status == LML_OK)
        status = lml_job_text_put(call, paths, &job, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, first, &job, kit, err);
    lml_builder_free(&job.text);
    return status;
}

lml_status lml_cmd_learn(lml_call *call, lml_error *err)
{
    lml_jobs jobs = {.alloc = &call->alloc};
    lml_kit kit = lml_kit_on(&call->alloc);
    size_t paths = part_words(&call->arguments), words = call->arguments.words;
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    call->arguments.words = paths;
    status = lml_jobs_find(call, 1, &jobs, err);
    call->arguments.words = words;
    lml_target first = {.kind = LML_TARGET_JOB, .path = jobs.count > 0 ? jobs.path[0] : NULL};
    if (status == LML_OK)
        status = lml_find_kit(call, &first, &kit, err);
    if (status == LML_OK)
        status = learn(call, &first, paths, &jobs, &kit, err);
    lml_kit_free(&kit);
    lml_jobs_free(&jobs);
    return status;
}
