#include "report/marks.h"

#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "read/read.h"
#include "run/part.h"
#include "shelf/house_unit.h"
#include "shelf/shelf.h"
#include "value/show.h"
#include "value/step.h"

#include <stdio.h>
#include <string.h>

/* ROOTS figures of a give are gone through together, the next thousand after them: more at once
 * saves nothing. A choice of ours. */
enum { NAME = LML_PART_NAME, DEEP = LML_PART_DEEP, ROOTS = 1000 };

/* A figure that a stop withholds. */
typedef struct lml_root {
    uint32_t step, code;
    bool inner; /* of a list or record */
} lml_root;

/* By step. `by` is the place of a code in the list, from 1; 0: not of a withheld figure. */
typedef struct lml_marks {
    const lml_trace *trace;
    uint32_t *by;
    uint32_t *shared;  /* 1: it came from what the job or the house says and a withheld one too */
    bool of_constants; /* a withheld figure comes from what a recipe says alone */
    bool *itself;      /* was said, and is withheld under the name of a give */
    uint32_t printed;  /* the step of what was bare when the entry was printed; 0 */
    lua_Integer codes;
    char give[NAME]; /* whose figures are gathered */
    lml_root root[ROOTS];
    size_t roots;
    uint32_t *leads; /* 1: it led to one of those; else 0 */
} lml_marks;

static const char CODES; /* registry key: the list of codes */

/* ---- figures in a part ---- */

uint32_t lml_marks_root(lua_State *L, int part, const char *called)
{
    uint32_t root = lml_trace_of(L, -1);
    if (root || (lua_type(L, -1) != LUA_TNUMBER && lua_type(L, -1) != LUA_TSTRING))
        return root;
    lua_getfield(L, part, "numbers");
    lua_getfield(L, -1, called);
    root = (uint32_t)lua_tointeger(L, -1);
    lua_pop(L, 2);
    return root;
}

/* Call `see` for what is called so, and lies on top of the stack, or for all in it and for its
 * keys.
 */
static void each(lua_State *L, void *self, int part, const char *called, int depth,
                 lml_marks_see see)
{
    const int top = lua_gettop(L);
    if (!lml_view_test_content(L, -1)) {
        see(L, self, part, called);
        return;
    }
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    lua_Integer keys = depth > DEEP ? 0 : lml_key_push_sorted(L, content);
    for (lua_Integer i = 1; i <= keys; i++) {
        char inner[NAME], key[NAME];
        lua_rawgeti(L, content + 1, i);
        lml_part_name_member(L, called, -1, inner);
        if (lua_type(L, -1) == LUA_TSTRING) {
            lml_part_name_key(inner, key);
            see(L, self, part, key);
        }
        lua_rawget(L, content);
        each(L, self, part, inner, depth + 1, see);
        lua_settop(L, content + 1);
    }
    lua_settop(L, top);
}

void lml_marks_each(lua_State *L, int part, bool withheld, lml_marks_see see, void *self)
{
    part = lua_absindex(L, part);
    const int top = lua_gettop(L);
    lml_box_need_stack(L, 8);
    lua_getfield(L, part, "withheld");
    if (lua_getfield(L, part, "results") != LUA_TTABLE) { /* its recipe failed */
        lua_settop(L, top);
        return;
    }
    lua_Integer keys = lml_key_push_sorted(L, top + 2);
    for (lua_Integer i = 1; i <= keys; i++) {
        lua_rawgeti(L, top + 3, i);
        lua_pushvalue(L, -1);
        if ((lua_rawget(L, top + 1) != LUA_TNIL) == withheld) {
            const char *called = lua_tostring(L, top + 4);
            lua_pushvalue(L, top + 4);
            lua_rawget(L, top + 2);
            each(L, self, part, called, 0, see);
        }
        lua_settop(L, top + 3);
    }
    lua_settop(L, top);
}

/* Call `f` for the part and all within it. */
static void each_part(lua_State *L, int part, void (*f)(lua_State *L, lml_marks *m, int part),
                      lml_marks *m)
{
    lml_box_need_stack(L, 12);
    part = lua_absindex(L, part);
    const int top = lua_gettop(L);
    f(L, m, part);
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1); i++) {
        lua_rawgeti(L, top + 1, i);
        each_part(L, top + 2, f, m);
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
}

/* ---- marking ---- */

static bool is_said(const lml_step *s)
{
    return s->what && strcmp(s->what, "written in the recipe") != 0;
}

/* Of the largest or smallest of some the one that it is. */
static const lml_step *chosen(const lml_trace *t, const lml_step *s)
{
    enum { CHOICES = 20 };
    for (int n = 0; n < CHOICES && s->how; n++) {
        const lml_step *one = NULL;
        if (strcmp(s->how, "max") != 0 && strcmp(s->how, "min") != 0)
            return s;
        for (uint32_t i = 0; i < s->inputs && !one; i++)
            if (strcmp(t->step[t->input[s->first + i]].is, s->is) == 0)
                one = &t->step[t->input[s->first + i]];
        if (!one)
            return s;
        s = one;
    }
    return s;
}

/* Said, or written in the recipe: Q "0 g". */
static bool is_no_secret(const lml_trace *t, const lml_step *s)
{
    s = chosen(t, s);
    bool written = s->how && strcmp(s->how, "Q") == 0 && s->inputs == 1 && !s->aside;
    const lml_step *in = written ? &t->step[t->input[s->first]] : NULL;
    return is_said(s) || (in && in->inputs == 0 && !in->aside);
}

/* The place of the code that withholds the give. */
static uint32_t code_of(lua_State *L, lml_marks *m, int part, const char *called)
{
    const int top = lua_gettop(L);
    lua_getfield(L, part, "withheld");
    lua_pushlstring(L, called, strcspn(called, ".["));
    lua_rawget(L, -2);
    lml_run_push_registry(L, &CODES);
    lua_pushvalue(L, -2);
    lua_rawseti(L, -2, ++m->codes);
    lua_settop(L, top);
    return (uint32_t)m->codes;
}

/* Of the figures in a list some come from others in it: the hold of a flask and its pour. What the
 * others are for is withheld with the list, and their other results are not. */
static void mark_ends(lml_marks *m)
{
    const lml_trace *t = m->trace;
    uint32_t last = 0;
    for (size_t i = 0; i < m->roots; i++) {
        const lml_step *s = &t->step[m->root[i].step];
        for (uint32_t k = 0; k < s->inputs; k++)
            m->leads[t->input[s->first + k]] = 1;
        last = m->root[i].step > last ? m->root[i].step : last;
    }
    for (uint32_t i = last; i > 0; i--)
        for (uint32_t k = 0; m->leads[i] && k < t->step[i].inputs; k++)
            m->leads[t->input[t->step[i].first + k]] = 1;
    for (size_t i = 0; i < m->roots; i++) {
        uint32_t root = m->root[i].step;
        if (m->root[i].inner && m->leads[root])
            m->itself[root] = true;
        else
            m->by[root] = m->root[i].code;
    }
    memset(m->leads, 0, t->steps * sizeof *m->leads);
    m->roots = 0;
}

static void mark_one(lua_State *L, void *self, int part, const char *called)
{
    lml_marks *m = self;
    uint32_t root = lml_marks_root(L, part, called);
    bool written = lua_type(L, -1) == LUA_TSTRING && lml_trace_is_innocent(L, 0, -1);
    size_t length = strcspn(called, ".[");
    if (strncmp(called, m->give, length) != 0 || m->give[length]) {
        mark_ends(m);
        snprintf(m->give, sizeof m->give, "%.*s", (int)length, called);
    }
    if (!root || written || is_no_secret(m->trace, &m->trace->step[root]))
        return;
    if (m->roots == ROOTS)
        mark_ends(m);
    m->root[m->roots++] = (lml_root){root, code_of(L, m, part, called), called[length] != '\0'};
}

static void mark_part(lua_State *L, lml_marks *m, int part)
{
    m->give[0] = '\0';
    lml_marks_each(L, part, true, mark_one, m);
    mark_ends(m);
}

/* The mark of a text that was joined of others, one of which came from a withheld figure. */
static uint32_t mark_of_pieces(lua_State *L, const lml_marks *m, int index)
{
    if (lua_type(L, index) != LUA_TSTRING || lml_trace_is_innocent(L, 0, index))
        return 0; /* a literal, whatever it says */
    return m->by[lml_trace_piece(L, index, m->by)];
}

/* What was said or written hands nothing on. Such a figure is identified by its amount. */
static void mark_said(lua_State *L, void *self, int part, const char *called)
{
    lml_marks *m = self;
    uint32_t root = lml_marks_root(L, part, called);
    const lml_step *s = &m->trace->step[root];
    if (!root || !is_no_secret(m->trace, s))
        return;
    m->of_constants = m->of_constants || !is_said(s);
    m->itself[root] = m->itself[root] || !strpbrk(called, ".[");
}

static void mark_said_part(lua_State *L, lml_marks *m, int part)
{
    lml_marks_each(L, part, true, mark_said, m);
}

static void withhold_one(lua_State *L, void *self, int part, const char *called)
{
    const lml_marks *m = self;
    const int top = lua_gettop(L);
    uint32_t by = m->by[lml_marks_root(L, part, called)];
    by = by ? by : mark_of_pieces(L, m, -1);
    if (!by)
        return;
    lua_getfield(L, part, "withheld");
    lua_pushlstring(L, called, strcspn(called, ".["));
    lml_run_push_registry(L, &CODES);
    lua_rawgeti(L, -1, by);
    lua_replace(L, -2);
    lua_rawset(L, top + 1);
    lua_getfield(L, part, "derived");
    if (!lua_istable(L, -1)) {
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_setfield(L, part, "derived");
    }
    lua_pushlstring(L, called, strcspn(called, ".["));
    lua_pushboolean(L, 1);
    lua_rawset(L, -3);
    lua_settop(L, top);
}

static void withhold_part(lua_State *L, lml_marks *m, int part)
{
    lml_marks_each(L, part, false, withhold_one, m);
}

/* What was said and leads to a marked root is shared; so is all that resulted from it. */
static void find_shared(lml_marks *m, uint32_t *leads)
{
    const lml_trace *t = m->trace;
    for (size_t i = 1; i < t->steps; i++)
        leads[i] = m->by[i] != 0;
    for (size_t i = t->steps - 1; i > 0; i--)
        for (uint32_t k = 0; leads[i] && k < t->step[i].inputs; k++)
            leads[t->input[t->step[i].first + k]] = 1;
    for (size_t i = 1; i < t->steps; i++)
        m->shared[i] = leads[i] && is_said(&t->step[i]);
}

/* Whether a marked root comes from nothing that was said. */
static bool comes_from_constants(const lml_marks *m, uint32_t *said)
{
    const lml_trace *t = m->trace;
    bool found = false;
    for (size_t i = 1; i < t->steps; i++)
        said[i] = is_said(&t->step[i]);
    lml_trace_spread(t, said);
    for (size_t i = 1; i < t->steps; i++)
        found = found || (m->by[i] && !said[i]);
    return found;
}

void lml_marks_look(lua_State *L, int part)
{
    lml_box *box = lml_box_of(L);
    lml_run *run = lml_run_of(L);
    lml_alloc alloc = lml_pool_alloc(&box->pool); /* goes with the run: writing may raise */
    if (!box->trace || run->marks)
        return;
    if (box->trace->short_of) {
        lml_error e;
        lml_fail(&e, LML_LIMIT,
                 "the run has too many steps to tell what came from a figure that is withheld");
        lml_error_hint(&e, "resolve the stop first, or split the job");
        lml_raise_as_is(L, &e);
    }
    const size_t steps = box->trace->steps, room = steps * sizeof(uint32_t);
    lml_marks *m = lml_alloc_get(&alloc, sizeof *m);
    uint32_t *work = lml_alloc_get(&alloc, room);
    if (m)
        *m = (lml_marks){.trace = box->trace,
                         .by = lml_alloc_get(&alloc, room),
                         .shared = lml_alloc_get(&alloc, room),
                         .itself = lml_alloc_get(&alloc, steps)};
    if (!m || !work || !m->by || !m->shared || !m->itself)
        lml_box_out_of_memory(box);
    lml_box_charge(L, 0); /* raises then */
    memset(m->by, 0, room);
    memset(m->itself, 0, steps);
    m->leads = work;
    memset(work, 0, room);
    each_part(L, part, mark_part, m);
    m->of_constants = comes_from_constants(m, work);
    memset(work, 0, room);
    memset(m->shared, 0, room);
    find_shared(m, work);
    lml_trace_spread(m->trace, m->shared);
    lml_trace_spread(m->trace, m->by);
    each_part(L, part, mark_said_part, m);
    each_part(L, part, withhold_part, m);
    run->marks = m;
}

/* ---- asking ---- */

bool lml_marks_are_there(lua_State *L)
{
    return lml_run_of(L)->marks != NULL;
}

bool lml_marks_are_any(lua_State *L)
{
    const lml_marks *m = lml_run_of(L)->marks;
    return m && m->codes > 0;
}

enum { SHOWS_DEEP = 12 }; /* steps of a sentence: a choice of ours */

/* Inputs, and what went in beside them: words in a sentence. */
static bool only_shows(const lml_trace *t, uint32_t step, int depth)
{
    static const char *const shows[] = {"Q", "as", "concat", "fill", "tostring"};
    const lml_step *s = &t->step[step];
    bool shown = !s->how || s->what;
    for (size_t i = 0; s->how && i < sizeof shows / sizeof *shows; i++)
        shown = shown || strcmp(s->how, shows[i]) == 0;
    if (!shown || s->caught || s->is_list || depth == SHOWS_DEEP)
        return false;
    for (uint32_t i = 0; shown && i < s->inputs; i++)
        shown = only_shows(t, t->input[s->first + i], depth + 1);
    for (size_t i = 0; shown && i < t->alsos; i++)
        shown = t->also[i].step != step || only_shows(t, t->also[i].from, depth + 1);
    return shown;
}

bool lml_marks_only_shows(lua_State *L, uint32_t step)
{
    return only_shows(lml_box_of(L)->trace, step, 0);
}

bool lml_marks_has(lua_State *L, uint32_t step)
{
    const lml_marks *m = lml_run_of(L)->marks;
    return m && (m->by[step] != 0 || (m->itself[step] && !is_said(&m->trace->step[step])));
}

void lml_marks_enter(lua_State *L, int entry)
{
    lml_marks *m = lml_run_of(L)->marks;
    if (m)
        m->printed = entry ? lml_trace_printed(L, entry) : 0;
}

/* The mark of the bare number or text at the index, which nobody knows. */
static uint32_t mark_of_bare(lua_State *L, const lml_marks *m, int index)
{
    bool text = lua_type(L, index) == LUA_TSTRING;
    if (text && lml_trace_is_innocent(L, 0, index)) /* a literal, whatever it says */
        return 0;
    uint32_t piece = mark_of_pieces(L, m, index);
    if (piece)
        return piece;
    uint32_t by = m->printed ? m->by[lml_trace_in_print(L, m->printed, index)] : 0;
    return by && (text || !lml_trace_is_innocent(L, m->printed, index)) ? by : 0;
}

static uint32_t mark_of(lua_State *L, const lml_marks *m, int index, int depth)
{
    index = lua_absindex(L, index);
    uint32_t step = lml_trace_of(L, index), by = m->by[step];
    int type = lua_type(L, index);
    if (by && type == LUA_TSTRING && lml_trace_is_name(L, index))
        return 0; /* at most it was chosen: see docs/security.md */
    if (by || step)
        return by;
    if (type == LUA_TNUMBER || type == LUA_TSTRING)
        return mark_of_bare(L, m, index);
    if (depth > DEEP || !lml_view_test_content(L, index))
        return 0;
    lml_box_need_stack(L, 8);
    const int content = lua_gettop(L);
    for (lua_pushnil(L); !by && lua_next(L, content); lua_settop(L, content + 1))
        by = mark_of(L, m, -1, depth + 1);
    lua_settop(L, content - 1);
    return by;
}

bool lml_marks_push_code(lua_State *L, int index)
{
    const lml_marks *m = lml_run_of(L)->marks;
    uint32_t by = m ? mark_of(L, m, index, 0) : 0;
    if (!by)
        return false;
    lml_run_push_registry(L, &CODES);
    lua_rawgeti(L, -1, by);
    lua_remove(L, -2);
    return true;
}

static bool is_step_apart(const lml_marks *m, uint32_t step)
{
    const lml_step *s = &m->trace->step[step];
    return step && !m->by[step] && !m->itself[step] &&
           (is_said(s) || (!m->shared[step] && !m->of_constants));
}

bool lml_marks_is_open(lua_State *L, int index)
{
    const lml_marks *m = lml_run_of(L)->marks;
    uint32_t step = m ? lml_trace_of(L, index) : 0;
    if (m && lua_type(L, index) == LUA_TSTRING) /* a name */
        return !m->of_constants && !m->by[step] && lml_trace_is_innocent(L, 0, index);
    if (!step || m->by[step] || m->itself[step])
        return false;
    const lml_step *s = &m->trace->step[step];
    return is_said(s) || !is_no_secret(m->trace, s);
}

bool lml_marks_is_apart(lua_State *L, int index)
{
    const lml_marks *m = lml_run_of(L)->marks;
    return m && is_step_apart(m, lml_trace_of(L, index));
}

bool lml_marks_is_sentence_apart(lua_State *L, int index)
{
    const lml_marks *m = lml_run_of(L)->marks;
    if (!m || m->of_constants)
        return false;
    uint32_t step = lml_trace_of(L, index);
    return step ? is_step_apart(m, step) : lml_trace_is_innocent(L, 0, index);
}

/* What was rounded to a step is in a sentence in the house's unit. The text of a step has its
 * decimals, and its name the direction. */
static void as_rounded(const lml_step *s, lml_value *v)
{
    static const char *const hows[] = {
        [LML_TO_NEAREST] = "nearest", [LML_TO_UP] = "up_to", [LML_TO_DOWN] = "down_to"};
    size_t amount = strcspn(s->is, " ");
    const char *point = memchr(s->is, '.', amount);
    for (size_t i = 0; s->how && i < sizeof hows / sizeof *hows; i++)
        if (strcmp(s->how, hows[i]) == 0) {
            v->decimals = (uint8_t)(point ? s->is + amount - point - 1 : 0);
            v->toward = (uint8_t)i;
        }
}

/* The words that a sentence has for the value of the step; 0: it is not a value. */
static size_t words_of(lua_State *L, const lml_marks *m, uint32_t step, char *text)
{
    lml_value v;
    const lml_step *s = &m->trace->step[step];
    if (lml_read_value(lml_span_of(s->is), LML_WANT_ANYTHING, LML_NO_METAL, &v, NULL))
        return 0;
    as_rounded(s, &v);
    lml_value said = lml_house_unit_said(lml_shelf_house_in(L), &v);
    return lml_show_shown(&said, text);
}

bool lml_marks_are_words_apart(lua_State *L, int index, lml_span words)
{
    const lml_marks *m = lml_run_of(L)->marks;
    uint32_t step = m ? lml_trace_of(L, index) : 0;
    if (!step)
        return false;
    const lml_step *s = &m->trace->step[step];
    for (uint32_t i = 0; i < s->inputs; i++) {
        uint32_t in = m->trace->input[s->first + i];
        char text[LML_VALUE_TEXT];
        if (is_step_apart(m, in) &&
            lml_span_equal((lml_span){text, words_of(L, m, in, text)}, words))
            return true;
    }
    return false;
}

static const char ELLIPSIS[] = "\xE2\x80\xA6";

/* Replace the text on top by one in which the words are an ellipsis; false where it has not got
 * them. */
static bool mask(lua_State *L, const char *words)
{
    const char *text = lua_tostring(L, -1);
    if (!words[0] || !strstr(text, words))
        return false;
    luaL_gsub(L, text, words, ELLIPSIS);
    lua_replace(L, -2);
    return true;
}

bool lml_marks_push_masked(lua_State *L, int index)
{
    const lml_marks *m = lml_run_of(L)->marks;
    if (!m || lua_type(L, index) != LUA_TSTRING || !mark_of(L, m, index, 0))
        return false;
    uint32_t step = lml_trace_of(L, index);
    const lml_step *s = &m->trace->step[step];
    bool whole = step == 0 || s->aside || strcmp(s->how, "fill") != 0;
    bool masked = false;
    lua_pushvalue(L, index);
    for (uint32_t i = 0; !whole && i < s->inputs; i++) {
        uint32_t in = m->trace->input[s->first + i];
        char text[LML_VALUE_TEXT + 1];
        if (!m->by[in])
            continue;
        text[words_of(L, m, in, text)] = '\0';
        masked = mask(L, text);
        whole = !masked;
    }
    if (whole || !masked) {
        lua_pop(L, 1);
        lua_pushstring(L, ELLIPSIS);
    }
    return true;
}
