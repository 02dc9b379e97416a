/* A datum: every kind of Lua value as bytes and back, and held against those of every other. */
#include "cell/chunk.h"
#include "cell/class.h"
#include "cell/datum.h"
#include "cell/view.h"
#include "run/allow.h"
#include "unit/unit_table.h"
#include "value/alloy.h"
#include "value/step.h"
#include "value/value.h"
#include "worked.h"

enum { CASES = 100, TABLE = 2 };

static lml_alloc heap;

/* Different from each other, also where they are alike. */
static const char PLAIN[] =
    "return { true, false, 1, 2, 1.0, -0.0, 0.0, '1', '', 'a', 'a\\0b', {}, { 1 }, { 1, 2 },\n"
    "  { 2, 1 }, { a = 1 }, { b = 1 }, { a = 2 }, { a = 1, b = 1 }, { 1, a = 1 }, { { 1 } },\n"
    "  { a = {} }, { a = { a = 1 } }, { a = { a = 2 } }, { ['a\\0b'] = 1 }, { a = 1.0 },\n"
    "  { a = true }, { 1, 2, 3, x = { 1 } }, { 1, 2, 3, x = { 2 } } }";

static void push_value(lua_State *L, lml_value v)
{
    *(lml_value *)lml_class_new(L, LML_CLASS_VALUE, sizeof v, 0) = v;
}

static lml_value gram(double kg)
{
    return lml_value_quantity(kg, (lml_dimension){.mass = 1}, lml_unit_one(LML_U_G, 1));
}

static void append(lua_State *L)
{
    lua_rawseti(L, TABLE, (lua_Integer)lua_rawlen(L, TABLE) + 1);
}

static void append_values(lua_State *L)
{
    lml_value v[8];
    for (size_t i = 0; i < sizeof v / sizeof *v; i++)
        v[i] = gram(0.002);
    v[1].amount = 0.003;
    v[2].toward = LML_TO_UP;
    v[3].kept = true;
    v[4].decimals = 2;
    v[5].low = 0.001;
    v[6].high = 0.001;
    v[7].unit = lml_unit_one(LML_U_KG, 1);
    for (size_t i = 0; i < sizeof v / sizeof *v; i++) {
        push_value(L, v[i]);
        append(L);
    }
}

static void append_views(lua_State *L)
{
    static const char *const name[] = {"job", "house"};
    for (int i = 0; i < 4; i++) {
        lua_newtable(L);
        push_value(L, gram(0.001 * (1 + i % 2)));
        lua_rawseti(L, -2, 1);
        lml_view_push(L, LML_CLASS_LIST, name[i / 2]);
        append(L);
        lua_newtable(L);
        push_value(L, gram(0.001 * (1 + i % 2)));
        lua_setfield(L, -2, "wax");
        lml_view_push_absent(L);
        lua_setfield(L, -2, "note");
        lml_view_push(L, LML_CLASS_RECORD, name[i / 2]);
        append(L);
    }
}

/* Each record and list holds one, and a table with one. */
static void append_nested(lua_State *L)
{
    for (int i = 0; i < 3; i++) {
        lua_newtable(L);
        push_value(L, gram(0.001 * (1 + i)));
        lua_setfield(L, -2, "wax");
        for (int depth = 0; depth < 3; depth++) {
            lml_view_push(L, depth == 1 ? LML_CLASS_LIST : LML_CLASS_RECORD, "job");
            lua_newtable(L);
            lua_insert(L, -2);
            lua_rawseti(L, -2, 1);
            if (depth == 0) {
                lua_newtable(L);
                lua_insert(L, -2);
                lua_setfield(L, -2, "inner");
            }
        }
        append(L);
    }
}

static void append_blocks(lua_State *L)
{
    for (int i = 0; i < 2; i++) {
        lml_alloy *alloy = lml_class_new(L, LML_CLASS_ALLOY, sizeof *alloy, 0);
        memset(alloy, 0, sizeof *alloy);
        alloy->density = 15000 + i;
        append(L);
        lml_assay *assay = lml_class_new(L, LML_CLASS_ASSAY, sizeof *assay, 0);
        memset(assay, 0, sizeof *assay);
        assay->found.part[LML_Au] = 0.5 + 0.1 * i;
        append(L);
    }
    lml_view_push_absent(L);
    append(L);
    lml_view_push_withheld(L);
    append(L);
}

static bool is(lua_State *L, int index, const lml_builder *bytes)
{
    lml_span from = {bytes->at, bytes->length};
    const int top = lua_gettop(L);
    bool same = lml_datum_is(L, index, &from);
    cr_expect_eq(lua_gettop(L), top);
    cr_expect_eq(from.length, same ? 0 : bytes->length);
    return same;
}

/* Argument 1 is a light userdata, 2 the list of all cases. */
static int compare_all(lua_State *L)
{
    static lml_builder bytes[CASES];
    append_values(L);
    append_views(L);
    append_nested(L);
    append_blocks(L);
    const int count = (int)lua_rawlen(L, TABLE);
    cr_assert(count < CASES);
    for (int i = 0; i < count; i++) {
        bytes[i] = lml_builder_on(&heap, 0);
        lua_rawgeti(L, TABLE, i + 1);
        cr_assert(lml_datum_add(L, -1, &bytes[i]), "case %d", i + 1);
        lua_pop(L, 1);
    }
    for (int i = 0; i < count; i++) {
        lml_span from = {bytes[i].at, bytes[i].length};
        cr_assert(lml_datum_push(L, &from));
        cr_expect_eq(from.length, 0);
        for (int j = 0; j < count; j++) {
            cr_expect_eq(is(L, -1, &bytes[j]), i == j, "case %d, pushed again, is case %d", i + 1,
                         j + 1);
            lua_rawgeti(L, TABLE, i + 1);
            cr_expect_eq(is(L, -1, &bytes[j]), i == j, "case %d is case %d", i + 1, j + 1);
            lua_pop(L, 1);
        }
        for (size_t cut = 0; cut < bytes[i].length; cut++) {
            from = (lml_span){bytes[i].at, cut};
            cr_expect_not(is(L, -1, &(lml_builder){.at = bytes[i].at, .length = cut}));
            cr_expect_not(lml_datum_push(L, &from), "case %d, cut", i + 1);
        }
        lua_pop(L, 1);
    }
    for (int i = 0; i < count; i++)
        lml_builder_free(&bytes[i]);
    return 0;
}

Test(datum, each_is_itself_and_no_other)
{
    lml_box box;
    lml_error e;
    heap = lml_alloc_heap();
    lml_box_options options = {
        .alloc = &heap, .prepare = lml_allow_prepare, .budget = 10000000, .memory = 1 << 22};
    cr_assert_eq(lml_box_open(&box, &options, &e), LML_OK, "%s", e.message);
    lua_pushcfunction(box.L, compare_all);
    lua_pushlightuserdata(box.L, &box);
    cr_assert_eq(lml_chunk_load(&box, lml_span_of(PLAIN), "chunk.lua", &e), LML_OK, "%s",
                 e.message);
    cr_assert_eq(lml_box_call(&box, 0, 1, &e), LML_OK, "%s", e.message);
    cr_assert_eq(lml_box_call(&box, 2, 0, &e), LML_OK, "%s", e.message);
    lml_box_close(&box);
}
