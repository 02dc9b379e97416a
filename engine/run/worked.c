#include "run/worked.h"

#include <string.h>

/* Registry key: the block that holds them. */
static const char WORKED;

enum { FIRST = 64 /* what most jobs have at most */ };

bool lml_worked_has(const lml_run *run, const lml_item *item)
{
    const lml_worked *all = run->worked;
    for (size_t i = 0; all && i < all->count; i++)
        if (all->item[i].item == item)
            return true;
    return false;
}

/* A longer block replaces the full one. */
static void grow(lua_State *L, lml_run *run)
{
    const lml_worked *full = run->worked;
    const size_t room = full ? full->room * 2 : FIRST;
    lml_worked *all = lua_newuserdatauv(L, sizeof *all + room * sizeof *all->item, 0);
    if (full)
        memcpy(all, full, sizeof *full + full->count * sizeof *full->item);
    else
        all->count = 0;
    all->room = room;
    lua_rawsetp(L, LUA_REGISTRYINDEX, &WORKED);
    run->worked = all;
}

void lml_worked_add(lua_State *L, lml_item *item, const char *under)
{
    lml_run *run = lml_run_of(L);
    if (!run->worked || run->worked->count == run->worked->room)
        grow(L, run);
    run->worked->item[run->worked->count++] = (lml_worked_item){item, under};
}
