/* Which variable was nil? Lua's own messages name it; a metamethod is only told that it got nil.
 * The names are found again in the line of source that is running. */
#include "words/nil_name.h"
#include "shelf/shelf.h"
#include "shelf/token.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "base/ascii.h"

#include <stdio.h>
#include <string.h>

/* Push the caller's local or upvalue called `name`. */
static bool push_variable(lua_State *L, lua_Debug *ar, lml_span wanted)
{
    const char *name;
    bool found = false;
    lua_getinfo(L, "f", ar);
    int function = lua_gettop(L);
    uint64_t look = lml_raise_look_cost(L, ar->source);
    for (int i = 1; (name = lua_getlocal(L, ar, i)); i++) {
        lml_box_charge(L, look);
        if (strcmp(name, "(temporary)") == 0) { /* none of them has a name from here on */
            lua_pop(L, 1);
            break;
        }
        if (lml_span_is(wanted, name)) { /* the last of a name is the live one */
            if (found)
                lua_remove(L, -2);
            found = true;
        } else {
            lua_pop(L, 1);
        }
    }
    for (int i = 1; !found && (name = lua_getupvalue(L, function, i)); i++) {
        found = lml_span_is(wanted, name);
        if (!found)
            lua_pop(L, 1);
    }
    lua_remove(L, function);
    return found;
}

/* One dotted name starting at `at`; its end goes to *end. True when it is nil. */
static bool is_nil_path(lua_State *L, lua_Debug *ar, const char *at, const char *stop,
                        const char **end)
{
    const char *p = at;
    while (p < stop && lml_ascii_is_name(*p))
        p++;
    *end = p;
    if (!push_variable(L, ar, lml_span_between(at, p)))
        return false;
    while (p + 1 < stop && *p == '.' && lml_ascii_is_name(p[1]) && lml_view_test_content(L, -1)) {
        const char *from = ++p;
        while (p < stop && lml_ascii_is_name(*p))
            p++;
        *end = p;
        lua_pushlstring(L, from, (size_t)(p - from));
        lua_rawget(L, -2);
        lua_copy(L, -1, -3);
        lua_pop(L, 2);
    }
    bool nil = lua_isnil(L, -1) || lua_type(L, -1) == LUA_TLIGHTUSERDATA;
    lua_pop(L, 1);
    return nil;
}

/* Whether the name between the two is beside an operator: then it is what had to be a value. */
static bool beside_operator(lml_span line, const char *from, const char *to)
{
    const char *stop = line.at + line.length;
    while (from > line.at && from[-1] == ' ')
        from--;
    while (to < stop && *to == ' ')
        to++;
    char before = from > line.at ? from[-1] : ' ', after = to < stop ? *to : ' ';
    bool compared = before == '=' && from - 1 > line.at && strchr("=<>~", from[-2]);
    return compared || strchr("+-*/%^<>", before) || strchr("+-*/%^<>~", after) ||
           (after == '=' && to + 1 < stop && to[1] == '=');
}

enum { LOOKED_UP = 200 /* a name among the variables of a function */ };

bool lml_nil_name(lua_State *L, char *out, size_t size)
{
    lua_Debug ar;
    if (!lua_getstack(L, 1, &ar) || !lua_getinfo(L, "Sl", &ar) || ar.currentline < 1)
        return false;
    const lml_shelf *shelf = lml_box_of(L)->shelf;
    if (!shelf || ar.source[0] != '@')
        return false;
    lml_span line = lml_shelf_line(shelf, ar.source + 1, ar.currentline);
    const char *stop = line.at + line.length;
    bool found = false;
    lml_box_charge(L, (uint64_t)ar.currentline + line.length);
    for (const char *p = line.at; p < stop;) {
        if (p + 1 < stop && p[0] == '-' && p[1] == '-') /* a comment */
            break;
        if (*p == '"' || *p == '\'') { /* not inside a text */
            char quote = *p++;
            while (p < stop && *p != quote)
                p++;
            p += p < stop;
        } else if (lml_ascii_is_name(*p) && !lml_ascii_is_digit(*p)) {
            const char *end;
            lml_box_charge(L, LOOKED_UP);
            if (is_nil_path(L, &ar, p, stop, &end)) {
                bool sure = beside_operator(line, p, end);
                if (sure || !found)
                    snprintf(out, size, "%.*s", (int)(end - p), p);
                found = true;
                if (sure)
                    return true;
            }
            p = end;
            while (p < stop && (lml_ascii_is_name(*p) || *p == '.'))
                p++;
        } else {
            p++;
        }
    }
    return found;
}
