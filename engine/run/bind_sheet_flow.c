/* A flow: what goes from place to place, in figures of one kind.
 *
 *     page:flow { { "ring A", "melt", Q "7.9 g Au" }, { "melt", "casting", Q "7.9 g Au" },
 *                 owners = { ["ring A"] = "client" }, marks = { casting = "back" } }
 *
 * A place that takes and gives must give what it takes.
 */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/wording.h"
#include "run/bind_sheet.h"
#include "run/part.h"
#include "value/compare.h"

#include <math.h>
#include <string.h>

enum { MOVES_MOST = 200, PLACES_MOST = 64 };

typedef struct place {
    lml_span name; /* of a text that the entry holds */
    double in, out;
    bool takes, gives;
    int column; /* the longest way from a place that only gives */
} place;

typedef struct flow {
    place places[PLACES_MOST];
    struct move {
        int from, to;
    } moves[MOVES_MOST];
    int place_count, move_count;
    lml_value first;  /* the first move: all are of its kind */
    uint8_t decimals; /* the most that a move shows; LML_SHORTEST is more than all */
    double within;    /* how far what a place gives may be off what it takes */
} flow;

static const char WHOSE[] = "a flow";

static double amount_of(const lml_value *v)
{
    return v->kind == LML_MONEY ? (double)v->exact : v->amount;
}

static lml_value value_of(const flow *f, double amount)
{
    lml_value v = lml_value_bare(&f->first);
    if (v.kind == LML_MONEY)
        v.exact = (int64_t)amount;
    else
        v.amount = amount;
    v.decimals = f->decimals;
    return v;
}

static int find_place(const flow *f, lml_span name)
{
    int i = 0;
    while (i < f->place_count && !lml_span_equal(f->places[i].name, name))
        i++;
    return i;
}

/* The place that is named at `i` of a move; its name goes into the table at `out`. */
static int take_place(lua_State *L, flow *f, int move, int i, int out, const char *side)
{
    if (lua_rawgeti(L, move, i) != LUA_TSTRING)
        lml_raise_hint(L, LML_BAD_RECIPE, "write { \"ring A\", \"melt\", Q \"7.9 g Au\" }",
                       "move %d of a flow does not say where it goes %s", f->move_count + 1, side);
    lml_wording_push(L, -1, "a place of a flow", LML_PART_TEXT);
    lml_span name = lml_what_need_text(L, -1, "a place of a flow");
    lua_setfield(L, out, side); /* which keeps the text */
    lua_pop(L, 1);
    int at = find_place(f, name);
    if (at == f->place_count) {
        if (at == PLACES_MOST)
            lml_raise_text(L, LML_LIMIT, "a flow has more than %d places", PLACES_MOST);
        f->places[f->place_count++] = (place){.name = name};
    }
    return at;
}

/* All moves are of one kind, which can be added up. The figure is on top of the stack. */
static void check_move(lua_State *L, const flow *f, const lml_value *v)
{
    int order;
    lml_error e;
    lml_status status = lml_compare(v, &f->first, &order, &e);
    if (!status && v->kind > LML_MONEY)
        status = lml_fail(&e, LML_BAD_RECIPE, "%s cannot be added up", lml_what_is(L, -1));
    else if (!status && amount_of(v) < 0)
        status = lml_fail(&e, LML_BAD_RECIPE, "%s is negative", lml_what_is(L, -1));
    if (status) {
        lml_error_context(&e, status, "move %d of a flow", f->move_count + 1);
        lml_raise(L, &e);
    }
}

/* The move on top of the stack; pops it. */
static void take_move(lua_State *L, flow *f, int moves)
{
    if (!lml_view_test_content(L, -1))
        lml_raise_hint(L, LML_BAD_RECIPE, "write { \"ring A\", \"melt\", Q \"7.9 g Au\" }",
                       "move %d of a flow is a table, and %s was given", f->move_count + 1,
                       lml_what_is(L, -1));
    int content = lua_gettop(L), move = content + 1; /* under it the move as it was given */
    lua_createtable(L, 0, 3);
    struct move *m = &f->moves[f->move_count];
    m->from = take_place(L, f, content, 1, move, "from");
    m->to = take_place(L, f, content, 2, move, "to");
    lml_value room;
    lua_rawgeti(L, content, 3);
    const lml_value *v = lml_figure_check(L, lua_gettop(L), &room);
    if (f->move_count == 0)
        f->first = *v;
    f->decimals = v->decimals > f->decimals ? v->decimals : f->decimals;
    check_move(L, f, v);
    double amount = amount_of(v);
    place *from = &f->places[m->from], *to = &f->places[m->to];
    from->out += amount;
    from->gives = true;
    to->in += amount;
    to->takes = true;
    lml_figure_push(L, v);
    lua_setfield(L, move, "value");
    lua_settop(L, move);
    lua_rawseti(L, moves, ++f->move_count);
    lua_settop(L, content - 2);
}

static void check_sums(lua_State *L, const flow *f)
{
    for (int i = 0; i < f->place_count; i++) {
        const place *p = &f->places[i];
        double off = p->in - p->out;
        double noise = 1e-9 * (p->in + p->out);
        if (!p->takes || !p->gives || fabs(off) <= f->within + noise)
            continue;
        char in[60], out[60], by[60];
        lml_value values[] = {value_of(f, p->in), value_of(f, p->out), value_of(f, fabs(off))};
        lml_bind_sheet_shown(&values[0], in, sizeof in);
        lml_bind_sheet_shown(&values[1], out, sizeof out);
        lml_bind_sheet_shown(&values[2], by, sizeof by);
        lml_raise_hint(L, LML_BAD_RECIPE, "say where the difference goes, or give step = ...",
                       "the flow does not add up: '%.*s' takes %s and gives %s, %s %s",
                       (int)p->name.length, p->name.at, in, out, by, off > 0 ? "less" : "more");
    }
}

/* Each place comes after all that it takes from. */
static void set_columns(lua_State *L, flow *f)
{
    bool moved = true;
    for (int round = 0; moved; round++) {
        moved = false;
        lml_box_charge(L, 1 + (uint64_t)f->move_count / 8);
        for (int i = 0; i < f->move_count; i++) {
            const place *from = &f->places[f->moves[i].from];
            place *to = &f->places[f->moves[i].to];
            if (to->column > from->column)
                continue;
            to->column = from->column + 1;
            moved = true;
            if (round > f->place_count)
                lml_raise_text(L, LML_BAD_RECIPE,
                               "the flow goes in a circle at '%.*s': no move may lead back to "
                               "where its metal came from",
                               (int)to->name.length, to->name.at);
        }
    }
}

static bool is_no_mark(lml_span mark)
{
    return !lml_span_is(mark, "back") && !lml_span_is(mark, "lost") && !lml_span_is(mark, "open");
}

/* owners = { ["ring A"] = "client" }, marks = { casting = "back" }: into the places, a list at
 * `places`. */
static void take_by_place(lua_State *L, const flow *f, int places, const char *option,
                          const char *member)
{
    int top = lua_gettop(L);
    if (lua_getfield(L, 2, option) == LUA_TNIL) {
        lua_settop(L, top);
        return;
    }
    lml_view_push_content(L, -1, "the places of a flow");
    int content = lua_gettop(L);
    lua_Integer count = lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= count; i++) {
        lml_box_charge(L, LML_BIND_SHEET_OPTION);
        lua_rawgeti(L, content + 1, i);
        lml_span name = lml_what_need_text(L, -1, "the name of a place");
        int at = find_place(f, name);
        if (at == f->place_count)
            lml_raise_hint(L, LML_BAD_RECIPE, "name a place of one of its moves",
                           "'%s' of a flow names '%.*s', and no move goes there", option,
                           (int)name.length, name.at);
        lua_pushvalue(L, -1);
        lua_rawget(L, content);
        lml_wording_push(L, -1, "an option of a flow", LML_PART_TEXT);
        lml_span said = lml_what_need_text(L, -1, "an option of a flow");
        if (strcmp(member, "mark") == 0 && is_no_mark(said))
            lml_raise_text(L, LML_BAD_RECIPE,
                           "a place of a flow is marked back, lost or open, and not '%.*s'",
                           (int)said.length, said.at);
        lua_rawgeti(L, places, at + 1);
        lua_pushvalue(L, -2);
        lua_setfield(L, -2, member);
        lua_settop(L, content + 1);
    }
    lua_settop(L, top);
}

/* Push the list of places: name, owner, mark, column, and what goes through. */
static void push_places(lua_State *L, const flow *f)
{
    lua_createtable(L, f->place_count, 0);
    int places = lua_gettop(L);
    for (int i = 0; i < f->place_count; i++) {
        const place *p = &f->places[i];
        lua_createtable(L, 0, 5);
        lua_pushlstring(L, p->name.at, p->name.length);
        lua_setfield(L, -2, "name");
        lua_pushinteger(L, p->column);
        lua_setfield(L, -2, "column");
        lml_value through = value_of(f, p->takes ? p->in : p->out);
        lml_figure_push(L, &through);
        lua_setfield(L, -2, "value");
        lua_rawseti(L, places, i + 1);
    }
    take_by_place(L, f, places, "owners", "owner");
    take_by_place(L, f, places, "marks", "mark");
}

int lml_bind_sheet_flow(lua_State *L)
{
    static const char *const known[] = {"title", "of", "owners", "marks", "foretold", "step", NULL};
    flow f = {.place_count = 0};
    int entry = lml_bind_sheet_begin_picture(L, "flow", WHOSE, known);
    lua_Integer count = (lua_Integer)lua_rawlen(L, 2);
    if (count < 1 || count > MOVES_MOST)
        return lml_raise_hint(L, LML_BAD_RECIPE, "write { \"ring A\", \"melt\", Q \"7.9 g Au\" }",
                              "a flow has 1 to %d moves, and not %d", MOVES_MOST, (int)count);
    lua_createtable(L, (int)count, 0);
    int moves = lua_gettop(L);
    for (lua_Integer i = 1; i <= count; i++) {
        lml_box_charge(L, LML_BIND_SHEET_ENTRY);
        lua_rawgeti(L, 2, i);
        take_move(L, &f, moves);
    }
    lua_setfield(L, entry, "moves");
    lml_value room;
    const lml_value *step = lml_bind_sheet_push_option(L, 2, "step", WHOSE, &room);
    if (step) {
        f.within = step->kind == LML_MONEY ? (double)step->exact : step->amount;
        lua_setfield(L, entry, "step");
    }
    lua_settop(L, entry);
    check_sums(L, &f);
    set_columns(L, &f);
    push_places(L, &f);
    lua_setfield(L, entry, "places");
    lua_getfield(L, 2, "foretold");
    if (lua_toboolean(L, -1))
        lua_setfield(L, entry, "foretold");
    lua_settop(L, entry);
    return lml_bind_sheet_end(L);
}
