/* What a box takes of memory, and what Lua moves in it.
 *
 * Memory is what the pool has from the system, not what Lua asked for: small blocks go back to
 * lists by size and serve no other size. No list, table or text may take more than 1 MiB, and the
 * stack of calls a quarter of that, so that what one instruction of Lua can move is bounded.
 *
 * What Lua moves has a measure of its own beside the steps. One instruction can make a table of
 * thousands of names anew, and one call of ours can walk a table from which all was taken out. This
 * is never put on the bill of steps: when Lua makes a table anew hangs on a seed that it draws from
 * the clock and from addresses, and when it collects garbage on what was loaded before, so that the
 * same run would cost other steps from time to time. The measure, in steps' worth of work (200
 * instructions of the processor), does two things only: an interrupt is asked as it grows, and a
 * run that moved far more than its steps can account for is ended. A loop that only adds to tables
 * moves less than three steps' worth for each of its steps; four are allowed, and ten million
 * besides.
 *
 *     lua_State *L = lua_newstate(lml_box_allocate, box);      once the pool and the limits of the
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
    void *stack, *names, *latest; /* Lua's own blocks: the stack and the index of short texts; the
                                     newest that may be either */
    size_t stack_size, latest_size;
    size_t stack_longest;         /* since instructions were last counted */
    size_t widest, widest_before; /* bytes of the largest block that a table ever had, and the same
                                     without the latest */
} lml_moves;

/* A lua_Alloc; its first argument is the box. */
void *lml_box_allocate(void *box, void *block, size_t old_size, size_t new_size);
/* The state was just made: learn which block is its stack. False when memory is short. */
bool lml_box_find_stack(struct lml_box *box, lua_State *L);
/* Before a walk by lua_next: a table from which all was taken out is as long as it was, and to look
 * through it for what is left takes as long. Raises when the run is ended. */
void lml_memory_charge_walk(lua_State *L);

#endif
