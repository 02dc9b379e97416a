/* What a run may cost: steps counted and charged, the interrupt, garbage; and how a run dies of its
 * limits. */
#include "cell/state.h"

#include <string.h>

enum { GARBAGE_LET_LIE = 512 << 10 };
enum {
    STACK_CHEAP = 36 << 10,
    STACK_COPIED = 800
}; /* bytes: of a stack that costs nothing, and for a step's worth */

static void on_count(lua_State *L, lua_Debug *ar);

void lml_box_die(lml_box *box, lml_status status, const char *what, const char *hint)
{
    if (box->dead)
        return;
    box->dead = box->place = true;
    lml_fail(&box->death, status, "%s", what);
    if (hint)
        lml_error_hint(&box->death, "%s", hint);
    lml_box_start_count(box);
}

void lml_box_out_of_memory(lml_box *box)
{
    lml_box_die(box, LML_NO_MEMORY, "out of memory", NULL);
}

void lml_box_blame(lml_box *box, const char *whose, const char *shown)
{
    lml_error *e = &box->death;
    if (!box->dead || box->blamed)
        return;
    box->blamed = true;
    if (e->contexts == 0 || !strstr(e->context[e->contexts - 1], shown))
        lml_error_context(e, e->status, "%s %s", whose, shown);
}

void lml_box_too_deep(lml_box *box)
{
    lml_box_die(box, LML_LIMIT, "the recipe calls itself too deeply",
                "a function may be calling itself endlessly");
}

static void spend(lml_box *box, uint64_t steps)
{
    box->spent = steps > UINT64_MAX - box->spent ? UINT64_MAX : box->spent + steps;
    if (box->spent > box->budget)
        lml_box_die(
            box, LML_LIMIT, "the recipe did more work than it is allowed",
            "a loop may never end; if the work really takes that long, raise the step limit");
}

/* The line of a recipe or script that was at work: no allocation. */
static void note_place(lua_State *L, lml_box *box)
{
    enum { LEVELS = 20 };
    lua_Debug at;
    box->place = false;
    for (int level = 0; level < LEVELS && lua_getstack(L, level, &at); level++)
        if (lua_getinfo(L, "Sl", &at) && at.source[0] == '@' && at.currentline > 0) {
            lml_error_context(&box->death, box->death.status, "at %s:%d", at.source + 1,
                              at.currentline);
            return;
        }
}

static int raise_death(lua_State *L)
{
    lml_box *box = lml_box_of(L);
    if (box->place)
        note_place(L, box);
    /* No allocation here: memory may be what ran out. */
    lua_pushlightuserdata(L, box);
    return lua_error(L);
}

/* Garbage is let lie at first: most runs end before it is worth collecting. Then it is collected
 * seldom, so that memory stays in the processor's cache; and as Lua usually does once the
 * limit is in sight. */
static void tend_garbage(lml_box *box)
{
    enum { SELDOM = 1000, USUAL = 200 }; /* next collection at this percentage of what was left */
    if (box->garbage == LML_GARBAGE_LIES && box->meter.used > GARBAGE_LET_LIE) {
        box->garbage = LML_GARBAGE_SELDOM;
        lua_gc(box->L, LUA_GCINC, SELDOM, 0, 0);
        lua_gc(box->L, LUA_GCRESTART);
    }
    if (box->garbage == LML_GARBAGE_SELDOM && box->pool.held > box->memory_limit / 4) {
        box->garbage = LML_GARBAGE_USUAL;
        lua_gc(box->L, LUA_GCINC, USUAL, 0, 0);
        lua_gc(box->L, LUA_GCCOLLECT);
    }
}

void lml_box_ask(lml_box *box, uint64_t steps)
{
    box->unasked += steps;
    if (box->unasked < LML_BOX_PERIOD)
        return;
    box->unasked = 0;
    if (box->interrupt && !box->dead && box->interrupt(box->interrupt_self))
        lml_box_die(box, LML_LIMIT, "the recipe was interrupted",
                    "it took longer than its time limit");
}

/* Work that costs more than a thousand steps at once does not continue after an interrupt
 * either. */
static void pay(lml_box *box, uint64_t steps)
{
    for (uint64_t some; !box->dead && steps > 0; steps -= some) {
        some = steps < LML_BOX_PERIOD ? steps : LML_BOX_PERIOD;
        spend(box, some);
        lml_box_ask(box, some);
    }
}

/* Instructions of Lua that are counted before the hook is called: fewer where they are dear, each
 * of a run that is dead. */
static int period(const lml_box *box)
{
    return box->dead || box->price >= LML_BOX_PERIOD ? 1 : (int)(LML_BOX_PERIOD / box->price);
}

void lml_box_start_count(lml_box *box)
{
    if (box->L)
        lua_sethook(box->L, on_count, LUA_MASKCOUNT | (box->on_line ? LUA_MASKLINE : 0),
                    period(box));
}

void lml_box_set_price(lml_box *box, uint64_t price)
{
    if (price == box->price)
        return;
    box->price = price;
    lml_box_start_count(box);
}

void lml_box_move(lml_box *box, uint64_t steps)
{
    lml_moves *m = &box->moves;
    m->moved += steps;
    if (m->moved > m->most)
        lml_box_die(
            box, LML_LIMIT, "the recipe did more work than it is allowed",
            "a loop may never end, or large tables be made, emptied or walked again and again");
    lml_box_ask(box, steps);
}

/* Counts Lua instructions. While calls are deep each may have copied a good part of the stack. */
static void move_stack(lml_box *box, uint64_t instructions)
{
    lml_moves *m = &box->moves;
    if (m->stack_longest > STACK_CHEAP)
        lml_box_move(box, instructions * ((m->stack_longest - STACK_CHEAP) / STACK_COPIED));
    m->stack_longest = m->stack_size;
}

static void on_count(lua_State *L, lua_Debug *ar)
{
    lml_box *box = lml_box_of(L);
    if (ar->event == LUA_HOOKLINE) {
        box->on_line(box->on_line_self, L, ar);
        return;
    }
    if (!box->dead) {
        uint64_t instructions = (uint64_t)lua_gethookcount(L);
        pay(box, instructions * box->price);
        move_stack(box, instructions);
        tend_garbage(box);
    }
    if (box->dead)
        raise_death(L);
}

void lml_box_charge_rest(lua_State *L, uint64_t steps)
{
    lml_box *box = lml_box_of(L);
    pay(box, steps);
    if (box->dead)
        raise_death(L);
}

void lml_box_need_stack(lua_State *L, int slots)
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

bool lml_box_is_overflow(lua_State *L, int index)
{
    static const char end[] = "stack overflow";
    enum { END = sizeof end - 1 };
    size_t length;
    const char *text = lua_type(L, index) == LUA_TSTRING ? lua_tolstring(L, index, &length) : NULL;
    return text && length >= END && memcmp(text + length - END, end, END) == 0;
}
