#include "cli/compare_job.h"

#include "face/engine.h"
#include "face/pair.h"
#include "papers/paper.h"

#include <stdio.h>
#include <string.h>

static bool withholds(const lml_json *remark)
{
    lml_span level = lml_json_text(lml_json_member(remark, "level"));
    return lml_span_is(level, "stop") || lml_span_is(level, "confirm");
}

void lml_compare_job_stops(char words[LML_COMPARE_WORDS], const lml_json *result)
{
    size_t used = 0;
    const lml_json *remarks = lml_json_member(result, "remarks");
    for (const lml_json *r = lml_json_first(remarks); r; r = lml_json_next(r)) {
        lml_span code = lml_json_text(lml_json_member(r, "code"));
        if (!withholds(r) || used + code.length + 3 > LML_COMPARE_WORDS)
            continue;
        used += (size_t)snprintf(words + used, LML_COMPARE_WORDS - used, "%s%s",
                                 used > 0 ? ", " : "", code.at);
    }
}

/* ---- the report --------------------------------------------------------------------------------
 */

static void put_worked(lml_json_writer *w, const lml_json *result)
{
    const lml_json *worked = lml_json_member(result, "worked");
    lml_json_write_name(w, lml_span_of("worked")); /* first, where lml_unproved_see looks for it */
    lml_json_write_open_list(w);
    for (const lml_json *one = lml_json_first(worked); one; one = lml_json_next(one)) {
        const lml_json *recipe = lml_json_member(one, "recipe");
        if (!recipe)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "recipe", lml_json_text(recipe).at);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_side(lml_json_writer *w, const lml_pair_side *side, const lml_text *text,
                     const lml_json *result)
{
    char words[LML_COMPARE_WORDS] = "";
    bool stopped = side->status == LML_OK && text->stopped;
    if (result)
        lml_compare_job_stops(words, result);
    else
        snprintf(words, sizeof words, "%s", side->error.message);
    lml_json_write_open_record(w);
    put_worked(w, result);
    lml_json_write_name(w, lml_span_of("status"));
    lml_json_write_whole(w, stopped ? LML_STOPPED : side->status);
    lml_json_write_member(w, "words", words);
    lml_json_write_close(w);
}

static lml_status put_report(const lml_compare_job *self, const lml_pair_side side[2],
                             const lml_text *const text[2], const lml_json *const result[2],
                             lml_builder *to, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(to, false);
    lml_moved moved = lml_moved_of_jobs(to->alloc, &self->within);
    lml_status status = LML_OK;
    if (result[0] && result[1])
        status = lml_moved_add(&moved, "", lml_json_member(result[0], "results"),
                               lml_json_member(result[1], "results"), err);
    if (status == LML_OK) {
        lml_json_write_open_record(&w);
        lml_json_write_name(&w, lml_span_of("sides"));
        lml_json_write_open_list(&w);
        for (int i = 0; i < 2; i++)
            put_side(&w, &side[i], text[i], result[i]);
        lml_json_write_close(&w);
        lml_moved_write(&moved, &w);
        lml_json_write_close(&w);
        status = lml_json_writer_end(&w, err);
    }
    lml_moved_free(&moved);
    return status;
}

/* ---- the work ----------------------------------------------------------------------------------
 */

/* An engine that could not be made fails its side alone. */
static void work_alone(lml_engine *const engine[], const lml_error why[], const lml_job *job,
                       lml_pair_side side[2])
{
    memset(side, 0, 2 * sizeof *side);
    for (int i = 0; i < 2; i++) {
        lml_pair_side *s = &side[i];
        if (engine[i]) {
            s->status = lml_engine_run(engine[i], job->text.at, job->text.length, job->shown,
                                       &s->result, &s->error);
        } else {
            s->error = why[i];
            s->status = why[i].status;
        }
    }
}

lml_status lml_compare_job_work(const void *self, lml_engine *const engine[], const lml_error why[],
                                const lml_alloc *alloc, const void *request, lml_text *out,
                                lml_error *err)
{
    const lml_job *job = request;
    const lml_compare_job *orders = self;
    lml_pair_side side[2];
    if (engine[0] && engine[1])
        lml_pair_work(engine, orders->recipe, job->text, job->shown, job->kept, side);
    else
        work_alone(engine, why, job, side);
    const lml_text *text[2] = {&side[0].result, side[1].same ? &side[0].result : &side[1].result};
    lml_json_document *doc[2] = {NULL, NULL};
    lml_status status = LML_OK;
    for (int i = 0; i < 2 && status == LML_OK; i++)
        if (side[i].status == LML_OK)
            status = lml_paper_result(alloc, text[i], &doc[i], err);
    lml_builder report = lml_builder_on(alloc, 0);
    if (status == LML_OK)
        status = put_report(orders, side, text,
                            (const lml_json *const[]){doc[0] ? lml_json_root(doc[0]) : NULL,
                                                      doc[1] ? lml_json_root(doc[1]) : NULL},
                            &report, err);
    lml_json_free(doc[0]);
    lml_json_free(doc[1]);
    lml_pair_free(engine, side);
    return lml_output_take(&report, status, out, err);
}
