#include "report/result_picture.h"

#include "cell/class.h"
#include "cell/key.h"
#include "cell/state.h"
#include "report/result_datum.h"
#include "report/result_figure.h"
#include "report/result_withheld.h"

#include <string.h>

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_word(w, text);
}

/* What is no figure and no text of the recipe's. */
static bool is_own(const char *field)
{
    return strcmp(field, "is") == 0 || strcmp(field, "of") == 0 || strcmp(field, "column") == 0 ||
           strcmp(field, "mark") == 0 || strcmp(field, "unit") == 0;
}

/* Push what is withheld of the table at index, or of those in it; false, and nothing, when nothing
 * is. In sorted order, so that it is the same each time. */
static bool push_withheld(lua_State *L, int part, int index)
{
    lml_box_need_stack(L, 12);
    int top = lua_gettop(L);
    lua_Integer count = lml_key_push_sorted(L, index);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, top + 1, i);
        bool own = lua_type(L, -1) == LUA_TSTRING && is_own(lua_tostring(L, -1));
        lua_rawget(L, index);
        bool found = false;
        if (!own && lua_istable(L, -1)) {
            found = push_withheld(L, part, lua_gettop(L));
        } else if (!own && !lua_isboolean(L, -1) &&
                   lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
            lua_pushvalue(L, -1);
            found = true;
        }
        if (found) {
            lua_replace(L, top + 1);
            lua_settop(L, top + 1);
            return true;
        }
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
    return false;
}

/* Whether it is withheld; then that is written, with why. */
static bool put_withheld(lua_State *L, lml_json_writer *w, int part, int entry)
{
    int top = lua_gettop(L), figure = 0;
    const char *give = NULL;
    if (lua_getfield(L, entry, "of") == LUA_TTABLE) {
        lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
        for (lua_Integer i = 1; i <= count && !give; i++) {
            lua_rawgeti(L, top + 1, i);
            if (lml_result_withheld_give(L, part, lua_tostring(L, -1)))
                give = lua_tostring(L, -1); /* stays on the stack */
            else
                lua_pop(L, 1);
        }
    }
    if (!give && push_withheld(L, part, entry))
        figure = lua_gettop(L);
    if (give || figure) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
        lml_result_withheld_put_by(L, w, part, give, figure);
    }
    lua_settop(L, top);
    return give || figure;
}

/* What is on top of the stack: a figure, a text, a yes, a whole number, a list or a record. */
static void put(lua_State *L, lml_json_writer *w, lml_result_figure how)
{
    int index = lua_gettop(L);
    lml_box_need_stack(L, 12);
    if (lua_istable(L, index) && lua_rawlen(L, index) > 0) {
        lml_json_write_open_list(w);
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, index); i++) {
            lua_rawgeti(L, index, i);
            put(L, w, how);
            lua_pop(L, 1);
        }
        lml_json_write_close(w);
    } else if (lua_istable(L, index)) {
        lml_json_write_open_record(w);
        lua_Integer count = lml_key_push_sorted(L, index);
        for (lua_Integer i = 1; i <= count; i++) {
            lua_rawgeti(L, index + 1, i);
            lml_json_write_name(w, lml_span_of(lua_tostring(L, -1)));
            lua_rawget(L, index);
            put(L, w, how);
            lua_pop(L, 1);
        }
        lml_json_write_close(w);
    } else if (lua_isboolean(L, index)) {
        lml_json_write_yes_no(w, lua_toboolean(L, index));
    } else if (lua_type(L, index) == LUA_TSTRING) {
        lml_result_datum_put_text(L, w, index);
    } else if (lua_isinteger(L, index)) {
        lml_json_write_whole(w, lua_tointeger(L, index));
    } else {
        lml_result_figure_put(L, w, index, how, true);
    }
    lua_settop(L, index);
}

void lml_result_picture_put(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    if (put_withheld(L, w, part, entry))
        return;
    int top = lua_gettop(L);
    lua_getfield(L, entry, "unit");
    lml_result_figure how = {.page = page, .unit = lua_tostring(L, -1)};
    lua_Integer count = lml_key_push_sorted(L, entry);
    int keys = top + 2;
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, keys, i);
        const char *field = lua_tostring(L, -1);
        if (strcmp(field, "is") != 0 && strcmp(field, "unit") != 0) {
            name(w, field);
            lua_rawget(L, entry);
            put(L, w, how);
        }
        lua_settop(L, keys);
    }
    lua_settop(L, top);
}
