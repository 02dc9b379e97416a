#include "run/warm.h"

#include "run/engine.h"
#include "run/gate.h"
#include "run/inputs.h"
#include "run/load.h"
#include "run/parts.h"
#include "run/prices.h"

#include <string.h>

enum { WARM_MOST = 8 }; /* recipes whose boxes are kept, the latest used */

struct lml_warm {
    lml_run run;
    lml_warm *next;
    const lml_item *item; /* the recipe; NULL for one that is not on the shelf */
    lml_run kept;         /* as `run` was when loading ended */
    bool is_kept;
    bool fails; /* to be loaded beforehand: its runs load by themselves, and find the fault if they
                   come to it */
    unsigned runs;
};

static void close_box(lml_warm *w)
{
    lml_run_close(&w->run);
    w->is_kept = false;
}

static void drop(struct lml_engine *engine, lml_warm *w)
{
    close_box(w);
    lml_alloc_free(&engine->alloc, w, sizeof *w);
}

void lml_warm_drop(struct lml_engine *engine)
{
    for (lml_warm *w = engine->warm, *next; w; w = next) {
        next = w->next;
        drop(engine, w);
    }
    engine->warm = NULL;
}

/* The one of that recipe, first in the list from now on; a new one when there is none. */
static lml_warm *warm_of(struct lml_engine *engine, const lml_item *item)
{
    lml_warm **at = &engine->warm, *w;
    int count = 0;
    while ((w = *at) && w->item != item && ++count < WARM_MOST)
        at = &w->next;
    if (w)
        *at = w->next;
    if (w && w->item != item) { /* the longest unused */
        drop(engine, w);
        w = NULL;
    }
    if (!w && (w = lml_alloc_get(&engine->alloc, sizeof *w))) {
        memset(w, 0, sizeof *w);
        w->item = item;
    }
    if (w) {
        w->next = engine->warm;
        engine->warm = w;
    }
    return w;
}

/* Argument: the warm run. */
static int load(lua_State *L)
{
    const lml_warm *w = lua_touserdata(L, 1);
    bool to_be_kept = w->runs > 0;
    lml_load_beforehand(L, w->item->name, to_be_kept);
    if (to_be_kept) {
        const lml_shelf *shelf = &w->run.engine->shelf;
        for (size_t i = 0; i < shelf->count; i++) {
            if (lml_load_is_loaded(L, shelf->items[i])) {
                lml_inputs_take_house_beforehand(L, shelf->items[i]->recipe);
                lml_gate_sort_out(L, shelf->items[i]->recipe);
                lml_parts_note(L, shelf->items[i]->recipe);
            }
        }
    }
    return 0;
}

static bool load_all(lml_warm *w)
{
    lua_State *L = w->run.box.L;
    lua_pushcfunction(L, load);
    lua_pushlightuserdata(L, w);
    return lml_box_call(&w->run.box, 1, 0, NULL) == LML_OK;
}

lml_status lml_warm_open(struct lml_engine *engine, const char *recipe, lml_run **out,
                         lml_error *err)
{
    lml_warm *w =
        warm_of(engine, lml_shelf_find(&engine->shelf, LML_PUT_RECIPE, lml_span_of(recipe)));
    if (!w)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a run");
    *out = &w->run;
    if (w->is_kept) {
        lml_pool_rewind(&w->run.box.pool);
        w->run = w->kept;
        return LML_OK;
    }
    lml_status status = lml_run_open(&w->run, engine, err);
    if (!status && w->item && !w->fails) {
        bool loaded = load_all(w);
        w->run.more_is_used = false;
        if (!loaded) {
            w->fails = true;
            lml_run_close(&w->run);
            status = lml_run_open(&w->run, engine, err);
        } else if (w->runs > 0 && lml_pool_keep(&w->run.box.pool)) {
            w->kept = w->run;
            w->is_kept = true;
        }
    }
    w->runs += w->runs < 2;
    return status;
}

lml_run *lml_warm_latest(struct lml_engine *engine)
{
    return engine->warm ? &engine->warm->run : NULL;
}

void lml_warm_close(lml_run *run)
{
    lml_warm *w = (lml_warm *)run; /* its first member */
    lml_prices_free(run);
    if (!w->is_kept || run->more_is_used)
        close_box(w);
}
