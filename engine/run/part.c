#include "run/part.h"

#include "cell/trace.h"
#include "cell/raise.h"
#include "cell/wording.h"

#include <stdio.h>
#include <string.h>

static const char *const PAGES[] = {"bench",   "piece",   "client", "metal",
                                    "receipt", "consent", "card",   "cost"};
enum { PAGES_COUNT = sizeof PAGES / sizeof PAGES[0], REMARKS_MOST = 500 };

size_t lml_part_pages(void)
{
    return PAGES_COUNT;
}

const char *lml_part_page(size_t i)
{
    return PAGES[i];
}

void lml_part_append(lua_State *L, int list)
{
    list = lua_absindex(L, list);
    lua_rawseti(L, list, (lua_Integer)lua_rawlen(L, list) + 1);
}

/* With room for the entries of so many pages. */
static void push_empty(lua_State *L, const char *recipe, int pages)
{
    lua_createtable(L, 0, 8);
    lua_pushstring(L, recipe);
    lua_setfield(L, -2, "recipe");
    lua_newtable(L);
    lua_setfield(L, -2, "remarks");
    lua_newtable(L);
    lua_setfield(L, -2, "within");
    lua_createtable(L, 0, pages);
    lua_setfield(L, -2, "pages");
}

void lml_part_push_bare(lua_State *L, const char *recipe)
{
    push_empty(L, recipe, 0);
}

void lml_part_push(lua_State *L, const char *recipe, const char *title)
{
    push_empty(L, recipe, PAGES_COUNT);
    lua_pushstring(L, title);
    lua_setfield(L, -2, "title");
    lua_newtable(L);
    lua_setfield(L, -2, "withheld");
}

void lml_part_push_entries(lua_State *L, int part, const char *page)
{
    lua_getfield(L, part, "pages");
    if (lua_getfield(L, -1, page) == LUA_TNIL) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, page);
    }
    lua_remove(L, -2);
}

void lml_part_enclose(lua_State *L, int parent, int child)
{
    parent = lua_absindex(L, parent);
    child = lua_absindex(L, child);
    lua_pushvalue(L, parent);
    lua_setfield(L, child, "outer");
    lua_getfield(L, parent, "within");
    lua_pushvalue(L, child);
    lml_part_append(L, -2);
    lua_createtable(L, 0, 2); /* one entry, which is on all pages */
    lua_pushliteral(L, "part");
    lua_setfield(L, -2, "is");
    lua_pushvalue(L, child);
    lua_setfield(L, -2, "part");
    for (size_t i = 0; i < PAGES_COUNT; i++) {
        lml_part_push_entries(L, parent, PAGES[i]);
        lua_pushvalue(L, -2);
        lml_part_append(L, -2);
        lua_pop(L, 1);
    }
    lua_pop(L, 2);
}

void lml_part_join(lua_State *L, int part, int heading)
{
    part = lua_absindex(L, part);
    lua_pushvalue(L, heading);
    lua_setfield(L, part, "title");
    lml_trace_print(L, part);
    lua_pushboolean(L, 1);
    lua_setfield(L, part, "joined");
}

/* A job says so much and no more: each remark is looked for among the others wherever it is
 * printed. The count is in the part of the recipe that the job names. */
lua_Integer lml_part_count_remarks(lua_State *L, int part, lua_Integer more)
{
    lua_pushvalue(L, part);
    while (lua_getfield(L, -1, "outer") == LUA_TTABLE)
        lua_replace(L, -2);
    lua_pop(L, 1);
    lua_getfield(L, -1, "said");
    lua_Integer said = lua_tointeger(L, -1) + more;
    if (said > REMARKS_MOST)
        lml_raise_hint(L, LML_LIMIT,
                       "say once what applies to all, and put what differs into a grid",
                       "a job has more than %d notes, cautions, confirms and stops", REMARKS_MOST);
    lua_pushinteger(L, said);
    lua_setfield(L, -3, "said");
    lua_pop(L, 2);
    return said;
}

void lml_part_file_remark(lua_State *L, int part, int entries)
{
    int remark = lua_gettop(L);
    lml_part_count_remarks(L, part, 1);
    lua_getfield(L, part, "remarks");
    lua_pushvalue(L, remark);
    lml_part_append(L, -2);
    lua_pop(L, 1);
    lua_pushvalue(L, entries);
    lua_pushvalue(L, remark);
    lml_part_append(L, -2);
    lua_pop(L, 2);
}

void lml_part_fail(lua_State *L, int part, const lml_error *why)
{
    part = lua_absindex(L, part);
    lua_pushboolean(L, 1);
    lua_setfield(L, part, "failed");
    lml_part_push_entries(L, part, "bench");
    lua_createtable(L, 0, 4);
    lua_pushliteral(L, "remark");
    lua_setfield(L, -2, "is");
    lua_pushliteral(L, "caution");
    lua_setfield(L, -2, "level");
    lua_getfield(L, part, "recipe");
    lua_pushfstring(L, "%s/failed", lua_tostring(L, -1));
    lua_setfield(L, -3, "code");
    lua_pushstring(L, why->message);
    lml_wording_push(L, -1, "the text of a remark", LML_PART_TEXT);
    lml_trace_caught(L, -1);
    lua_setfield(L, -4, "failure");
    lua_pushfstring(L, "%s failed, so none of its figures are printed: %s", lua_tostring(L, -2),
                    why->message);
    lml_wording_push(L, -1, "the text of a remark", LML_PART_TEXT);
    lua_setfield(L, -5, "text");
    lua_pop(L, 3);
    lml_part_file_remark(L, part, lua_gettop(L) - 1);
    lua_pop(L, 1);
}

/* Remove all but the remarks and the parts within. */
static void keep_remarks(lua_State *L, int entries)
{
    lua_Integer count = (lua_Integer)lua_rawlen(L, entries), kept = 0;
    for (lua_Integer k = 1; k <= count; k++, lua_settop(L, entries)) {
        lml_box_charge(L, 2);
        lua_rawgeti(L, entries, k);
        lua_getfield(L, -1, "is");
        const char *is = lua_tostring(L, -1);
        if (strcmp(is, "part") != 0 && strcmp(is, "remark") != 0)
            continue;
        lua_pushvalue(L, entries + 1);
        lua_rawseti(L, entries, ++kept);
    }
    for (; count > kept; count--) {
        lua_pushnil(L);
        lua_rawseti(L, entries, count);
    }
}

void lml_part_hush(lua_State *L, int part)
{
    lml_box_need_stack(L, 12);
    lua_getfield(L, part, "pages");
    const int pages = lua_gettop(L);
    for (size_t i = 0; i < PAGES_COUNT; i++, lua_settop(L, pages))
        if (lua_getfield(L, pages, PAGES[i]) == LUA_TTABLE)
            keep_remarks(L, pages + 1);
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, pages + 1); i++) {
        lua_rawgeti(L, pages + 1, i);
        lml_part_hush(L, pages + 2);
        lua_settop(L, pages + 1);
    }
    lua_settop(L, pages - 1);
}

/* ---- names of figures ---- */

void lml_part_name_member(lua_State *L, const char *called, int key, char out[LML_PART_NAME])
{
    if (lua_type(L, key) == LUA_TSTRING)
        snprintf(out, LML_PART_NAME, "%.180s.%.60s", called, lua_tostring(L, key));
    else
        snprintf(out, LML_PART_NAME, "%.180s[%d]", called, (int)lua_tointeger(L, key) - 1);
}

static const char KEY = '\1'; /* in no name that is printed */

void lml_part_name_key(const char *member, char out[LML_PART_NAME])
{
    snprintf(out, LML_PART_NAME, "%.250s%c", member, KEY);
}

bool lml_part_is_key(const char *name)
{
    return strchr(name, KEY) != NULL;
}
