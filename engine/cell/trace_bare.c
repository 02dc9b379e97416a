#include "cell/trace_bare.h"

#include "base/ascii.h"
#include "base/decimal.h"
#include "cell/trace_file.h"
#include "cell/trace_known.h"
#include "cell/view.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

enum {
    /* Up to this a whole number is mostly a count or a place in a list, and two that are equal have
     * nothing to do with each other; above it hours, pieces and per mille come. A choice of ours.
     */
    SMALL = 20
};

bool lml_trace_bare_has_digit(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (lml_ascii_is_digit(text.at[i]))
            return true;
    return false;
}

/* The step of the list of what the current recipe has made bare numbers of: the list that was there
 * and what came since, or a long recipe's lists would grow as the square of its length. 0: none. */
static uint32_t list_of_left(lml_trace *t)
{
    if (t->listed_to == t->lefts)
        return t->listed;
    lml_step list = {.is = "", .member = "", .first = (uint32_t)t->inputs, .is_list = true};
    if (t->listed)
        lml_trace_add_input(t, t->listed);
    for (size_t i = t->listed_to; i < t->lefts; i++)
        lml_trace_add_input(t, t->left[i]);
    list.inputs = (uint32_t)(t->inputs - list.first);
    t->listed = lml_trace_add(t, &list);
    t->listed_to = t->lefts;
    t->listed_at = t->inputs;
    lml_trace_add_input(t, t->listed);
    t->bare = 0;
    return t->listed;
}

/* The current recipe has made bare numbers of nothing that is in a list yet. */
static void begin_list(lml_trace *t)
{
    t->listed = t->bare = 0;
    t->listed_to = t->left_from;
}

uint32_t lml_trace_bare_step(lml_trace *t)
{
    uint32_t list = list_of_left(t);
    if (!t->text || (!list && !t->digits))
        return t->told;
    if (t->bare)
        return t->bare;
    lml_step all = {.is = "", .member = "", .first = (uint32_t)t->listed_at, .inputs = list != 0};
    t->bare = lml_trace_add(t, &all);
    lml_trace_add_also(t, t->bare, t->told);
    lml_trace_add_also(t, t->bare, t->digits);
    return t->bare;
}

uint32_t lml_trace_bare_add_both(lml_trace *t, uint32_t one, uint32_t other)
{
    uint32_t both = lml_trace_add(t, &(lml_step){.is = "", .member = ""});
    lml_trace_add_also(t, both, one);
    lml_trace_add_also(t, both, other);
    return both;
}

void lml_trace_bare_hide(lml_trace *t, uint32_t *all, uint32_t step)
{
    if (!t->text) /* a proof prints nothing */
        return;
    *all = lml_trace_bare_add_both(t, *all, step);
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

void lml_trace_bare_leave(lml_trace *t, uint32_t step)
{
    void *list = t->left;
    if (!step || t->step[step].inputs == 0 || is_left(t, &t->step[step]))
        return;
    if (t->lefts - t->left_from == LML_TRACE_LEFT) { /* one step for all of them */
        lml_step all = {.is = "earlier plain numbers", .member = ""};
        list_of_left(t);
        uint32_t earlier = lml_trace_bare_add_plain(t, &all);
        t->lefts = t->left_from;
        t->left[t->lefts++] = earlier;
        begin_list(t);
    }
    if (!lml_trace_make_room(t, &list, t->lefts, &t->left_room, sizeof *t->left))
        return;
    t->left = list;
    t->left[t->lefts++] = step;
}

/* The latest value that the current recipe made this very number of; 0: none. */
static uint32_t find_left(const lml_trace *t, const char *is)
{
    for (size_t i = t->lefts; i > t->left_from; i--)
        if (strcmp(t->step[t->left[i - 1]].is, is) == 0)
            return t->left[i - 1];
    return 0;
}

bool lml_trace_bare_is_innocent(lua_State *L, lml_trace *t, const lml_step *at, double x)
{
    if (lml_trace_file_has(t, at->file, at->line, fabs(x)))
        return true;
    if (find_left(t, at->is))
        return false;
    lml_trace_known_push(L, LML_TRACE_KNOWN_SAID);
    lua_pushnumber(L, x);
    bool said = lua_rawget(L, -2) != LUA_TNIL;
    lua_pop(L, 2);
    return said;
}

bool lml_trace_bare_is_written(lua_State *L, const lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    index = lua_absindex(L, index);
    if (!t->is_written) /* in a proof */
        return true;
    lml_trace_known_push(L, LML_TRACE_KNOWN_WRITTEN);
    uint32_t known = lml_trace_known_take(L, index);
    if (!known) {
        known = t->is_written(t->text_self, (lml_span){at, length}) ? 1 : 2;
        lml_trace_known_set(L, LML_TRACE_KNOWN_WRITTEN, index, known);
    }
    return known == 1;
}

bool lml_trace_bare_is_name(lua_State *L, const lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    return !lml_trace_bare_has_digit((lml_span){at, length}) &&
           lml_trace_bare_is_written(L, t, index);
}

bool lml_trace_is_name(lua_State *L, int index)
{
    return lml_trace_bare_is_name(L, lml_trace_known_in(L), index);
}

uint32_t lml_trace_bare_in_text(lua_State *L, lml_trace *t, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    uint32_t bare =
        lml_trace_bare_has_digit((lml_span){at, length}) ? lml_trace_bare_step(t) : t->told;
    return bare && !lml_trace_bare_is_written(L, t, index) ? bare : 0;
}

uint32_t lml_trace_in_print(lua_State *L, uint32_t printed, int index)
{
    const lml_trace *t = lml_trace_known_in(L);
    size_t length;
    const char *at = lua_type(L, index) == LUA_TSTRING ? lua_tolstring(L, index, &length) : NULL;
    bool cut = at && !lml_trace_bare_has_digit((lml_span){at, length});
    return t->input[t->step[printed].first + cut];
}

/* Whether a value that is in the step's lists was made this very number. */
static bool has_left(const lml_trace *t, const lml_step *bare, const char *is)
{
    lml_trace_inputs in;
    lml_trace_inputs_open(&in, t, bare);
    for (uint32_t step; (step = lml_trace_inputs_next(&in)) != 0;)
        if (strcmp(t->step[step].is, is) == 0)
            return true;
    return false;
}

bool lml_trace_is_innocent(lua_State *L, uint32_t printed, int index)
{
    lml_trace *t = lml_trace_known_in(L);
    if (lua_type(L, index) == LUA_TSTRING)
        return lml_trace_bare_is_written(L, t, index);
    lml_step step = t->step[printed];
    char text[LML_VALUE_TEXT];
    lml_decimal_write_double(lua_tonumber(L, index), text);
    if (has_left(t, &t->step[t->input[step.first]], text))
        return false;
    step.is = "";
    return lml_trace_bare_is_innocent(L, t, &step, lua_tonumber(L, index));
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
        return lml_trace_bare_is_innocent(L, t, &step, lua_tonumber(L, index)) ? 0 : DIGITS;
    }
    if (type == LUA_TSTRING) {
        size_t length;
        const char *at = lua_tolstring(L, index, &length);
        bool digits = lml_trace_bare_has_digit((lml_span){at, length});
        return lml_trace_bare_in_text(L, t, index) == 0 ? 0 : digits ? DIGITS : LETTERS;
    }
    index = lua_absindex(L, index);
    if (!lml_view_test_content(L, index))
        return 0;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    int found = depth == LML_TRACE_DEPTH ? DIGITS | LETTERS : 0; /* nobody looks deeper */
    for (lua_pushnil(L); found != (DIGITS | LETTERS) && lua_next(L, content);
         lua_settop(L, content + 1))
        found |= find_bare(L, t, -1, depth + 1);
    lua_settop(L, content - 1);
    return found;
}

lml_trace_entered lml_trace_enter(lua_State *L, int told)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return (lml_trace_entered){0};
    lml_trace_entered entered = {t->left_from, t->told, t->digits};
    uint32_t bare = lml_trace_bare_step(t);
    int found = bare && told ? find_bare(L, t, told, 0) : 0;
    t->told = found & LETTERS ? bare : 0;
    t->digits = found & DIGITS ? bare : 0;
    t->left_from = t->lefts;
    begin_list(t);
    return entered;
}

void lml_trace_leave(lua_State *L, lml_trace_entered entered, int given)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return;
    uint32_t bare = lml_trace_bare_step(t);
    int found = bare && given ? find_bare(L, t, given, 0) : 0;
    t->lefts = t->left_from;
    t->left_from = entered.left_from;
    t->told = entered.told;
    t->digits = entered.digits;
    begin_list(t);
    if (found & LETTERS)
        lml_trace_bare_hide(t, &t->told, bare);
    if (found & DIGITS)
        lml_trace_bare_hide(t, &t->digits, bare);
}

void lml_trace_print(lua_State *L, int entry)
{
    lml_trace *t = lml_trace_known_in(L);
    uint32_t bare = t ? lml_trace_bare_step(t) : 0;
    if (!bare)
        return;
    lml_step step = {.is = "", .member = "", .first = (uint32_t)t->inputs, .inputs = 2};
    lml_trace_add_input(t, bare);
    lml_trace_add_input(t, t->told);
    lml_trace_known_line(L, t, &step);
    lml_trace_known_set(L, LML_TRACE_KNOWN_PRINTED, entry, lml_trace_add(t, &step));
}

uint32_t lml_trace_printed(lua_State *L, int entry)
{
    if (!lml_trace_known_in(L))
        return 0;
    entry = lua_absindex(L, entry);
    lml_trace_known_push(L, LML_TRACE_KNOWN_PRINTED);
    return lml_trace_known_take(L, entry);
}

uint32_t lml_trace_bare_add_plain(lml_trace *t, lml_step *step)
{
    step->how = LML_TRACE_PLAIN;
    step->first = (uint32_t)t->listed_at;
    step->inputs = t->listed != 0;
    uint32_t plain = lml_trace_add(t, step);
    lml_trace_add_also(t, plain, t->told);
    lml_trace_add_also(t, plain, t->text ? t->digits : 0);
    return plain;
}

uint32_t lml_trace_bare_add_leaf(lml_trace *t, const lml_step *step, uint32_t of)
{
    lml_step own = *step;
    own.aside = of != 0;
    uint32_t leaf = lml_trace_add(t, &own);
    lml_trace_add_also(t, leaf, of);
    return leaf;
}

/* The same number again, told as that step; that it may be another is told only to marks. */
static uint32_t add_again(lml_trace *t, uint32_t same)
{
    lml_step again = t->step[same];
    again.aside = true;
    uint32_t id = lml_trace_add(t, &again);
    lml_trace_add_also(t, id, lml_trace_bare_step(t));
    return id;
}

static bool is_count(double x)
{
    return fabs(x) <= SMALL && x == floor(x);
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

uint32_t lml_trace_bare_add_within(lua_State *L, lml_trace *t, int index)
{
    lml_step step = {.is = lml_trace_known_text(L, t, index), .member = ""};
    lml_trace_known_line(L, t, &step);
    uint32_t latest = take_latest(t, &step);
    uint32_t same = latest || is_count(lua_tonumber(L, index)) ? 0 : find_left(t, step.is);
    t->of_plain = t->of_plain || (!latest && !same);
    return latest ? latest
           : same ? add_again(t, same)
                  : lml_trace_add(t, &(lml_step){.is = step.is, .member = ""});
}

uint32_t lml_trace_bare_add(lua_State *L, lml_trace *t, int index)
{
    double x = lua_tonumber(L, index);
    lml_step step = {.is = lml_trace_known_text(L, t, index), .member = ""};
    lml_trace_known_line(L, t, &step);
    if (t->lefts == t->left_from || !t->text || x == 0 || fabs(x) == 1) {
        uint32_t bare = lml_trace_bare_step(t);
        bool written =
            !bare || x == 0 || fabs(x) == 1 || lml_trace_bare_is_innocent(L, t, &step, x);
        return lml_trace_bare_add_leaf(t, &(lml_step){.is = step.is, .member = ""},
                                       written ? 0 : bare);
    }
    if (take_latest(t, &step))
        return t->latest;
    if (lml_trace_file_has(t, step.file, step.line, fabs(x)))
        return lml_trace_add(t, &(lml_step){.is = step.is, .member = ""});
    uint32_t same = is_count(x) ? 0 : find_left(t, step.is);
    return same ? add_again(t, same) : lml_trace_bare_add_plain(t, &step);
}
