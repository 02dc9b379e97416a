/* craft.casting_plan and craft.casting_pour: the planner of a casting day; the sums are in
 * craft/schedule.
 *
 * They take bare numbers: scripts/kiln.lua turns values into these and back. */
#include "words/bind_schedule.h"

#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "cell/word.h"
#include "craft/schedule.h"
#include "value/wanted.h"
#include "words/bind_craft.h"
#include "cell/key.h"

#include <math.h>
#include <string.h>

enum { STEP = 200 /* instructions */, PREPARED = 100, NEAREST_QUARTERS = 192 /* two days */ };

static const char PLAN[] = "craft.casting_plan", POUR[] = "craft.casting_pour";

static double check_number(lua_State *L, const char *who, const char *what)
{
    if (lua_type(L, -1) != LUA_TNUMBER)
        lml_raise_text(L, LML_BAD_VALUE, "%s: %s is a bare number, and %s was given", who, what,
                       lml_what_is(L, -1));
    return lua_tonumber(L, -1);
}

/* The number that is member `name` of the content on top. */
static double take_number(lua_State *L, const char *who, const char *name)
{
    lml_view_get_member(L, -1, name);
    double number = check_number(L, who, name);
    lua_pop(L, 1);
    return number;
}

/* Push the member of the content on top as a content; false, and nothing, when it is not given. */
static bool push_inner(lua_State *L, const char *name)
{
    if (!lml_view_get_member(L, -1, name)) {
        lua_pop(L, 1);
        return false;
    }
    lml_view_push_content(L, -1, name);
    lua_remove(L, -2);
    return true;
}

/* Push the list `name` of the content on top; its length, or 0 and nothing pushed. */
static int push_list(lua_State *L, const char *who, const char *name, int most)
{
    if (!push_inner(L, name))
        return 0;
    size_t count = lml_key_length(L, -1);
    if (count > (size_t)most)
        lml_raise_text(L, LML_LIMIT, "%s: %s has %d entries, but at most %d are allowed", who, name,
                       (int)count, most);
    lml_box_charge(L, count);
    if (count == 0)
        lua_pop(L, 1);
    return (int)count;
}

/* Push the content of entry i of the list on top. */
static void push_entry(lua_State *L, int i, const char *name)
{
    lua_rawgeti(L, -1, i + 1);
    lml_view_push_content(L, -1, name);
    lua_remove(L, -2);
}

static int take_moments(lua_State *L, const char *who, const char *name, double *out, int most)
{
    int count = push_list(L, who, name, most);
    for (int i = 0; i < count; i++) {
        lua_rawgeti(L, -1, i + 1);
        out[i] = check_number(L, who, name);
        lua_pop(L, 1);
    }
    if (count > 0)
        lua_pop(L, 1);
    return count;
}

static lml_schedule_window take_window(lua_State *L, const char *who)
{
    return (lml_schedule_window){take_number(L, who, "from"), take_number(L, who, "to")};
}

static bool take_flag(lua_State *L, const char *name)
{
    lml_view_get_member(L, -1, name);
    bool yes = lua_toboolean(L, -1);
    lua_pop(L, 1);
    return yes;
}

static void take_segments(lua_State *L, const char *who, lml_schedule_problem *p)
{
    p->segments = push_list(L, who, "segments", LML_SCHEDULE_SEGMENTS);
    for (int i = 0; i < p->segments; i++) {
        push_entry(L, i, "segments");
        p->segment[i] = (lml_schedule_segment){.ramp = take_flag(L, "ramp"),
                                               .hands = take_flag(L, "hands"),
                                               .from = take_number(L, who, "from"),
                                               .to = take_number(L, who, "to"),
                                               .rate = take_number(L, who, "rate"),
                                               .minutes = take_number(L, who, "minutes"),
                                               .soft = take_number(L, who, "soft")};
        lua_pop(L, 1);
    }
    if (p->segments > 0)
        lua_pop(L, 1);
}

static void take_tariff(lua_State *L, const char *who, lml_schedule_problem *p)
{
    p->bands = push_list(L, who, "tariff", LML_SCHEDULE_BANDS);
    for (int i = 0; i < p->bands; i++) {
        push_entry(L, i, "tariff");
        p->band[i] = (lml_schedule_band){take_window(L, who), take_number(L, who, "price")};
        lua_pop(L, 1);
    }
    if (p->bands > 0)
        lua_pop(L, 1);
}

/* Read the table at 1; push the problem, and the room that its search needs behind it. */
static lml_schedule_problem *take_problem(lua_State *L, const char *who, void **room)
{
    lua_settop(L, 1);
    lml_schedule_problem *p = lua_newuserdatauv(L, sizeof *p, 0);
    memset(p, 0, sizeof *p);
    lml_box_charge(L, PREPARED);
    double ceiling = NAN, now = NAN, movable = NAN;
    const lml_argument due[] = {
        {.name = "segments"},
        {.name = "pour", .wanted = LML_WANT_NUMBER, .out = &p->pour},
        {.name = "earliest", .wanted = LML_WANT_NUMBER, .out = &p->earliest},
        {.name = "sleep", .optional = true},
        {.name = "ceiling", .wanted = LML_WANT_NUMBER, .out = &ceiling, .optional = true},
        {.name = "tariff", .optional = true},
        {.name = "capacity", .wanted = LML_WANT_NUMBER, .out = &p->capacity, .optional = true},
        {.name = "losses", .wanted = LML_WANT_NUMBER, .out = &p->losses, .optional = true},
        {.name = "room", .wanted = LML_WANT_NUMBER, .out = &p->room, .optional = true},
        {.name = "fixed", .optional = true},
        {.name = "at_start", .optional = true},
        {.name = "waits", .flag = &p->waits, .optional = true},
        {.name = "now", .wanted = LML_WANT_NUMBER, .out = &now, .optional = true},
        {.name = "movable", .wanted = LML_WANT_NUMBER, .out = &movable, .optional = true},
        {.name = "steam", .wanted = LML_WANT_NUMBER, .out = &p->steam, .optional = true}};
    lml_bind_craft_take_arguments(L, 1, who, due, sizeof due / sizeof *due);
    p->has_ceiling = !isnan(ceiling);
    p->ceiling = p->has_ceiling ? ceiling : 0;
    p->has_now = !isnan(now);
    p->now = p->has_now ? now : 0;
    p->has_movable = !isnan(movable);
    p->movable = p->has_movable ? movable : 0;
    lml_view_push_content(L, 1, who);
    take_segments(L, who, p);
    take_tariff(L, who, p);
    p->fixed_count = take_moments(L, who, "fixed", p->fixed, LML_SCHEDULE_MOMENTS);
    p->at_start_count = take_moments(L, who, "at_start", p->at_start, LML_SCHEDULE_STARTS);
    p->has_sleep = push_inner(L, "sleep");
    if (p->has_sleep)
        p->sleep = take_window(L, who);
    lml_error e;
    if (lml_schedule_check(p, &e))
        lml_raise(L, &e);
    *room = lua_newuserdatauv(L, lml_schedule_room(p), 0);
    return p;
}

static int casting_plan(lua_State *L)
{
    void *room;
    lml_schedule_problem *p = take_problem(L, PLAN, &room);
    lml_schedule_plan plan;
    lml_box_charge(L, lml_schedule_work(p) / STEP);
    if (!lml_schedule_search(p, room, &plan)) {
        lua_pushnil(L);
        return 1;
    }
    lua_createtable(L, 0, 6);
    lua_pushinteger(L, plan.hands);
    lua_setfield(L, -2, "hands");
    lua_pushnumber(L, plan.alone);
    lua_setfield(L, -2, "alone");
    lua_pushnumber(L, plan.cost);
    lua_setfield(L, -2, "cost");
    lua_pushnumber(L, plan.start);
    lua_setfield(L, -2, "start");
    lua_pushinteger(L, plan.stretch);
    lua_setfield(L, -2, "stretch");
    lua_createtable(L, p->segments, 0);
    for (int i = 0; i < p->segments; i++) {
        lua_pushinteger(L, plan.took[i]);
        lua_rawseti(L, -2, i + 1);
    }
    lua_setfield(L, -2, "stretches");
    return 1;
}

static int casting_pour(lua_State *L)
{
    void *room;
    lml_schedule_problem *p = take_problem(L, POUR, &room);
    double wanted = p->pour;
    for (int k = 1; k <= NEAREST_QUARTERS; k++) {
        for (int sign = 1; sign >= -1; sign -= 2) {
            p->pour = wanted + sign * k * 15;
            lml_box_charge(L, 1 + lml_schedule_work(p) / STEP);
            if (lml_schedule_keeps_rules(p, room)) {
                lua_pushnumber(L, p->pour);
                return 1;
            }
        }
    }
    lua_pushnil(L);
    return 1;
}

const lml_word lml_bind_schedule[] = {
    {"casting_plan", casting_plan, "of: table", "table?",
     "How long the holds of a burnout are stretched, by quarters of an hour, and when the kiln "
     "starts; nil when nothing "
     "starts late enough: segments, pour, earliest, sleep, ceiling, tariff, capacity, losses, "
     "room, fixed, at_start, waits, "
     "now, movable, steam. Bare numbers: minutes from midnight, °C, W, J/K.",
     "craft.casting_plan({ pour = 840, earliest = 0, segments = { { from = 700, to = 700, rate = "
     "0, minutes = 120, soft = 0 } } }).start",
     "720"},
    {"casting_pour", casting_pour, "of: table", "number?",
     "The pour nearest to that one for which nobody gets up and the kiln stays below the ceiling, "
     "within two days; nil when "
     "there is none. It takes what craft.casting_plan takes.",
     "craft.casting_pour { pour = 120, earliest = 0, segments = {}, sleep = { from = 1320, to = "
     "420 }, fixed = { 0 } }",
     "420"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
