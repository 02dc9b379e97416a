#include "face/pair.h"

#include "face/engine.h"
#include "run/engine.h"
#include "run/reuse.h"

#include <string.h>

/* Whatever is not sure is worked the long way, whose word holds. */
static void work_side(lml_engine *engine, lml_span job, const char *shown, lml_reuse *reuse,
                      bool takes, lml_pair_side *side)
{
    memset(side, 0, sizeof *side);
    lml_reuse_begin(reuse, &engine->shelf, takes);
    side->status = lml_engine_run_bare(engine, job, shown, reuse, &side->result, &side->error);
    if (side->status == LML_OK && reuse->sure)
        return;
    if (side->status == LML_OK)
        lml_text_free(engine, &side->result);
    lml_reuse_forget(reuse);
    side->status = lml_engine_run(engine, job.at, job.length, shown, &side->result, &side->error);
}

void lml_pair_work(lml_engine *const engine[2], const char *changed, lml_span job,
                   const char *shown, lml_pair_side side[2])
{
    lml_reuse reuse = lml_reuse_on(&engine[0]->alloc, changed);
    work_side(engine[0], job, shown, &reuse, false, &side[0]);
    bool same = reuse.sure && !reuse.reached && !reuse.looked;
    memset(&side[1], 0, sizeof side[1]);
    if (same && lml_engine_check_house(engine[1], &side[1].error) == LML_OK)
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
