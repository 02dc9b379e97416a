/* What proofs reach: the lines, held against those that Lua itself says are worked (activelines of
 * lua_getinfo, Lua 5.4 reference manual, section 4.7) and its own line hook; and the stops. */
#include "cell/code_lines.h"
#include "lemel.h"
#include <criterion/criterion.h>
#include <lauxlib.h>
#include <stdio.h>
#include <string.h>

enum { ROOM = 400 };

static int keep(lua_State *L, const void *piece, size_t size, void *self)
{
    (void)L;
    luaL_addlstring(self, piece, size);
    return 0;
}

/* The function on the stack: its lines but for the one of its end. */
static void add_active(lua_State *L, bool *line)
{
    lua_Debug at;
    lua_pushvalue(L, -1);
    lua_getinfo(L, ">SL", &at);
    for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
        lua_Integer n = lua_tointeger(L, -2);
        if (n != at.lastlinedefined || n == at.linedefined)
            line[n] = true;
    }
    lua_pop(L, 1);
}

Test(reach, lines_are_those_of_lua)
{
    static const char text[] = "local many = { 1, 2.5, 'a text', nil, true }\n"
                               "local function one(x)\n"
                               "  if x > 1 then\n"
                               "    return many[x]\n"
                               "  end\n"
                               "  for i = 1, 3 do\n"
                               "    x = x + i\n"
                               "  end\n"
                               "  return x\n"
                               "end\n"
                               "\n"
                               "local function two(...)\n"
                               "  while ... do\n"
                               "    one(...)\n"
                               "  end\n"
                               "  return {\n"
                               "    a = one(1),\n"
                               "    b = 'bb',\n"
                               "  }\n"
                               "end\n"
                               "local function three() return 3 end\n"
                               "return one, two, three\n";
    bool ours[ROOM] = {false}, theirs[ROOM] = {false};
    lua_State *L = luaL_newstate();
    cr_assert_eq(luaL_loadstring(L, text), LUA_OK);
    luaL_Buffer b;
    lua_State *other = luaL_newstate();
    luaL_buffinit(other, &b);
    lua_dump(L, keep, &b, 0);
    luaL_pushresult(&b);
    size_t length;
    const char *dump = lua_tolstring(other, -1, &length);
    cr_assert(lml_code_lines((lml_span){dump, length}, ours, ROOM));
    cr_expect_not(lml_code_lines((lml_span){dump, length - 1}, theirs, ROOM), "a dump that is cut");
    memset(theirs, 0, sizeof theirs);
    lua_call(L, 0, 3);
    for (int i = 0; i < 3; i++, lua_pop(L, 1))
        add_active(L, theirs);
    for (int n = 1; n < ROOM; n++)
        cr_expect_eq(ours[n], theirs[n], "line %d", n);
    lua_close(other);
    lua_close(L);
}

Test(reach, a_line_far_down)
{
    char text[20000] = "return function (x)\n";
    bool line[ROOM] = {false};
    for (int i = 0; i < 300; i++) /* further than a byte says */
        strcat(text, i % 150 == 140 ? "x = x + 1\n" : "\n");
    strcat(text, "return x end\n");
    lua_State *L = luaL_newstate(), *other = luaL_newstate();
    luaL_Buffer b;
    cr_assert_eq(luaL_loadstring(L, text), LUA_OK);
    luaL_buffinit(other, &b);
    lua_dump(L, keep, &b, 0);
    luaL_pushresult(&b);
    size_t length;
    const char *dump = lua_tolstring(other, -1, &length);
    cr_assert(lml_code_lines((lml_span){dump, length}, line, ROOM));
    for (int n = 1; n < ROOM; n++)
        cr_expect_eq(line[n], n == 142 || n == 292 || n == 302, "line %d", n);
    lua_close(other);
    lua_close(L);
}

static const char recipe[] =
    "return recipe { title = 'T', version = '1', licence = 'CC0-1.0', level = 1,\n" /* line 1 */
    "  asks = { wax = ask.mass 'Wax' },\n"
    "  gives = { out = give.mass 'Out' },\n"
    "  work = function (job, house, sheet)\n"
    "    local out = job.wax\n"
    "    if out > Q '5 g' then\n"
    "      sheet:stop('much', 'Too much', { 'out' })\n"
    "    end\n"
    "    if out > Q '3 g' then sheet:confirm('more', 'More than usual', { 'out' }) end\n"
    "    if out < Q '1 g' then\n"
    "      for i = 1, 1 do sheet:stop('little-' .. i, 'Too little') end\n"
    "    end\n"
    "    return { out = out }\n"
    "  end,\n"
    "  proofs = {\n"
    "    { 'as it is', given = { wax = '2 g' }, expect = { out = '2 g' }, source = 'itself' },\n"
    "    { 'too little', given = { wax = '0.5 g' }, stops = { 'little-1' }, source = 'itself' },\n"
    "  } }\n";

Test(reach, of_a_recipe)
{
    lml_error err;
    lml_text out;
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "t", recipe, sizeof recipe - 1, "t.lua", &err),
        LML_OK);
    cr_assert_eq(lml_engine_reach(engine, "t", &out, &err), LML_OK, "%s", err.message);
    cr_expect(strstr(out.text, "\"passed\":2,\"failed\":0,\"reach\":{\"lines\":7,\"missed\":[7],"
                               "\"stops\":3,\"missed_stops\":[{\"code\":\"much\",\"line\":7},"
                               "{\"code\":\"more\",\"line\":9}],\"scripts\":[]}"),
              "%s", out.text);
    lml_text_free(engine, &out);
    cr_assert_eq(lml_engine_prove(engine, "t", &out, &err), LML_OK);
    cr_expect_not(strstr(out.text, "reach"), "counted unasked");
    lml_text_free(engine, &out);
    lml_engine_free(engine);
}
