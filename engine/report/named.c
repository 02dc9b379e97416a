#include "report/named.h"

#include "base/nearest.h"
#include "base/text.h"
#include "cell/raise.h"
#include "cell/trace.h"
#include "cell/view.h"
#include "file/shape.h"
#include "report/marks.h"
#include "report/result_withheld.h"
#include "run/part.h"

#include <stdio.h>
#include <string.h>

/* Roundings and units between a figure and the line that shows it: a line rounds, changes the unit
 * and writes, and one is to spare. A choice of ours. */
enum { RESHOWN = 4 };

/* One of the things that the name may mean. */
typedef struct meaning {
    char recipe[LML_NAMED], figure[LML_NAMED];
    uint32_t step; /* 0: none is known */
    int part;      /* its place in the list of parts */
} meaning;

typedef struct search {
    const char *name;
    int parts; /* the index of the list of parts: the job's own first, then those in it */
    size_t count;
    meaning found[2];
    bool is_label; /* some line is called so */
    /* Such lines that show no figure of a recipe: the value of the first is in the list of parts
     * as "line", with the part that printed it. */
    int line_part;
    uint32_t line_step;
    bool lines_differ;
    /* While figures are compared with a step: */
    uint32_t step;
    char like[LML_NAMED], match[LML_NAMED];
} search;

/* ---- figures of one part ---- */

bool lml_named_push(lua_State *L, int part, const char *at)
{
    const int top = lua_gettop(L);
    /* "quote." names nothing; a recipe that failed has no results */
    if (!*at || lua_getfield(L, part, "results") != LUA_TTABLE) {
        lua_settop(L, top);
        return false;
    }
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

static void match(lua_State *L, void *self, int part, const char *called)
{
    search *s = self;
    if (lml_marks_root(L, part, called) != s->step)
        return;
    if (!s->match[0] || strcmp(called, s->like) == 0)
        snprintf(s->match, sizeof s->match, "%s", called);
}

/* Whether the part gives what the step gave; its name is in s->match then. Of two, that which is
 * called like the figure sought. */
static bool gives_step(lua_State *L, search *s, int part, uint32_t step, const char *like)
{
    if (!step)
        return false;
    s->step = step;
    s->match[0] = '\0';
    snprintf(s->like, sizeof s->like, "%s", like);
    lml_marks_each(L, part, false, match, s);
    if (!s->match[0])
        lml_marks_each(L, part, true, match, s);
    return s->match[0] != '\0';
}

/* ---- meanings ---- */

/* The figure of the part at `place` is one. The same step twice is one meaning. */
static void add(lua_State *L, search *s, int place, int part, const char *figure)
{
    const int top = lua_gettop(L);
    if (s->count == 2 || !lml_named_push(L, part, figure))
        return;
    meaning *m = &s->found[s->count];
    *m = (meaning){.step = lml_marks_root(L, part, figure), .part = place};
    snprintf(m->figure, sizeof m->figure, "%s", figure);
    lua_getfield(L, part, "recipe");
    snprintf(m->recipe, sizeof m->recipe, "%s", lua_tostring(L, -1));
    bool known = s->count == 1 &&
                 (m->step ? m->step == s->found[0].step
                          : place == s->found[0].part && strcmp(figure, s->found[0].figure) == 0);
    s->count += !known;
    lua_settop(L, top);
}

/* RECIPE.FIGURE */
static void try_recipe(lua_State *L, search *s, int place, int part)
{
    lua_getfield(L, part, "recipe");
    const char *recipe = lua_tostring(L, -1);
    size_t length = strlen(recipe);
    if (strncmp(s->name, recipe, length) == 0 && s->name[length] == '.')
        add(L, s, place, part, s->name + length + 1);
    lua_pop(L, 1);
}

/* What gave the figure that a rounding or another unit only shows. */
static uint32_t before(const lml_trace *t, uint32_t step)
{
    static const char *const shows[] = {"as", "nearest", "up_to", "down_to", "rounded"};
    const lml_step *s = &t->step[step];
    for (size_t i = 0; s->how && s->inputs > 0 && i < sizeof shows / sizeof *shows; i++)
        if (strcmp(s->how, shows[i]) == 0)
            return t->input[s->first];
    return 0;
}

static bool is_figure(lua_State *L)
{
    return lml_class_test(L, -1, LML_CLASS_VALUE) || lua_type(L, -1) == LUA_TNUMBER;
}

/* Push the figure that the line shows, or what it shows instead: its value, else the least that
 * is to be measured, when it is done, what it is. */
static void push_shown(lua_State *L, int entry)
{
    static const char *const fields[] = {"value", "least", "at", "after", "most", "fineness"};
    const int top = lua_gettop(L);
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        lua_settop(L, top);
        lua_getfield(L, entry, fields[i]);
        if (is_figure(L))
            return;
    }
}

/* A line that shows what no recipe gives: its value itself. */
static void keep_line(lua_State *L, search *s, int place, int entry)
{
    push_shown(L, entry);
    bool figure = is_figure(L);
    uint32_t step = lml_trace_of(L, -1);
    if (!figure || !step || (s->line_part && step == s->line_step)) {
        lua_pop(L, 1);
        return;
    }
    s->lines_differ = s->line_part != 0;
    s->line_part = place;
    s->line_step = step;
    lua_setfield(L, s->parts, "line");
}

/* A line that shows a text which its recipe gives: the mark, its law. */
static void try_text(lua_State *L, search *s, int place, int part, int entry)
{
    const int top = lua_gettop(L);
    if (lua_getfield(L, entry, "value") == LUA_TSTRING &&
        lua_getfield(L, part, "results") == LUA_TTABLE)
        for (lua_pushnil(L); lua_next(L, top + 2); lua_settop(L, top + 3)) {
            if (lua_type(L, top + 3) == LUA_TSTRING && lua_rawequal(L, -1, top + 1))
                add(L, s, place, part, lua_tostring(L, top + 3));
        }
    lua_settop(L, top);
}

/* The figure that a line shows: that which it names, else that which gave its value: of the part
 * itself, then of any other. */
static void try_line(lua_State *L, search *s, int place, int part, int entry)
{
    const int top = lua_gettop(L);
    push_shown(L, entry);
    uint32_t step = lml_trace_of(L, -1);
    if (lua_getfield(L, entry, "of") == LUA_TSTRING) {
        add(L, s, place, part, lua_tostring(L, -1));
        lua_settop(L, top);
        return;
    }
    for (int n = 0; step && n < RESHOWN; n++, step = before(lml_box_of(L)->trace, step)) {
        lua_Integer parts = (lua_Integer)lua_rawlen(L, s->parts);
        for (lua_Integer i = 0; i <= parts; i++) {
            lua_settop(L, top);
            lua_rawgeti(L, s->parts, i == 0 ? place : i);
            if (!gives_step(L, s, lua_gettop(L), step, ""))
                continue;
            add(L, s, i == 0 ? place : (int)i, lua_gettop(L), s->match);
            lua_settop(L, top);
            return;
        }
    }
    lua_settop(L, top);
    try_text(L, s, place, part, entry);
    keep_line(L, s, place, entry);
}

/* An entry of a part, whose label is on top of the stack. */
typedef void (*see_line)(lua_State *L, void *self, int place, int part, int entry);

/* The label on top of the stack becomes what the sheet prints: who guesses a figure that is left
 * out there must not learn that it is right. */
static void mask_label(lua_State *L, int part)
{
    lml_result_withheld_push(L, part, lua_gettop(L));
    lua_replace(L, -2);
}

/* Each figure of the row, which is on top of the stack, as a line of its own. */
static void each_cell(lua_State *L, int columns, int place, int part, see_line see, void *self)
{
    const int row = lua_gettop(L), entry = row + 2;
    if (lua_rawgeti(L, row, 1) == LUA_TSTRING) {
        mask_label(L, part);
        for (lua_Integer i = 2; i <= (lua_Integer)lua_rawlen(L, row); i++) {
            lua_createtable(L, 0, 1);
            lua_rawgeti(L, row, i);
            if (is_figure(L) && lua_rawgeti(L, columns, i) == LUA_TSTRING) {
                lua_pushvalue(L, -2);
                lua_setfield(L, entry, "value");
                mask_label(L, part);
                lua_pushfstring(L, "%s, %s", lua_tostring(L, row + 1), lua_tostring(L, -1));
                see(L, self, place, part, entry);
            }
            lua_settop(L, row + 1);
        }
    }
    lua_settop(L, row);
}

static void each_row(lua_State *L, int entry, int place, int part, see_line see, void *self)
{
    const int columns = lua_gettop(L) + 1;
    if (lua_getfield(L, entry, "columns") == LUA_TTABLE) {
        lua_getfield(L, entry, "rows");
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, columns + 1); i++) {
            lua_rawgeti(L, columns + 1, i);
            each_cell(L, columns, place, part, see, self);
            lua_settop(L, columns + 1);
        }
        if (lua_getfield(L, entry, "total") == LUA_TTABLE)
            each_cell(L, columns, place, part, see, self);
    }
    lua_settop(L, columns - 1);
}

/* Call `see` for each entry of the part that has a label, and for each cell of its grids. */
static void each_line(lua_State *L, int place, int part, see_line see, void *self)
{
    lml_box_need_stack(L, 24);
    const int top = lua_gettop(L);
    lua_getfield(L, part, "pages");
    for (size_t p = 0; p < lml_part_pages(); p++) {
        lua_settop(L, top + 1);
        if (lua_getfield(L, -1, lml_part_page(p)) != LUA_TTABLE)
            continue;
        for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 2); i++) {
            lua_rawgeti(L, top + 2, i);
            if (lua_getfield(L, top + 3, "label") == LUA_TSTRING) {
                mask_label(L, part);
                see(L, self, place, part, top + 3);
            } else {
                each_row(L, top + 3, place, part, see, self);
            }
            lua_settop(L, top + 2);
        }
    }
    lua_settop(L, top);
}

static void see_label(lua_State *L, void *self, int place, int part, int entry)
{
    search *s = self;
    if (strcmp(lua_tostring(L, -1), s->name) != 0)
        return;
    s->is_label = true;
    try_line(L, s, place, part, entry);
}

/* ---- the parts ---- */

/* Append the part and those in it to the list at s->parts. */
static void list_parts(lua_State *L, const search *s, int part)
{
    lml_box_need_stack(L, 12);
    part = lua_absindex(L, part);
    const int top = lua_gettop(L);
    lua_pushvalue(L, part);
    lua_rawseti(L, s->parts, (lua_Integer)lua_rawlen(L, s->parts) + 1);
    lua_getfield(L, part, "within");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1); i++) {
        lua_rawgeti(L, top + 1, i);
        list_parts(L, s, top + 2);
        lua_settop(L, top + 1);
    }
    lua_settop(L, top);
}

static void each_part(lua_State *L, search *s, void (*f)(lua_State *, search *, int, int))
{
    const int top = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, s->parts); i++) {
        lua_rawgeti(L, s->parts, i);
        f(L, s, (int)i, top + 1);
        lua_settop(L, top);
    }
}

static void try_labels(lua_State *L, search *s, int place, int part)
{
    each_line(L, place, part, see_label, s);
}

void lml_named_push_giver(lua_State *L, int part, const char *figure)
{
    part = lua_absindex(L, part);
    const int text = lua_gettop(L), giver = text + 2;
    lml_box_need_stack(L, 12);
    lua_newtable(L);
    const search s = {.parts = text + 1};
    list_parts(L, &s, part);
    lua_pushvalue(L, part);
    for (lua_Integer i = 2; i <= (lua_Integer)lua_rawlen(L, s.parts); i++) {
        if (!lua_rawequal(L, giver, part))
            break;
        lua_rawgeti(L, s.parts, i);
        if (lml_named_push(L, giver + 1, figure) && lua_rawequal(L, -1, text)) {
            lua_pushvalue(L, giver + 1);
            lua_replace(L, giver);
        }
        lua_settop(L, giver);
    }
    lua_remove(L, s.parts);
}

/* ---- refusing ---- */

/* What may be offered; the list keeps the texts. */
typedef struct offers {
    lml_nearest near;
    int texts;
} offers;

/* The text on top of the stack; pops it. */
static void offer(lua_State *L, offers *o)
{
    lml_nearest_offer(&o->near, lml_span_of(lua_tostring(L, -1)));
    lua_rawseti(L, o->texts, (lua_Integer)lua_rawlen(L, o->texts) + 1);
}

static void offer_label(lua_State *L, void *self, int place, int part, int entry)
{
    (void)place;
    (void)entry;
    lml_result_withheld_push(L, part, lua_gettop(L));
    offer(L, self);
}

static void offer_part(lua_State *L, offers *o, int place, int part)
{
    const int top = lua_gettop(L);
    each_line(L, place, part, offer_label, o);
    lua_getfield(L, part, "recipe");
    if (lua_getfield(L, part, "results") == LUA_TTABLE)
        for (lua_pushnil(L); lua_next(L, top + 2); lua_settop(L, top + 3)) {
            if (lua_type(L, top + 3) != LUA_TSTRING)
                continue;
            const char *figure = lua_tostring(L, top + 3);
            if (place == 1) {
                lua_pushstring(L, figure);
                offer(L, o);
            }
            lua_pushfstring(L, "%s.%s", lua_tostring(L, top + 1), figure);
            offer(L, o);
        }
    lua_settop(L, top);
}

/* The job may not have it because a recipe that it uses withholds it. */
static void refuse_withheld(lua_State *L, const search *s)
{
    lml_error e;
    const int top = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, s->parts); i++) {
        lua_rawgeti(L, s->parts, i);
        lua_getfield(L, -1, "withheld");
        lua_pushlstring(L, s->name, strcspn(s->name, ".["));
        if (lua_istable(L, -2) && lua_rawget(L, -2) == LUA_TSTRING) {
            lml_fail(&e, LML_NOT_FOUND, "%s is withheld by %s", s->name, lua_tostring(L, -1));
            lml_error_hint(&e, "lemel run shows the text of that stop, and what to do about it");
            lml_raise_as_is(L, &e);
        }
        lua_settop(L, top);
    }
}

/* A recipe may leave a figure out, where it could not read what that needs. */
static void refuse_absent(lua_State *L, const search *s)
{
    lml_error e;
    const int top = lua_gettop(L);
    const lml_span name = {s->name, strcspn(s->name, ".[")};
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, s->parts); i++) {
        lua_rawgeti(L, s->parts, i);
        lua_getfield(L, -1, "gives");
        const lml_shape *gives = lua_touserdata(L, -1);
        const bool declared = gives && lml_shape_field_named(gives, name);
        lua_getfield(L, -2, "results");
        lua_pushlstring(L, name.at, name.length);
        if (declared && (!lua_istable(L, top + 3) || lua_rawget(L, top + 3) == LUA_TNIL)) {
            lml_fail(&e, LML_NOT_FOUND, "this job does not give '%.*s'", LML_SPAN_SHOWN(name));
            lml_error_hint(&e, "lemel run shows what stops it, or what the job does not say");
            lml_raise_as_is(L, &e);
        }
        lua_settop(L, top);
    }
}

/* A wrong place in a list is no wrong name: "weigh[9].mass". */
static int refuse_unknown(lua_State *L, const search *s)
{
    lml_error e;
    const lml_span cut = {s->name, strcspn(s->name, "[")};
    refuse_withheld(L, s);
    refuse_absent(L, s);
    lua_newtable(L);
    offers o = {.near = lml_nearest_to(cut), .texts = lua_gettop(L)};
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, s->parts); i++) {
        lua_rawgeti(L, s->parts, i);
        offer_part(L, &o, (int)i, lua_gettop(L));
        lua_pop(L, 1);
    }
    lml_fail(&e, LML_NOT_FOUND, "the job has no figure '%s'", s->name);
    if (lml_nearest_found(&o.near) && !lml_span_equal(o.near.best, cut))
        lml_error_hint(&e, "did you mean '%.*s%s'?", LML_SPAN_SHOWN(o.near.best),
                       s->name + cut.length);
    else
        lml_error_hint(&e, "lemel run JOB --format json lists them under \"results\"");
    return lml_raise_as_is(L, &e);
}

static int refuse_line(lua_State *L, const search *s)
{
    lml_error e;
    lml_fail(&e, LML_NOT_FOUND, "the line '%s' shows no figure", s->name);
    lml_error_hint(&e, "lemel run JOB --format json lists the figures under \"results\"");
    return lml_raise_as_is(L, &e);
}

static int refuse_lines(lua_State *L, const search *s)
{
    lml_error e;
    lml_fail(&e, LML_NOT_FOUND, "several lines are called '%s', and they show different figures",
             s->name);
    lml_error_hint(&e, "name a figure: lemel run JOB --format json lists them under \"results\"");
    return lml_raise_as_is(L, &e);
}

static int refuse_two(lua_State *L, const search *s)
{
    lml_error e;
    const meaning *a = &s->found[0], *b = &s->found[1];
    bool same = strcmp(a->recipe, b->recipe) == 0 && strcmp(a->figure, b->figure) == 0;
    if (same)
        lml_fail(&e, LML_NOT_FOUND, "'%s' has two meanings: the job uses '%s' more than once",
                 s->name, a->recipe);
    else
        lml_fail(&e, LML_NOT_FOUND, "'%s' has two meanings in this job: %s.%s and %s.%s", s->name,
                 a->recipe, a->figure, b->recipe, b->figure);
    lml_error_hint(&e, same ? "name a figure that the job itself gives: lemel run JOB --format "
                              "json lists them under \"results\""
                            : "name one of the two");
    return lml_raise_as_is(L, &e);
}

/* ---- the whole ---- */

/* A name in quotes is a label, whatever it looks like; else NULL. */
static const char *label_of(const char *name, char out[LML_NAMED])
{
    size_t length = strlen(name);
    bool quoted = length > 2 && length < LML_NAMED && name[0] == '"' && name[length - 1] == '"';
    if (!quoted)
        return NULL;
    snprintf(out, LML_NAMED, "%.*s", (int)length - 2, name + 1);
    return out;
}

/* The part that printed the line, and its value. */
static void push_line(lua_State *L, const search *s, lml_named *out)
{
    const int top = s->parts - 1;
    if (s->lines_differ)
        refuse_lines(L, s);
    lua_getfield(L, s->parts, "line");
    lua_rawgeti(L, s->parts, s->line_part);
    lua_replace(L, top + 1);
    out->is_line = true;
    snprintf(out->called, sizeof out->called, "%s", s->name);
    snprintf(out->figure, sizeof out->figure, "%s", s->name);
}

/* The figure on top of the stack is what is meant: kept, unless it is withheld. */
static void take_shown(lua_State *L, search *s, int place, int part)
{
    s->is_label = true;
    if (lml_result_withheld_figure(L, part, NULL, lua_gettop(L)))
        return;
    s->line_part = place;
    lua_setfield(L, s->parts, "line");
}

/* The first line of that label that shows a figure decides. */
static void see_shown(lua_State *L, void *self, int place, int part, int entry)
{
    search *s = self;
    if (s->is_label || strcmp(lua_tostring(L, -1), s->name) != 0)
        return;
    push_shown(L, entry);
    if (!is_figure(L))
        return;
    take_shown(L, s, place, part);
}

static void try_shown_line(lua_State *L, search *s, int place, int part)
{
    each_line(L, place, part, see_shown, s);
}

/* RECIPE.FIGURE, of the first part that has it. */
static void try_shown_figure(lua_State *L, search *s, int place, int part)
{
    const size_t length = strcspn(s->name, ".");
    lua_getfield(L, part, "recipe");
    if (s->is_label || strlen(lua_tostring(L, -1)) != length ||
        strncmp(s->name, lua_tostring(L, -1), length) != 0 ||
        !lml_named_push(L, part, s->name + length + 1))
        return;
    take_shown(L, s, place, part);
}

bool lml_named_push_shown(lua_State *L, int part, const char *called)
{
    char text[LML_NAMED];
    const char *label = label_of(called, text);
    const int top = lua_gettop(L);
    search s = {.name = label ? label : called, .parts = top + 1};
    lml_box_need_stack(L, 12);
    part = lua_absindex(L, part);
    lua_newtable(L);
    list_parts(L, &s, part);
    each_part(L, &s, label ? try_shown_line : try_shown_figure);
    if (s.line_part)
        lua_getfield(L, s.parts, "line");
    lua_remove(L, s.parts);
    return s.line_part != 0;
}

void lml_named_find(lua_State *L, int part, const char *name, lml_named *out)
{
    char text[LML_NAMED];
    const char *label = label_of(name, text);
    part = lua_absindex(L, part);
    search s = {.name = label ? label : name};
    lml_box_need_stack(L, 12);
    const int top = lua_gettop(L);
    out->is_line = false;
    if (!label && lml_named_push(L, part, name)) {
        lua_pushvalue(L, part);
        lua_replace(L, top + 1);
        lml_named_push(L, part, name);
        snprintf(out->called, sizeof out->called, "%s", name);
        snprintf(out->figure, sizeof out->figure, "%s", name);
        return;
    }
    lua_newtable(L);
    s.parts = top + 1;
    list_parts(L, &s, part);
    if (!label)
        each_part(L, &s, try_recipe);
    if (s.count == 0)
        each_part(L, &s, try_labels);
    if (s.count == 0 && s.line_part) {
        push_line(L, &s, out);
        return;
    }
    if (s.count == 0)
        s.is_label ? refuse_line(L, &s) : refuse_unknown(L, &s);
    if (s.count == 2)
        refuse_two(L, &s);
    const meaning *m = &s.found[0];
    lua_rawgeti(L, s.parts, m->part);
    lua_replace(L, top + 1);
    snprintf(out->figure, sizeof out->figure, "%s", m->figure);
    if (gives_step(L, &s, part, m->step, m->figure))
        snprintf(out->called, sizeof out->called, "%s", s.match);
    else if (m->part == 1)
        snprintf(out->called, sizeof out->called, "%s", m->figure);
    else
        snprintf(out->called, sizeof out->called, "%.100s.%.150s", m->recipe, m->figure);
    lml_named_push(L, top + 1, m->figure);
}
