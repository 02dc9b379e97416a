#include "cell/state.h"

#include "cell/class.h"

#include <stdio.h>
#include <string.h>

/* What a run may move, in steps' worth: see cell/memory.h. */
enum { MOVED_A_STEP = 4, MOVED_FREE = 10000000 };

/* ---- errors ------------------------------------------------------------------------------------
 */

lml_status lml_box_take_error(lml_box *box, int lua_status, lml_error *err)
{
    lua_State *L = box->L;
    lml_status status = LML_BAD_RECIPE;
    const lml_error *own = lml_class_test(L, -1, LML_CLASS_ERROR);
    if (lua_status == LUA_ERRMEM)
        lml_box_out_of_memory(box);
    if (box->dead) {
        status = box->death.status;
        if (err)
            *err = box->death;
    } else if (own) {
        status = own->status;
        if (err)
            *err = *own;
    } else if (lua_type(L, -1) == LUA_TSTRING) {
        lml_fail(err, LML_BAD_RECIPE, "%s", lua_tostring(L, -1));
    } else {
        lml_fail(err, LML_BAD_RECIPE, "the recipe raised an error that is not a text");
    }
    lua_pop(L, 1);
    return status;
}

/* ---- life --------------------------------------------------------------------------------------
 */

static int on_panic(lua_State *L)
{
    (void)L;
    return 0; /* only reached when a caller runs Lua outside lml_box_call, which none does */
}

/* Argument: the options. */
static int set_up(lua_State *L)
{
    const lml_box_options *options = lua_touserdata(L, 1);
    lml_class_prepare(L);
    options->prepare(L);
    return 0;
}

lml_status lml_box_open(lml_box *box, const lml_box_options *options, lml_error *err)
{
    memset(box, 0, sizeof *box);
    lml_pool_open(&box->pool, options->alloc);
    box->meter.under = lml_pool_alloc(&box->pool);
    box->meter.limit = options->memory * 2;
    box->memory_limit = options->memory;
    box->pool.most = options->memory * 2;
    box->budget = options->budget;
    box->moves.most =
        MOVED_FREE + (box->budget < UINT64_MAX / 8 ? MOVED_A_STEP * box->budget : UINT64_MAX / 2);
    box->price = 1;
    box->interrupt = options->interrupt;
    box->interrupt_self = options->interrupt_self;
    box->source_length = options->source_length;
    box->trace = options->trace;
    box->memo = options->memo;
    lua_State *L = lua_newstate(lml_box_allocate, box);
    if (!L || !lml_box_find_stack(box, L)) {
        lml_pool_close(&box->pool);
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a Lua state");
    }
    box->L = L;
    lua_gc(L, LUA_GCSTOP);
    lua_atpanic(L, on_panic);
    *(lml_box **)lua_getextraspace(L) = box;
    lua_pushcfunction(L, set_up);
    lua_pushlightuserdata(L, (void *)(uintptr_t)options);
    int failed = lua_pcall(L, 1, 0, 0);
    if (failed) {
        lml_status status = lml_box_take_error(box, failed, err);
        lml_box_close(box);
        return status;
    }
    lml_box_start_count(box);
    return LML_OK;
}

void lml_box_close(lml_box *box)
{
    /* No userdata has a finalizer, so the state need not be taken apart: its memory goes as a
     * whole. */
    if (box->L)
        lml_pool_close(&box->pool);
    box->L = NULL;
}

lml_status lml_box_call(lml_box *box, int arguments, int results, lml_error *err)
{
    int failed = lua_pcall(box->L, arguments, results, 0);
    if (failed && lml_box_is_overflow(box->L, -1))
        lml_box_too_deep(box);
    return failed ? lml_box_take_error(box, failed, err) : LML_OK;
}
