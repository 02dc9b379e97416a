#include "box/state.h"

#include "box/allow.h"
#include "box/run.h"

#include <stdio.h>
#include <string.h>

enum { HOOK_PERIOD = 1000, RAISED = 200, CHEAP_TEXT = 1024, GARBAGE_LET_LIE = 512 << 10 };
enum { BLOCK_MOST = 1 << 20, BLOCK_GIVEN = 4 << 20 /* to a run that dies of it */ };
enum { STACK_CHEAP = 36 << 10, STACK_MOST = 256 << 10 };
/* Bytes for a step, by what callgrind counts: a table that is made anew for one more name works all its names in again,
 * also when it gets no longer; a list is copied, a text written; a walk looks at two blocks of a table. */
enum { NAMED = 11, COPIED = 80, WRITTEN = 32, WALKED = 300, WALK_FREE = 8 << 10, STACK_COPIED = 800 };
enum { FIRST_STACK = 100 /* values, more than a new state has room for */ };
enum { FIRST_NAMES = 128 * sizeof(void *) /* the index of short texts that a new state has */ };
/* Smaller ones are in the price of what makes them: of no table and no text, and of those that Lua may have already (a
 * short text, the record of a call). */
enum { LARGE = 512, SMALL = 96 };

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

/* The interrupt is asked after every thousand steps, also of what costs more than that at once. */
static void pay(lml_box *box, uint64_t steps)
{
    while (!box->dead && box->unasked + steps >= HOOK_PERIOD) {
        uint64_t some = HOOK_PERIOD - box->unasked;
        spend(box, some);
        steps -= some;
        heed_interrupt(box);
    }
    if (box->dead)
        return;
    spend(box, steps);
    box->unasked += steps;
}

/* What is owed for the newest block of a table, when it is known to be one. */
static void settle(lml_box *box, bool was_stack)
{
    uint64_t owed = box->owed;
    box->owed = 0;
    if (owed == 0 || was_stack)
        return;
    if (box->latest_size > box->reach.widest)
        box->reach.widest = box->latest_size;
    pay(box, owed);
}

/* Instructions of Lua that are counted before the hook is called: fewer where they are dear. */
static int period(const lml_box *box)
{
    return box->price < HOOK_PERIOD ? (int)(HOOK_PERIOD / box->price) : 1;
}

static void set_price(lml_box *box)
{
    uint64_t texts = box->reach.text_price, price = texts > box->stack_price ? texts : box->stack_price;
    if (price == box->price)
        return;
    box->price = price;
    if (box->L && !box->dead)
        lua_sethook(box->L, on_count, LUA_MASKCOUNT, period(box));
}

void lml_box_set_reach(lml_box *box, lml_reach reach)
{
    box->reach = reach;
    set_price(box);
}

void lml_box_add_reach(lml_box *box, lml_reach reach)
{
    if (reach.text_price > box->reach.text_price)
        box->reach.text_price = reach.text_price;
    if (reach.widest > box->reach.widest)
        box->reach.widest = reach.widest;
    set_price(box);
}

static void on_count(lua_State *L, lua_Debug *ar)
{
    (void)ar;
    lml_box *box = lml_box_of(L);
    if (!box->dead) {
        settle(box, false);
        pay(box, (uint64_t)lua_gethookcount(L) * box->price);
        tend_garbage(box);
    }
    if (box->dead)
        raise_death(L);
}

void lml_charge(lua_State *L, uint64_t steps)
{
    lml_box *box = lml_box_of(L);
    if (box->unasked + steps < HOOK_PERIOD && box->spent + steps <= box->budget && !box->dead) { /* mostly */
        box->unasked += steps;
        box->spent += steps;
        return;
    }
    pay(box, steps);
    if (box->dead)
        raise_death(L);
}

uint64_t lml_box_spent(lml_box *box)
{
    settle(box, false);
    return box->spent;
}

void lml_box_forget_since(lml_box *box, uint64_t spent)
{
    box->spent = spent;
    box->owed = 0;
}

void lml_keep(lua_State *L, int table)
{
    lml_box *box = lml_box_of(L);
    box->keeps = true;
    lua_rawset(L, table);
    box->keeps = false;
}

void lml_keep_under(lua_State *L, int table, const void *key)
{
    table = lua_absindex(L, table);
    lua_pushlightuserdata(L, (void *)(uintptr_t)key);
    lua_insert(L, -2);
    lml_keep(L, table);
}

void lml_charge_walk(lua_State *L)
{
    size_t widest = lml_box_of(L)->reach.widest;
    lml_charge(L, widest > WALK_FREE ? widest / WALKED : 0);
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

/* The inside of a table by names has room for 1, 2, 4 ... of them. Some lists are as long, and cost as much. */
static bool may_hold_names(size_t size)
{
    enum { NAME = 24 };
    return size % NAME == 0 && (size / NAME & (size / NAME - 1)) == 0;
}

/* One instruction of Lua can make a table anew, or a text: whatever moves is paid for where the memory for it is asked
 * for. For a new block Lua passes a tag in place of the old size: that of its type, or 0 for the inside of a table. The
 * stack is not paid for: a run costs the same however long it is already. */
static void pay_for(lml_box *box, const void *block, size_t old_size, size_t new_size)
{
    settle(box, block == box->stack);
    if (box->keeps || new_size < SMALL)
        return;
    if (block)
        pay(box, block != box->names && block != box->stack ? (old_size + new_size) / COPIED : 0);
    else if (old_size == 0)
        box->owed = new_size / (may_hold_names(new_size) ? NAMED : COPIED);
    else if (old_size == LUA_TSTRING || new_size >= LARGE)
        pay(box, new_size / WRITTEN);
}

static void look_at_size(lml_box *box, const void *block, size_t old_size, size_t new_size)
{
    if (!block && old_size == LUA_TSTRING && new_size / CHEAP_TEXT >= box->reach.text_price) {
        box->reach.text_price = 1 + new_size / CHEAP_TEXT;
        set_price(box);
    } else if (new_size > box->reach.widest && !box->keeps && block && block != box->names && block != box->stack) {
        box->reach.widest = new_size;
    }
    if (new_size > BLOCK_MOST && !(block && block == box->names))
        die(box, LML_LIMIT, "the recipe made a list, a table or a text that takes more than 1 MiB",
            "it may be growing without end");
}

/* The stack moves when it grows: by a change of its size, or by a new block just before the old one is freed. It is as
 * long as calls are deep. */
static void follow_stack(lml_box *box, void *given, size_t size)
{
    box->stack = given;
    box->stack_price = 1 + (size > STACK_CHEAP ? (size - STACK_CHEAP) / STACK_COPIED : 0);
    set_price(box);
    if (size > STACK_MOST)
        lml_box_too_deep(box);
}

/* Where Lua's own blocks are. A new state has both, and no table, before its handle is known. */
static void follow(lml_box *box, const void *block, size_t old_size, void *given, size_t new_size)
{
    if (block && block == box->names) {
        box->names = given;
    } else if (block && block == box->stack) {
        follow_stack(box, given ? given : box->latest, given ? new_size : box->latest_size);
    } else if (given && (block || old_size == 0)) {
        box->latest = given;
        box->latest_size = new_size;
        if (!box->L && !block && new_size == FIRST_NAMES)
            box->names = given;
        else if (!box->L)
            box->stack = given;
    }
}

/* Over a limit the run is marked dead, and dies at its next instruction; the memory asked for is still given, so that
 * Lua's own out-of-memory paths (faulty in 5.4.4) are not walked. Only at twice the limit is it refused. */
static void *allocate(void *self, void *block, size_t old_size, size_t new_size)
{
    lml_box *box = self;
    pay_for(box, block, old_size, new_size);
    look_at_size(box, block, old_size, new_size);
    /* What the meter does, without a call of it: most of what an operation on values costs is memory. */
    size_t old = block ? old_size : 0;
    void *given = new_size > BLOCK_GIVEN ? NULL : lml_pool_resize(&box->pool, block, old, new_size);
    box->refused = !given && new_size > 0;
    if (box->pool.held > box->memory_limit || (box->refused && box->pool.full))
        die(box, LML_LIMIT, "the recipe used more memory than it is allowed",
            "a list or text may be growing without end");
    if (box->refused)
        return NULL;
    box->meter.used += new_size - old;
    follow(box, block, old_size, given, new_size);
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
    if (!lua_getstack(L, 1, &ar) || !lua_getinfo(L, "fS", &ar))
        return NULL;
    int function = lua_gettop(L);
    const char *found = NULL, *name;
    uint64_t look = lml_look_cost(L, ar.source);
    for (int i = 1; !found && (name = lua_getlocal(L, &ar, i)); i++) {
        lml_charge(L, look);
        if (name[0] != '(' && lua_rawequal(L, -1, index) && !lua_isnil(L, -1))
            found = name;
        lua_pop(L, 1);
    }
    for (int i = 1; !found && (name = lua_getupvalue(L, function, i)); i++) {
        lml_charge(L, 1);
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
    box->pool.most = options->memory * 2;
    box->price = box->reach.text_price = box->stack_price = 1;
    box->interrupt = options->interrupt;
    box->interrupt_self = options->interrupt_self;
    box->keeps = true;
    lua_State *L = lua_newstate(allocate, box);
    /* What is moved last before the handle is known is the stack. */
    if (!L || !lua_checkstack(L, FIRST_STACK)) {
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
    box->keeps = false;
    lua_sethook(L, on_count, LUA_MASKCOUNT, box->dead ? 1 : period(box));
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
