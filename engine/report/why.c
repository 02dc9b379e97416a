#include "report/why.h"

#include "base/decimal.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "report/marks.h"
#include "report/named.h"
#include "report/constant.h"
#include "report/result_datum.h"
#include "report/result_withheld.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/part.h"
#include "value/write.h"

#include <stdio.h>
#include <string.h>

enum {
    STEPS_TOLD = 50000, /* a tree that nobody reads to its end: a choice of ours */
    INPUTS_TOLD = 60,
    INPUTS_MOST = 560, /* constants of one step; all: the list of bare numbers has
                          LML_TRACE_LEFT at most */
    BESIDE_MOST = 20   /* figures that tell anything about a text of the job's own recipe */
};

typedef struct task {
    lua_State *L;
    const lml_trace *trace;
    const char *figure;
    lml_json_writer *w;
    uint32_t *order; /* the steps as they are reported: those of the figure first */
    uint32_t *place; /* of each step in that order, counted from 1 */
    uint32_t *into;  /* the step that it first went into; 0 */
    size_t count;
    lml_constants constants;
} task;

/* The lists of a task, one number each for every step. */
enum { LISTS = 3 };

static void lay_out(task *t, uint32_t *lists)
{
    const size_t steps = t->trace->steps;
    memset(lists, 0, LISTS * steps * sizeof *lists);
    t->order = lists;
    t->place = lists + steps;
    t->into = lists + 2 * steps;
}

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

/* ---- the figure ---- */

/* Whether the table of the part has the give. */
static bool has(lua_State *L, int part, const char *table, const char *figure)
{
    const int top = lua_gettop(L);
    bool found = false;
    if (lua_getfield(L, part, table) == LUA_TTABLE) {
        lua_pushlstring(L, figure, strcspn(figure, ".["));
        found = lua_rawget(L, -2) != LUA_TNIL;
    }
    lua_settop(L, top);
    return found;
}

/* A withheld figure may still be among the results. */
static void refuse_withheld(lua_State *L, int part, const char *figure)
{
    lml_error e;
    if (!has(L, part, "withheld", figure))
        return;
    lua_getfield(L, part, "withheld");
    lua_pushlstring(L, figure, strcspn(figure, ".["));
    lua_rawget(L, -2);
    lml_fail(&e, LML_NOT_FOUND,
             has(L, part, "derived", figure)
                 ? "%s comes from a figure that %s withholds, and so it is withheld too"
                 : "%s is withheld by %s",
             figure, lua_tostring(L, -1));
    lml_error_hint(&e, "lemel run shows the text of that stop, and what to do about it");
    lml_raise_as_is(L, &e);
}

static void refuse_withheld_line(lua_State *L, int part, int figure, const lml_named *named)
{
    lml_error e;
    if (!lml_result_withheld_figure(L, part, NULL, figure))
        return;
    if (lml_marks_push_code(L, figure)) {
        lml_fail(&e, LML_NOT_FOUND, "the line '%s' shows a figure that %s withholds", named->called,
                 lua_tostring(L, -1));
        lml_error_hint(&e, "lemel run shows the text of that stop, and what to do about it");
    } else {
        lml_fail(&e, LML_NOT_FOUND, "the line '%s' shows a figure that is withheld", named->called);
        lml_error_hint(&e, "lemel run says which stop withholds it, and what to do about it");
    }
    lml_raise_as_is(L, &e);
}

/* ---- the steps ---- */

static bool is_constant(const lml_step *s)
{
    return !s->how && !s->what;
}

/* An input as it is told. */
typedef struct told {
    uint32_t step;
    const char *called; /* in the table that it came in; "" */
} told;

/* Whether a bare number is among these already: a script hands the same one on in many places. */
static bool is_again(const lml_trace *t, const lml_step *s, uint32_t in, const told *list,
                     uint32_t count)
{
    bool many =
        s->how && (strncmp(s->how, "craft.", 6) == 0 || strcmp(s->how, LML_TRACE_PLAIN) == 0);
    for (uint32_t i = 0; many && i < count; i++)
        if (t->step[list[i].step].is == t->step[in].is && t->step[in].is[0])
            return true;
    return false;
}

/* The number of a step's inputs that are told: of constants there may be hundreds. */
static uint32_t told_inputs(task *t, const lml_step *s, told *list)
{
    uint32_t count = 0, constants = 0;
    lml_trace_inputs of;
    lml_trace_inputs_open(&of, t->trace, s);
    for (uint32_t in; count < INPUTS_MOST && (in = lml_trace_inputs_next(&of)) != 0;) {
        bool constant = is_constant(&t->trace->step[in]);
        if (constant && constants == INPUTS_TOLD)
            continue;
        constants += constant;
        const char *called = lml_trace_input_called(&of);
        if (lml_marks_has(t->L, in) || (!called[0] && is_again(t->trace, s, in, list, count)))
            continue;
        uint32_t said = lml_constant_said(&t->constants, in, (uint32_t)(s - t->trace->step));
        list[count++] = (told){said, called};
    }
    return count;
}

/* Whether Lua made the number of constants alone: it is told as one, and what was bare by then did
 * not go into it. */
static bool folds(task *t, uint32_t id, lml_constant *out)
{
    return t->into[id] != 0 && lml_constant_folds(&t->constants, t->into[id], id, out);
}

/* Those that lead to it, each once, nearest first. */
static void gather(task *t, uint32_t root)
{
    const lml_trace *trace = t->trace;
    told list[INPUTS_MOST];
    if (t->place[root])
        return;
    size_t done = t->count;
    t->order[t->count++] = root;
    t->place[root] = (uint32_t)t->count;
    for (; done < t->count && t->count < STEPS_TOLD; done++) {
        const uint32_t id = t->order[done];
        lml_constant folded;
        const uint32_t count = folds(t, id, &folded) ? 0 : told_inputs(t, &trace->step[id], list);
        for (uint32_t i = 0; i < count; i++) {
            uint32_t in = list[i].step;
            if (t->place[in])
                continue;
            t->order[t->count++] = in;
            t->place[in] = (uint32_t)t->count;
            t->into[in] = t->order[done];
        }
    }
}

static void put_text(lml_json_writer *w, const char *called, const char *text)
{
    if (text && text[0])
        lml_json_write_member(w, called, text);
}

static void put_place(lml_json_writer *w, const char *file, unsigned line)
{
    put_text(w, "file", file);
    if (line > 0) {
        name(w, "line");
        lml_json_write_whole(w, line);
    }
}

/* Where it is written, and what is said of it there. */
static void put_constant(task *t, const lml_constant *o)
{
    if (o->name.length > 0) {
        name(t->w, "name");
        lml_json_write_text(t->w, o->name);
    }
    if (o->calculated) {
        name(t->w, "calculated");
        lml_json_write_yes_no(t->w, true);
    }
    put_text(t->w, "source", o->said);
    put_place(t->w, o->file, o->line);
}

/* "of": their places; "called": what they are in the table that they came in, where any is. */
static void put_inputs(task *t, const lml_step *s)
{
    told list[INPUTS_MOST];
    lml_json_writer *w = t->w;
    const uint32_t count = told_inputs(t, s, list);
    bool called = false;
    name(w, "of");
    lml_json_write_open_list(w);
    for (uint32_t i = 0; i < count; i++) {
        if (!t->place[list[i].step])
            continue;
        lml_json_write_whole(w, (int64_t)t->place[list[i].step] - 1);
        called = called || list[i].called[0];
    }
    lml_json_write_close(w);
    if (!called)
        return;
    name(w, "called");
    lml_json_write_open_list(w);
    for (uint32_t i = 0; i < count; i++)
        if (t->place[list[i].step])
            lml_json_write_text(w, lml_span_of(list[i].called));
    lml_json_write_close(w);
}

static void put_step(task *t, uint32_t id)
{
    const lml_step *s = &t->trace->step[id];
    lml_json_writer *w = t->w;
    lml_constant constant;
    lml_json_write_open_record(w);
    put_text(w, "is", s->is);
    if (folds(t, id, &constant)) {
        put_constant(t, &constant);
        lml_json_write_close(w);
        return;
    }
    put_text(w, "how", s->how);
    put_text(w, "member", s->member);
    put_text(w, "what", s->what);
    if (is_constant(s)) {
        lml_constant_find(&t->constants, t->into[id] ? t->into[id] : id, id, &constant);
        put_constant(t, &constant);
    } else {
        put_text(w, "source", s->source);
        put_place(w, s->file, s->line);
    }
    if (s->inputs > 0)
        put_inputs(t, s);
    lml_json_write_close(w);
}

static void put_steps(task *t)
{
    name(t->w, "steps");
    lml_json_write_open_list(t->w);
    for (size_t i = 0; i < t->count; i++)
        put_step(t, t->order[i]);
    lml_json_write_close(t->w);
    name(t->w, "whole");
    lml_json_write_yes_no(t->w, !t->trace->short_of && t->count < STEPS_TOLD);
}

/* The metal of the first fineness among the results at the index; "" where there is none. */
static const char *metal_of(lua_State *L, int results)
{
    const char *metal = "";
    for (lua_pushnil(L); !metal[0] && lua_next(L, results); lua_settop(L, results + 1)) {
        const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
        if (v && v->kind == LML_FINENESS)
            metal = lml_metal_symbol((lml_metal)v->metal);
    }
    lua_settop(L, results);
    return metal;
}

/* Where the text on top of the stack is written: a mark's law in the row of its table. What has no
 * blank may be written anywhere by chance. */
static void put_where(task *t, int results)
{
    lua_State *L = t->L;
    lml_json_writer *w = t->w;
    size_t length;
    const char *at = lua_type(L, -1) == LUA_TSTRING ? lua_tolstring(L, -1, &length) : NULL;
    lml_constant o;
    if (!at || !memchr(at, ' ', length) ||
        !lml_constant_of_text(lml_box_of(L)->trace, (lml_span){at, length}, &o))
        return;
    char row[LML_CONSTANT_ROW];
    const int top = lua_gettop(L);
    lua_pushvalue(L, results);
    const char *metal = metal_of(L, top + 1);
    lua_settop(L, top);
    lml_constant_row(&t->constants, &o, (lml_span){at, length}, metal, row);
    put_place(w, o.file, o.line);
    put_text(w, "row", row);
}

/* A text has no steps, or only those of its letters. What it was chosen by is in the figures that
 * its recipe gives with it: a mark's law, the fineness and the chance of missing it. The text is on
 * top of the stack. */
static void put_beside(task *t, int job, int part, const char *figure)
{
    lua_State *L = t->L;
    lml_json_writer *w = t->w;
    lml_box_need_stack(L, 12);
    const int text = lua_gettop(L), giver = text + 1, results = text + 3;
    lml_named_push_giver(L, part, figure);
    lua_getfield(L, giver, "recipe");
    const char *recipe = lua_tostring(L, -1);
    lua_getfield(L, giver, "results");
    const lml_shape *gives = &lml_load_recipe(L, recipe)->gives;
    if (gives->field_count > BESIDE_MOST && lua_rawequal(L, giver, job)) {
        lua_settop(L, text);
        return;
    }
    name(w, "beside");
    lml_json_write_open_list(w);
    for (size_t i = 0; i < gives->field_count; i++, lua_settop(L, results)) {
        const lml_shape *give = &gives->fields[i];
        if (lua_getfield(L, results, give->name) == LUA_TNIL || strcmp(give->name, figure) == 0 ||
            lml_view_test_content(L, -1) || lua_isboolean(L, -1) ||
            lml_result_withheld_figure(L, giver, give->name, results + 1))
            continue;
        lml_json_write_open_record(w);
        lua_pushfstring(L, "%s.%s", recipe, give->name);
        lml_json_write_member(w, "figure", lua_tostring(L, -1));
        lua_pop(L, 1);
        put_text(w, "title", give->title);
        name(w, "is");
        lml_json_write_open_record(w);
        lml_result_datum_put(L, w, -1, NULL);
        lml_json_write_close(w);
        put_where(t, results);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
    lua_settop(L, text);
}

/* Where the text on top of the stack is written, and what its recipe gives with it. The job's own
 * part is at 2. */
static void put_text_figure(task *t, int part, const char *figure)
{
    lua_State *L = t->L;
    lml_box_need_stack(L, 12);
    const int text = lua_gettop(L);
    lml_named_push_giver(L, part, figure);
    lua_getfield(L, -1, "results");
    lua_pushvalue(L, text);
    put_where(t, text + 2);
    lua_settop(L, text);
    put_beside(t, 2, part, figure);
}

/* Arguments: the task, the part. */
static int write_steps(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    lml_result_withheld_look(L, 2);
    refuse_withheld(L, 2, t->figure);
    lml_named named;
    lml_named_find(L, 2, t->figure, &named);
    const int figure = lua_gettop(L), part = figure - 1;
    if (named.is_line)
        refuse_withheld_line(L, part, figure, &named);
    else
        refuse_withheld(L, part, named.figure);
    lua_settop(L, figure);
    uint32_t root = lml_marks_root(L, part, named.figure);
    if (lua_type(L, -1) == LUA_TSTRING && root && t->trace->step[root].inputs == 0)
        root = 0; /* it was made of no value */
    lml_json_write_member(t->w, "figure", named.called);
    if (named.is_line) {
        name(t->w, "line");
        lml_json_write_yes_no(t->w, true);
    }
    name(t->w, "is");
    lml_json_write_open_record(t->w);
    lml_result_datum_put(L, t->w, -1, NULL);
    lml_json_write_close(t->w);
    if (lua_type(L, figure) == LUA_TSTRING && !strpbrk(named.figure, ".["))
        put_text_figure(t, part, named.figure);
    lua_pop(L, 1);
    if (root)
        gather(t, root);
    put_steps(t);
    return 0;
}

/* ---- all figures ---- */

static void put_root(lua_State *L, void *self, int part, const char *called)
{
    task *t = self;
    uint32_t root = lml_part_is_key(called) ? 0 : lml_marks_root(L, part, called);
    if (!root)
        return;
    gather(t, root);
    name(t->w, called);
    lml_json_write_whole(t->w, (int64_t)t->place[root] - 1);
}

void lml_why_put_all(lua_State *L, lml_json_writer *w, int part)
{
    lml_box *box = lml_box_of(L);
    lml_alloc alloc = lml_pool_alloc(&box->pool); /* goes with the run: writing may raise */
    task t = {
        .L = L, .trace = box->trace, .w = w, .constants = {.trace = box->trace, .alloc = alloc}};
    uint32_t *lists = lml_alloc_get(&alloc, LISTS * box->trace->steps * sizeof *lists);
    if (!lists)
        lml_box_out_of_memory(box);
    lml_box_charge(L, 0);
    lay_out(&t, lists);
    name(w, "why");
    lml_json_write_open_record(w);
    name(w, "figures");
    lml_json_write_open_record(w);
    lml_marks_each(L, part, false, put_root, &t);
    lml_json_write_close(w);
    put_steps(&t);
    lml_json_write_close(w);
}

static void check_root(lua_State *L, void *self, int part, const char *called)
{
    const task *t = self;
    char text[LML_VALUE_TEXT];
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    bool inner =
        strpbrk(called, ".[") != NULL; /* of those bare numbers have no step of their own */
    if (!v && (inner || lua_type(L, -1) != LUA_TNUMBER))
        return;
    uint32_t root = lml_marks_root(L, part, called);
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
    lml_marks_each(L, part, false, check_root, &t);
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
    task t = {.L = run->box.L,
              .trace = run->box.trace,
              .figure = figure,
              .w = w,
              .constants = {.trace = run->box.trace, .alloc = lml_pool_alloc(&run->box.pool)}};
    const lml_alloc *alloc = &run->engine->alloc;
    const size_t room = LISTS * t.trace->steps * sizeof(uint32_t);
    uint32_t *lists = lml_alloc_get(alloc, room);
    if (!lists)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the steps of a figure");
    lay_out(&t, lists);
    lml_status status = tell(run, &t, err);
    lml_alloc_free(alloc, lists, room);
    return status;
}
