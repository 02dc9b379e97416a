/* A box's use of memory, and how much Lua moves in it.
 *
 * Memory is what the pool has from the system, not what Lua asked for: freed small blocks are
 * reused only for the same size. No list, table or text may take more than 1 MiB, and the stack of
 * calls a quarter of that, so that the work of one Lua instruction is bounded.
 *
 * What Lua moves is counted apart from the steps. One instruction can rehash a table of thousands
 * of names, and one call of ours can walk a table that has been emptied. This never counts as
 * steps: when Lua rehashes depends on a seed from the clock and addresses, and when it collects
 * garbage depends on what was loaded before, so the same run would cost a different number of steps
 * each time. The measure, in steps' worth of work (200 instructions of the processor), does two
 * things only: the interrupt is polled as it grows, and a run that moves far more than its steps
 * can account for is ended. A loop that only adds to tables moves less than three steps' worth for
 * each of its steps; four are allowed, plus ten million.
 *
 *     lua_State *L = lua_newstate(lml_box_allocate, box);      after the pool and the limits of the
 * box are set lml_box_find_stack(box, L);
 */
#ifndef LML_CELL_MEMORY_H
#define LML_CELL_MEMORY_H

#include <lua.h>

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct lml_box;

typedef struct lml_moves {
    uint64_t moved, most;         /* so far, and what is allowed */
    void *stack, *names, *latest; /* Lua's own blocks: the stack and the string table; the newest
                                     that may be either */
    size_t stack_size, latest_size;
    size_t stack_longest;         /* since instructions were last counted */
    size_t widest, widest_before; /* bytes of the largest block that a table has had, and the same
                                     without the latest */
} lml_moves;

/* A lua_Alloc; its first argument is the box. */
void *lml_box_allocate(void *box, void *block, size_t old_size, size_t new_size);
/* Finds which block is the stack of a new state. False if memory is short. */
bool lml_box_find_stack(struct lml_box *box, lua_State *L);
/* To be called before a walk with lua_next: an emptied table keeps its size, and searching it takes
 * as long as before. Raises if the run is ended. */
void lml_memory_charge_walk(lua_State *L);

#endif
