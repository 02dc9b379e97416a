#include "cell/trace.h"

#include "base/ascii.h"
#include "base/decimal.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/view.h"
#include "value/alloy.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DEPTH = 4, TEXT_MOST = 120 };

/* Registry keys: the steps by userdata; and by text, of those made of values. */
static const char STEPS, TEXTS;

/* ---- the list ---- */

void lml_trace_open(lml_trace *t, const lml_alloc *alloc)
{
    *t = (lml_trace){.alloc = *alloc, .steps = 1};
    lml_pool_open(&t->texts, &t->alloc);
    t->texts.most = SIZE_MAX;
}

void lml_trace_close(lml_trace *t)
{
    lml_alloc_free(&t->alloc, t->step, t->step_room * sizeof *t->step);
    lml_alloc_free(&t->alloc, t->input, t->input_room * sizeof *t->input);
    lml_alloc_free(&t->alloc, t->number, t->number_room * sizeof *t->number);
    lml_alloc_free(&t->alloc, t->left, t->left_room * sizeof *t->left);
    lml_pool_close(&t->texts);
}

/* Room for one more of `size` bytes. */
static bool make_room(lml_trace *t, void **list, size_t count, size_t *room, size_t size)
{
    if (count < *room)
        return true;
    size_t more = *room ? 2 * *room : 256;
    void *moved = lml_alloc_resize(&t->alloc, *list, *room * size, more * size);
    if (!moved) {
        t->short_of = true;
        return false;
    }
    *list = moved;
    *room = more;
    return true;
}

static const char *keep(lml_trace *t, const char *text, size_t length)
{
    lml_alloc pool = lml_pool_alloc(&t->texts);
    char *copy = lml_alloc_get(&pool, length + 1);
    if (!copy) {
        t->short_of = true;
        return "";
    }
    memcpy(copy, text, length);
    copy[length] = '\0';
    return copy;
}

static uint32_t add_step(lml_trace *t, const lml_step *step)
{
    void *list = t->step;
    if (t->steps >= LML_TRACE_STEPS ||
        !make_room(t, &list, t->steps, &t->step_room, sizeof *t->step)) {
        t->short_of = true;
        return 0;
    }
    t->step = list;
    t->step[t->steps] = *step;
    return (uint32_t)t->steps++;
}

static void add_input(lml_trace *t, uint32_t step)
{
    void *list = t->input;
    if (!make_room(t, &list, t->inputs, &t->input_room, sizeof *t->input))
        return;
    t->input = list;
    t->input[t->inputs++] = step;
}

/* ---- bare numbers ---- */

/* Known by its size alone it could be another: of few digits it is. */
static bool is_common(double x)
{
    double scaled = x * 1000;
    return fabs(x) <= 10000 && scaled == floor(scaled);
}

static size_t slot_of(const lml_trace *t, double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    size_t i = (size_t)(bits * 0x9E3779B97F4A7C15u >> 20) % t->number_room;
    while (t->number[i].step && t->number[i].number != x)
        i = (i + 1) % t->number_room;
    return i;
}

static void note_number(lml_trace *t, double x, uint32_t step)
{
    if (is_common(x) || !step)
        return;
    if (2 * (t->numbers + 1) > t->number_room) {
        lml_trace old = *t;
        t->number_room = old.number_room ? 2 * old.number_room : 512;
        t->number = lml_alloc_get(&t->alloc, t->number_room * sizeof *t->number);
        if (!t->number) {
            t->number = old.number;
            t->number_room = old.number_room;
            t->short_of = true;
            return;
        }
        memset(t->number, 0, t->number_room * sizeof *t->number);
        for (size_t i = 0; i < old.number_room; i++)
            if (old.number[i].step)
                t->number[slot_of(t, old.number[i].number)] = old.number[i];
        lml_alloc_free(&t->alloc, old.number, old.number_room * sizeof *old.number);
    }
    size_t slot = slot_of(t, x);
    t->numbers += t->number[slot].step == 0;
    t->number[slot].number = x;
    t->number[slot].step = step;
}

/* ---- values ---- */

static lml_trace *trace_of(lua_State *L)
{
    return lml_box_of(L)->trace;
}

static void push_steps(lua_State *L)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &STEPS) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    lua_newtable(L);
    lua_newtable(L);
    lua_pushliteral(L, "k"); /* no one asks for what is gone */
    lua_setfield(L, -2, "__mode");
    lua_setmetatable(L, -2);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &STEPS);
}

static bool is_known_kind(lua_State *L, int index)
{
    return lml_class_test(L, index, LML_CLASS_VALUE) || lml_class_test(L, index, LML_CLASS_ALLOY) ||
           lml_class_test(L, index, LML_CLASS_ASSAY);
}

/* A text that was made of values is known by what it says. */
static void push_texts(lua_State *L)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &TEXTS) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    lua_newtable(L);
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &TEXTS);
}

/* What the table on top, which is taken off, has for this value; 0 for nothing. */
static uint32_t take_step(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    lua_rawget(L, -2);
    uint32_t step = (uint32_t)lua_tointeger(L, -1);
    lua_pop(L, 2);
    return step;
}

static uint32_t step_of_text(lua_State *L, int index)
{
    push_texts(L);
    return take_step(L, index);
}

static void note_text(lua_State *L, int index, uint32_t step)
{
    push_texts(L);
    lua_pushvalue(L, index);
    lua_pushinteger(L, (lua_Integer)step);
    lua_rawset(L, -3);
    lua_pop(L, 1);
}

uint32_t lml_trace_of(lua_State *L, int index)
{
    lml_trace *t = trace_of(L);
    if (!t)
        return 0;
    index = lua_absindex(L, index);
    if (lua_type(L, index) == LUA_TNUMBER) {
        double x = lua_tonumber(L, index);
        return t->number_room && !is_common(x) ? t->number[slot_of(t, x)].step : 0;
    }
    if (!is_known_kind(L, index))
        return 0;
    push_steps(L);
    return take_step(L, index);
}

static void set_step(lua_State *L, int index, uint32_t step)
{
    index = lua_absindex(L, index);
    if (lua_type(L, index) == LUA_TNUMBER) {
        note_number(trace_of(L), lua_tonumber(L, index), step);
        return;
    }
    push_steps(L);
    lua_pushvalue(L, index);
    lua_pushinteger(L, (lua_Integer)step);
    lua_rawset(L, -3);
    lua_pop(L, 1);
}

/* The text of what stands at the index. */
static const char *text_at(lua_State *L, lml_trace *t, int index)
{
    char text[LML_VALUE_TEXT + 2];
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    size_t length = 0;
    if (v) {
        length = lml_write_text(v, text);
    } else if (alloy) {
        length = (size_t)snprintf(text, sizeof text, "%.*s", TEXT_MOST, alloy->name);
    } else if (lua_type(L, index) == LUA_TNUMBER && isfinite(lua_tonumber(L, index))) {
        length = lml_decimal_write_double(lua_tonumber(L, index), text);
    } else if (lua_type(L, index) == LUA_TSTRING) {
        size_t whole;
        const char *at = lua_tolstring(L, index, &whole);
        length = (size_t)snprintf(text, sizeof text, "\"%.*s\"",
                                  (int)(whole < TEXT_MOST ? whole : TEXT_MOST), at);
    } else if (lua_isboolean(L, index)) {
        length = (size_t)snprintf(text, sizeof text, "%s", lua_toboolean(L, index) ? "yes" : "no");
    } else {
        length = (size_t)snprintf(text, sizeof text, "%s",
                                  lml_class_test(L, index, LML_CLASS_ASSAY) ? "an assay" : "");
    }
    return keep(t, text, length);
}

/* The line of the recipe or script that called the function at work. */
static void find_line(lua_State *L, lml_trace *t, lml_step *step)
{
    lua_Debug at;
    for (int level = 1; level < 8 && lua_getstack(L, level, &at); level++) {
        if (!lua_getinfo(L, "Sl", &at) || at.currentline < 0)
            continue;
        const char *name = at.source[0] == '@' || at.source[0] == '=' ? at.source + 1 : at.source;
        step->file = keep(t, name, strlen(name));
        step->line = (unsigned)at.currentline;
        return;
    }
    step->file = "";
}

/* Push the key at i of the sorted keys behind the table, and its member. */
static void push_member(lua_State *L, int content, lua_Integer i)
{
    lua_rawgeti(L, content + 1, i);
    lua_pushvalue(L, -1);
    lua_rawget(L, content);
}

/* ---- bare numbers out of Lua ---- */

size_t lml_trace_enter(lua_State *L)
{
    lml_trace *t = trace_of(L);
    size_t entered = t ? t->left_from : 0;
    if (t) {
        t->left_from = t->lefts;
        t->plain_of = 0;
    }
    return entered;
}

void lml_trace_leave(lua_State *L, size_t entered)
{
    lml_trace *t = trace_of(L);
    if (!t)
        return;
    t->lefts = t->left_from;
    t->left_from = entered;
    t->plain_of = 0;
}

/* The same value in the same unit is left once, however often it is. */
static bool is_left(const lml_trace *t, const lml_step *step)
{
    for (size_t i = t->left_from; i < t->lefts; i++) {
        const lml_step *other = &t->step[t->left[i]];
        bool same = other->inputs > 0 && step->inputs > 0 &&
                    t->input[other->first] == t->input[step->first];
        if (same && strcmp(other->is, step->is) == 0)
            return true;
    }
    return false;
}

/* The step made a bare number of what went in. */
static void note_left(lml_trace *t, uint32_t step)
{
    void *list = t->left;
    if (!step || t->step[step].inputs == 0 || is_left(t, &t->step[step]))
        return;
    if (t->lefts - t->left_from == LML_TRACE_LEFT ||
        !make_room(t, &list, t->lefts, &t->left_room, sizeof *t->left)) {
        t->short_of = true;
        return;
    }
    t->left = list;
    t->left[t->lefts++] = step;
}

/* Whether the number stands in the text, as written. */
static bool is_written(lml_span text, double x)
{
    for (size_t i = 0; i < text.length; i++) {
        lml_decimal d;
        bool within = i > 0 && (lml_ascii_is_name(text.at[i - 1]) || text.at[i - 1] == '.');
        if (within || !lml_ascii_is_digit(text.at[i]))
            continue;
        size_t used = lml_decimal_read((lml_span){text.at + i, text.length - i}, &d);
        if (used > 0 && lml_decimal_scale(&d, (lml_rational){1, 1}) == x)
            return true;
    }
    return false;
}

/* In the line at work, or as a constant of the file: "local QUARTER = 15". */
static bool is_constant(const lml_trace *t, const lml_step *at, double x)
{
    static const char local[] = "local ";
    lml_span text = t->text(t->text_self, at->file);
    const char *end = text.at + text.length, *feed;
    unsigned number = 1;
    for (const char *from = text.at; from < end; from = feed + 1, number++) {
        feed = memchr(from, '\n', (size_t)(end - from));
        feed = feed ? feed : end;
        lml_span line = lml_span_between(from, feed);
        const size_t name = sizeof local - 1;
        bool constant = lml_span_starts(line, local) && line.length > name &&
                        line.at[name] >= 'A' && line.at[name] <= 'Z';
        if ((constant || number == at->line) && is_written(line, x))
            return true;
    }
    return false;
}

/* A step of all that the recipe had made bare numbers of. */
static uint32_t add_plain(lml_trace *t, lml_step *step)
{
    step->how = LML_TRACE_PLAIN;
    step->first = (uint32_t)t->plain_first;
    step->inputs = (uint32_t)(t->lefts - t->left_from);
    return add_step(t, step);
}

/* The number on its own, or of what the recipe had made bare numbers of. */
static uint32_t add_bare(lua_State *L, lml_trace *t, int index)
{
    double x = lua_tonumber(L, index);
    lml_step step = {.is = text_at(L, t, index), .member = ""};
    if (t->lefts == t->left_from || !t->text || x == 0 || fabs(x) == 1)
        return add_step(t, &step);
    find_line(L, t, &step);
    const lml_step *latest = &t->step[t->latest];
    if (t->latest && latest->line == step.line && strcmp(latest->file, step.file) == 0 &&
        strcmp(latest->is, step.is) == 0)
        return t->latest; /* "floor(x) * Q '1 min'" */
    if (is_constant(t, &step, fabs(x)))
        return add_step(t, &(lml_step){.is = step.is, .member = ""});
    return add_plain(t, &step);
}

/* Before what goes into a step is gathered: what was made bare numbers of by now, as one list of
 * inputs, which serves until there is more. */
static void list_left(lml_trace *t)
{
    if (t->plain_of == t->lefts)
        return;
    t->plain_of = t->lefts;
    t->plain_first = t->inputs;
    for (size_t i = t->lefts; i > t->left_from; i--) /* the latest first: they are the nearest */
        add_input(t, t->left[i - 1]);
}

/* ---- what goes in ---- */

static void gather(lua_State *L, lml_trace *t, size_t first, int index, int depth)
{
    if (t->inputs - first >= LML_TRACE_INPUTS)
        return;
    int type = lua_type(L, index);
    index = lua_absindex(L, index);
    uint32_t step = lml_trace_of(L, index);
    t->of_values = t->of_values || is_known_kind(L, index);
    if (step) {
        add_input(t, step);
        return;
    }
    if (type == LUA_TNUMBER) {
        bool within = depth > 0;
        t->of_plain = t->of_plain || within;
        add_input(t, within ? add_step(t, &(lml_step){.is = text_at(L, t, index), .member = ""})
                            : add_bare(L, t, index));
        return;
    }
    if (type == LUA_TSTRING && depth == 0 && (step = step_of_text(L, index))) {
        add_input(t, step);
        return;
    }
    if (is_known_kind(L, index) || (type == LUA_TSTRING && depth == 0)) {
        lml_step constant = {.is = text_at(L, t, index), .member = ""};
        add_input(t, add_step(t, &constant));
        return;
    }
    if (depth == DEPTH || !lml_view_test_content(L, index))
        return;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    lua_Integer keys = lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        push_member(L, content, i);
        gather(L, t, first, -1, depth + 1);
        lua_settop(L, content + 1);
    }
    lua_settop(L, content - 1);
}

/* ---- what comes out ---- */

/* Whether it puts values into words. */
static bool is_of_words(const lml_step *step)
{
    return strcmp(step->how, "fill") == 0 || strcmp(step->how, "tostring") == 0;
}

static void note(lua_State *L, lml_trace *t, int index, const lml_step *how, const char *member,
                 int depth)
{
    index = lua_absindex(L, index);
    if (is_known_kind(L, index) || lua_type(L, index) == LUA_TNUMBER) {
        if (lml_trace_of(L, index))
            return; /* it was handed on */
        lml_step step = *how;
        step.is = text_at(L, t, index);
        step.member = member[0] ? keep(t, member, strlen(member)) : "";
        uint32_t id = add_step(t, &step);
        set_step(L, index, id);
        if (lua_type(L, index) == LUA_TNUMBER) {
            t->latest = id;
            if (t->of_values)
                note_left(t, id);
        }
        return;
    }
    if (lua_type(L, index) == LUA_TSTRING && t->of_values && is_of_words(how)) {
        lml_step step = *how;
        step.is = text_at(L, t, index);
        note_text(L, index, add_step(t, &step));
        return;
    }
    if (depth == DEPTH || !lml_view_test_content(L, index))
        return;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    lua_Integer keys = lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[TEXT_MOST];
        push_member(L, content, i);
        if (lua_type(L, -2) == LUA_TSTRING)
            snprintf(inner, sizeof inner, "%s%s%s", member, member[0] ? "." : "",
                     lua_tostring(L, -2));
        else /* as a result counts them */
            snprintf(inner, sizeof inner, "%s[%d]", member, (int)lua_tointeger(L, -2) - 1);
        note(L, t, -1, how, inner, depth + 1);
        lua_settop(L, content + 1);
    }
    lua_settop(L, content - 1);
}

/* What a function chose among what went in is a step of its own: another block of the same value.
 */
static void part_from_inputs(lua_State *L, int index)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (!v)
        return;
    index = lua_absindex(L, index);
    lml_figure_push(L, v);
    lua_replace(L, index);
}

/* Upvalues: the function, its name. */
static int traced(lua_State *L)
{
    lml_trace *t = trace_of(L);
    const char *name = lua_touserdata(L, lua_upvalueindex(2));
    const int count = lua_gettop(L);
    list_left(t);
    lml_step step = {.how = name, .member = "", .first = (uint32_t)t->inputs};
    lml_box_need_stack(L, 12);
    t->of_values = t->of_plain = false;
    for (int i = 1; i <= count; i++)
        gather(L, t, step.first, i, 0);
    if (t->of_plain && t->lefts > t->left_from)
        add_input(t, add_plain(t, &(lml_step){.is = "its plain numbers", .member = ""}));
    const bool of_values = t->of_values;
    step.inputs = (uint32_t)(t->inputs - step.first);
    find_line(L, t, &step);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, count, LUA_MULTRET);
    const int results = lua_gettop(L);
    bool chose = strcmp(name, "max") == 0 || strcmp(name, "min") == 0;
    if (chose && results == 1)
        part_from_inputs(L, 1);
    t->of_values = of_values; /* it may have called others */
    for (int i = 1; i <= results; i++)
        note(L, t, i, &step, "", 0);
    return results;
}

void lml_trace_wrap_one(lua_State *L, const char *name)
{
    if (!trace_of(L))
        return;
    lua_pushlightuserdata(L, (void *)(uintptr_t)name);
    lua_pushcclosure(L, traced, 2);
}

void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix)
{
    lml_trace *t = trace_of(L);
    if (!t)
        return;
    for (; words->name; words++) {
        char name[TEXT_MOST];
        int length = snprintf(name, sizeof name, "%s%s", prefix, words->name);
        lua_getfield(L, -1, words->name);
        lml_trace_wrap_one(L, keep(t, name, (size_t)length));
        lua_setfield(L, -2, words->name);
    }
}

void lml_trace_say(lua_State *L, int index, const lml_said *said)
{
    lml_trace *t = trace_of(L);
    if (!t || (!is_known_kind(L, index) && lua_type(L, index) != LUA_TNUMBER))
        return;
    lml_step step = {.is = text_at(L, t, index),
                     .member = "",
                     .what = keep(t, said->what, strlen(said->what)),
                     .source = said->source ? keep(t, said->source, strlen(said->source)) : NULL,
                     .line = said->line};
    if (said->file)
        step.file = keep(t, said->file, strlen(said->file));
    else
        find_line(L, t, &step);
    set_step(L, index, add_step(t, &step));
}

void lml_trace_same(lua_State *L, int index, int from)
{
    uint32_t step = lml_trace_of(L, from);
    if (step)
        set_step(L, index, step);
}

uint32_t lml_trace_number(lua_State *L, int index, const char *file, int line)
{
    lml_trace *t = trace_of(L);
    uint32_t known = lml_trace_of(L, index);
    if (!t || known)
        return known;
    lml_step step = {.is = text_at(L, t, index),
                     .member = "",
                     .file = keep(t, file, strlen(file)),
                     .line = (unsigned)line};
    list_left(t);
    if (t->lefts > t->left_from)
        return add_plain(t, &step);
    step.what = "written in the recipe";
    return add_step(t, &step);
}
