/* Lines of a page: a figure that is read, weighed, set on a machine or measured, and what is
 * ticked.
 *
 * An entry holds what its recipe said as values: what it may be, when it is done, whose metal it
 * is. Nothing of that is words, so that any face of a sheet can work with it.
 */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "file/shapes.h"
#include "run/bind_sheet.h"
#include "run/part.h"
#include "value/compare.h"
#include "value/step.h"
#include "value/write.h"

#include <string.h>

typedef enum option {
    RECORD,
    UNIT,
    FROM,
    OF,
    OWNER,
    ALSO,
    KIND,
    TAKEN_FROM,
    WAY,
    WAY_OWNER,
    BIG,
    LEAST,
    MOST,
    AT,
    TILL,
    AFTER,
    LATEST,
    STEP,
    WHOLE,
    CHANCE,
    FINENESS,
    SINCE
} option;

static const char *const OPTIONS[] = {[RECORD] = "record",
                                      [UNIT] = "unit",
                                      [FROM] = "from",
                                      [OF] = "of",
                                      [OWNER] = "owner",
                                      [ALSO] = "also",
                                      [KIND] = "kind",
                                      [TAKEN_FROM] = "taken_from",
                                      [WAY] = "way",
                                      [WAY_OWNER] = "way_owner",
                                      [BIG] = "big",
                                      [LEAST] = "least",
                                      [MOST] = "most",
                                      [AT] = "at",
                                      [TILL] = "till",
                                      [AFTER] = "after",
                                      [LATEST] = "latest",
                                      [STEP] = "step",
                                      [WHOLE] = "whole",
                                      [CHANCE] = "chance",
                                      [FINENESS] = "fineness",
                                      [SINCE] = "since",
                                      NULL};

/* Those of a box, which has no figure. */
static const char *const BOX_OPTIONS[] = {"owner",     "fineness", "least",  "most", "at",
                                          "till",      "after",    "latest", "also", "way",
                                          "way_owner", "kind",     "since",  NULL};

/* The unit must fit the figure; said now, where the line is. */
static void check_unit(lua_State *L, const lml_value *v, int unit, const char *called)
{
    lml_value shown;
    lml_error e;
    if (!v)
        lml_raise_text(L, LML_BAD_RECIPE, "a line has %s = \"%s\", but no figure with a unit",
                       called, lua_tostring(L, unit));
    if (lml_write_as(v, lml_what_need_text(L, unit, "a unit in quotes"), &shown, &e))
        lml_raise(L, &e);
}

/* Where a figure is from is said by the engine where it knows: a line may add it, and not say
 * something else. */
static void check_from(lua_State *L, int figure, int from)
{
    const lml_value *v = lml_class_test(L, figure, LML_CLASS_VALUE);
    const char *known = v && v->origin ? lml_origin_name((lml_origin)v->origin) : NULL;
    lml_span said = lml_what_need_text(L, from, "the option 'from' of a line");
    bool is_origin = false;
    for (int i = LML_ASSUMED; i <= LML_ESTIMATED; i++)
        is_origin = is_origin || lml_span_is(said, lml_origin_name((lml_origin)i));
    if (known && is_origin && !lml_span_is(said, known))
        lml_raise_hint(L, LML_BAD_RECIPE, "leave 'from' out: it is printed by itself",
                       "a line says that its figure is from '%.*s', but it is from '%s'",
                       (int)said.length, said.at, known);
}

/* As an entry of the record has it. */
static void check_way(lua_State *L, lml_span way)
{
    const char *const *known = lml_shape_field(&lml_shapes_record_entry, "way")->choices;
    for (; *known; known++)
        if (lml_span_is(way, *known))
            return;
    lml_raise_hint(L, LML_BAD_RECIPE,
                   "in, added, piece, returned, kept, settled, sent, here or melted",
                   "\"%.*s\" is not a way of the metal account", (int)way.length, way.at);
}

/* What is being read of a line: its figure at an index of the stack (nil for none), its options,
 * and its entry. */
typedef struct line {
    int figure, options, entry;
    unsigned said;          /* a bit for each option that is there */
    const lml_value *value; /* of the figure, where it has one */
    lml_value room;
    const lml_value *bound; /* the figure, or one of its limits: what else is like it */
    lml_value bound_room;
} line;

/* What is written into a box of which nobody foretells the figure. */
static void check_kind_name(lua_State *L, const line *l, lml_span kind)
{
    if (l->bound || !lua_isnil(L, l->figure))
        lml_raise_text(L, LML_BAD_RECIPE,
                       "a line has a figure or a limit, which has its kind: "
                       "'kind' is for a box without one");
    if (lml_wanted_by_name(kind) >= LML_WANT_NUMBER)
        lml_raise_hint(L, LML_BAD_RECIPE, "such as mass, length, temperature or vacuum",
                       "'%.*s' is not a kind of figure with a unit", (int)kind.length, kind.at);
}

static bool is_said(const line *l, option o)
{
    return l->said & (1u << o);
}

/* Which options are there, in one walk: most lines have few. */
static unsigned said_in(lua_State *L, int options)
{
    unsigned said = 0;
    if (lua_getmetatable(L, options)) { /* they may stand behind it */
        lua_pop(L, 1);
        return ~0u;
    }
    for (lua_pushnil(L); lua_next(L, options); lua_pop(L, 1)) {
        const char *name = lua_type(L, -2) == LUA_TSTRING ? lua_tostring(L, -2) : "";
        for (unsigned o = 0; OPTIONS[o]; o++)
            if (OPTIONS[o][0] == name[0] && strcmp(OPTIONS[o], name) == 0)
                said |= 1u << o;
    }
    return said;
}

/* Set the option in the entry; its value, kept in *room, or NULL. */
static const lml_value *take_value(lua_State *L, const line *l, option o, lml_value *room)
{
    const char *name = OPTIONS[o];
    if (!is_said(l, o))
        return NULL;
    const lml_value *v = lml_bind_sheet_push_option(L, l->options, name, "a line", room);
    if (!v) {
        lua_pop(L, 1);
        return NULL;
    }
    lml_box_charge(L, LML_BIND_SHEET_OPTION);
    if (v != room)
        *room = *v;
    lua_setfield(L, l->entry, name);
    return room;
}

static bool take_yes(lua_State *L, const line *l, option o)
{
    const char *name = OPTIONS[o];
    if (!is_said(l, o))
        return false;
    int type = lua_getfield(L, l->options, name);
    if (type != LUA_TNIL && type != LUA_TBOOLEAN)
        lml_raise_text(L, LML_BAD_RECIPE, "the option '%s' of a line must be true or false", name);
    bool yes = lua_toboolean(L, -1);
    if (yes)
        lua_setfield(L, l->entry, name);
    else
        lua_pop(L, 1);
    return yes;
}

static void take_words(lua_State *L, const line *l, option o)
{
    const char *name = OPTIONS[o];
    if (!is_said(l, o))
        return;
    if (!lml_bind_sheet_push_words(L, l->options, name, "a line")) {
        lua_pop(L, 1);
        return;
    }
    lml_box_charge(L, LML_BIND_SHEET_OPTION);
    if (o == FROM)
        check_from(L, l->figure, lua_gettop(L));
    if (o == OF)
        lml_bind_sheet_check_give(L, lua_gettop(L));
    if (o == WAY)
        check_way(L, lml_what_need_text(L, lua_gettop(L), "the option 'way' of a line"));
    if (o == UNIT)
        check_unit(L, l->value, lua_gettop(L), name);
    if (o == KIND)
        check_kind_name(L, l, lml_what_need_text(L, lua_gettop(L), "a kind in quotes"));
    if (o == ALSO)
        check_unit(L, l->bound, lua_gettop(L), name);
    lua_setfield(L, l->entry, name);
}

/* A limit is of the kind of its figure, and of the other limit. */
static void take_limit(lua_State *L, line *l, option o)
{
    lml_value room;
    int order;
    lml_error e;
    const lml_value *v = take_value(L, l, o, &room);
    if (!v)
        return;
    if (l->bound && lml_compare(v, l->bound, &order, &e)) {
        lml_error_context(&e, e.status, "the option '%s' of a line is not like its figure",
                          OPTIONS[o]);
        lml_raise(L, &e);
    }
    if (!l->bound) {
        l->bound_room = *v;
        l->bound = &l->bound_room;
    }
}

/* Two options that must be in order, both of one kind. */
static void take_order(lua_State *L, const line *l, option low_one, option high_one)
{
    const char *first = OPTIONS[low_one], *second = OPTIONS[high_one];
    lml_value a, b;
    int order = 0;
    if (!is_said(l, low_one) || !is_said(l, high_one))
        return;
    lua_getfield(L, l->entry, first);
    lua_getfield(L, l->entry, second);
    if (!lua_isnil(L, -1) && !lua_isnil(L, -2)) {
        a = *lml_figure_check(L, lua_gettop(L) - 1, &a);
        b = *lml_figure_check(L, lua_gettop(L), &b);
        if (lml_compare(&a, &b, &order, NULL) == LML_OK && order > 0) {
            char low[60], high[60];
            lml_raise_text(L, LML_BAD_RECIPE,
                           "a line has '%s' %s, which is above its '%s' %s: are the two swapped?",
                           first, lml_bind_sheet_shown(&a, low, sizeof low), second,
                           lml_bind_sheet_shown(&b, high, sizeof high));
        }
    }
    lua_pop(L, 2);
}

static void take_kind(lua_State *L, const line *l, option o, lml_wanted wanted)
{
    lml_value room;
    lml_error e;
    const lml_value *v = take_value(L, l, o, &room);
    if (v && lml_wanted_check(wanted, v, &e)) {
        lml_error_context(&e, e.status, "the option '%s' of a line", OPTIONS[o]);
        lml_raise(L, &e);
    }
}

static void take_step(lua_State *L, const line *l)
{
    lml_value room, rounded;
    lml_error e;
    const lml_value *step = take_value(L, l, STEP, &room);
    if (!step)
        return;
    if (!l->value)
        lml_raise_text(L, LML_BAD_RECIPE, "a line has 'step', but no figure");
    if (lml_step_round(l->value, step, LML_TO_NEAREST, &rounded, &e)) {
        lml_error_context(&e, e.status, "the option 'step' of a line");
        lml_raise(L, &e);
    }
}

static void take_chance(lua_State *L, const line *l)
{
    lml_value room;
    const lml_value *chance = take_value(L, l, CHANCE, &room);
    if (!chance)
        return;
    bool plain = chance->kind == LML_NUMBER ||
                 (chance->kind == LML_QUANTITY && lml_dimension_none(chance->dimension));
    if (!plain || chance->amount < 0 || chance->amount > 1)
        lml_raise_text(L, LML_BAD_RECIPE,
                       "the option 'chance' of a line is a ratio from 0 %% to 100 %%");
    if (lua_getfield(L, l->entry, "least") == LUA_TNIL &&
        lua_getfield(L, l->entry, "most") == LUA_TNIL)
        lml_raise_hint(L, LML_BAD_RECIPE, "say least = ..., below which it may lie",
                       "a line has 'chance', but neither 'least' nor 'most'");
    lua_settop(L, l->entry);
}

static void set_options(lua_State *L, int figure, int options, int entry)
{
    if (lua_isnoneornil(L, options))
        return;
    if (!lua_istable(L, options))
        lml_raise_text(L, LML_BAD_RECIPE,
                       "the options of a line are a table: { record = \"...\" }");
    lml_bind_sheet_check_options(L, options, "a line", OPTIONS);
    line l = {.figure = figure, .options = options, .entry = entry, .said = said_in(L, options)};
    bool is_figure =
        lua_type(L, figure) == LUA_TNUMBER || lml_class_test(L, figure, LML_CLASS_VALUE);
    if (is_figure) {
        l.room = *lml_figure_check(L, figure, &l.room);
        l.value = l.bound = &l.room;
    }
    take_yes(L, &l, BIG);
    if (take_yes(L, &l, WHOLE) && !l.value)
        lml_raise_text(L, LML_BAD_RECIPE, "a line has 'whole', but no figure");
    take_limit(L, &l, LEAST);
    take_limit(L, &l, MOST);
    take_order(L, &l, LEAST, MOST);
    take_kind(L, &l, AT, LML_WANT_MOMENT);
    take_kind(L, &l, TILL, LML_WANT_MOMENT);
    take_order(L, &l, AT, TILL);
    take_kind(L, &l, AFTER, LML_WANT_TIME);
    take_kind(L, &l, LATEST, LML_WANT_TIME);
    take_kind(L, &l, FINENESS, LML_WANT_FINENESS);
    take_kind(L, &l, SINCE, LML_WANT_MOMENT);
    take_order(L, &l, AFTER, LATEST);
    take_step(L, &l);
    take_chance(L, &l);
    for (option o = RECORD; o <= WAY_OWNER; o++)
        take_words(L, &l, o);
}

/* label at 2, figure at 3, options at 4. `act` is what a person does with it, NULL to read it. */
static int put_line(lua_State *L, const char *is, const char *act, bool has_figure)
{
    lua_settop(L, 4);
    lml_bind_sheet_begin(L, is);
    const int entry = 5;
    if (act) {
        lua_pushstring(L, act);
        lua_setfield(L, entry, "act");
    }
    lml_wording_push(L, 2, "the label of a line", LML_PART_TEXT);
    lua_setfield(L, entry, "label");
    if (has_figure) {
        lua_getfield(L, entry, "label"); /* keeps it alive while it is named */
        lml_bind_sheet_push_figure(L, 3, lua_tostring(L, -1));
        lua_setfield(L, entry, "value");
        lua_settop(L, entry);
    }
    set_options(L, 3, 4, entry);
    lua_settop(L, entry);
    return lml_bind_sheet_end(L);
}

int lml_bind_sheet_line(lua_State *L)
{
    return put_line(L, "line", NULL, true);
}

int lml_bind_sheet_total(lua_State *L)
{
    return put_line(L, "total", NULL, true);
}

int lml_bind_sheet_weigh(lua_State *L)
{
    return put_line(L, "line", "weigh", true);
}

int lml_bind_sheet_set(lua_State *L)
{
    return put_line(L, "line", "set", true);
}

int lml_bind_sheet_measure(lua_State *L)
{
    lua_settop(L, 4);
    return put_line(L, "line", "measure", !lua_isnil(L, 3));
}

/* page:tick("POUR", { of = "go", record = "poured" }) or, with a figure, page:tick("POUR", "GO",
 * { ... }). */
int lml_bind_sheet_tick(lua_State *L)
{
    lua_settop(L, 4);
    if (lua_istable(L, 3)) { /* without a figure */
        lua_pushvalue(L, 3);
        lua_replace(L, 4);
        lua_pushnil(L);
        lua_replace(L, 3);
    }
    return put_line(L, "line", "tick", !lua_isnil(L, 3));
}

/* page:box("Weigh the tree dry", "tree", { owner = "client" }): to be measured, without an expected
 * value. */
int lml_bind_sheet_box(lua_State *L)
{
    lua_settop(L, 4);
    lml_bind_sheet_begin(L, "line");
    lua_pushliteral(L, "measure");
    lua_setfield(L, -2, "act");
    lml_wording_push(L, 2, "the label of a box", LML_PART_TEXT);
    lua_setfield(L, -2, "label");
    lml_wording_push(L, 3, "what the box records", LML_PART_TEXT);
    lua_setfield(L, -2, "record");
    lua_pushnil(L); /* no figure */
    if (lua_istable(L, 4))
        lml_bind_sheet_check_options(L, 4, "a box", BOX_OPTIONS);
    set_options(L, 6, 4, 5);
    lua_settop(L, 5);
    return lml_bind_sheet_end(L);
}
