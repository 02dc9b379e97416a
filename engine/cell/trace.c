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

enum {
    DEPTH = 4,
    TEXT_MOST = 120,
    /* Up to this a bare number is mostly a count or a place in a list, and two that are equal have
     * nothing to do with each other; above it hours, pieces and per mille come. A choice of ours.
     */
    SMALL = 20,
    FEW = 4 /* a text this short, "Au" or "g", turns up everywhere: a longest symbol and one more */
};

/* Registry keys: the steps by userdata; by text; those of them that were made of values; by bare
 * number, of those that were said; by entry of a sheet, of what was bare when it was printed; and
 * by text, whether it is written anywhere. */
static const char STEPS, TEXTS, MADE, SAID, PRINTED, WRITTEN;

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
    lml_alloc_free(&t->alloc, t->also, t->also_room * sizeof *t->also);
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

static void add_also(lml_trace *t, uint32_t step, uint32_t from)
{
    void *list = t->also;
    if (!step || !from || step == from)
        return;
    if (t->alsos > 0 && t->also[t->alsos - 1].step == step && t->also[t->alsos - 1].from == from)
        return;
    if (!make_room(t, &list, t->alsos, &t->also_room, sizeof *t->also))
        return;
    t->also = list;
    t->also[t->alsos++] = (lml_trace_also){step, from};
}

/* What gives the kind of a value, and nothing of its amount. */
static bool is_of_kind(const lml_step *s)
{
    static const char *const names[] = {"zero", "currency", "metal", "per"};
    for (size_t i = 0; s->how && i < sizeof names / sizeof *names; i++)
        if (strcmp(s->how, names[i]) == 0)
            return true;
    return false;
}

/* The mark of the first input that has one, unless only the kind of its inputs went in. */
static uint32_t spread_to(const lml_trace *t, const lml_step *step, const uint32_t *by)
{
    uint32_t k = 0;
    while (k < step->inputs && !by[t->input[step->first + k]])
        k++;
    return k < step->inputs && !is_of_kind(step) ? by[t->input[step->first + k]] : 0;
}

void lml_trace_spread(const lml_trace *t, uint32_t *by)
{
    for (bool more = true; more;) {
        uint32_t any = 0;
        for (size_t i = 1; i < t->steps; i++) { /* what went in came first */
            if (!by[i])
                by[i] = t->step[i].caught ? any : spread_to(t, &t->step[i], by);
            any = any ? any : by[i];
        }
        more = false;
        for (size_t i = 0; i < t->alsos; i++)
            if (!by[t->also[i].step] && by[t->also[i].from]) {
                by[t->also[i].step] = by[t->also[i].from];
                more = true;
            }
    }
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

/* Push the table of that name: of texts, or by blocks, of which no one asks for those that are
 * gone. */
static void push_table(lua_State *L, const char *key)
{
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, key) == LUA_TTABLE)
        return;
    lua_pop(L, 1);
    lua_newtable(L);
    if (key == &STEPS || key == &PRINTED) {
        lua_newtable(L);
        lua_pushliteral(L, "k");
        lua_setfield(L, -2, "__mode");
        lua_setmetatable(L, -2);
    }
    lua_pushvalue(L, -1);
    lua_rawsetp(L, LUA_REGISTRYINDEX, key);
}

static bool is_known_kind(lua_State *L, int index)
{
    return lml_class_test(L, index, LML_CLASS_VALUE) || lml_class_test(L, index, LML_CLASS_ALLOY) ||
           lml_class_test(L, index, LML_CLASS_ASSAY);
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

static void set_in(lua_State *L, const char *key, int index, uint32_t step)
{
    index = lua_absindex(L, index);
    push_table(L, key);
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
    bool text = lua_type(L, index) == LUA_TSTRING; /* it is known by what it says */
    if (!text && !is_known_kind(L, index) && !lml_class_test(L, index, LML_CLASS_ERROR))
        return 0;
    push_table(L, text ? &TEXTS : &STEPS);
    return take_step(L, index);
}

static void set_step(lua_State *L, int index, uint32_t step)
{
    index = lua_absindex(L, index);
    if (lua_type(L, index) == LUA_TNUMBER) {
        note_number(trace_of(L), lua_tonumber(L, index), step);
        return;
    }
    set_in(L, lua_type(L, index) == LUA_TSTRING ? &TEXTS : &STEPS, index, step);
}

/* The text of the value at the index. */
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

/* Whether the text has a digit: what was joined with .. has those of a bare number. */
static bool has_digit(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (lml_ascii_is_digit(text.at[i]))
            return true;
    return false;
}

/* The step of everything that the current recipe has made a bare number so far, or was given as
 * one; 0 for nothing. */
static uint32_t bare_step(lml_trace *t)
{
    if (!t->text || (t->lefts == t->left_from && !t->digits))
        return t->told;
    if (t->bare && t->bare_of == t->lefts)
        return t->bare;
    lml_step all = {.is = "", .member = "", .first = (uint32_t)t->inputs};
    for (size_t i = t->left_from; i < t->lefts; i++)
        add_input(t, t->left[i]);
    all.inputs = (uint32_t)(t->inputs - all.first);
    t->bare = add_step(t, &all);
    t->bare_of = (uint32_t)t->lefts;
    add_also(t, t->bare, t->told);
    add_also(t, t->bare, t->digits);
    return t->bare;
}

/* A step is one more of those that the other stands for. No list has it. */
static void hide_left(lml_trace *t, uint32_t *all, uint32_t step)
{
    if (!t->text) /* a proof prints nothing */
        return;
    uint32_t both = add_step(t, &(lml_step){.is = "", .member = ""});
    add_also(t, both, *all);
    add_also(t, both, step);
    *all = both;
    t->bare = 0;
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
    if (t->lefts - t->left_from == LML_TRACE_LEFT) { /* one step for all of them */
        uint32_t all = bare_step(t);
        t->step[all].is = "earlier plain numbers";
        t->step[all].how = LML_TRACE_PLAIN;
        t->lefts = t->left_from;
        t->left[t->lefts++] = all;
    }
    if (!make_room(t, &list, t->lefts, &t->left_room, sizeof *t->left))
        return;
    t->left = list;
    t->left[t->lefts++] = step;
}

/* Whether the number is in the text, as written. */
static bool has_number(lml_span text, double x)
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
        if ((constant || number == at->line) && has_number(line, x))
            return true;
    }
    return false;
}

/* The latest value that the current recipe made this very number of; 0: none. */
static uint32_t find_left(const lml_trace *t, const char *is)
{
    for (size_t i = t->lefts; i > t->left_from; i--)
        if (strcmp(t->step[t->left[i - 1]].is, is) == 0)
            return t->left[i - 1];
    return 0;
}

/* Whether the bare number was written or entered, and so does not come from a value. */
static bool is_innocent(lua_State *L, const lml_trace *t, const lml_step *at, double x)
{
    if (is_constant(t, at, fabs(x)))
        return true;
    if (find_left(t, at->is))
        return false;
    push_table(L, &SAID);
    lua_pushnumber(L, x);
    bool said = lua_rawget(L, -2) != LUA_TNIL;
    lua_pop(L, 2);
    return said;
}

static bool is_written(lua_State *L, const lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    index = lua_absindex(L, index);
    if (!t->is_written) /* in a proof */
        return true;
    push_table(L, &WRITTEN);
    uint32_t known = take_step(L, index);
    if (!known) {
        known = t->is_written(t->text_self, (lml_span){at, length}) ? 1 : 2;
        set_in(L, &WRITTEN, index, known);
    }
    return known == 1;
}

/* A text without digits that is written somewhere: at most it was chosen. */
static bool is_name(lua_State *L, const lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    return !has_digit((lml_span){at, length}) && is_written(L, t, index);
}

bool lml_trace_is_name(lua_State *L, int index)
{
    return is_name(L, trace_of(L), index);
}

/* The step of what the text may be made of that nobody knows, if it is not written anywhere:
 * digits, of all that is bare; other letters, of those that were cut out of a text. 0: nothing. */
static uint32_t bare_in_text(lua_State *L, lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    uint32_t bare = has_digit((lml_span){at, length}) ? bare_step(t) : t->told;
    return bare && !is_written(L, t, index) ? bare : 0;
}

uint32_t lml_trace_in_print(lua_State *L, uint32_t printed, int index)
{
    const lml_trace *t = trace_of(L);
    size_t length;
    const char *at = lua_type(L, index) == LUA_TSTRING ? lua_tolstring(L, index, &length) : NULL;
    bool cut = at && !has_digit((lml_span){at, length});
    return t->input[t->step[printed].first + cut];
}

bool lml_trace_is_innocent(lua_State *L, uint32_t printed, int index)
{
    const lml_trace *t = trace_of(L);
    if (lua_type(L, index) == LUA_TSTRING)
        return is_written(L, t, index);
    lml_step step = t->step[printed];
    const lml_step *bare = &t->step[t->input[step.first]];
    char text[LML_VALUE_TEXT];
    lml_decimal_write_double(lua_tonumber(L, index), text);
    for (uint32_t i = 0; i < bare->inputs; i++)
        if (strcmp(t->step[t->input[bare->first + i]].is, text) == 0)
            return false;
    step.is = "";
    return is_innocent(L, t, &step, lua_tonumber(L, index));
}

enum { DIGITS = 1, LETTERS = 2 };

/* Which of the two there is, at the index or in the table there, in bare numbers and texts that
 * nobody knows. */
static int find_bare(lua_State *L, lml_trace *t, int index, int depth)
{
    int type = lua_type(L, index);
    if (type == LUA_TNUMBER) {
        char text[LML_VALUE_TEXT];
        lml_decimal_write_double(lua_tonumber(L, index), text);
        lml_step step = {.is = text, .file = ""};
        return is_innocent(L, t, &step, lua_tonumber(L, index)) ? 0 : DIGITS;
    }
    if (type == LUA_TSTRING) {
        size_t length;
        const char *at = lua_tolstring(L, index, &length);
        bool digits = has_digit((lml_span){at, length});
        return bare_in_text(L, t, index) == 0 ? 0 : digits ? DIGITS : LETTERS;
    }
    index = lua_absindex(L, index);
    if (depth == DEPTH || !lml_view_test_content(L, index))
        return 0;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    int found = 0;
    for (lua_pushnil(L); lua_next(L, content); lua_settop(L, content + 1))
        found |= find_bare(L, t, -1, depth + 1);
    lua_settop(L, content - 1);
    return found;
}

lml_trace_entered lml_trace_enter(lua_State *L, int told)
{
    lml_trace *t = trace_of(L);
    if (!t)
        return (lml_trace_entered){0};
    lml_trace_entered entered = {t->left_from, t->told, t->digits};
    uint32_t bare = bare_step(t);
    int found = bare && told ? find_bare(L, t, told, 0) : 0;
    t->told = found & LETTERS ? bare : 0;
    t->digits = found & DIGITS ? bare : 0;
    t->left_from = t->lefts;
    t->plain_of = 0;
    t->bare = 0;
    return entered;
}

/* What comes back bare may be made of all that was bare in there. */
void lml_trace_leave(lua_State *L, lml_trace_entered entered, int given)
{
    lml_trace *t = trace_of(L);
    if (!t)
        return;
    uint32_t bare = bare_step(t);
    int found = bare && given ? find_bare(L, t, given, 0) : 0;
    t->lefts = t->left_from;
    t->left_from = entered.left_from;
    t->told = entered.told;
    t->digits = entered.digits;
    if (found & LETTERS)
        hide_left(t, &t->told, bare);
    if (found & DIGITS)
        hide_left(t, &t->digits, bare);
    t->plain_of = 0;
    t->bare = 0;
}

void lml_trace_print(lua_State *L, int entry)
{
    lml_trace *t = trace_of(L);
    uint32_t bare = t ? bare_step(t) : 0;
    if (!bare)
        return;
    lml_step step = {.is = "", .member = "", .first = (uint32_t)t->inputs, .inputs = 2};
    add_input(t, bare);
    add_input(t, t->told);
    find_line(L, t, &step);
    set_in(L, &PRINTED, entry, add_step(t, &step));
}

uint32_t lml_trace_printed(lua_State *L, int entry)
{
    if (!trace_of(L))
        return 0;
    entry = lua_absindex(L, entry);
    push_table(L, &PRINTED);
    return take_step(L, entry);
}

/* A step of all that the recipe had made bare numbers of. */
static uint32_t add_plain(lml_trace *t, lml_step *step)
{
    step->how = LML_TRACE_PLAIN;
    step->first = (uint32_t)t->plain_first;
    step->inputs = (uint32_t)(t->lefts - t->left_from);
    uint32_t plain = add_step(t, step);
    add_also(t, plain, t->told);
    return plain;
}

/* What is bare and nobody knows may be made of all that was made bare so far. */
static uint32_t add_leaf(lml_trace *t, const lml_step *step, uint32_t of)
{
    lml_step own = *step;
    own.aside = of != 0;
    uint32_t leaf = add_step(t, &own);
    add_also(t, leaf, of);
    return leaf;
}

/* The same number again, told as that step; that it may be another is told only to marks. */
static uint32_t add_again(lml_trace *t, uint32_t same)
{
    lml_step again = t->step[same];
    again.aside = true;
    uint32_t id = add_step(t, &again);
    add_also(t, id, bare_step(t));
    return id;
}

/* The step of the latest bare number, where that is this one, on the same line: as in
 * "floor(x) * Q '1 min'"; 0. */
static uint32_t take_latest(const lml_trace *t, const lml_step *step)
{
    const lml_step *latest = &t->step[t->latest];
    bool same = t->latest && latest->line == step->line && strcmp(latest->file, step->file) == 0 &&
                strcmp(latest->is, step->is) == 0;
    return same ? t->latest : 0;
}

/* The same of a number in a table, which is else one that nobody knows. */
static uint32_t add_within(lua_State *L, lml_trace *t, int index)
{
    lml_step step = {.is = text_at(L, t, index), .member = ""};
    find_line(L, t, &step);
    uint32_t latest = take_latest(t, &step);
    t->of_plain = t->of_plain || !latest;
    return latest ? latest : add_step(t, &(lml_step){.is = step.is, .member = ""});
}

/* The number on its own, or of what the recipe had made bare numbers of. */
static uint32_t add_bare(lua_State *L, lml_trace *t, int index)
{
    double x = lua_tonumber(L, index);
    lml_step step = {.is = text_at(L, t, index), .member = ""};
    find_line(L, t, &step);
    if (t->lefts == t->left_from || !t->text || x == 0 || fabs(x) == 1) {
        uint32_t bare = bare_step(t);
        bool written = !bare || x == 0 || fabs(x) == 1 || is_innocent(L, t, &step, x);
        return add_leaf(t, &(lml_step){.is = step.is, .member = ""}, written ? 0 : bare);
    }
    if (take_latest(t, &step))
        return t->latest;
    if (is_constant(t, &step, fabs(x)))
        return add_step(t, &(lml_step){.is = step.is, .member = ""});
    uint32_t same = fabs(x) > SMALL ? find_left(t, step.is) : 0;
    return same ? add_again(t, same) : add_plain(t, &step);
}

/* Before what goes into a step is gathered: what was made bare numbers of so far, as one list of
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

/* What goes into the step that is gathered, and no reason tells. */
static void add_aside(lml_trace *t, uint32_t step)
{
    if (!t->aside)
        t->aside = add_step(t, &(lml_step){.is = "", .member = ""});
    add_also(t, t->aside, step);
}

/* Texts that are joined with .. have others in them. */
static bool has_piece(lua_State *L, int index, int piece)
{
    size_t length, part;
    const char *at = lua_tolstring(L, index, &length), *of = lua_tolstring(L, piece, &part);
    for (const char *end = at + length; (size_t)(end - at) >= part; at++) {
        at = memchr(at, of[0], (size_t)(end - at) - part + 1);
        if (!at)
            return false;
        if (memcmp(at, of, part) == 0)
            return true;
    }
    return false;
}

static void add_pieces(lua_State *L, lml_trace *t, int index)
{
    lml_box_need_stack(L, 8);
    push_table(L, &MADE);
    for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
        if (has_piece(L, index, -2))
            add_aside(t, (uint32_t)lua_tointeger(L, -1));
    lua_pop(L, 1);
}

uint32_t lml_trace_piece(lua_State *L, int index, const uint32_t *by)
{
    uint32_t found = 0;
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 8);
    push_table(L, &MADE);
    for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
        uint32_t step = (uint32_t)lua_tointeger(L, -1);
        if (by[step] && (!found || step < found) && has_piece(L, index, -2))
            found = step;
    }
    lua_pop(L, 1);
    return found;
}

static void gather(lua_State *L, lml_trace *t, size_t first, int index, int depth)
{
    int type = lua_type(L, index);
    index = lua_absindex(L, index);
    uint32_t step = lml_trace_of(L, index);
    t->of_values = t->of_values || is_known_kind(L, index) || (step && t->step[step].of_values);
    if (step && type == LUA_TSTRING && depth > 0) { /* a word in a sentence is no reason */
        add_aside(t, step);
        return;
    }
    if (step) {
        add_input(t, step);
        return;
    }
    if (type == LUA_TNUMBER) {
        uint32_t bare = depth > 0 ? add_within(L, t, index) : add_bare(L, t, index);
        t->of_bare = t->of_bare || t->step[bare].inputs > 0 || t->step[bare].aside;
        add_input(t, bare);
        return;
    }
    if (is_known_kind(L, index) || type == LUA_TSTRING) {
        lml_step constant = {.is = text_at(L, t, index), .member = ""};
        bool text = type == LUA_TSTRING;
        uint32_t of = text ? bare_in_text(L, t, index) : 0;
        if (text && !is_written(L, t, index))
            add_pieces(L, t, index);
        if (depth == 0 || !text)
            add_input(t, add_leaf(t, &constant, of));
        else if (of)
            add_aside(t, of);
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

static uint32_t add_result(lua_State *L, lml_trace *t, int index, const lml_step *how,
                           const char *member)
{
    lml_step step = *how;
    step.is = text_at(L, t, index);
    step.member = member[0] ? keep(t, member, strlen(member)) : "";
    step.aside = t->aside != 0;
    step.of_values = t->of_values && !is_of_kind(how);
    uint32_t id = add_step(t, &step);
    add_also(t, id, t->aside);
    return id;
}

static bool is_input(const lml_trace *t, const lml_step *how, uint32_t step)
{
    for (uint32_t i = 0; i < how->inputs; i++)
        if (t->input[how->first + i] == step)
            return true;
    return false;
}

/* A number or a text is known by what it says: by the latest step that said it, and by what had
 * said it before. */
/* Whether it counts letters: that is no figure to be told of. */
static bool is_of_texts(const lml_step *how)
{
    return strcmp(how->how, "find") == 0 || strcmp(how->how, "letters") == 0;
}

static void note_bare(lua_State *L, lml_trace *t, int index, const lml_step *how,
                      const char *member)
{
    uint32_t known = lml_trace_of(L, index);
    if (is_input(t, how, known))
        return; /* it was handed on */
    uint32_t id = add_result(L, t, index, how, member);
    bool text = lua_type(L, index) == LUA_TSTRING, few = text && lua_rawlen(L, index) < FEW;
    add_also(t, id, known);
    if (!few)
        set_step(L, index, id);
    if (text && !few && (t->step[id].of_values || t->of_bare || t->aside) && !is_name(L, t, index))
        set_in(L, &MADE, index, id);
    if (!text)
        t->latest = id;
    bool given = strncmp(how->how, "craft.", 6) == 0; /* its texts are names and units */
    bool left = t->step[id].of_values || (text && t->of_bare);
    if (left && text && few && !given)
        hide_left(t, has_digit(lml_span_of(t->step[id].is)) ? &t->digits : &t->told, id);
    else if (left && is_of_texts(how))
        hide_left(t, &t->digits, id);
    else if (left && !text)
        note_left(t, id);
}

/* That which the table itself names, in `sources`, for the member whose key and value are on top of
 * the stack; else that of all it holds. */
static const char *source_of_member(lua_State *L, lml_trace *t, int content, const char *of_all)
{
    const int top = lua_gettop(L);
    const char *source = of_all;
    size_t length;
    if (of_all && lua_type(L, top - 1) == LUA_TSTRING) {
        lua_pushstring(L, "sources");
        if (lua_rawget(L, content) == LUA_TTABLE) {
            lua_pushvalue(L, top - 1);
            if (lua_rawget(L, -2) == LUA_TSTRING) {
                const char *own = lua_tolstring(L, -1, &length);
                source = keep(t, own, length);
            }
        }
    }
    lua_settop(L, top);
    return source;
}

static void note(lua_State *L, lml_trace *t, int index, const lml_step *how, const char *member,
                 int depth)
{
    index = lua_absindex(L, index);
    if (is_known_kind(L, index) && !lml_trace_of(L, index)) /* else it was handed on */
        set_step(L, index, add_result(L, t, index, how, member));
    if (is_known_kind(L, index))
        return;
    if (lua_type(L, index) == LUA_TNUMBER || lua_type(L, index) == LUA_TSTRING) {
        note_bare(L, t, index, how, member);
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
        lml_step of = *how;
        of.source = source_of_member(L, t, content, how->source);
        if (lua_type(L, -2) == LUA_TSTRING)
            snprintf(inner, sizeof inner, "%s%s%s", member, member[0] ? "." : "",
                     lua_tostring(L, -2));
        else /* as a result counts them */
            snprintf(inner, sizeof inner, "%s[%d]", member, (int)lua_tointeger(L, -2) - 1);
        note(L, t, -1, &of, inner, depth + 1);
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

/* Upvalues: the function, its name, its source or NULL. */
static int traced(lua_State *L)
{
    lml_trace *t = trace_of(L);
    const char *name = lua_touserdata(L, lua_upvalueindex(2));
    const int count = lua_gettop(L);
    list_left(t);
    bare_step(t); /* both are lists of inputs, and come before this one */
    lml_step step = {.how = name,
                     .source = lua_touserdata(L, lua_upvalueindex(3)),
                     .member = "",
                     .first = (uint32_t)t->inputs};
    lml_box_need_stack(L, 12);
    t->of_values = t->of_plain = t->of_bare = false;
    t->aside = 0;
    for (int i = 1; i <= count; i++)
        gather(L, t, step.first, i, 0);
    if (t->of_plain && t->lefts > t->left_from)
        add_input(t, add_plain(t, &(lml_step){.is = "its plain numbers", .member = ""}));
    else if (t->of_plain && t->told)
        add_aside(t, t->told);
    const bool of_values = t->of_values;
    const bool of_bare = t->of_bare || t->of_plain;
    const uint32_t aside = t->aside;
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
    t->of_bare = of_bare;
    t->aside = aside;
    for (int i = 1; i <= results; i++)
        note(L, t, i, &step, "", 0);
    return results;
}

static void wrap(lua_State *L, const char *name, const char *source)
{
    lua_pushlightuserdata(L, (void *)(uintptr_t)name);
    lua_pushlightuserdata(L, (void *)(uintptr_t)source);
    lua_pushcclosure(L, traced, 3);
}

void lml_trace_wrap_one(lua_State *L, const char *name)
{
    if (trace_of(L))
        wrap(L, name, NULL);
}

void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix,
                    const char *(*source_of)(const char *name))
{
    lml_trace *t = trace_of(L);
    if (!t)
        return;
    for (; words->name; words++) {
        char name[TEXT_MOST];
        int length = snprintf(name, sizeof name, "%s%s", prefix, words->name);
        lua_getfield(L, -1, words->name);
        wrap(L, keep(t, name, (size_t)length), source_of ? source_of(words->name) : NULL);
        lua_setfield(L, -2, words->name);
    }
}

void lml_trace_say(lua_State *L, int index, const lml_said *said)
{
    lml_trace *t = trace_of(L);
    if (!t || (!is_known_kind(L, index) && lua_type(L, index) != LUA_TNUMBER))
        return;
    if (lua_type(L, index) == LUA_TNUMBER)
        set_in(L, &SAID, index, 1);
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

void lml_trace_caught(lua_State *L, int index)
{
    lml_trace *t = trace_of(L);
    bool text = lua_type(L, index) == LUA_TSTRING; /* an error of Lua's own */
    if (!t || (!text && !lml_class_test(L, index, LML_CLASS_ERROR)))
        return;
    lml_step step = {.is = "an error", .member = "", .of_values = true, .caught = true};
    find_line(L, t, &step);
    uint32_t id = add_step(t, &step);
    set_step(L, index, id);
    if (text)
        set_in(L, &MADE, index, id);
}

uint32_t lml_trace_bare(lua_State *L, int index, const char *file, int line)
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
    if (lua_type(L, index) == LUA_TSTRING)
        return add_leaf(t, &step, bare_in_text(L, t, index));
    if (t->lefts > t->left_from)
        return add_plain(t, &step);
    step.what = "written in the recipe";
    bool written = !t->told || is_innocent(L, t, &step, lua_tonumber(L, index));
    return add_leaf(t, &step, written ? 0 : t->told);
}
