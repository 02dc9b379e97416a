#include "report/result_line.h"

#include "cell/class.h"
#include "cell/figure.h"
#include "cell/state.h"
#include "file/standing.h"
#include "report/result_datum.h"
#include "report/result_figure.h"
#include "report/result_withheld.h"
#include "run/engine.h"
#include "value/arithmetic.h"
#include "value/moment.h"
#include "value/step.h"
#include "value/wanted.h"

#include <string.h>

enum { SINCE_COST = 10 /* of reading a moment */ };

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_word(w, text);
}

/* The members of an entry that a line is written from. */
typedef enum member {
    ACT,
    LABEL,
    OF,
    VALUE,
    UNIT,
    STEP,
    LEAST,
    MOST,
    AT,
    TILL,
    AFTER,
    LATEST,
    CHANCE,
    ALSO,
    WHOLE,
    FROM,
    OWNER,
    TAKEN_FROM,
    KIND,
    FINENESS,
    WAY,
    WAY_OWNER,
    RECORD,
    SINCE,
    BIG,
    MEMBERS
} member;

static const char *const NAMES[MEMBERS] = {
    "act",  "label",    "of",     "value",     "unit",   "step",  "least", "most",  "at",
    "till", "after",    "latest", "chance",    "also",   "whole", "from",  "owner", "taken_from",
    "kind", "fineness", "way",    "way_owner", "record", "since", "big"};

/* A line: where its entry's members are on the stack, 0 for those that it has not. */
typedef struct line {
    int part, entry, at[MEMBERS];
    const char *page;
} line;

static member member_called(const char *name)
{
    int m = 0;
    while (m < MEMBERS && (NAMES[m][0] != name[0] || strcmp(NAMES[m], name) != 0))
        m++;
    return (member)m;
}

/* Push them, in one walk: most entries have few. */
static void push_members(lua_State *L, line *l)
{
    lml_box_need_stack(L, MEMBERS + 16);
    lua_pushnil(L);
    while (lua_next(L, l->entry)) {
        member m = lua_type(L, -2) == LUA_TSTRING ? member_called(lua_tostring(L, -2)) : MEMBERS;
        if (m == MEMBERS) {
            lua_pop(L, 1);
        } else {
            lua_insert(L, -2);
            l->at[m] = lua_gettop(L) - 1;
        }
    }
}

static const char *text_at(lua_State *L, const line *l, member m)
{
    return l->at[m] ? lua_tostring(L, l->at[m]) : NULL;
}

static void put_yes(lua_State *L, lml_json_writer *w, const line *l, member m)
{
    if (l->at[m] && lua_toboolean(L, l->at[m])) {
        name(w, NAMES[m]);
        lml_json_write_yes_no(w, true);
    }
}

static void put_text(lua_State *L, lml_json_writer *w, const line *l, member m)
{
    if (l->at[m] && lua_type(L, l->at[m]) == LUA_TSTRING) {
        name(w, NAMES[m]);
        lml_result_datum_put_text(L, w, l->at[m]);
    }
}

static void put_words(lua_State *L, lml_json_writer *w, const line *l, member m)
{
    if (l->at[m] && lua_type(L, l->at[m]) == LUA_TSTRING)
        lml_result_figure_put_words_at(L, w, l->part, l->at[m], NAMES[m]);
}

static bool is_field(lua_State *L, int entry, const char *field, const char *text)
{
    lua_getfield(L, entry, field);
    bool is = lua_type(L, -1) == LUA_TSTRING && strcmp(lua_tostring(L, -1), text) == 0;
    lua_pop(L, 1);
    return is;
}

/* ---- what was recorded ------------------------------------------------------------------------
 */

/* Whether it was written down at that moment or later; every entry was, where there is none. */
static bool is_since(lua_State *L, const lml_json *entry, const lml_value *since)
{
    lml_value at;
    if (!since)
        return true;
    lml_box_charge(L, SINCE_COST);
    return lml_moment_read(lml_json_text(lml_json_member(entry, "at")), &at, NULL) == LML_OK &&
           at.exact >= since->exact;
}

/* The last entry of the job's record of that name, if it was not taken back. */
static const lml_json *recorded_as(lua_State *L, lml_span what, const lml_value *since)
{
    size_t seen;
    const lml_json *found =
        lml_standing_last(lml_json_member(lml_run_of(L)->job, "record"), what, &seen);
    lml_box_charge(L, seen / 2);
    return found && is_since(L, found, since) ? found : NULL;
}

/* Push what was measured, as it was written; nil where only the moment was. */
static void push_measured(lua_State *L, const lml_json *entry)
{
    static const char *const measured[] = {"mass",   "length",  "volume", "temperature", "time",
                                           "vacuum", "current", "count",  "fineness"};
    for (size_t i = 0; i < sizeof measured / sizeof *measured; i++) {
        const lml_json *m = lml_json_member(entry, measured[i]);
        lml_span text = lml_json_text(m);
        if (text.length == 0)
            text = lml_json_raw(m);
        if (text.length > 0) {
            lua_pushlstring(L, text.at, text.length);
            return;
        }
    }
    lua_pushnil(L);
}

static void put_recorded(lua_State *L, lml_json_writer *w, const line *l)
{
    if (!l->at[RECORD] || lua_type(L, l->at[RECORD]) != LUA_TSTRING)
        return;
    size_t length;
    const char *at = lua_tolstring(L, l->at[RECORD], &length);
    const lml_value *since = l->at[SINCE] ? lml_class_test(L, l->at[SINCE], LML_CLASS_VALUE) : NULL;
    const lml_json *found = recorded_as(L, (lml_span){at, length}, since);
    if (!found)
        return;
    push_measured(L, found);
    if (lua_isnil(L, -1) || !lml_result_withheld_figure(L, l->part, NULL, lua_gettop(L))) {
        name(w, "recorded");
        lml_json_write_open_record(w);
        name(w, "at");
        lml_json_write_text(w, lml_json_text(lml_json_member(found, "at")));
        if (!lua_isnil(L, -1)) {
            name(w, "text");
            lml_result_datum_put_text(L, w, -1);
        }
        lml_json_write_close(w);
    }
    lua_pop(L, 1);
}

/* ---- a tared scale ----------------------------------------------------------------------------
 */

/* The figure of an entry that is weighed to a step, as the scale shows it; false of any other. */
static bool shown_on_scale(lua_State *L, int part, int entry, lml_value *out)
{
    int top = lua_gettop(L);
    if (!is_field(L, entry, "act", "weigh"))
        return false;
    lua_getfield(L, entry, "value");
    lua_getfield(L, entry, "step");
    lua_getfield(L, entry, "of");
    const lml_value *v = lml_class_test(L, top + 1, LML_CLASS_VALUE);
    const lml_value *step = lml_class_test(L, top + 2, LML_CLASS_VALUE);
    bool shown = v && step &&
                 !lml_result_withheld_figure(L, part, lua_tostring(L, top + 3), top + 1) &&
                 lml_step_round(v, step, LML_TO_NEAREST, out, NULL) == LML_OK;
    lua_settop(L, top);
    return shown;
}

void lml_result_line_step(lua_State *L, lml_result_ladder *ladder, int part, int entries,
                          lua_Integer i)
{
    if (i <= ladder->end)
        return;
    *ladder = (lml_result_ladder){.end = 0};
    lml_value first, next, sum;
    lua_Integer lots = 0, count = (lua_Integer)lua_rawlen(L, entries), at = i;
    for (; at <= count; at++) {
        lua_rawgeti(L, entries, at);
        bool shown = shown_on_scale(L, part, lua_gettop(L), lots == 0 ? &first : &next);
        bool fits = lots == 0 || lml_arithmetic_add(&first, &next, &sum, NULL) == LML_OK;
        lua_pop(L, 1);
        if (!shown || !fits)
            break;
        lots++;
    }
    if (lots < 2 || at > count)
        return;
    lua_rawgeti(L, entries, at);
    if (is_field(L, lua_gettop(L), "is", "total"))
        ladder->end = at;
    lua_pop(L, 1);
}

/* "shows": what is on the scale once this lot is. */
static void put_shows(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, const line *l)
{
    lml_value lot, sum;
    if (ladder->end == 0 || !shown_on_scale(L, l->part, l->entry, &lot))
        return;
    if (!ladder->begun)
        sum = lot;
    else if (lml_arithmetic_add(&ladder->shows, &lot, &sum, NULL))
        return;
    sum.decimals = lot.decimals;
    ladder->shows = sum;
    ladder->begun = true;
    lml_figure_push(L, &sum);
    if (!lml_result_withheld_figure(L, l->part, NULL, lua_gettop(L))) {
        const lml_value *step =
            l->at[STEP] ? lml_class_test(L, l->at[STEP], LML_CLASS_VALUE) : NULL;
        name(w, "shows");
        lml_result_figure_put(L, w, -1, (lml_result_figure){.page = l->page, .step = step}, false);
    }
    lua_pop(L, 1);
}

/* ---- a line -----------------------------------------------------------------------------------
 */

/* A member that is a figure, where it is there and nothing withholds it. */
static void put_option(lua_State *L, lml_json_writer *w, const line *l, member m,
                       lml_result_figure how)
{
    if (l->at[m] && !lml_result_withheld_figure(L, l->part, NULL, l->at[m])) {
        name(w, NAMES[m]);
        lml_result_figure_put(L, w, l->at[m], how, true);
    }
}

/* The figure, or its limit, in a second unit. */
static void put_also(lua_State *L, lml_json_writer *w, const line *l)
{
    static const member of[] = {VALUE, LEAST, MOST};
    int i = 0;
    if (!l->at[ALSO] || lua_type(L, l->at[ALSO]) != LUA_TSTRING)
        return;
    while (i < 3 && !l->at[of[i]])
        i++;
    if (i < 3 && !lml_result_withheld_figure(L, l->part, NULL, l->at[of[i]])) {
        name(w, NAMES[ALSO]);
        lml_result_figure_put(L, w, l->at[of[i]],
                              (lml_result_figure){.page = l->page, .unit = text_at(L, l, ALSO)},
                              true);
    }
}

/* What may be, when, and what is known of it. */
static void put_options(lua_State *L, lml_json_writer *w, const line *l)
{
    static const member figures[] = {AT, TILL, AFTER, LATEST, STEP, CHANCE};
    lml_result_figure plain = {.page = l->page},
                      like = {.page = l->page, .unit = text_at(L, l, UNIT)};
    put_option(L, w, l, LEAST, like);
    put_option(L, w, l, MOST, like);
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        put_option(L, w, l, figures[i], plain);
    put_also(L, w, l);
    put_yes(L, w, l, WHOLE);
}

/* The unit that the house has for what is written into a box without a figure. */
static void put_box_unit(lua_State *L, lml_json_writer *w, const line *l)
{
    const char *kind = text_at(L, l, KIND);
    lml_span unit = lml_result_figure_unit_of(L, kind, l->page);
    if (kind && unit.length > 0) {
        name(w, NAMES[UNIT]);
        lml_json_write_text(w, unit);
    }
}

static void put_value(lua_State *L, lml_json_writer *w, const line *l)
{
    lml_result_figure how = {.page = l->page, .unit = text_at(L, l, UNIT)};
    if (l->at[STEP])
        how.step = lml_class_test(L, l->at[STEP], LML_CLASS_VALUE);
    name(w, NAMES[VALUE]);
    lml_result_figure_put(L, w, l->at[VALUE], how, false);
}

static void put_origin(lua_State *L, lml_json_writer *w, const line *l)
{
    const lml_value *v = l->at[VALUE] ? lml_class_test(L, l->at[VALUE], LML_CLASS_VALUE) : NULL;
    if (l->at[FROM] && lua_type(L, l->at[FROM]) == LUA_TSTRING) {
        lml_result_withheld_push(L, l->part, l->at[FROM]);
        lml_json_write_member(w, "origin", lua_tostring(L, -1));
        lua_pop(L, 1);
    } else if (v && v->origin) {
        lml_json_write_member(w, "origin", lml_origin_name((lml_origin)v->origin));
    }
}

/* What the metal is taken to be: an entry of the record has it from here. */
static void put_fineness(lua_State *L, lml_json_writer *w, const line *l)
{
    if (l->at[FINENESS] && !lml_result_withheld_figure(L, l->part, NULL, l->at[FINENESS])) {
        name(w, NAMES[FINENESS]);
        lml_json_write_open_record(w);
        lml_result_datum_put(L, w, l->at[FINENESS], NULL);
        lml_json_write_close(w);
    }
}

void lml_result_line_put(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, int part,
                         int entry, const char *page)
{
    const int top = lua_gettop(L);
    line l = {.part = part, .entry = entry, .page = page};
    push_members(L, &l);
    put_text(L, w, &l, ACT);
    put_words(L, w, &l, LABEL);
    put_text(L, w, &l, OF);
    const char *give = text_at(L, &l, OF);
    bool withheld = l.at[VALUE] ? lml_result_withheld_figure(L, part, give, l.at[VALUE])
                                : give && lml_result_withheld_give(L, part, give);
    if (withheld) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
        lml_result_withheld_put_by(L, w, part, give, l.at[VALUE]);
    } else {
        if (l.at[VALUE])
            put_value(L, w, &l);
        put_options(L, w, &l);
        put_box_unit(L, w, &l);
        put_shows(L, w, ladder, &l);
    }
    put_origin(L, w, &l);
    put_words(L, w, &l, OWNER);
    put_words(L, w, &l, TAKEN_FROM);
    put_fineness(L, w, &l);
    put_words(L, w, &l, WAY);
    put_words(L, w, &l, WAY_OWNER);
    put_words(L, w, &l, RECORD);
    if (!withheld)
        put_recorded(L, w, &l);
    put_yes(L, w, &l, BIG);
    lua_settop(L, top);
}
