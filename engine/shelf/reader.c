#include "shelf/reader.h"

#include "base/ascii.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"

#include <stdio.h>
#include <string.h>

/* What one declaration may hold: one text or table in Lua can be named many times over. */
enum { HELD_MOST = 1 << 20, NAME_MOST = 60 };

void lml_reader_fault(lua_State *L, const lml_reader *r, const char *hint, const char *format, ...)
{
    char message[sizeof((lml_error *)0)->message];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    lml_error e;
    lml_fail(&e, LML_BAD_RECIPE, "%s", message);
    if (hint)
        lml_error_hint(&e, "%s", hint);
    if (r->note)
        r->note(r->self, r->line, &e);
    else
        lml_raise(L, &e);
}

void lml_reader_note_raised(lua_State *L, const lml_reader *r, int failed)
{
    lml_box *box = lml_box_of(L);
    lml_error e;
    if (box->dead)
        lua_error(L);
    lml_box_take_error(box, failed, &e);
    r->note(r->self, r->line, &e);
}

void *lml_reader_keep(lml_recipe *r, size_t size)
{
    r->held += size;
    void *block = lml_pool_resize(&r->pool, NULL, 0, size);
    if (block)
        memset(block, 0, size);
    return block;
}

void *lml_reader_must(lua_State *L, lml_reader *r, size_t size)
{
    if (r->recipe->held + size > HELD_MOST)
        lml_raise_text(L, LML_LIMIT, "%s declares more than a recipe can", r->name);
    void *kept = lml_reader_keep(r->recipe, size);
    if (!kept)
        lml_raise_text(L, LML_NO_MEMORY, "out of memory for the declaration of a recipe");
    return kept;
}

const char *lml_reader_keep_text(lua_State *L, lml_reader *r, int index)
{
    index = lua_absindex(L, index);
    lml_view_push_clean(L, index, "a text of a recipe", LML_TEXT_MOST);
    if (!lua_rawequal(L, -1, index))
        lml_raise_text(L, LML_BAD_RECIPE, "%s: a text has characters that cannot be printed",
                       r->name);
    size_t length;
    const char *text = lua_tolstring(L, -1, &length);
    const char *fault = lml_wording_fault((lml_span){text, length});
    if (fault)
        lml_raise_hint(
            L, LML_BAD_RECIPE, "say it in other words, on one line",
            "%s: a text in its declaration looks like one of lemel's own: it contains \"%s\"",
            r->name, fault);
    char *out = lml_reader_must(L, r, length + 1);
    memcpy(out, text, length);
    lua_pop(L, 1);
    return out;
}

const char *lml_reader_keep_name(lua_State *L, lml_reader *r, int index)
{
    lml_span name = lml_what_need_text(L, index, "a name");
    bool ok = name.length > 0 && name.length <= NAME_MOST;
    for (size_t i = 0; ok && i < name.length; i++) {
        char c = name.at[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
        ok = letter || (i > 0 && c >= '0' && c <= '9');
    }
    if (!ok)
        lml_reader_fault(L, r, "a name is made of up to 60 letters, digits and _",
                         "%s: '%.*s' cannot be a name", r->name, (int)name.length, name.at);
    return !ok ? NULL : lml_reader_keep_text(L, r, index);
}

void lml_reader_check_mark(lua_State *L, const lml_reader *r, const char *name, const char *text,
                           const char *marks)
{
    size_t length = strlen(text);
    bool ok = length <= NAME_MOST;
    for (size_t i = 0; ok && i < length; i++) {
        char c = text[i];
        ok = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || lml_ascii_is_digit(c) ||
             strchr(marks, c);
    }
    if (!ok)
        lml_reader_fault(L, r, "such as version = \"1.0.0\", licence = \"CC0-1.0\"",
                         "%s: '%s' is made of up to %d letters, digits and any of \"%s\"", r->name,
                         name, NAME_MOST, marks);
}

const char *lml_reader_text_member(lua_State *L, lml_reader *r, int index, const char *name,
                                   bool required)
{
    const char *out = NULL;
    lua_getfield(L, index, name);
    if (lua_type(L, -1) == LUA_TSTRING)
        out = lml_reader_keep_text(L, r, -1);
    else if (!lua_isnil(L, -1))
        lml_reader_fault(L, r, NULL, "%s: '%s' must be a text", r->name, name);
    else if (required && !r->misspelt)
        lml_reader_fault(L, r, NULL, "%s: a recipe needs a '%s'", r->name, name);
    lua_pop(L, 1);
    return out;
}

static bool is_unknown(lua_State *L, const void *self)
{
    if (lua_type(L, -2) != LUA_TSTRING)
        return lua_type(L, -2) != LUA_TNUMBER;
    lml_span name = lml_what_need_text(L, -2, "a name");
    for (const char *const *known = self; *known; known++)
        if (lml_span_is(name, *known))
            return false;
    return true;
}

/* "take it out; known are: title, version, ..." */
static void hint_names(lml_error *e, const char *const *known)
{
    char list[200];
    size_t at = 0;
    for (; *known; known++) {
        size_t length = strlen(*known);
        if (strcmp(*known, "rule") == 0) /* which nobody writes */
            continue;
        if (at + length + 6 > sizeof list)
            break;
        at += (size_t)snprintf(list + at, sizeof list - at, "%s%s", at ? ", " : "", *known);
    }
    lml_error_hint(e, "leave it out; what can be there: %s%s", list, *known ? ", ..." : "");
}

/* The first of them, which is on top of the stack. */
static void refuse_name(lua_State *L, const lml_reader *r, const char *member,
                        const char *const *known)
{
    lml_span name = lml_what_need_text(L, -1, "a name");
    lml_nearest nearest = lml_nearest_to(name);
    for (const char *const *k = known; *k; k++)
        lml_nearest_offer(&nearest, lml_span_of(*k));
    lml_error e;
    char where[120];
    if (member)
        snprintf(where, sizeof where, "%s: '%s'", r->name, member);
    else
        snprintf(where, sizeof where, "%s", r->name);
    lml_fail(&e, LML_BAD_RECIPE, "%s has no '%.*s'", where, (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&e, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else
        hint_names(&e, known);
    if (!r->note)
        lml_raise(L, &e);
    r->note(r->self, r->line, &e);
}

bool lml_reader_check_names(lua_State *L, const lml_reader *r, int index, const char *member,
                            const char *const *known)
{
    int top = lua_gettop(L);
    if (!lml_key_find_odd(L, index, is_unknown, known))
        return true;
    if (!r->note)
        refuse_name(L, r, member, known);
    lua_settop(L, top);
    index = lua_absindex(L, index);
    lua_Integer count = lml_key_push_sorted(L, index);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, top + 1, i);
        lua_pushnil(L); /* as if it were the value: only the name is looked at */
        bool odd = is_unknown(L, known);
        lua_pop(L, 1);
        if (odd && lua_type(L, -1) == LUA_TSTRING)
            refuse_name(L, r, member, known);
        lua_pop(L, 1);
    }
    lua_settop(L, top);
    return false;
}

void lml_reader_push_section(lua_State *L, lml_reader *r, int index, const char *name)
{
    lua_getfield(L, index, name);
    if (lua_isnil(L, -1)) {
        lua_pop(L, 1);
        lua_newtable(L);
    } else if (!lua_istable(L, -1)) {
        char hint[NAME_MOST];
        snprintf(hint, sizeof hint, "write %s = { ... }", name);
        lml_reader_fault(L, r, hint, "%s: '%s' must be a table", r->name, name);
        lua_pop(L, 1);
        lua_newtable(L);
    }
}
