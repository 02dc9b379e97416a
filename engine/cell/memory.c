#include "cell/memory.h"

#include "base/apart.h"
#include "cell/state.h"

/* Four times as much is given, to a run that dies of it. The trace of a run keeps a table of all
 * values, those among them that wait to be collected. */
enum { BLOCK_MOST = 1 << 20, BLOCK_MOST_TRACED = 32 << 20, GIVEN = 4 };
enum { STACK_MOST = 256 << 10 };
enum { CHEAP_TEXT = 1024 };
/* Bytes for a step's worth, by what callgrind counts: a table that is made again for one more name
 * works all its names in again; a list is copied, a text written and looked through once; a walk
 * looks at two blocks of a table. */
enum { NAMED = 11, COPIED = 80, WRITTEN = 32, WALKED = 300 };
enum { WALK_FREE = 8 << 10 };
/* Smaller blocks are in the price of what makes them. */
enum { SMALL = 96 };
enum { FIRST_STACK = 100 /* values, more than a new state has room for */ };
enum { FIRST_NAMES = 128 * sizeof(void *) /* the index of short texts that a new state has */ };

/* The inside of a table by names has room for 1, 2, 4 ... of them. Some lists are as long, and
 * count as much. */
static bool may_hold_names(size_t size)
{
    enum { NAME = 24 };
    return size % NAME == 0 && (size / NAME & (size / NAME - 1)) == 0;
}

/* As lml_box_move, without a call of it where nothing comes of it. */
static void move(lml_box *box, uint64_t steps)
{
    lml_moves *m = &box->moves;
    if (box->unasked + steps < LML_BOX_PERIOD && m->moved + steps <= m->most) {
        box->unasked += steps;
        m->moved += steps;
    } else {
        lml_box_move(box, steps);
    }
}

static size_t block_most(const lml_box *box)
{
    return box->trace ? BLOCK_MOST_TRACED : BLOCK_MOST;
}

/* For a new block Lua passes a tag in place of the old size: that of its type, or 0 for the inside
 * of a table. */
static void look_at(lml_box *box, const void *block, size_t old_size, size_t new_size)
{
    lml_moves *m = &box->moves;
    bool own = block && (block == m->names || block == m->stack);
    bool of_table = block ? !own : old_size == 0;
    if (block)
        move(box, (old_size + new_size) / COPIED);
    else if (old_size == 0)
        move(box, new_size / (may_hold_names(new_size) ? NAMED : COPIED));
    else
        move(box, new_size / WRITTEN);
    if (!block && old_size == 0)
        m->widest_before = m->widest;
    if (of_table && new_size > m->widest)
        m->widest = new_size;
    if (!block && old_size == LUA_TSTRING && new_size / CHEAP_TEXT >= box->price)
        lml_box_set_price(box, 1 + new_size / CHEAP_TEXT);
    if (new_size > BLOCK_MOST && !own && new_size > block_most(box))
        lml_box_die(box, LML_LIMIT,
                    box->trace ? "the run has too many values to record where its figures come from"
                               : "the recipe made a list, table or text larger than 1 MiB",
                    box->trace ? "split the job; if a stop withholds figures, settle it first"
                               : "it may be growing without limit");
}

static void follow_stack(lml_box *box, void *block, size_t size)
{
    lml_moves *m = &box->moves;
    m->stack = block;
    m->stack_size = size;
    if (size > m->stack_longest)
        m->stack_longest = size;
    if (size > STACK_MOST)
        lml_box_too_deep(box);
}

/* Where Lua's own blocks are. The stack moves by a change of its size, or by a new block just
 * before the old one is freed. */
static void follow(lml_box *box, const void *block, size_t old_size, void *given, size_t new_size)
{
    lml_moves *m = &box->moves;
    if (block && block == m->names) {
        m->names = given;
    } else if (block && block == m->stack) {
        if (!given)
            m->widest = m->widest_before; /* the latest was no table */
        follow_stack(box, given ? given : m->latest, given ? new_size : m->latest_size);
    } else if (given && (block || old_size == 0)) {
        m->latest = given;
        m->latest_size = new_size;
        if (!box->L && !block && new_size == FIRST_NAMES)
            m->names = given;
    }
}

/* Over a limit the run is marked dead, and dies at its next instruction; the memory asked for is
 * still given, so that Lua's own out-of-memory paths (faulty in 5.4.4) are not walked. Only at
 * twice the limit is it refused. */
LML_APART static void *allocate(lml_box *box, void *block, size_t old_size, size_t new_size)
{
    if (new_size >= SMALL)
        look_at(box, block, old_size, new_size);
    size_t old = block ? old_size : 0;
    const bool large = new_size > GIVEN * BLOCK_MOST && new_size > GIVEN * block_most(box);
    void *given = large ? NULL : lml_pool_resize(&box->pool, block, old, new_size);
    box->refused = !given && new_size > 0;
    if (box->pool.held > box->memory_limit || (box->refused && (box->pool.full || large)))
        lml_box_die(box, LML_LIMIT, "the recipe used more memory than it is allowed",
                    "a list or text may be growing without limit; --memory allows it more");
    if (box->refused)
        return NULL;
    /* What the meter does, without a call of it: most of what an operation on values costs is
     * memory. */
    box->meter.used += new_size - old;
    if (new_size >= SMALL || old >= SMALL) /* those two are never smaller */
        follow(box, block, old_size, given, new_size);
    return given;
}

/* Mostly it is a small new block. */
void *lml_box_allocate(void *self, void *block, size_t old_size, size_t new_size)
{
    lml_box *box = self;
    if (!block && new_size < SMALL && new_size > 0 && lml_pool_is_small(new_size)) {
        void *taken = lml_pool_take_small(&box->pool, new_size);
        if (taken) {
            box->refused = false;
            box->meter.used += new_size;
            return taken;
        }
    }
    /* A table that gets room for names has that for its list looked at, too: mostly there is none,
     * or it stays as it is. */
    if (new_size < SMALL && (block ? old_size == new_size : new_size == 0)) {
        box->refused = false;
        return block;
    }
    return allocate(box, block, old_size, new_size);
}

bool lml_box_find_stack(lml_box *box, lua_State *L)
{
    lml_moves *m = &box->moves;
    m->stack = NULL;
    if (!lua_checkstack(L, FIRST_STACK))
        return false;
    follow_stack(box, m->latest, m->latest_size);
    return true;
}

void lml_memory_charge_walk(lua_State *L)
{
    lml_box *box = lml_box_of(L);
    if (box->moves.widest > WALK_FREE)
        lml_box_move(box, box->moves.widest / WALKED);
    lml_box_charge(L, 0);
}
