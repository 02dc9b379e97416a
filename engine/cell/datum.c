#include "cell/datum.h"

#include "cell/class.h"
#include "cell/key.h"
#include "cell/state.h"
#include "cell/view.h"
#include "value/alloy.h"
#include "value/value.h"

#include <stddef.h>

enum { DEPTH_MOST = 24, SLOTS = 8 };

/* ---- to bytes ----------------------------------------------------------------------------------
 */

static void add_size(lml_builder *to, size_t size)
{
    uint32_t n = (uint32_t)size;
    lml_builder_add(to, (const char *)&n, sizeof n);
}

static void add_bytes(lml_builder *to, char tag, const void *bytes, size_t size)
{
    lml_builder_add_char(to, tag);
    lml_builder_add(to, bytes, size);
}

static void add_span(lml_span text, lml_builder *to, char tag)
{
    lml_builder_add_char(to, tag);
    add_size(to, text.length);
    lml_builder_add(to, text.at, text.length + 1); /* with its NUL */
}

static void add_text(lua_State *L, int index, lml_builder *to, char tag)
{
    lml_span text;
    text.at = lua_tolstring(L, index, &text.length);
    add_span(text, to, tag);
}

static void add_number(lua_State *L, int index, lml_builder *to)
{
    if (lua_isinteger(L, index)) {
        lua_Integer n = lua_tointeger(L, index);
        add_bytes(to, 'i', &n, sizeof n);
    } else {
        lua_Number n = lua_tonumber(L, index);
        add_bytes(to, 'd', &n, sizeof n);
    }
}

/* Between the small members of a value, of which `kept` is the last, and its amount are padding
 * bytes, which may be anything. */
enum { SMALL = offsetof(lml_value, kept) + 1 };

static void add_value(const lml_value *v, lml_builder *to)
{
    lml_value clean;
    memset(&clean, 0, sizeof clean);
    memcpy(&clean, v, SMALL);
    clean.exact = v->exact;
    clean.low = v->low;
    clean.high = v->high;
    add_bytes(to, 'v', &clean, sizeof clean);
}

static bool add(lua_State *L, int index, lml_builder *to, int depth);

/* Push a list of the names that the table has beside 1 to `count`, sorted, those of marks too; -1,
 * and nothing pushed, when a key is something else. */
static lua_Integer push_names(lua_State *L, int table, lua_Integer count)
{
    enum { FIRST_NAMES = 8 /* what most tables have at most */ };
    lua_Integer names = 0;
    lua_createtable(L, FIRST_NAMES, 0);
    for (lua_pushnil(L); lua_next(L, table);) {
        lua_pop(L, 1);
        lua_Integer i = lua_isinteger(L, -1) ? lua_tointeger(L, -1) : 0;
        if (lua_type(L, -1) == LUA_TSTRING) {
            lua_pushvalue(L, -1);
            lua_rawseti(L, -3, ++names);
        } else if (i < 1 || i > count) {
            lua_pop(L, 2);
            return -1;
        }
    }
    if (names > 1)
        lml_key_sort(L, -1, names);
    return names;
}

static bool add_entries(lua_State *L, int table, lua_Integer count, lml_builder *to, int depth)
{
    bool all = true;
    for (lua_Integer i = 1; i <= count && all; i++) {
        lua_rawgeti(L, table, i);
        all = add(L, -1, to, depth + 1);
        lua_pop(L, 1);
    }
    return all;
}

/* Of a name, on top of the stack, and what the table has there. */
static bool add_named(lua_State *L, int table, lml_builder *to, int depth)
{
    add_text(L, -1, to, 's');
    lua_rawget(L, table);
    bool added = add(L, -1, to, depth + 1);
    lua_pop(L, 1);
    return added;
}

static void add_head(lml_builder *to, lua_Integer count, lua_Integer names)
{
    lml_builder_add_char(to, '{');
    add_size(to, (size_t)count);
    add_size(to, (size_t)names);
}

/* A table with more names than are sorted on the stack. */
static bool add_many(lua_State *L, int table, lml_builder *to, int depth)
{
    lua_Integer count = (lua_Integer)lua_rawlen(L, table), names = push_names(L, table, count);
    if (names < 0)
        return false;
    add_head(to, count, names);
    bool all = add_entries(L, table, count, to, depth);
    for (lua_Integer i = 1; i <= names && all; i++) {
        lua_rawgeti(L, -1, i);
        all = add_named(L, table, to, depth);
    }
    lua_pop(L, 1);
    return all;
}

static bool add_table(lua_State *L, int table, lml_builder *to, int depth)
{
    lml_key_name name[LML_KEY_FEW];
    lua_Integer count = (lua_Integer)lua_rawlen(L, table);
    const int top = lua_gettop(L), names = lml_key_push_few(L, table, name);
    if (names < 0)
        return add_many(L, table, to, depth);
    add_head(to, count, names);
    bool all = add_entries(L, table, count, to, depth);
    for (int i = 0; i < names && all; i++) {
        lua_pushvalue(L, name[i].place);
        all = add_named(L, table, to, depth);
    }
    lua_settop(L, top);
    return all;
}

/* With the name that messages have for it. */
static bool add_view(lua_State *L, int index, lml_builder *to, int depth)
{
    bool is_record = lml_class_test(L, index, LML_CLASS_RECORD);
    if (!is_record && !lml_class_test(L, index, LML_CLASS_LIST))
        return false;
    add_span(lml_view_name(L, index), to, is_record ? 'r' : 'l');
    lua_getiuservalue(L, index, 1);
    bool done = add_table(L, lua_gettop(L), to, depth);
    lua_pop(L, 1);
    return done;
}

/* One that has a metatable can only be read, and would come back as one that can be written. */
static bool add_plain(lua_State *L, int index, lml_builder *to, int depth)
{
    if (!lua_getmetatable(L, index))
        return add_table(L, index, to, depth);
    lua_pop(L, 1);
    return false;
}

static bool add_mark(lua_State *L, int index, lml_builder *to)
{
    lml_view_push_absent(L);
    bool absent = lua_rawequal(L, index, -1);
    lua_pop(L, 1);
    lml_builder_add_char(to, absent ? 'a' : 'w');
    return absent || lml_view_is_withheld(L, index);
}

static bool add_block(lua_State *L, int index, lml_builder *to, int depth)
{
    const void *block;
    if ((block = lml_class_test(L, index, LML_CLASS_VALUE)))
        add_value(block, to);
    else if ((block = lml_class_test(L, index, LML_CLASS_ALLOY)))
        add_bytes(to, 'A', block, sizeof(lml_alloy));
    else if ((block = lml_class_test(L, index, LML_CLASS_ASSAY)))
        add_bytes(to, 'Y', block, sizeof(lml_assay));
    else
        return add_view(L, index, to, depth);
    return true;
}

static bool add(lua_State *L, int index, lml_builder *to, int depth)
{
    if (depth > DEPTH_MOST)
        return false;
    lml_box_need_stack(L, SLOTS);
    index = lua_absindex(L, index);
    switch (lua_type(L, index)) {
    case LUA_TNIL:
        lml_builder_add_char(to, 'n');
        return true;
    case LUA_TBOOLEAN:
        lml_builder_add_char(to, lua_toboolean(L, index) ? 't' : 'f');
        return true;
    case LUA_TNUMBER:
        add_number(L, index, to);
        return true;
    case LUA_TSTRING:
        add_text(L, index, to, 's');
        return true;
    case LUA_TLIGHTUSERDATA:
        return add_mark(L, index, to);
    case LUA_TTABLE:
        return add_plain(L, index, to, depth);
    case LUA_TUSERDATA:
        return add_block(L, index, to, depth);
    default:
        return false;
    }
}

bool lml_datum_add(lua_State *L, int index, lml_builder *to)
{
    int top = lua_gettop(L);
    bool done = add(L, index, to, 0);
    lua_settop(L, top);
    return done && to->status == LML_OK;
}

/* ---- and back ----------------------------------------------------------------------------------
 */

static bool take(lml_span *from, void *out, size_t size)
{
    if (from->length < size)
        return false;
    memcpy(out, from->at, size);
    *from = (lml_span){from->at + size, from->length - size};
    return true;
}

/* A text and its NUL. */
static bool take_text(lml_span *from, lml_span *out)
{
    uint32_t length;
    if (!take(from, &length, sizeof length) || from->length <= length || from->at[length] != '\0')
        return false;
    *out = (lml_span){from->at, length};
    *from = (lml_span){from->at + length + 1, from->length - length - 1};
    return true;
}

/* The counts of a table's entries. */
static bool take_head(lml_span *from, uint32_t *count, uint32_t *names)
{
    return take(from, count, sizeof *count) && take(from, names, sizeof *names) &&
           *count <= from->length && *names <= from->length;
}

static bool push(lua_State *L, lml_span *from, int depth);

static bool push_table(lua_State *L, lml_span *from, int depth)
{
    uint32_t count, names;
    char tag;
    if (!take(from, &tag, 1) || tag != '{' || !take_head(from, &count, &names))
        return false;
    lua_createtable(L, (int)count, (int)names);
    for (uint32_t i = 1; i <= count; i++) {
        if (!push(L, from, depth + 1))
            return false;
        lua_rawseti(L, -2, (lua_Integer)i);
    }
    for (uint32_t i = 0; i < names; i++) {
        lml_span name;
        if (!take(from, &tag, 1) || tag != 's' || !take_text(from, &name))
            return false;
        lua_pushlstring(L, name.at, name.length);
        if (!push(L, from, depth + 1))
            return false;
        lua_rawset(L, -3);
    }
    return true;
}

static bool push_view(lua_State *L, lml_span *from, lml_class class, int depth)
{
    lml_span name;
    if (!take_text(from, &name) || !push_table(L, from, depth))
        return false;
    lml_view_push(L, class, name.at);
    return true;
}

static bool push_block(lua_State *L, lml_span *from, lml_class class, size_t size)
{
    return from->length >= size && take(from, lml_class_new(L, class, size, 0), size);
}

static bool push_number(lua_State *L, lml_span *from, char tag)
{
    lua_Integer i;
    lua_Number d;
    bool done = tag == 'i' ? take(from, &i, sizeof i) : take(from, &d, sizeof d);
    if (done && tag == 'i')
        lua_pushinteger(L, i);
    else if (done)
        lua_pushnumber(L, d);
    return done;
}

static bool push(lua_State *L, lml_span *from, int depth)
{
    lml_span text, whole = *from;
    char tag;
    if (depth > DEPTH_MOST || !take(from, &tag, 1))
        return false;
    lml_box_need_stack(L, SLOTS);
    switch (tag) {
    case 'n':
        lua_pushnil(L);
        return true;
    case 't':
    case 'f':
        lua_pushboolean(L, tag == 't');
        return true;
    case 'i':
    case 'd':
        return push_number(L, from, tag);
    case 's':
        if (!take_text(from, &text))
            return false;
        lua_pushlstring(L, text.at, text.length);
        return true;
    case 'a':
        lml_view_push_absent(L);
        return true;
    case 'w':
        lml_view_push_withheld(L);
        return true;
    case 'v':
        return push_block(L, from, LML_CLASS_VALUE, sizeof(lml_value));
    case 'A':
        return push_block(L, from, LML_CLASS_ALLOY, sizeof(lml_alloy));
    case 'Y':
        return push_block(L, from, LML_CLASS_ASSAY, sizeof(lml_assay));
    case 'r':
        return push_view(L, from, LML_CLASS_RECORD, depth);
    case 'l':
        return push_view(L, from, LML_CLASS_LIST, depth);
    case '{':
        *from = whole;
        return push_table(L, from, depth);
    default:
        return false;
    }
}

bool lml_datum_push(lua_State *L, lml_span *from)
{
    int top = lua_gettop(L);
    bool done = push(L, from, 0);
    if (!done)
        lua_settop(L, top);
    return done;
}

/* ---- the same ----------------------------------------------------------------------------------
 */

static bool is(lua_State *L, int index, lml_span *from, int depth);

static bool is_bytes(const void *block, size_t size, lml_span *from)
{
    bool same = block && from->length >= size && memcmp(block, from->at, size) == 0;
    if (same)
        *from = (lml_span){from->at + size, from->length - size};
    return same;
}

static bool is_text(lua_State *L, int index, lml_span *from)
{
    lml_span text, own;
    if (lua_type(L, index) != LUA_TSTRING || !take_text(from, &text))
        return false;
    own.at = lua_tolstring(L, index, &own.length);
    return lml_span_equal(own, text);
}

static bool is_number(lua_State *L, int index, lml_span *from, char tag)
{
    if (lua_type(L, index) != LUA_TNUMBER || lua_isinteger(L, index) != (tag == 'i'))
        return false;
    lua_Integer i = lua_tointeger(L, index);
    lua_Number d = lua_tonumber(L, index);
    return tag == 'i' ? is_bytes(&i, sizeof i, from) : is_bytes(&d, sizeof d, from);
}

static bool is_value(const lml_value *v, lml_span *from)
{
    lml_value other;
    return v && take(from, &other, sizeof other) && memcmp(v, &other, SMALL) == 0 &&
           v->exact == other.exact && memcmp(&v->low, &other.low, sizeof v->low) == 0 &&
           memcmp(&v->high, &other.high, sizeof v->high) == 0;
}

/* Whether the table has no more than so many entries. */
static bool has_no_more(lua_State *L, int table, size_t count)
{
    size_t n = 0;
    for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1)) {
        if (++n > count) {
            lua_pop(L, 2);
            return false;
        }
    }
    return true;
}

static bool is_table(lua_State *L, int table, lml_span *from, int depth)
{
    uint32_t count, names;
    char tag;
    if (!take(from, &tag, 1) || tag != '{' || !take_head(from, &count, &names) ||
        lua_rawlen(L, table) != count)
        return false;
    const int top = lua_gettop(L);
    size_t entries = names;
    bool same = true;
    for (uint32_t i = 1; i <= count && same; i++, lua_settop(L, top)) {
        entries += lua_rawgeti(L, table, (lua_Integer)i) != LUA_TNIL;
        same = is(L, top + 1, from, depth + 1);
    }
    for (uint32_t i = 0; i < names && same; i++, lua_settop(L, top)) {
        lml_span name;
        same = take(from, &tag, 1) && tag == 's' && take_text(from, &name);
        if (!same)
            break;
        lua_pushlstring(L, name.at, name.length);
        same = lua_rawget(L, table) != LUA_TNIL && is(L, top + 1, from, depth + 1);
    }
    return same && has_no_more(L, table, entries);
}

static bool is_view(lua_State *L, int index, lml_class class, lml_span *from, int depth)
{
    const int top = lua_gettop(L);
    lml_span name;
    if (!lml_class_test(L, index, class) || !take_text(from, &name) ||
        !lml_span_equal(lml_view_name(L, index), name))
        return false;
    lua_getiuservalue(L, index, 1);
    bool same = is_table(L, top + 1, from, depth);
    lua_settop(L, top);
    return same;
}

static bool is_plain(lua_State *L, int index, lml_span *from, int depth)
{
    if (!lua_istable(L, index))
        return false;
    if (!lua_getmetatable(L, index))
        return is_table(L, index, from, depth);
    lua_pop(L, 1);
    return false;
}

static bool is_mark(lua_State *L, int index, char tag)
{
    if (!lua_islightuserdata(L, index))
        return false;
    if (tag == 'w')
        return lml_view_is_withheld(L, index);
    lml_view_push_absent(L);
    bool absent = lua_rawequal(L, index, -1);
    lua_pop(L, 1);
    return absent;
}

static bool is(lua_State *L, int index, lml_span *from, int depth)
{
    const lml_span whole = *from;
    char tag;
    if (depth > DEPTH_MOST || !take(from, &tag, 1))
        return false;
    lml_box_need_stack(L, SLOTS);
    switch (tag) {
    case 'n':
        return lua_isnil(L, index);
    case 't':
    case 'f':
        return lua_isboolean(L, index) && lua_toboolean(L, index) == (tag == 't');
    case 'i':
    case 'd':
        return is_number(L, index, from, tag);
    case 's':
        return is_text(L, index, from);
    case 'a':
    case 'w':
        return is_mark(L, index, tag);
    case 'v':
        return is_value(lml_class_test(L, index, LML_CLASS_VALUE), from);
    case 'A':
        return is_bytes(lml_class_test(L, index, LML_CLASS_ALLOY), sizeof(lml_alloy), from);
    case 'Y':
        return is_bytes(lml_class_test(L, index, LML_CLASS_ASSAY), sizeof(lml_assay), from);
    case 'r':
        return is_view(L, index, LML_CLASS_RECORD, from, depth);
    case 'l':
        return is_view(L, index, LML_CLASS_LIST, from, depth);
    case '{':
        *from = whole;
        return is_plain(L, index, from, depth);
    default:
        return false;
    }
}

bool lml_datum_is(lua_State *L, int index, lml_span *from)
{
    const int top = lua_gettop(L);
    lml_span rest = *from;
    bool same = is(L, lua_absindex(L, index), &rest, 0);
    lua_settop(L, top);
    if (same)
        *from = rest;
    return same;
}
