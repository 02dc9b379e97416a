#include "cell/state.h"

#include "cell/class.h"

#include <stdio.h>
#include <string.h>

enum { HOOK_PERIOD = 1000, CHEAP_TEXT = 1024, GARBAGE_LET_LIE = 512 << 10 };

lml_box *lml_box_of(lua_State *L)
{
    return *(lml_box **)lua_getextraspace(L);
}

/* ---- limits ------------------------------------------------------------------------------------ */

static void on_count(lua_State *L, lua_Debug *ar);

static void die(lml_box *box, lml_status status, const char *what, const char *hint)
{
    if (box->dead)
        return;
    box->dead = true;
    lml_fail(&box->death, status, "%s", what);
    if (hint)
        lml_error_hint(&box->death, "%s", hint);
    if (box->L)
        lua_sethook(box->L, on_count, LUA_MASKCOUNT, 1);
}

void lml_box_out_of_memory(lml_box *box)
{
    die(box, LML_NO_MEMORY, "memory ran out", NULL);
}

void lml_box_too_deep(lml_box *box)
{
    die(box, LML_LIMIT, "the recipe calls itself too deep", "a function may be calling itself without end");
}

static void spend(lml_box *box, uint64_t steps)
{
    box->spent = steps > UINT64_MAX - box->spent ? UINT64_MAX : box->spent + steps;
    if (box->spent > box->budget)
        die(box, LML_LIMIT, "the recipe did more work than it is allowed",
            "a loop may never end; if the work is really that long, raise the limit of steps");
}

static int raise_death(lua_State *L)
{
    lml_box *box = lml_box_of(L);
    /* No allocation here: memory may be what ran out. */
    lua_pushlightuserdata(L, box);
    return lua_error(L);
}

/* Garbage is let lie at first: most runs end before it is worth collecting. Then it is collected seldom, so
 * that memory stays what the processor has at hand; and as Lua usually does once the limit is in sight. */
static void tend_garbage(lml_box *box)
{
    enum { SELDOM = 1000, USUAL = 200 }; /* next when there is so much, in percent of what was left */
    if (box->garbage == LML_GARBAGE_LIES && box->meter.used > GARBAGE_LET_LIE) {
        box->garbage = LML_GARBAGE_SELDOM;
        lua_gc(box->L, LUA_GCINC, SELDOM, 0, 0);
        lua_gc(box->L, LUA_GCRESTART);
    }
    if (box->garbage == LML_GARBAGE_SELDOM && box->meter.used > box->memory_limit / 4) {
        box->garbage = LML_GARBAGE_USUAL;
        lua_gc(box->L, LUA_GCINC, USUAL, 0, 0);
        lua_gc(box->L, LUA_GCCOLLECT);
    }
}

static void heed_interrupt(lml_box *box)
{
    box->unasked = 0;
    if (box->interrupt && box->interrupt(box->interrupt_self))
        die(box, LML_LIMIT, "the recipe was interrupted", "it took longer than it is given here");
}

static void on_count(lua_State *L, lua_Debug *ar)
{
    (void)ar;
    lml_box *box = lml_box_of(L);
    if (!box->dead) {
        spend(box, HOOK_PERIOD * box->price);
        tend_garbage(box);
        heed_interrupt(box);
    }
    if (box->dead)
        raise_death(L);
}

void lml_charge(lua_State *L, uint64_t steps)
{
    lml_box *box = lml_box_of(L);
    spend(box, steps);
    box->unasked += steps < HOOK_PERIOD ? steps : HOOK_PERIOD;
    if (box->unasked >= HOOK_PERIOD)
        heed_interrupt(box);
    if (box->dead)
        raise_death(L);
}

void lml_need_stack(lua_State *L, int slots)
{
    lml_box *box = lml_box_of(L);
    box->refused = false;
    if (lua_checkstack(L, slots))
        return;
    if (box->refused)
        lml_box_out_of_memory(box);
    lml_box_too_deep(box);
    raise_death(L);
}

bool lml_is_overflow(lua_State *L, int index)
{
    static const char end[] = "stack overflow";
    enum { END = sizeof end - 1 };
    size_t length;
    const char *text = lua_type(L, index) == LUA_TSTRING ? lua_tolstring(L, index, &length) : NULL;
    return text && length >= END && memcmp(text + length - END, end, END) == 0;
}

static bool beyond(const lml_box *box, size_t more, size_t limit)
{
    return more > limit || box->meter.used > limit - more;
}

/* Over the limit the run is marked dead, and dies at its next instruction; the memory asked for is
 * still given, so that Lua's own out-of-memory paths (faulty in 5.4.4) are not walked. Only at twice
 * the limit is it refused. */
static void *allocate(void *self, void *block, size_t old_size, size_t new_size)
{
    lml_box *box = self;
    size_t old = block ? old_size : 0; /* for new blocks Lua passes a type tag */
    if (!block && old_size == LUA_TSTRING && new_size / CHEAP_TEXT >= box->price)
        box->price = 1 + new_size / CHEAP_TEXT;
    size_t more = new_size > old ? new_size - old : 0;
    if (more && beyond(box, more, box->memory_limit)) {
        die(box, LML_LIMIT, "the recipe used more memory than it is allowed",
            "a list or text may be growing without end");
        box->refused = beyond(box, more, box->meter.limit);
        if (box->refused)
            return NULL;
    }
    /* What the meter does, without a call of it: most of what an operation on values costs is memory. */
    void *given = lml_pool_resize(&box->pool, block, old, new_size);
    box->refused = !given && new_size > 0;
    if (!box->refused)
        box->meter.used += new_size - old;
    return given;
}

/* ---- errors ------------------------------------------------------------------------------------ */

lml_status lml_box_take_error(lml_box *box, int lua_status, lml_error *err)
{
    lua_State *L = box->L;
    lml_status status = LML_BAD_RECIPE;
    const lml_error *own = lml_test(L, -1, LML_CLASS_ERROR);
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

/* ---- life -------------------------------------------------------------------------------------- */

static int on_panic(lua_State *L)
{
    (void)L;
    return 0; /* only reached when a caller runs Lua outside lml_box_call, which none does */
}

/* Argument: the options. */
static int set_up(lua_State *L)
{
    const lml_box_options *options = lua_touserdata(L, 1);
    lml_make_metatables(L);
    options->prepare(L);
    return 0;
}

lml_status lml_box_open(lml_box *box, const lml_box_options *options, lml_error *err)
{
    memset(box, 0, sizeof *box);
    lml_pool_open(&box->pool, options->alloc);
    box->meter.under = lml_alloc_pooled(&box->pool);
    box->meter.limit = options->memory * 2;
    box->memory_limit = options->memory;
    box->budget = options->budget;
    box->price = 1;
    box->interrupt = options->interrupt;
    box->interrupt_self = options->interrupt_self;
    lua_State *L = lua_newstate(allocate, box);
    if (!L) {
        lml_pool_close(&box->pool);
        return lml_fail(err, LML_NO_MEMORY, "no memory for a Lua state");
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
    lua_sethook(L, on_count, LUA_MASKCOUNT, HOOK_PERIOD);
    return LML_OK;
}

void lml_box_close(lml_box *box)
{
    /* No userdata has a finalizer, so the state need not be taken apart: its memory goes as a whole. */
    if (box->L)
        lml_pool_close(&box->pool);
    box->L = NULL;
}

lml_status lml_box_call(lml_box *box, int arguments, int results, lml_error *err)
{
    int failed = lua_pcall(box->L, arguments, results, 0);
    if (failed && lml_is_overflow(box->L, -1))
        lml_box_too_deep(box);
    return failed ? lml_box_take_error(box, failed, err) : LML_OK;
}
