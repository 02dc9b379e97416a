#include "face/pair.h"

#include "face/engine.h"
#include "face/job.h"
#include "run/engine.h"
#include "run/reuse.h"

#include <string.h>

/* ---- keeping -----------------------------------------------------------------------------------
 */

/* Before the names of the recipes that take part, the bare result, and the answers. */
typedef struct kept_head {
    uint64_t parts, bare, answers, stopped;
} kept_head;

static void pack(const lml_reuse *reuse, bool stopped, lml_builder *to)
{
    const kept_head head = {reuse->parts.length, reuse->bare.length, reuse->whole, stopped};
    lml_builder_add(to, (const char *)&head, sizeof head);
    lml_builder_add(to, reuse->parts.at, reuse->parts.length);
    lml_builder_add(to, reuse->bare.at, reuse->bare.length);
    lml_builder_add(to, reuse->answers.at, reuse->whole);
}

lml_status lml_pair_keep(lml_engine *engine, lml_span job, const char *shown, lml_text *result,
                         lml_builder *kept, lml_error *err)
{
    lml_reuse reuse = lml_reuse_on(&engine->alloc, NULL);
    reuse.whole_too = true;
    lml_reuse_begin(&reuse, &engine->shelf, false);
    lml_status status = lml_job_run_bare(engine, job, shown, false, &reuse, result, err);
    bool all = reuse.parts.status == LML_OK && reuse.bare.status == LML_OK && !reuse.looked;
    if (status == LML_OK && reuse.sure && all)
        pack(&reuse, result->stopped, kept);
    else if (status != LML_OK)
        status = lml_engine_run(engine, job.at, job.length, shown, result, err);
    lml_reuse_free(&reuse);
    return status;
}

static lml_span take(lml_span *from, uint64_t length)
{
    lml_span taken = {from->at, (size_t)length};
    *from = (lml_span){from->at + length, from->length - (size_t)length};
    return taken;
}

/* Whether one of the lines is the name. */
static bool is_among(lml_span lines, const char *name)
{
    const char *end = lines.at + lines.length, *feed;
    for (const char *at = lines.at; at < end; at = feed + 1) {
        feed = memchr(at, '\n', (size_t)(end - at));
        if (!feed)
            return false;
        if (lml_span_is(lml_span_between(at, feed), name))
            return true;
    }
    return false;
}

/* The first side and its answers from what was kept; false when it holds neither. */
static bool unpack(lml_engine *engine, lml_span kept, lml_reuse *reuse, lml_pair_side *side)
{
    kept_head head;
    if (kept.length < sizeof head)
        return false;
    memcpy(&head, take(&kept, sizeof head).at, sizeof head);
    if (head.parts > kept.length || head.bare > kept.length - head.parts ||
        head.answers != kept.length - head.parts - head.bare)
        return false;
    lml_span parts = take(&kept, head.parts), bare = take(&kept, head.bare);
    char *text = lml_alloc_get(&engine->alloc, bare.length + 1);
    if (!text)
        return false;
    memcpy(text, bare.at, bare.length);
    text[bare.length] = '\0';
    lml_builder_add_span(&reuse->answers, kept);
    reuse->whole = reuse->answers.length;
    reuse->sure = true;
    reuse->reached = is_among(parts, reuse->changed);
    side->result = (lml_text){text, bare.length, bare.length + 1, head.stopped != 0};
    return true;
}

/* ---- both sides --------------------------------------------------------------------------------
 */

/* If it is not sure, a full run is made, and its result counts. */
static void work_side(lml_engine *engine, lml_span job, const char *shown, lml_reuse *reuse,
                      bool takes, lml_pair_side *side)
{
    lml_reuse_begin(reuse, &engine->shelf, takes);
    side->status = lml_job_run_bare(engine, job, shown, false, reuse, &side->result, &side->error);
    if (side->status == LML_OK && reuse->sure)
        return;
    if (side->status == LML_OK)
        lml_text_free(engine, &side->result);
    lml_reuse_forget(reuse);
    side->status = lml_engine_run(engine, job.at, job.length, shown, &side->result, &side->error);
}

void lml_pair_work(lml_engine *const engine[2], const char *changed, lml_span job,
                   const char *shown, lml_span kept, lml_pair_side side[2])
{
    memset(side, 0, 2 * sizeof *side);
    lml_reuse reuse = lml_reuse_on(&engine[0]->alloc, changed);
    if (!unpack(engine[0], kept, &reuse, &side[0]))
        work_side(engine[0], job, shown, &reuse, false, &side[0]);
    bool same = reuse.sure && !reuse.reached && !reuse.looked;
    if (same && lml_job_check_house(engine[1], &side[1].error) == LML_OK)
        side[1].same = true;
    else
        work_side(engine[1], job, shown, &reuse, true, &side[1]);
    lml_reuse_free(&reuse);
}

void lml_pair_free(lml_engine *const engine[2], lml_pair_side side[2])
{
    for (int i = 0; i < 2; i++)
        if (side[i].status == LML_OK)
            lml_text_free(engine[i], &side[i].result);
}
