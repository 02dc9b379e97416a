#include "report/why.h"

#include "base/decimal.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "report/result_datum.h"
#include "run/engine.h"
#include "run/part.h"
#include "value/write.h"

#include <stdio.h>
#include <string.h>

typedef struct task {
    const lml_trace *trace;
    const char *figure;
    lml_json_writer *w;
    uint32_t *order; /* the steps as they are told: those of the figure first */
    uint32_t *place; /* of each step in that order, counted from 1 */
    size_t count;
    bool *hidden; /* the steps that a withheld figure came from at last: they are told to nobody */
    bool leads_through; /* one of those was met */
} task;

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

/* ---- the figure ---- */

/* A figure that is withheld may stand among the results still. */
static void refuse_withheld(lua_State *L, int part, const char *figure)
{
    lml_error e;
    lua_getfield(L, part, "withheld");
    lua_pushlstring(L, figure, strcspn(figure, ".["));
    if (lua_rawget(L, -2) != LUA_TNIL) {
        lml_fail(&e, LML_NOT_FOUND, "%s is withheld by a stop or a point that is not confirmed",
                 figure);
        lml_error_hint(&e, "lemel run says which it is, and what to do about it");
        lml_raise_as_is(L, &e);
    }
    lua_pop(L, 2);
}

static int refuse(lua_State *L, int part, const char *figure)
{
    lml_error e;
    lml_nearest near = lml_nearest_to(lml_span_of(figure));
    lua_getfield(L, part, "results");
    for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
        if (lua_type(L, -2) == LUA_TSTRING)
            lml_nearest_offer(&near, lml_span_of(lua_tostring(L, -2)));
    lml_fail(&e, LML_NOT_FOUND, "the job has no figure '%s'", figure);
    if (lml_nearest_found(&near))
        lml_error_hint(&e, "did you mean '%.*s'?", LML_SPAN_SHOWN(near.best));
    else
        lml_error_hint(&e, "lemel run JOB --format json lists them under \"results\"");
    return lml_raise_as_is(L, &e);
}

/* Push what the name stands for, "weigh[0].mass"; false, and nothing, where there is none. */
static bool push_figure(lua_State *L, int part, const char *at)
{
    const int top = lua_gettop(L);
    lua_getfield(L, part, "results");
    while (*at) {
        size_t length = strcspn(at + (*at == '.'), ".[");
        if (!lml_view_test_content(L, -1)) {
            lua_settop(L, top);
            return false;
        }
        lua_remove(L, -2);
        if (*at == '[') {
            lua_Integer index = 0;
            for (at++; lml_ascii_is_digit(*at) && index < 1000000; at++)
                index = index * 10 + (*at - '0');
            at += *at == ']';
            lua_rawgeti(L, -1, index + 1);
        } else {
            at += *at == '.';
            lua_pushlstring(L, at, length);
            lua_rawget(L, -2);
            at += length;
        }
        lua_remove(L, -2);
        if (lua_isnil(L, -1)) {
            lua_settop(L, top);
            return false;
        }
    }
    return true;
}

/* ---- the steps ---- */

/* What stood there before the last figure was gathered is put back. */
static void forget(task *t, size_t count)
{
    while (t->count > count)
        t->place[t->order[--t->count]] = 0;
}

/* Those that lead to it, each once, nearest first. */
static void gather(task *t, uint32_t root)
{
    const lml_trace *trace = t->trace;
    if (t->place[root])
        return;
    size_t done = t->count;
    t->order[t->count++] = root;
    t->place[root] = (uint32_t)t->count;
    for (; done < t->count; done++) {
        const lml_step *s = &trace->step[t->order[done]];
        t->leads_through = t->leads_through || t->hidden[t->order[done]];
        for (uint32_t i = 0; i < s->inputs; i++) {
            uint32_t in = trace->input[s->first + i];
            if (in == 0 || t->place[in])
                continue;
            t->order[t->count++] = in;
            t->place[in] = (uint32_t)t->count;
        }
    }
}

static void put_text(lml_json_writer *w, const char *called, const char *text)
{
    if (text && text[0])
        lml_json_write_member(w, called, text);
}

static void put_step(const task *t, uint32_t id)
{
    const lml_step *s = &t->trace->step[id];
    lml_json_writer *w = t->w;
    lml_json_write_open_record(w);
    put_text(w, "is", s->is);
    put_text(w, "how", s->how);
    put_text(w, "member", s->member);
    put_text(w, "what", s->what);
    put_text(w, "source", s->source);
    put_text(w, "file", s->file);
    if (s->line > 0) {
        name(w, "line");
        lml_json_write_whole(w, s->line);
    }
    if (s->inputs > 0) {
        name(w, "of");
        lml_json_write_open_list(w);
        for (uint32_t i = 0; i < s->inputs; i++)
            if (t->trace->input[s->first + i])
                lml_json_write_whole(w, (int64_t)t->place[t->trace->input[s->first + i]] - 1);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_steps(const task *t)
{
    name(t->w, "steps");
    lml_json_write_open_list(t->w);
    for (size_t i = 0; i < t->count; i++)
        put_step(t, t->order[i]);
    lml_json_write_close(t->w);
    name(t->w, "whole");
    lml_json_write_yes_no(t->w, !t->trace->short_of);
}

/* The first step of the figure on top of the stack, which is called so; 0 where there is none. */
static uint32_t root_of(lua_State *L, int part, const char *figure)
{
    uint32_t root = lml_trace_of(L, -1);
    if (root || lua_type(L, -1) != LUA_TNUMBER)
        return root;
    lua_getfield(L, part, "numbers");
    lua_getfield(L, -1, figure);
    root = (uint32_t)lua_tointeger(L, -1);
    lua_pop(L, 2);
    return root;
}

/* ---- figures in a part ---- */

enum { NAME = 256, DEEP = 6 };

/* Call `see` for what is called so, and lies on top of the stack, or for all in it. */
static void each(lua_State *L, task *t, int part, const char *called, int depth,
                 void (*see)(lua_State *L, task *t, int part, const char *called))
{
    const int top = lua_gettop(L);
    if (!lml_view_test_content(L, -1)) {
        see(L, t, part, called);
        return;
    }
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    lua_Integer keys = depth == DEEP ? 0 : lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[NAME];
        lua_rawgeti(L, content + 1, i);
        if (lua_type(L, -1) == LUA_TSTRING)
            snprintf(inner, sizeof inner, "%.180s.%.60s", called, lua_tostring(L, -1));
        else
            snprintf(inner, sizeof inner, "%.180s[%d]", called, (int)lua_tointeger(L, -1) - 1);
        lua_rawget(L, content);
        each(L, t, part, inner, depth + 1, see);
        lua_settop(L, content + 1);
    }
    lua_settop(L, top);
}

/* The same for all that the part gives and withholds, or does not. */
static void each_given(lua_State *L, task *t, int part, bool withheld,
                       void (*see)(lua_State *L, task *t, int part, const char *called))
{
    part = lua_absindex(L, part);
    const int top = lua_gettop(L);
    lml_box_need_stack(L, 8);
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "results");
    lua_Integer keys = lml_key_push_sorted(L, top + 2);
    for (lua_Integer i = 1; i <= keys; i++) {
        lua_rawgeti(L, top + 3, i);
        lua_pushvalue(L, -1);
        if ((lua_rawget(L, top + 1) != LUA_TNIL) == withheld) {
            const char *called = lua_tostring(L, top + 4);
            lua_pushvalue(L, top + 4);
            lua_rawget(L, top + 2);
            each(L, t, part, called, 0, see);
        }
        lua_settop(L, top + 3);
    }
    lua_settop(L, top);
}

static void hide_one(lua_State *L, task *t, int part, const char *called)
{
    t->hidden[root_of(L, part, called)] = true;
}

/* What the part withholds, and the parts in it. */
static void hide_withheld(lua_State *L, task *t, int part)
{
    const int top = lua_gettop(L);
    lml_box_need_stack(L, 12);
    part = lua_absindex(L, part);
    each_given(L, t, part, true, hide_one);
    lua_getfield(L, part, "pages");
    lua_getfield(L, -1, lml_part_page(0));
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 2); i++) {
        lua_rawgeti(L, top + 2, i);
        if (lua_getfield(L, -1, "part") == LUA_TTABLE)
            hide_withheld(L, t, lua_gettop(L));
        lua_settop(L, top + 2);
    }
    t->hidden[0] = false;
    lua_settop(L, top);
}

static int refuse_steps(lua_State *L, const char *figure)
{
    lml_error e;
    lml_fail(
        &e, LML_NOT_FOUND,
        "%s comes from a figure that a stop or a point that is not confirmed withholds, and so "
        "its steps are not shown",
        figure);
    lml_error_hint(&e, "lemel run says which it is, and what to do about it");
    return lml_raise_as_is(L, &e);
}

/* Arguments: the task, the part. */
static int write_steps(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    refuse_withheld(L, 2, t->figure);
    hide_withheld(L, t, 2);
    if (!push_figure(L, 2, t->figure))
        return refuse(L, 2, t->figure);
    uint32_t root = root_of(L, 2, t->figure);
    lml_json_write_member(t->w, "figure", t->figure);
    name(t->w, "is");
    lml_json_write_open_record(t->w);
    lml_result_datum_put(L, t->w, -1, NULL);
    lml_json_write_close(t->w);
    lua_pop(L, 1);
    if (root)
        gather(t, root);
    if (t->leads_through)
        return refuse_steps(L, t->figure);
    put_steps(t);
    return 0;
}

/* ---- all figures ---- */

static void put_root(lua_State *L, task *t, int part, const char *called)
{
    uint32_t root = root_of(L, part, called);
    size_t before = t->count;
    if (!root)
        return;
    t->leads_through = false;
    gather(t, root);
    if (t->leads_through) {
        forget(t, before);
        return;
    }
    name(t->w, called);
    lml_json_write_whole(t->w, (int64_t)t->place[root] - 1);
}

void lml_why_put_all(lua_State *L, lml_json_writer *w, int part)
{
    lml_box *box = lml_box_of(L);
    lml_alloc alloc = lml_pool_alloc(&box->pool); /* goes with the run: writing may raise */
    size_t room = box->trace->steps * sizeof(uint32_t);
    task t = {.trace = box->trace, .w = w};
    t.order = lml_alloc_get(&alloc, room);
    t.place = lml_alloc_get(&alloc, room);
    t.hidden = lml_alloc_get(&alloc, box->trace->steps);
    if (!t.order || !t.place || !t.hidden)
        lml_box_out_of_memory(box);
    lml_box_charge(L, 0);
    memset(t.place, 0, room);
    memset(t.hidden, 0, box->trace->steps);
    name(w, "why");
    lml_json_write_open_record(w);
    name(w, "figures");
    lml_json_write_open_record(w);
    hide_withheld(L, &t, part);
    each_given(L, &t, part, false, put_root);
    lml_json_write_close(w);
    put_steps(&t);
    lml_json_write_close(w);
}

static void check_root(lua_State *L, task *t, int part, const char *called)
{
    char text[LML_VALUE_TEXT];
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    bool inner =
        strpbrk(called, ".[") != NULL; /* of those bare numbers have no step of their own */
    if (!v && (inner || lua_type(L, -1) != LUA_TNUMBER))
        return;
    uint32_t root = root_of(L, part, called);
    if (!root)
        lml_raise_text(L, LML_BAD_RECIPE, "no step leads to %s", called);
    size_t length =
        v ? lml_write_text(v, text) : lml_decimal_write_double(lua_tonumber(L, -1), text);
    if (strncmp(t->trace->step[root].is, text, length + 1) != 0)
        lml_raise_text(L, LML_BAD_RECIPE, "%s is %s, and its first step %s", called, text,
                       t->trace->step[root].is);
}

void lml_why_check(lua_State *L, int part)
{
    task t = {.trace = lml_box_of(L)->trace};
    each_given(L, &t, part, false, check_root);
}

/* ---- one figure ---- */

static lml_status tell(lml_run *run, task *t, lml_error *err)
{
    lua_State *L = run->box.L;
    lua_pushcfunction(L, write_steps);
    lua_pushlightuserdata(L, t);
    lua_pushvalue(L, -3);
    return lml_box_call(&run->box, 2, 0, err);
}

lml_status lml_why_write(lml_run *run, const char *figure, lml_json_writer *w, lml_error *err)
{
    task t = {.trace = run->box.trace, .figure = figure, .w = w};
    const lml_alloc *alloc = &run->engine->alloc;
    size_t room = t.trace->steps * sizeof *t.order;
    t.order = lml_alloc_get(alloc, room);
    t.place = lml_alloc_get(alloc, room);
    t.hidden = lml_alloc_get(alloc, t.trace->steps);
    lml_status status = LML_NO_MEMORY;
    if (!t.order || !t.place || !t.hidden) {
        lml_fail(err, status, "out of memory for the steps of a figure");
    } else {
        memset(t.place, 0, room);
        memset(t.hidden, 0, t.trace->steps);
        status = tell(run, &t, err);
    }
    lml_alloc_free(alloc, t.order, t.order ? room : 0);
    lml_alloc_free(alloc, t.place, t.place ? room : 0);
    lml_alloc_free(alloc, t.hidden, t.hidden ? t.trace->steps : 0);
    return status;
}
