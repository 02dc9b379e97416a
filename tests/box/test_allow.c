/* The allow list: what a recipe can really reach, walked from a fresh state, against the list that
 * was written by hand in docs/security.md. */
#include "run/allow.h"
#include "words/bind.h"
#include "run/part.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/names.h"
#include "cell/state.h"
#include "worked.h"
#include "run/bind_sheet.h"

enum { LIST_MOST = 400, DOC_MOST = 1 << 16 };

typedef struct list {
    char name[LIST_MOST][130];
    int count;
} list;

static bool has(const list *l, const char *name)
{
    for (int i = 0; i < l->count; i++)
        if (strcmp(l->name[i], name) == 0)
            return true;
    return false;
}

static void add(list *l, const char *group, const char *name)
{
    cr_assert(l->count < LIST_MOST);
    int length = snprintf(l->name[l->count++], sizeof l->name[0], "%s.%s", group, name);
    cr_assert(length < (int)sizeof l->name[0], "%s is a long name", name);
}

/* ---- what is written ---------------------------------------------------------------------------
 */

/* Lines "group  name name ..." of the one fenced block that starts with ```allow; a line that
 * starts with a blank goes on with the group before it. */
static void read_document(list *l)
{
    char *text = (char *)calloc(1, DOC_MOST);
    FILE *file = fopen(LML_SOURCE_DIR "/docs/security.md", "rb");
    cr_assert(file, "docs/security.md is not there");
    size_t length = fread(text, 1, DOC_MOST - 1, file);
    fclose(file);
    cr_assert(length > 0 && length < DOC_MOST - 1);
    char *block = strstr(text, "```allow\n");
    cr_assert(block, "docs/security.md has no block ```allow");
    block = strchr(block, '\n') + 1;
    char *end = strstr(block, "```");
    cr_assert(end);
    *end = '\0';
    char group[60] = "";
    for (char *line = strtok(block, "\n"); line; line = strtok(NULL, "\n")) {
        char *at = line;
        if (*line != ' ') {
            int used = 0;
            cr_assert_eq(sscanf(line, "%59s%n", group, &used), 1);
            at += used;
        }
        char name[60];
        for (int used = 0; sscanf(at, "%59s%n", name, &used) == 1; at += used)
            add(l, group, name);
    }
    free(text);
}

/* ---- what is there -----------------------------------------------------------------------------
 */

/* The keys of the table on top, which is popped. */
static void add_keys(lua_State *L, list *l, const char *group)
{
    lua_pushnil(L);
    while (lua_next(L, -2)) {
        cr_expect(lua_type(L, -2) == LUA_TSTRING, "%s has a key that is not a text", group);
        add(l, group, lua_tostring(L, -2));
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* Push what reads go to when the table or userdata on top has no such member: its metatable's
 * __index. */
static int push_behind(lua_State *L)
{
    cr_assert(lua_getmetatable(L, -1), "no metatable stands before it");
    int type = lua_getfield(L, -1, "__index");
    lua_getfield(L, -2, "__metatable");
    cr_expect(lua_isboolean(L, -1) && !lua_toboolean(L, -1), "its metatable can be got at");
    lua_pop(L, 1);
    lua_remove(L, -2);
    return type;
}

static void add_library(lua_State *L, list *l, const char *name)
{
    cr_assert_eq(lua_getfield(L, -1, name), LUA_TTABLE, "%s", name);
    lua_pushnil(L);
    cr_expect_not(lua_next(L, -2), "%s holds something of its own", name);
    cr_assert_eq(push_behind(L), LUA_TTABLE);
    add_keys(L, l, name);
    lua_pop(L, 1);
}

/* The methods of a class of userdata are the first upvalue of its __index. */
static void add_methods(lua_State *L, list *l, lml_class class, const char *group)
{
    lml_class_push(L, class);
    cr_assert_eq(lua_getfield(L, -1, "__index"), LUA_TFUNCTION);
    cr_assert_str_eq(lua_getupvalue(L, -1, 1), "");
    add_keys(L, l, group);
    lua_pop(L, 2);
}

/* What may be read of the userdata on top, tried with every name that is written anywhere. */
static void add_members(lua_State *L, list *l, const list *written, const char *group)
{
    for (int i = 0; i < written->count; i++) {
        char full[80];
        const char *name = strchr(written->name[i], '.') + 1;
        snprintf(full, sizeof full, "%s.%s", group, name);
        if (has(l, full))
            continue;
        static const char *const source = "local thing, name = ...\n"
                                          "return pcall(function () return thing[name] end)";
        luaL_loadstring(L, source);
        lml_names_environment(L);
        lua_setupvalue(L, -2, 1);
        lua_pushvalue(L, -2);
        lua_pushstring(L, name);
        cr_assert_eq(lua_pcall(L, 2, 1, 0), LUA_OK);
        if (lua_toboolean(L, -1))
            add(l, group, name);
        lua_pop(L, 1);
    }
}

static int list_all(lua_State *L)
{
    list *l = lua_touserdata(L, 1);
    const list *written = lua_touserdata(L, 2);
    lml_names_environment(L);
    lua_pushnil(L);
    cr_expect_not(lua_next(L, -2), "a fresh environment holds something of its own");
    cr_assert_eq(push_behind(L), LUA_TTABLE);
    lua_pushvalue(L, -1);
    add_keys(L, l, "words");
    static const char *const libraries[] = {"text", "table", "craft", "ask", "give"};
    for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++)
        add_library(L, l, libraries[i]);
    lua_pushliteral(L, "");
    cr_assert_eq(push_behind(L), LUA_TTABLE);
    add_keys(L, l, "text:");
    add_methods(L, l, LML_CLASS_VALUE, "value");
    add_methods(L, l, LML_CLASS_SHEET, "sheet");
    add_methods(L, l, LML_CLASS_PAGE, "page");
    lml_value pure = {.kind = LML_FINENESS, .metal = LML_Au, .amount = 1};
    lml_figure_push(L, &pure);
    add_members(L, l, written, "value");
    lml_part_push(L, "recipe", "Title");
    lml_bind_sheet_push(L, -1);
    add_members(L, l, written, "sheet");
    lml_alloy gold = {.name = "fine", .density = 19320};
    gold.composition.part[LML_Au] = 1;
    lml_bind_push_alloy(L, &gold);
    add_members(L, l, written, "alloy");
    lml_assay found;
    memset(&found, 0, sizeof found);
    lml_bind_push_assay(L, &found);
    add_members(L, l, written, "assay");
    return 0;
}

static void with_box(lua_CFunction f, void *a, void *b)
{
    static lml_alloc heap;
    heap = lml_alloc_heap();
    lml_box_options options = {
        .alloc = &heap, .prepare = lml_allow_prepare, .budget = 10000000, .memory = 64 << 20};
    lml_box box;
    lml_error e;
    cr_assert_eq(lml_box_open(&box, &options, &e), LML_OK);
    lua_pushcfunction(box.L, f);
    lua_pushlightuserdata(box.L, a);
    lua_pushlightuserdata(box.L, b);
    cr_assert_eq(lml_box_call(&box, 2, 0, &e), LML_OK, "%s", e.message);
    lml_box_close(&box);
}

Test(allow, what_is_written_is_what_is_there)
{
    static list written, there;
    read_document(&written);
    with_box(list_all, &there, &written);
    cr_expect(there.count > 150, "only %d names were found", there.count);
    for (int i = 0; i < there.count; i++)
        cr_expect(has(&written, there.name[i]),
                  "%s can be reached, and docs/security.md does not say so", there.name[i]);
    for (int i = 0; i < written.count; i++)
        cr_expect(has(&there, written.name[i]), "docs/security.md names %s, which is not there",
                  written.name[i]);
}

/* ---- what must not be there --------------------------------------------------------------------
 */

static int check_metatables(lua_State *L)
{
    static const char *const never[] = {"__gc", "__close", "__mode", "__call", "__name", "__pairs"};
    for (int i = 0; i < LML_CLASSES; i++) {
        lml_class_push(L, (lml_class)i);
        for (size_t k = 0; k < sizeof never / sizeof *never; k++) {
            cr_expect_eq(lua_getfield(L, -1, never[k]), LUA_TNIL, "class %d has %s", i, never[k]);
            lua_pop(L, 1);
        }
        lua_getfield(L, -1, "__metatable");
        cr_expect(lua_isboolean(L, -1) && !lua_toboolean(L, -1),
                  "the metatable of class %d can be got", i);
        lua_pop(L, 2);
    }
    static const int plain[] = {LUA_TNIL, LUA_TBOOLEAN, LUA_TNUMBER, LUA_TFUNCTION,
                                LUA_TLIGHTUSERDATA};
    lua_pushnil(L);
    lua_pushboolean(L, 1);
    lua_pushinteger(L, 1);
    lua_pushcfunction(L, check_metatables);
    lua_pushlightuserdata(L, L);
    for (int i = 0; i < 5; i++) {
        int index = lua_gettop(L) - 4 + i;
        cr_assert_eq(lua_type(L, index), plain[i]);
        cr_expect_not(lua_getmetatable(L, index), "values of type %d share a metatable", plain[i]);
    }
    return 0;
}

Test(allow, metatables_run_no_script_and_cannot_be_got)
{
    with_box(check_metatables, NULL, NULL);
}

static int check_registry(lua_State *L)
{
    cr_expect_eq(lua_getfield(L, LUA_REGISTRYINDEX, LUA_LOADED_TABLE), LUA_TNIL,
                 "a library of Lua's own was opened");
    lua_rawgeti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
    lua_pushnil(L);
    cr_expect_not(lua_next(L, -2), "the table of globals is not empty");
    return 0;
}

Test(allow, none_of_luas_own_libraries_is_open)
{
    with_box(check_registry, NULL, NULL);
}
