#include "cell/state.h"

#include "run/allow.h"

#include <stdio.h>
#include <string.h>

enum { HOOK_PERIOD = 1000, RAISED = 200, CHEAP_TEXT = 1024, GARBAGE_LET_LIE = 512 << 10 };

const char lml_class_key[LML_CLASSES];

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

static void push_position(lua_State *L, lml_error *e)
{
    luaL_where(L, 1);
    const char *where = lua_tostring(L, -1);
    if (where[0]) {
        lml_error placed;
        lml_fail(&placed, e->status, "%s%s", where, e->message);
        memcpy(e->message, placed.message, sizeof e->message);
    }
    lua_pop(L, 1);
}

int lml_raise(lua_State *L, const lml_error *error)
{
    lml_charge(L, RAISED);
    lml_error *e = lml_new(L, LML_CLASS_ERROR, sizeof *e, 0);
    *e = *error;
    push_position(L, e);
    return lua_error(L);
}

int lml_raise_as_is(lua_State *L, const lml_error *error)
{
    lml_error *e = lml_new(L, LML_CLASS_ERROR, sizeof *e, 0);
    *e = *error;
    return lua_error(L);
}

int lml_raise_text(lua_State *L, lml_status status, const char *format, ...)
{
    char message[sizeof((lml_error *)0)->message];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    lml_error e;
    lml_fail(&e, status, "%s", message);
    return lml_raise(L, &e);
}

int lml_raise_hint(lua_State *L, lml_status status, const char *hint, const char *format, ...)
{
    char message[sizeof((lml_error *)0)->message];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    lml_error e;
    lml_fail(&e, status, "%s", message);
    lml_error_hint(&e, "%s", hint);
    return lml_raise(L, &e);
}

/* The name of the caller's local or upvalue that is the very operand at `index`, or NULL. Pushes the
 * value, which the caller of this pops. */
static const char *variable_of(lua_State *L, int index)
{
    lua_Debug ar;
    if (!lua_getstack(L, 1, &ar) || !lua_getinfo(L, "f", &ar))
        return NULL;
    int function = lua_gettop(L);
    const char *found = NULL, *name;
    for (int i = 1; !found && (name = lua_getlocal(L, &ar, i)); i++) {
        if (name[0] != '(' && lua_rawequal(L, -1, index) && !lua_isnil(L, -1))
            found = name;
        lua_pop(L, 1);
    }
    for (int i = 1; !found && (name = lua_getupvalue(L, function, i)); i++) {
        if (lua_rawequal(L, -1, index) && !lua_isnil(L, -1))
            found = name;
        lua_pop(L, 1);
    }
    lua_settop(L, function - 1);
    return found;
}

int lml_raise_operands(lua_State *L, lml_error *error, int a, int b)
{
    int operand[2] = {lua_absindex(L, a), lua_absindex(L, b)};
    for (int i = 0; i < 2; i++) {
        const lml_value *v = lml_test(L, operand[i], LML_CLASS_VALUE);
        const char *name = v ? variable_of(L, operand[i]) : NULL;
        char what[80];
        if (name && !(i == 1 && lua_rawequal(L, operand[0], operand[1])))
            lml_error_context(error, error->status, "'%s' is %s", name,
                              lml_value_what(v, what, sizeof what));
    }
    return lml_raise(L, error);
}

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

/* ---- userdata ---------------------------------------------------------------------------------- */

void *lml_new(lua_State *L, lml_class class, size_t size, int slots)
{
    lml_seal *seal = lua_newuserdatauv(L, sizeof *seal + size, slots);
    seal->class = &lml_class_key[class];
    lml_push_metatable(L, class);
    lua_setmetatable(L, -2);
    return seal + 1;
}

static void make_metatables(lua_State *L)
{
    for (int i = 0; i < LML_CLASSES; i++) {
        lua_newtable(L);
        lua_pushboolean(L, 0);
        lua_setfield(L, -2, "__metatable");
        lua_rawsetp(L, LUA_REGISTRYINDEX, &lml_class_key[i]);
    }
}

void lml_push_metatable(lua_State *L, lml_class class)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &lml_class_key[class]);
}

lml_span lml_need_text(lua_State *L, int index, const char *what)
{
    if (lua_type(L, index) != LUA_TSTRING)
        lml_raise_text(L, LML_BAD_VALUE, "%s is due, and %s was given", what,
                       lml_what_is(L, index));
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    return (lml_span){at, length};
}

/* ---- life -------------------------------------------------------------------------------------- */

static int on_panic(lua_State *L)
{
    (void)L;
    return 0; /* only reached when a caller runs Lua outside lml_box_call, which none does */
}

static int set_up(lua_State *L)
{
    make_metatables(L);
    lml_allow_prepare(L);
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
    int failed = lua_pcall(L, 0, 0, 0);
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

typedef struct reading {
    lml_span left;
    bool done;
} reading;

static const char *read_source(lua_State *L, void *self, size_t *size)
{
    (void)L;
    reading *r = self;
    if (r->done)
        return NULL;
    r->done = true;
    *size = r->left.length;
    return r->left.at;
}

lml_status lml_box_load(lml_box *box, lml_span source, const char *shown, lml_error *err)
{
    lua_State *L = box->L;
    char chunk[200];
    snprintf(chunk, sizeof chunk, "@%s", shown);
    reading r = {source, false};
    int failed = lua_load(L, read_source, &r, chunk, "t");
    if (failed) {
        lml_status status = lml_box_take_error(box, failed, err);
        if (status == LML_BAD_RECIPE)
            lml_error_hint(err, "%s is not a Lua text that can be read; look at the line named and "
                                "the one before it", shown);
        return status;
    }
    lua_pushcfunction(L, lml_allow_environment);
    failed = lua_pcall(L, 0, 1, 0);
    if (failed) {
        lua_remove(L, -2);
        return lml_box_take_error(box, failed, err);
    }
    if (!lua_setupvalue(L, -2, 1)) /* a chunk that names no global at all has no _ENV to set */
        lua_pop(L, 1);
    return LML_OK;
}

lml_status lml_box_call(lml_box *box, int arguments, int results, lml_error *err)
{
    int failed = lua_pcall(box->L, arguments, results, 0);
    if (failed && lml_is_overflow(box->L, -1))
        lml_box_too_deep(box);
    return failed ? lml_box_take_error(box, failed, err) : LML_OK;
}
