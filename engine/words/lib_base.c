/* The few words of plain Lua that a recipe gets, each our own: nothing here shows an address, swallows
 * a limit, or walks a table in an order that differs from machine to machine. */
#include "run/allow.h"
#include "cell/state.h"
#include "cell/view.h"

#include "base/decimal.h"
#include "value/write.h"

#include <string.h>

const char *lml_what_is(lua_State *L, int index)
{
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char what[80];
        lua_pushstring(L, lml_value_what(v, what, sizeof what));
        lml_push_text_of(L, index);
        return lua_pushfstring(L, "%s (%s)", lua_tostring(L, -2), lua_tostring(L, -1));
    }
    switch (lua_type(L, index)) {
    case LUA_TNIL:
    case LUA_TNONE:
        return "nothing";
    case LUA_TBOOLEAN:
        return lua_toboolean(L, index) ? "true" : "false";
    case LUA_TNUMBER:
        lml_push_text_of(L, index);
        return lua_pushfstring(L, "the bare number %s", lua_tostring(L, -1));
    case LUA_TSTRING: {
        size_t length;
        const char *at = lua_tolstring(L, index, &length);
        return length <= 60 ? lua_pushfstring(L, "the text \"%s\"", at) : "a text";
    }
    case LUA_TTABLE:
        return "a table";
    case LUA_TFUNCTION:
        return "a function";
    default: {
        const char *name = lml_type_name(L, index);
        return lua_pushfstring(L, "%s %s", strchr("aeo", name[0]) ? "an" : "a", name);
    }
    }
}

const char *lml_type_name(lua_State *L, int index)
{
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    if (v)
        return lml_kind_name((lml_kind)v->kind);
    static const char *const name[LML_CLASSES] = {
        [LML_CLASS_VALUE] = "value", [LML_CLASS_ALLOY] = "alloy", [LML_CLASS_ASSAY] = "assay",
        [LML_CLASS_RECORD] = "record", [LML_CLASS_LIST] = "list", [LML_CLASS_ERROR] = "error",
        [LML_CLASS_SHEET] = "sheet", [LML_CLASS_PAGE] = "page", [LML_CLASS_USES] = "uses"};
    for (int i = 0; i < LML_CLASSES; i++)
        if (lml_test(L, index, (lml_class)i))
            return name[i];
    return lua_typename(L, lua_type(L, index) < 0 ? LUA_TNIL : lua_type(L, index));
}

enum { WRITTEN = 40, POINT_WRITTEN = 250 /* its shortest decimal is searched for */, NUMBER_WRITTEN = 20 };
enum { WALKED = 2 /* each turn of pairs and ipairs */ };

void lml_charge_written(lua_State *L, const lml_value *v)
{
    lml_charge(L, v->kind == LML_TEMPERATURE ? POINT_WRITTEN : WRITTEN);
}

void lml_push_text_of(lua_State *L, int index)
{
    index = lua_absindex(L, index);
    const lml_value *v = lml_test(L, index, LML_CLASS_VALUE);
    if (v) {
        char text[LML_VALUE_TEXT];
        lml_charge_written(L, v);
        size_t length = lml_value_text(v, text);
        lua_pushlstring(L, text, length);
        return;
    }
    switch (lua_type(L, index)) {
    case LUA_TNUMBER: {
        double x = lua_tonumber(L, index);
        char text[LML_NUMBER_TEXT];
        lml_charge(L, NUMBER_WRITTEN);
        if (x - x == 0) /* neither inf nor nan */
            lua_pushlstring(L, text, lml_write_double(x, text));
        else
            lua_pushstring(L, x != x ? "not a number" : x > 0 ? "infinity" : "-infinity");
        return;
    }
    case LUA_TSTRING:
        lua_pushvalue(L, index);
        return;
    case LUA_TBOOLEAN:
        lua_pushstring(L, lua_toboolean(L, index) ? "true" : "false");
        return;
    default: {
        const lml_alloy *alloy = lml_test(L, index, LML_CLASS_ALLOY);
        const lml_error *error = lml_test(L, index, LML_CLASS_ERROR);
        lua_pushstring(L, alloy   ? alloy->name
                          : error ? error->message
                                  : lml_type_name(L, index));
    }
    }
}

static int base_tostring(lua_State *L)
{
    luaL_checkany(L, 1);
    lml_push_text_of(L, 1);
    return 1;
}

static int base_type(lua_State *L)
{
    luaL_checkany(L, 1);
    lua_pushstring(L, lml_type_name(L, 1));
    return 1;
}

static int base_tonumber(lua_State *L)
{
    luaL_checkany(L, 1);
    if (lua_type(L, 1) == LUA_TNUMBER) {
        lua_settop(L, 1);
        return 1;
    }
    if (lua_type(L, 1) == LUA_TSTRING) {
        lml_span text = lml_span_trim(lml_need_text(L, 1, "a text"));
        lml_decimal d;
        size_t used = lml_decimal_read(text, &d);
        if (used > 0 && used == text.length) {
            double x = lml_decimal_scale(&d, (lml_rational){1, 1});
            if (x - x == 0) {
                lua_pushnumber(L, x);
                return 1;
            }
        }
    } else if (lml_test(L, 1, LML_CLASS_VALUE)) {
        return lml_raise_hint(L, LML_BAD_VALUE, "write value:number \"g\" for the number of grams",
                              "%s is not a bare number", lml_what_is(L, 1));
    }
    lua_pushnil(L);
    return 1;
}

static int base_error(lua_State *L)
{
    if (lml_test(L, 1, LML_CLASS_ERROR)) {
        lua_settop(L, 1);
        return lua_error(L);
    }
    lml_span text = lml_need_text(L, 1, "the text of an error");
    return lml_raise_text(L, LML_BAD_RECIPE, "%.*s", (int)(text.length > 300 ? 300 : text.length),
                          text.at);
}

static int base_assert(lua_State *L)
{
    luaL_checkany(L, 1);
    if (lua_toboolean(L, 1))
        return lua_gettop(L);
    if (lua_isnoneornil(L, 2))
        return lml_raise_text(L, LML_BAD_RECIPE, "an assertion of the recipe does not hold");
    lua_remove(L, 1);
    return base_error(L);
}

/* Limits, a want of memory and stops are no recipe's to mend. */
static bool passes_through(lua_State *L, int failed)
{
    lml_box *box = lml_box_of(L);
    if (failed == LUA_ERRMEM)
        lml_box_out_of_memory(box);
    if (lml_is_overflow(L, -1))
        lml_box_too_deep(box);
    const lml_error *e = lml_test(L, -1, LML_CLASS_ERROR);
    return box->dead || box->stopping ||
           (e && (e->status == LML_LIMIT || e->status == LML_NO_MEMORY || e->status == LML_FAULT));
}

static int base_pcall(lua_State *L)
{
    luaL_checkany(L, 1);
    lua_pushboolean(L, 1); /* below the results, where there is room for it */
    lua_insert(L, 1);
    int failed = lua_pcall(L, lua_gettop(L) - 2, LUA_MULTRET, 0);
    if (failed) {
        if (passes_through(L, failed))
            return lua_error(L);
        lua_pushboolean(L, 0);
        lua_replace(L, 1);
    }
    return lua_gettop(L);
}

static int base_select(lua_State *L)
{
    int n = lua_gettop(L);
    if (lua_type(L, 1) == LUA_TSTRING && strcmp(lua_tostring(L, 1), "#") == 0) {
        lua_pushinteger(L, n - 1);
        return 1;
    }
    lua_Integer i = luaL_checkinteger(L, 1);
    if (i < 1)
        return lml_raise_text(L, LML_BAD_RECIPE, "select counts from 1");
    return i >= n ? 0 : n - (int)i;
}

/* ---- pairs and ipairs -------------------------------------------------------------------------- */

/* In the order of their bytes. */
static bool is_before(lml_span a, lml_span b)
{
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
enum { FEW_KEYS = 256, FIRST_KEYS = 8 /* what most tables have at most */ };

static bool sort_few(lua_State *L, int keys, lua_Integer count)
{
    struct {
        lml_span text;
        int place;
    } key[FEW_KEYS], one;
    if (count > FEW_KEYS)
        return false;
    lml_need_stack(L, FEW_KEYS + 4);
    for (int i = 0; i < (int)count; i++) {
        if (lua_rawgeti(L, keys, i + 1) != LUA_TSTRING) {
            lua_pop(L, i + 1);
            return false;
        }
        one.text.at = lua_tolstring(L, -1, &one.text.length);
        one.place = lua_gettop(L);
        int at = 0;
        for (int end = i; at < end;) {
            int middle = (at + end) / 2;
            if (is_before(one.text, key[middle].text))
                end = middle;
            else
                at = middle + 1;
        }
        memmove(key + at + 1, key + at, (size_t)(i - at) * sizeof *key);
        key[at] = one;
    }
    for (int i = 0; i < (int)count; i++) {
        lua_pushvalue(L, key[i].place);
        lua_rawseti(L, keys, i + 1);
    }
    lua_pop(L, (int)count);
    return true;
}

void lml_sort_keys(lua_State *L, int keys, lua_Integer count)
{
    keys = lua_absindex(L, keys);
    if (sort_few(L, keys, count))
        return;
    /* Heap sort: in place, no recursion, n log n whatever the input. */
    for (lua_Integer end = count, start = count / 2; end > 1;) {
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

/* The same for keys of any type: the others stand behind numbers and texts. */
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

bool lml_find_odd_key(lua_State *L, int table, lml_odd_key *odd, const void *self)
{
    table = lua_absindex(L, table);
    lml_need_stack(L, 8);
    lua_pushnil(L);
    int first = lua_gettop(L);
    bool found = false;
    lua_pushnil(L);
    while (lua_next(L, table)) {
        lml_charge(L, 2);
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

static bool is_no_key(lua_State *L, const void *self)
{
    (void)self;
    int type = lua_type(L, -2);
    return type != LUA_TSTRING && type != LUA_TNUMBER && !lua_islightuserdata(L, -1);
}

lua_Integer lml_sorted_keys(lua_State *L, int table)
{
    table = lua_absindex(L, table);
    lua_createtable(L, FIRST_KEYS, 0);
    lua_Integer count = 0;
    lua_pushnil(L);
    while (lua_next(L, table)) {
        if (lua_islightuserdata(L, -1)) { /* an absent member of a view */
            lua_pop(L, 1);
            continue;
        }
        lua_pop(L, 1);
        int type = lua_type(L, -1);
        if (type != LUA_TSTRING && type != LUA_TNUMBER) {
            lml_find_odd_key(L, table, is_no_key, NULL);
            lml_raise_text(L, LML_BAD_RECIPE,
                           "a table is walked by numbers and texts only, and a key is %s",
                           lml_what_is(L, -1));
        }
        lua_pushvalue(L, -1);
        lua_rawseti(L, -3, ++count);
    }
    lua_Integer log = 1;
    for (lua_Integer n = count; n > 1; n /= 2)
        log++;
    lml_charge(L, 12 + 4 * (uint64_t)(count * log));
    lml_sort_keys(L, -1, count);
    return count;
}

static int pairs_next(lua_State *L)
{
    lua_Integer i = lua_tointeger(L, lua_upvalueindex(3));
    for (;;) {
        i++;
        lml_charge(L, WALKED);
        lua_pushinteger(L, i);
        lua_replace(L, lua_upvalueindex(3));
        if (lua_rawgeti(L, lua_upvalueindex(2), i) == LUA_TNIL)
            return 1;
        lua_pushvalue(L, -1);
        lua_rawget(L, lua_upvalueindex(1));
        if (!lua_isnil(L, -1)) /* taken out while walking */
            return 2;
        lua_pop(L, 2);
    }
}

static int base_pairs(lua_State *L)
{
    lua_settop(L, 1);
    lml_push_content(L, 1, "pairs");
    lml_sorted_keys(L, 2);
    lua_pushinteger(L, 0);
    lua_pushcclosure(L, pairs_next, 3);
    return 1;
}

static int ipairs_next(lua_State *L)
{
    lua_Integer i = luaL_checkinteger(L, 2);
    lml_charge(L, WALKED);
    if (i < 0 || i == LUA_MAXINTEGER)
        return 0;
    lua_pushinteger(L, ++i);
    return lua_rawgeti(L, lua_upvalueindex(1), i) == LUA_TNIL ? 1 : 2;
}

static int base_ipairs(lua_State *L)
{
    lua_settop(L, 1);
    lml_push_content(L, 1, "ipairs");
    lua_pushcclosure(L, ipairs_next, 1);
    lua_pushnil(L);
    lua_pushinteger(L, 0);
    return 3;
}

const lml_word lml_lib_base[] = {
    {"assert", base_assert, "condition: any, text?: string", "any",
     "Ends the work with the text when the condition is not met.",
     "assert(2 > 1, \"two is more\")",
     "true"},
    {"error", base_error, "text: string", "",
     "Ends the work with a text of your own.",
     "pcall(error, \"no metal\")",
     "false"},
    {"ipairs", base_ipairs, "list: any[]", "function",
     "Walks a list from its first item on: for i, item in ipairs(list) do ... end.",
     "(function() local n = 0 for i, v in ipairs { 5, 7 } do n = n + i * v end return n end)()",
     "19"},
    {"pairs", base_pairs, "names: table", "function",
     "Walks a table, sorted by name: for name, item in pairs(t) do ... end.",
     "(function() local all = \"\" for name in pairs { b = 1, a = 2 } do all = all .. name "
     "end return all end)()",
     "ab"},
    {"pcall", base_pcall, "f: function, ...: any", "boolean, any",
     "Calls a function and says whether it went well; a stop and the end of the budget pass "
     "through.",
     "(pcall(error, \"no metal\"))",
     "false"},
    {"select", base_select, "n: number|string, ...: any", "any",
     "What follows from the nth on, or with \"#\" how many there are.",
     "select(\"#\", \"a\", \"b\")",
     "2"},
    {"tonumber", base_tonumber, "text: any", "number?",
     "The number that a text says, or nil.",
     "tonumber \"12.5\"",
     "12.5"},
    {"tostring", base_tostring, "anything: any", "string",
     "As it would be printed.",
     "tostring(Q \"12.50 g\")",
     "12.5 g"},
    {"type", base_type, "anything: any", "string",
     "What sort of value it is (quantity, money, moment ...), or what Lua calls it.",
     "type(Q \"12.5 g\")",
     "quantity"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

static int error_text(lua_State *L)
{
    lml_push_text_of(L, 1);
    return 1;
}

void lml_open_error(lua_State *L)
{
    lml_push_metatable(L, LML_CLASS_ERROR);
    lua_pushcfunction(L, error_text);
    lua_setfield(L, -2, "__tostring");
    lua_pop(L, 1);
}
