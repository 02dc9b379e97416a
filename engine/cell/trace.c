#include "cell/trace.h"

#include "base/ascii.h"
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/trace_bare.h"
#include "cell/trace_file.h"
#include "cell/trace_known.h"
#include "cell/view.h"

#include <stdio.h>
#include <string.h>

enum {
    FEW = 4 /* a text this short, "Au" or "g", turns up everywhere: a longest symbol and one more */
};

static const char CRAFT[] = "craft."; /* of their tables what goes in is called by its name there */

/* Push the key at i of the sorted keys behind the table, and its member. */
static void push_member(lua_State *L, int content, lua_Integer i)
{
    lua_rawgeti(L, content + 1, i);
    lua_pushvalue(L, -1);
    lua_rawget(L, content);
}

/* ---- what goes in ---- */

/* What goes into the step that is gathered, and no reason tells. */
static void add_aside(lml_trace *t, uint32_t step)
{
    if (!t->aside)
        t->aside = lml_trace_add(t, &(lml_step){.is = "", .member = ""});
    lml_trace_add_also(t, t->aside, step);
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
    lml_trace_known_push(L, LML_TRACE_KNOWN_MADE);
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
    lml_trace_known_push(L, LML_TRACE_KNOWN_MADE);
    for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
        uint32_t step = (uint32_t)lua_tointeger(L, -1);
        if (by[step] && (!found || step < found) && has_piece(L, index, -2))
            found = step;
    }
    lua_pop(L, 1);
    return found;
}

/* What is in a table goes in under its name there. */
static void add_called(lml_trace *t, uint32_t step, const char *called)
{
    lml_trace_add_input(t, step);
    if (called && called[0])
        lml_trace_call_input(t, called);
}

static void gather(lua_State *L, lml_trace *t, int index, const char *called, int depth);

/* All that is in the table at the index. Where it is called nothing, nor is that; else by its name
 * in there, or its place as a result counts them. */
static void gather_content(lua_State *L, lml_trace *t, const char *called, int depth)
{
    const int content = lua_gettop(L);
    lua_Integer keys = lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[LML_TRACE_TEXT];
        push_member(L, content, i);
        if (called && lua_type(L, -2) == LUA_TSTRING)
            lml_text_join(inner, sizeof inner, called, called[0] ? "." : "", lua_tostring(L, -2));
        else if (called)
            snprintf(inner, sizeof inner, "%s[%d]", called, (int)lua_tointeger(L, -2) - 1);
        gather(L, t, -1, called ? inner : NULL, depth + 1);
        lua_settop(L, content + 1);
    }
    lua_settop(L, content - 1);
}

/* Whether the text is written in the line at work, "0 g": one that was made elsewhere and says the
 * same was at most chosen. */
static bool is_literal(lua_State *L, lml_trace *t, int index)
{
    size_t length;
    lml_step here = {.line = 0};
    const char *at = lua_tolstring(L, index, &length);
    if (!t->text || !lml_ascii_is_digit(at[0]))
        return false;
    lml_trace_known_line(L, t, &here);
    return lml_trace_file_has_text(t, here.file, here.line, (lml_span){at, length});
}

/* `called`: what it is in the table that it came in; NULL where that is not kept. */
static void gather(lua_State *L, lml_trace *t, int index, const char *called, int depth)
{
    int type = lua_type(L, index);
    index = lua_absindex(L, index);
    uint32_t step = lml_trace_of(L, index);
    t->of_values =
        t->of_values || lml_trace_known_kind(L, index) || (step && t->step[step].of_values);
    if (step && type == LUA_TSTRING && depth > 0) { /* a word in a sentence is no reason */
        add_aside(t, step);
        return;
    }
    if (step && type == LUA_TSTRING && is_literal(L, t, index)) {
        lml_step constant = {.is = lml_trace_known_text(L, t, index), .member = ""};
        add_called(t, lml_trace_add(t, &constant), called);
        return;
    }
    if (step) {
        add_called(t, step, called);
        return;
    }
    if (type == LUA_TNUMBER) {
        uint32_t bare =
            depth > 0 ? lml_trace_bare_add_within(L, t, index) : lml_trace_bare_add(L, t, index);
        t->of_bare = t->of_bare || t->step[bare].inputs > 0 || t->step[bare].aside;
        add_called(t, bare, called);
        return;
    }
    if (lml_trace_known_kind(L, index) || type == LUA_TSTRING) {
        lml_step constant = {.is = lml_trace_known_text(L, t, index), .member = ""};
        bool text = type == LUA_TSTRING;
        uint32_t of = text ? lml_trace_bare_in_text(L, t, index) : 0;
        if (text && !lml_trace_bare_is_written(L, t, index))
            add_pieces(L, t, index);
        if (depth == 0 || !text)
            add_called(t, lml_trace_bare_add_leaf(t, &constant, of), called);
        else if (of)
            add_aside(t, of);
        return;
    }
    if (depth == LML_TRACE_DEPTH || !lml_view_test_content(L, index))
        return;
    lml_box_need_stack(L, 8);
    gather_content(L, t, called, depth);
}

/* ---- what comes out ---- */

static uint32_t add_result(lua_State *L, lml_trace *t, int index, const lml_step *how,
                           const char *member)
{
    lml_step step = *how;
    step.is = lml_trace_known_text(L, t, index);
    step.member = member[0] ? lml_trace_keep(t, member, strlen(member)) : "";
    step.aside = t->aside != 0;
    step.of_values = t->of_values && !lml_trace_is_of_kind(how);
    uint32_t id = lml_trace_add(t, &step);
    lml_trace_add_also(t, id, t->aside);
    return id;
}

static bool is_input(const lml_trace *t, const lml_step *how, uint32_t step)
{
    for (uint32_t i = 0; i < how->inputs; i++)
        if (t->input[how->first + i] == step)
            return true;
    return false;
}

/* Whether it counts letters: that is no figure to be told of. */
static bool is_of_texts(const lml_step *how)
{
    return strcmp(how->how, "find") == 0 || strcmp(how->how, "letters") == 0;
}

/* A number or a text is known by what it says: by the latest step that said it, and by what had
 * said it before. */
static void note_bare(lua_State *L, lml_trace *t, int index, const lml_step *how,
                      const char *member)
{
    uint32_t known = lml_trace_of(L, index);
    if (is_input(t, how, known))
        return; /* it was handed on */
    uint32_t id = add_result(L, t, index, how, member);
    bool text = lua_type(L, index) == LUA_TSTRING, few = text && lua_rawlen(L, index) < FEW;
    /* Its texts are names and units: "1 g", and a line that says so did not have it from there. */
    bool given = strncmp(how->how, CRAFT, sizeof CRAFT - 1) == 0;
    lml_trace_add_also(t, id, known);
    if (!few && !(given && text && lml_trace_bare_is_written(L, t, index)))
        lml_trace_known_note(L, index, id);
    if (text && !few && (t->step[id].of_values || t->of_bare || t->aside) &&
        !lml_trace_bare_is_name(L, t, index))
        lml_trace_known_set(L, LML_TRACE_KNOWN_MADE, index, id);
    if (!text)
        t->latest = id;
    bool left = t->step[id].of_values || (text && t->of_bare);
    if (left && text && few && !given)
        lml_trace_bare_hide(
            t, lml_trace_bare_has_digit(lml_span_of(t->step[id].is)) ? &t->digits : &t->told, id);
    else if (left && is_of_texts(how))
        lml_trace_bare_hide(t, &t->digits, id);
    else if (left && !text)
        lml_trace_bare_leave(t, id);
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
                source = lml_trace_keep(t, own, length);
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
    if (lml_trace_known_kind(L, index) && !lml_trace_of(L, index)) /* else it was handed on */
        lml_trace_known_note(L, index, add_result(L, t, index, how, member));
    if (lml_trace_known_kind(L, index))
        return;
    if (lua_type(L, index) == LUA_TNUMBER || lua_type(L, index) == LUA_TSTRING) {
        note_bare(L, t, index, how, member);
        return;
    }
    if (depth == LML_TRACE_DEPTH || !lml_view_test_content(L, index))
        return;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    lua_Integer keys = lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[LML_TRACE_TEXT];
        push_member(L, content, i);
        lml_step of = *how;
        of.source = source_of_member(L, t, content, how->source);
        if (lua_type(L, -2) == LUA_TSTRING)
            lml_text_join(inner, sizeof inner, member, member[0] ? "." : "", lua_tostring(L, -2));
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

/* What Q has read is kept for the run, also for other lines that say the same: each line has a
 * block and a step of its own. */
static void part_from_other_line(lua_State *L, const lml_trace *t, const lml_step *here)
{
    const uint32_t known = lml_trace_of(L, 1);
    const lml_step *s = &t->step[known];
    if (known && s->how && strcmp(s->how, here->how) == 0 &&
        (s->line != here->line || strcmp(s->file, here->file) != 0))
        part_from_inputs(L, 1);
}

void lml_trace_term(lua_State *L, int index)
{
    lml_trace *t = lml_trace_known_in(L);
    void *list = t ? t->term : NULL;
    if (!t || !lml_trace_make_room(t, &list, t->terms, &t->term_room, sizeof *t->term))
        return;
    t->term = list;
    t->term[t->terms++] = lml_trace_of(L, index);
}

/* The terms from `first` on are the inputs of the step, unless it is not known where one came from.
 */
static void take_terms(lml_trace *t, size_t first, lml_step *step)
{
    bool known = t->terms > first;
    for (size_t i = first; i < t->terms; i++)
        known = known && t->term[i];
    const uint32_t at = (uint32_t)t->inputs;
    for (size_t i = first; known && i < t->terms; i++)
        lml_trace_add_input(t, t->term[i]);
    if (known) {
        step->first = at;
        step->inputs = (uint32_t)(t->inputs - at);
    }
    t->terms = first;
}

/* Upvalues: the function, its name, its source or NULL. */
static int traced(lua_State *L)
{
    lml_trace *t = lml_trace_known_in(L);
    const char *name = lua_touserdata(L, lua_upvalueindex(2));
    if (strcmp(name, "negative") == 0)
        lua_settop(L, 1); /* Lua gives what has one operand that one twice */
    const int count = lua_gettop(L);
    lml_trace_bare_step(t); /* its inputs come before those of this one */
    lml_step step = {.how = name,
                     .source = lua_touserdata(L, lua_upvalueindex(3)),
                     .member = "",
                     .first = (uint32_t)t->inputs};
    lml_box_need_stack(L, 12);
    t->of_values = t->of_plain = t->of_bare = false;
    t->aside = 0;
    for (int i = 1; i <= count; i++)
        gather(L, t, i, strncmp(name, CRAFT, sizeof CRAFT - 1) == 0 ? "" : NULL, 0);
    if (t->of_plain && t->lefts > t->left_from)
        lml_trace_add_input(
            t, lml_trace_bare_add_plain(t, &(lml_step){.is = "other bare numbers", .member = ""}));
    else if (t->of_plain && t->told)
        add_aside(t, t->told);
    const bool of_values = t->of_values;
    const bool of_bare = t->of_bare || t->of_plain;
    const uint32_t aside = t->aside;
    step.inputs = (uint32_t)(t->inputs - step.first);
    lml_trace_known_line(L, t, &step);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    const size_t terms = t->terms;
    lua_call(L, count, LUA_MULTRET);
    take_terms(t, terms, &step);
    const int results = lua_gettop(L);
    bool chose = strcmp(name, "max") == 0 || strcmp(name, "min") == 0;
    if (chose && results == 1)
        part_from_inputs(L, 1);
    if (strcmp(name, "Q") == 0 && results == 1)
        part_from_other_line(L, t, &step);
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
    if (lml_trace_known_in(L))
        wrap(L, name, NULL);
}

void lml_trace_wrap(lua_State *L, const lml_word *words, const char *prefix,
                    const char *(*source_of)(const char *name))
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return;
    for (; words->name; words++) {
        char name[LML_TRACE_TEXT];
        int length = snprintf(name, sizeof name, "%s%s", prefix, words->name);
        lua_getfield(L, -1, words->name);
        wrap(L, lml_trace_keep(t, name, (size_t)length), source_of ? source_of(words->name) : NULL);
        lua_setfield(L, -2, words->name);
    }
}

void lml_trace_say(lua_State *L, int index, const lml_said *said)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t || (!lml_trace_known_kind(L, index) && lua_type(L, index) != LUA_TNUMBER))
        return;
    if (lua_type(L, index) == LUA_TNUMBER)
        lml_trace_known_set(L, LML_TRACE_KNOWN_SAID, index, 1);
    lml_step step = {.is = lml_trace_known_text(L, t, index),
                     .member = "",
                     .what = lml_trace_keep(t, said->what, strlen(said->what)),
                     .source = said->source ? lml_trace_keep(t, said->source, strlen(said->source))
                                            : NULL,
                     .line = said->line};
    if (said->file)
        step.file = lml_trace_keep(t, said->file, strlen(said->file));
    else
        lml_trace_known_line(L, t, &step);
    lml_trace_known_note(L, index, lml_trace_add(t, &step));
}

void lml_trace_same(lua_State *L, int index, int from)
{
    uint32_t step = lml_trace_of(L, from);
    if (step)
        lml_trace_known_note(L, index, step);
}

void lml_trace_raised(lua_State *L, int count)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return;
    lml_trace_bare_step(t);
    lml_step step = {.is = "an error", .member = "", .first = (uint32_t)t->inputs};
    t->of_values = t->of_plain = t->of_bare = false;
    t->aside = 0;
    for (int i = 1; i <= count; i++)
        gather(L, t, i, NULL, 0);
    step.inputs = (uint32_t)(t->inputs - step.first);
    step.aside = t->aside != 0;
    lml_trace_known_line(L, t, &step);
    uint32_t id = lml_trace_add(t, &step);
    lml_trace_add_also(t, id, t->aside);
    lml_trace_known_note(L, -1, id);
}

void lml_trace_caught(lua_State *L, int index)
{
    lml_trace *t = lml_trace_known_in(L);
    bool text = lua_type(L, index) == LUA_TSTRING; /* an error of Lua's own */
    if (!t || (!text && !lml_class_test(L, index, LML_CLASS_ERROR)))
        return;
    lml_step step = {.is = "an error", .member = "", .of_values = true, .caught = true};
    lml_trace_known_line(L, t, &step);
    uint32_t id = lml_trace_add(t, &step);
    lml_trace_known_note(L, index, id);
    if (text)
        lml_trace_known_set(L, LML_TRACE_KNOWN_MADE, index, id);
}

uint32_t lml_trace_bare(lua_State *L, int index, const char *file, int line)
{
    lml_trace *t = lml_trace_known_in(L);
    uint32_t known = lml_trace_of(L, index);
    if (!t || known)
        return known;
    lml_step step = {.is = lml_trace_known_text(L, t, index),
                     .member = "",
                     .file = lml_trace_keep(t, file, strlen(file)),
                     .line = (unsigned)line};
    const uint32_t bare = lml_trace_bare_step(t);
    if (lua_type(L, index) == LUA_TSTRING)
        return lml_trace_bare_add_leaf(t, &step, lml_trace_bare_in_text(L, t, index));
    if (t->lefts > t->left_from)
        return lml_trace_bare_add_plain(t, &step);
    step.what = "written in the recipe";
    bool written = !bare || lml_trace_bare_is_innocent(L, t, &step, lua_tonumber(L, index));
    return lml_trace_bare_add_leaf(t, &step, written ? 0 : bare);
}

uint32_t lml_trace_bare_within(lua_State *L, int index, const char *file, int line)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t || lml_trace_of(L, index))
        return 0;
    const lml_step step = {.is = lml_trace_known_text(L, t, index),
                           .member = "",
                           .file = lml_trace_keep(t, file, strlen(file)),
                           .line = (unsigned)line};
    uint32_t bare = lml_trace_bare_step(t);
    if (lua_type(L, index) == LUA_TSTRING)
        bare = lml_trace_bare_in_text(L, t, index);
    else if (bare && lml_trace_bare_is_innocent(L, t, &step, lua_tonumber(L, index)))
        bare = 0;
    return bare ? lml_trace_bare_add_leaf(t, &step, bare) : 0;
}

uint32_t lml_trace_both(lua_State *L, uint32_t one, uint32_t other)
{
    return lml_trace_bare_add_both(lml_trace_known_in(L), one, other);
}
