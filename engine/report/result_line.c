#include "report/result_line.h"

#include "cell/class.h"
#include "cell/figure.h"
#include "cell/state.h"
#include "report/result_datum.h"
#include "report/result_figure.h"
#include "report/result_withheld.h"
#include "run/engine.h"
#include "value/arithmetic.h"
#include "value/step.h"
#include "value/wanted.h"

#include <string.h>

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

static void put_yes(lua_State *L, lml_json_writer *w, int entry, const char *field)
{
    lua_getfield(L, entry, field);
    if (lua_toboolean(L, -1)) {
        name(w, field);
        lml_json_write_yes_no(w, true);
    }
    lua_pop(L, 1);
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

/* The last entry of the job's record of that name. */
static const lml_json *recorded_as(lua_State *L, lml_span what)
{
    const lml_json *found = NULL;
    const lml_json *entries = lml_json_member(lml_run_of(L)->job, "record");
    uint64_t seen = 0;
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e), seen++)
        if (lml_span_equal(lml_json_text(lml_json_member(e, "what")), what))
            found = e;
    lml_box_charge(L, seen / 2);
    return found;
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

static void put_recorded(lua_State *L, lml_json_writer *w, int part, int entry)
{
    if (lua_getfield(L, entry, "record") != LUA_TSTRING) {
        lua_pop(L, 1);
        return;
    }
    size_t length;
    const char *at = lua_tolstring(L, -1, &length);
    const lml_json *found = recorded_as(L, (lml_span){at, length});
    lua_pop(L, 1);
    if (!found)
        return;
    push_measured(L, found);
    if (lua_isnil(L, -1) || !lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
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
static void put_shows(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, int part,
                      int entry, const char *page)
{
    lml_value lot, sum;
    if (ladder->end == 0 || !shown_on_scale(L, part, entry, &lot))
        return;
    if (!ladder->begun)
        sum = lot;
    else if (lml_arithmetic_add(&ladder->shows, &lot, &sum, NULL))
        return;
    sum.decimals = lot.decimals;
    ladder->shows = sum;
    ladder->begun = true;
    lml_figure_push(L, &sum);
    if (!lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
        lua_getfield(L, entry, "step");
        const lml_value *step = lml_class_test(L, -1, LML_CLASS_VALUE);
        name(w, "shows");
        lml_result_figure_put(L, w, -2, (lml_result_figure){.page = page, .step = step}, false);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

/* ---- a line -----------------------------------------------------------------------------------
 */

/* A member that is a figure, where it is there and nothing withholds it. */
static void put_option(lua_State *L, lml_json_writer *w, int part, int entry, const char *field,
                       lml_result_figure how)
{
    if (lua_getfield(L, entry, field) != LUA_TNIL &&
        !lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
        name(w, field);
        lml_result_figure_put(L, w, -1, how, true);
    }
    lua_pop(L, 1);
}

/* The figure, or its limit, in a second unit. */
static void put_also(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    if (lua_getfield(L, entry, "also") == LUA_TSTRING) {
        static const char *const of[] = {"value", "least", "most"};
        int i = 0, top = lua_gettop(L);
        while (i < 3 && lua_getfield(L, entry, of[i]) == LUA_TNIL)
            i++;
        if (i < 3 && !lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
            name(w, "also");
            lml_result_figure_put(
                L, w, -1, (lml_result_figure){.page = page, .unit = lua_tostring(L, top)}, true);
        }
        lua_settop(L, top);
    }
    lua_pop(L, 1);
}

/* What may be, when, and what is known of it. */
static void put_options(lua_State *L, lml_json_writer *w, int part, int entry, const char *page)
{
    static const char *const figures[] = {"at", "till", "after", "latest", "step", "chance"};
    lua_getfield(L, entry, "unit");
    lml_result_figure plain = {.page = page}, like = {.page = page, .unit = lua_tostring(L, -1)};
    put_option(L, w, part, entry, "least", like);
    put_option(L, w, part, entry, "most", like);
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        put_option(L, w, part, entry, figures[i], plain);
    put_also(L, w, part, entry, page);
    put_yes(L, w, entry, "whole");
    lua_pop(L, 1);
}

static void put_value(lua_State *L, lml_json_writer *w, int entry, int value, const char *page)
{
    lua_getfield(L, entry, "unit");
    lua_getfield(L, entry, "step");
    lml_result_figure how = {
        .page = page, .unit = lua_tostring(L, -2), .step = lml_class_test(L, -1, LML_CLASS_VALUE)};
    name(w, "value");
    lml_result_figure_put(L, w, value, how, false);
    lua_pop(L, 2);
}

static void put_origin(lua_State *L, lml_json_writer *w, int part, int entry, const lml_value *v)
{
    lua_getfield(L, entry, "from");
    if (lua_type(L, -1) == LUA_TSTRING) {
        lml_result_withheld_push(L, part, lua_gettop(L));
        lml_json_write_member(w, "origin", lua_tostring(L, -1));
        lua_pop(L, 1);
    } else if (v && v->origin) {
        lml_json_write_member(w, "origin", lml_origin_name((lml_origin)v->origin));
    }
    lua_pop(L, 1);
}

/* What the metal is taken to be: an entry of the record has it from here. */
static void put_fineness(lua_State *L, lml_json_writer *w, int part, int entry)
{
    if (lua_getfield(L, entry, "fineness") != LUA_TNIL &&
        !lml_result_withheld_figure(L, part, NULL, lua_gettop(L))) {
        name(w, "fineness");
        lml_json_write_open_record(w);
        lml_result_datum_put(L, w, lua_gettop(L), NULL);
        lml_json_write_close(w);
    }
    lua_pop(L, 1);
}

void lml_result_line_put(lua_State *L, lml_json_writer *w, lml_result_ladder *ladder, int part,
                         int entry, const char *page)
{
    int top = lua_gettop(L), value = top + 1, of = top + 2;
    lml_result_datum_put_field(L, w, entry, "act");
    lml_result_figure_put_words(L, w, part, entry, "label");
    lml_result_datum_put_field(L, w, entry, "of");
    lua_getfield(L, entry, "value");
    lua_getfield(L, entry, "of"); /* on the stack while it is looked at */
    const char *give = lua_tostring(L, of);
    const lml_value *v = lml_class_test(L, value, LML_CLASS_VALUE);
    bool has_value = !lua_isnil(L, value);
    bool withheld = has_value ? lml_result_withheld_figure(L, part, give, value)
                              : give && lml_result_withheld_give(L, part, give);
    if (withheld) {
        name(w, "withheld");
        lml_json_write_yes_no(w, true);
        lml_result_withheld_put_by(L, w, part, give, has_value ? value : 0);
    } else if (has_value) {
        put_value(L, w, entry, value, page);
    }
    if (!withheld) {
        put_options(L, w, part, entry, page);
        put_shows(L, w, ladder, part, entry, page);
    }
    put_origin(L, w, part, entry, v);
    lml_result_figure_put_words(L, w, part, entry, "owner");
    lml_result_figure_put_words(L, w, part, entry, "taken_from");
    put_fineness(L, w, part, entry);
    lml_result_figure_put_words(L, w, part, entry, "way");
    lml_result_figure_put_words(L, w, part, entry, "way_owner");
    lml_result_figure_put_words(L, w, part, entry, "record");
    if (!withheld)
        put_recorded(L, w, part, entry);
    put_yes(L, w, entry, "big");
    lua_settop(L, top);
}
