#include "cell/key.h"

#include "base/text.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"

#include <string.h>

/* In the order of their bytes. Most differ in the first, which is NUL in an empty text of Lua. */
static bool is_before(lml_span a, lml_span b)
{
    unsigned char first_a = (unsigned char)a.at[0], first_b = (unsigned char)b.at[0];
    if (first_a != first_b)
        return first_a < first_b;
    int order = memcmp(a.at, b.at, a.length < b.length ? a.length : b.length);
    return order ? order < 0 : a.length < b.length;
}

bool lml_key_before(lua_State *L, int a, int b)
{
    bool number_a = lua_type(L, a) == LUA_TNUMBER, number_b = lua_type(L, b) == LUA_TNUMBER;
    if (number_a != number_b)
        return number_a;
    if (number_a)
        return lua_compare(L, a, b, LUA_OPLT);
    lml_span ta, tb;
    ta.at = lua_tolstring(L, a, &ta.length);
    tb.at = lua_tolstring(L, b, &tb.length);
    return is_before(ta, tb);
}

/* Few texts are sorted where C sees them: pushed in their order, and put back. */
enum {
    SORTED = 3,
    WALKED = 2 /* each turn of a walk */,
    FEW_KEYS = 256,
    FIRST_KEYS = 8 /* what most tables have at most */
};

/* Among `count` that are in order. */
static void sort_in(lml_key_name *key, int count, lml_key_name one)
{
    enum { SOON = 8 /* the last of so few are looked at one by one */ };
    int at = count;
    if (count < SOON) {
        for (; at > 0 && is_before(one.text, key[at - 1].text); at--)
            key[at] = key[at - 1];
        key[at] = one;
        return;
    }
    at = 0;
    for (int end = count; at < end;) {
        int middle = (at + end) / 2;
        if (is_before(one.text, key[middle].text))
            end = middle;
        else
            at = middle + 1;
    }
    memmove(key + at + 1, key + at, (size_t)(count - at) * sizeof *key);
    key[at] = one;
}

static bool sort_few(lua_State *L, int keys, lua_Integer count)
{
    lml_key_name key[FEW_KEYS], one;
    if (count > FEW_KEYS)
        return false;
    lml_box_need_stack(L, FEW_KEYS + 4);
    for (int i = 0; i < (int)count; i++) {
        if (lua_rawgeti(L, keys, i + 1) != LUA_TSTRING) {
            lua_pop(L, i + 1);
            return false;
        }
        one.text.at = lua_tolstring(L, -1, &one.text.length);
        one.place = lua_gettop(L);
        sort_in(key, i, one);
    }
    for (int i = 0; i < (int)count; i++) {
        lua_pushvalue(L, key[i].place);
        lua_rawseti(L, keys, i + 1);
    }
    lua_pop(L, (int)count);
    return true;
}

static uint64_t log_of(lua_Integer count)
{
    uint64_t log = 1;
    for (lua_Integer n = count; n > 1; n /= 2)
        log++;
    return log;
}

static void charge_sort(lua_State *L, lua_Integer count)
{
    lml_box_charge(L, count <= FEW_KEYS ? 4 * (uint64_t)count * log_of(count) : 0);
}

void lml_key_sort(lua_State *L, int keys, lua_Integer count)
{
    keys = lua_absindex(L, keys);
    const uint64_t log = log_of(count);
    charge_sort(L, count);
    if (sort_few(L, keys, count))
        return;
    /* Heap sort: in place, no recursion, n log n whatever the input. */
    for (lua_Integer end = count, start = count / 2; end > 1;) {
        lml_box_charge(L, SORTED + 2 * log);
        if (start > 0)
            start--;
        else {
            end--;
            lua_rawgeti(L, keys, 1);
            lua_rawgeti(L, keys, end + 1);
            lua_rawseti(L, keys, 1);
            lua_rawseti(L, keys, end + 1);
        }
        for (lua_Integer root = start, child; (child = 2 * root + 1) < end; root = child) {
            lua_rawgeti(L, keys, child + 1);
            if (child + 1 < end) {
                lua_rawgeti(L, keys, child + 2);
                if (lml_key_before(L, -2, -1)) {
                    lua_remove(L, -2);
                    child++;
                } else {
                    lua_pop(L, 1);
                }
            }
            lua_rawgeti(L, keys, root + 1);
            if (!lml_key_before(L, -1, -2)) {
                lua_pop(L, 2);
                break;
            }
            lua_rawseti(L, keys, child + 1);
            lua_rawseti(L, keys, root + 1);
        }
    }
}

/* The same for keys of any type: the others come after numbers and texts. */
static bool stands_before(lua_State *L, int a, int b)
{
    int type_a = lua_type(L, a), type_b = lua_type(L, b);
    bool known_a = type_a == LUA_TNUMBER || type_a == LUA_TSTRING;
    bool known_b = type_b == LUA_TNUMBER || type_b == LUA_TSTRING;
    if (known_a && known_b)
        return lml_key_before(L, a, b);
    if (known_a != known_b)
        return known_a;
    if (type_a != type_b)
        return type_a < type_b;
    return lua_toboolean(L, a) < lua_toboolean(L, b);
}

enum { LOOKED_AT = 2 /* a key, which may be hashed and compared with the first so far */ };

bool lml_key_find_odd(lua_State *L, int table, lml_key_is_odd *odd, const void *self)
{
    table = lua_absindex(L, table);
    lml_box_need_stack(L, 8);
    lua_pushnil(L);
    int first = lua_gettop(L);
    bool found = false;
    lml_memory_charge_walk(L);
    lua_pushnil(L);
    while (lua_next(L, table)) {
        lml_box_charge(L,
                       LOOKED_AT + (lua_type(L, -2) == LUA_TSTRING ? lua_rawlen(L, -2) / 64 : 0));
        if (odd(L, self) && (!found || stands_before(L, -2, first))) {
            lua_pushvalue(L, -2);
            lua_replace(L, first);
            found = true;
        }
        lua_pop(L, 1);
    }
    if (!found)
        lua_pop(L, 1);
    return found;
}

bool lml_key_has_more(lua_State *L, int table, size_t most)
{
    size_t count = 0;
    lml_memory_charge_walk(L);
    lua_pushnil(L);
    while (count <= most && lua_next(L, table)) {
        lua_pop(L, 1);
        count++;
    }
    lml_box_charge(L, LOOKED_AT * count);
    if (count > most)
        lua_pop(L, 1);
    return count > most;
}

static bool is_no_key(lua_State *L, const void *self)
{
    (void)self;
    int type = lua_type(L, -2);
    return type != LUA_TSTRING && type != LUA_TNUMBER && !lua_islightuserdata(L, -1);
}

static void check_key(lua_State *L, int table)
{
    int type = lua_type(L, -1);
    if (type == LUA_TSTRING || type == LUA_TNUMBER)
        return;
    lml_key_find_odd(L, table, is_no_key, NULL);
    lml_raise_text(L, LML_BAD_RECIPE,
                   "a table can only be walked by numbers and texts, but a key is %s",
                   lml_what_is(L, -1));
}

/* Takes the value from the stack that lua_next pushed, and leaves the key. */
static bool is_absent(lua_State *L)
{
    bool absent = lua_islightuserdata(L, -1);
    lua_pop(L, 1);
    return absent;
}

/* `count` keys are on the stack above `base`, and on top the one that follows: from here on they go
 * into a list. */
static lua_Integer push_many(lua_State *L, int table, int base, lua_Integer count)
{
    const int keys = base + 1;
    lua_createtable(L, (int)count + FIRST_KEYS, 0);
    lua_insert(L, keys);
    for (int i = 1; i <= (int)count; i++) {
        lua_pushvalue(L, keys + i);
        lua_rawseti(L, keys, i);
    }
    lua_insert(L, keys + 1);
    lua_settop(L, keys + 1);
    lua_pushvalue(L, -1);
    lua_rawseti(L, keys, ++count);
    while (lua_next(L, table)) {
        lml_box_charge(L, 1);
        if (is_absent(L))
            continue;
        check_key(L, table);
        lua_pushvalue(L, -1);
        lua_rawseti(L, keys, ++count);
    }
    lml_key_sort(L, keys, count);
    return count;
}

int lml_key_push_few(lua_State *L, int table, lml_key_name name[LML_KEY_FEW])
{
    const int base = lua_gettop(L);
    const lua_Integer list = (lua_Integer)lua_rawlen(L, table);
    int count = 0;
    lml_box_need_stack(L, LML_KEY_FEW + 8);
    lua_pushnil(L);
    while (lua_next(L, table)) {
        lua_pop(L, 1);
        if (lua_type(L, -1) == LUA_TSTRING && count < LML_KEY_FEW) {
            lml_key_name one = {.place = base + 1 + count};
            one.text.at = lua_tolstring(L, -1, &one.text.length);
            sort_in(name, count++, one);
            lua_pushvalue(L, -1);
        } else {
            lua_Integer i = lua_isinteger(L, -1) ? lua_tointeger(L, -1) : 0;
            if (i < 1 || i > list) {
                lua_settop(L, base);
                return -1;
            }
        }
    }
    charge_sort(L, count);
    return count;
}

/* Push the keys as long as they are texts and few, and set their order. False at the first that is
 * not, which is on top then. */
static bool push_texts(lua_State *L, int table, lml_key_name key[FEW_KEYS], int *count)
{
    const int first = lua_gettop(L) + 1;
    lml_box_need_stack(L, FEW_KEYS + 8);
    lml_box_charge(L, 12);
    lml_memory_charge_walk(L);
    *count = 0;
    lua_pushnil(L);
    while (lua_next(L, table)) {
        lml_box_charge(L, 1);
        if (is_absent(L))
            continue;
        if (lua_type(L, -1) != LUA_TSTRING)
            check_key(L, table);
        else if (*count < FEW_KEYS) {
            lml_key_name one = {.place = first + *count};
            one.text.at = lua_tolstring(L, -1, &one.text.length);
            sort_in(key, (*count)++, one);
            lua_pushvalue(L, -1);
            continue;
        }
        return false;
    }
    charge_sort(L, *count);
    return true;
}

static void push_list(lua_State *L, const lml_key_name *key, int count)
{
    lua_createtable(L, count, 0);
    for (int i = 0; i < count; i++) {
        lua_pushvalue(L, key[i].place);
        lua_rawseti(L, -2, i + 1);
    }
}

lua_Integer lml_key_push_sorted(lua_State *L, int table)
{
    lml_key_name key[FEW_KEYS];
    const int base = lua_gettop(L);
    int count;
    table = lua_absindex(L, table);
    if (!push_texts(L, table, key, &count))
        return push_many(L, table, base, count);
    push_list(L, key, count);
    lua_insert(L, base + 1);
    lua_settop(L, base + 1);
    return count;
}

/* ---- a walk ----
 */

/* Upvalue 1 is the table, 2 how many keys were given. The keys are upvalues from the third on, and
 * nil after them; or the third is a list of them. */
static int next_of(lua_State *L, bool few)
{
    lua_Integer given = lua_tointeger(L, lua_upvalueindex(2));
    for (;;) {
        lml_box_charge(L, WALKED);
        if (few)
            lua_pushvalue(L, lua_upvalueindex(3 + (int)given));
        else
            lua_rawgeti(L, lua_upvalueindex(3), given + 1);
        if (lua_isnil(L, -1))
            return 1;
        lua_pushinteger(L, ++given);
        lua_replace(L, lua_upvalueindex(2));
        lua_pushvalue(L, -1);
        if (lua_rawget(L, lua_upvalueindex(1)) != LUA_TNIL)
            return 2;
        lua_pop(L, 2); /* taken out while walking */
    }
}

static int next_of_few(lua_State *L)
{
    return next_of(L, true);
}

static int next_of_many(lua_State *L)
{
    return next_of(L, false);
}

void lml_key_push_walk(lua_State *L, int table)
{
    enum { FEW_WALKED = 100 /* of the 255 upvalues that a function can have */ };
    lml_key_name key[FEW_KEYS];
    const int base = lua_gettop(L);
    int count;
    table = lua_absindex(L, table);
    const bool texts = push_texts(L, table, key, &count), few = texts && count <= FEW_WALKED;
    if (!texts)
        push_many(L, table, base, count);
    lua_pushvalue(L, table);
    lua_pushinteger(L, 0);
    if (few) {
        for (int i = 0; i < count; i++)
            lua_pushvalue(L, key[i].place);
        lua_pushnil(L);
    } else if (texts) {
        push_list(L, key, count);
    } else {
        lua_pushvalue(L, base + 1);
    }
    lua_pushcclosure(L, few ? next_of_few : next_of_many, few ? 3 + count : 3);
    lua_insert(L, base + 1);
    lua_settop(L, base + 1);
}
