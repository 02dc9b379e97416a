#include "report/drawn.h"

#include "cell/class.h"
#include "cell/key.h"
#include "cell/state.h"
#include "report/marks.h"
#include "report/named.h"
#include "report/remarks.h"
#include "report/result_withheld.h"
#include "run/engine.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

typedef struct task {
    lml_run *run;
    lml_builder *to;
    bool stopped;
} task;

/* ---- figures ---- */

static void put(lml_builder *to, int kind, double size)
{
    lml_builder_add_char(to, (char)kind);
    lml_builder_add(to, (const char *)&size, sizeof size);
}

/* As a reader of the result has it, who reads no temperature below absolute zero, no pressure below
 * none and no fineness beyond the whole. */
static bool can_be_read(const lml_value *v, double si)
{
    if (v->kind == LML_TEMPERATURE || (v->kind == LML_QUANTITY && v->mode == LML_ABSOLUTE))
        return si >= 0;
    return v->kind != LML_FINENESS || (si >= 0 && si <= 1);
}

/* The value on top of the stack. */
static void put_figure(lua_State *L, lml_builder *to)
{
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    lml_value number;
    if (lua_type(L, -1) == LUA_TNUMBER) {
        number = lml_value_number(lua_tonumber(L, -1));
        v = &number;
    }
    if (v && (v->kind == LML_MONEY || v->kind == LML_MOMENT)) {
        put(to, v->kind, (double)v->exact);
        return;
    }
    double si = v && v->kind < LML_MONEY ? lml_write_read_number(v) : (double)NAN;
    if (v && isfinite(si) && can_be_read(v, si))
        put(to, v->kind, si);
    else
        put(to, LML_DRAWN_NONE, NAN);
}

/* Whether the part withholds its give of that name. */
static bool is_withheld(lua_State *L, int part, const char *give)
{
    const int top = lua_gettop(L);
    lua_getfield(L, part, "withheld");
    lua_pushlstring(L, give, strcspn(give, ".["));
    const bool withheld = lua_rawget(L, top + 1) != LUA_TNIL;
    lua_settop(L, top);
    return withheld;
}

static bool withholds(lua_State *L, int part)
{
    lua_getfield(L, part, "withheld");
    const bool any = lml_key_has_more(L, lua_gettop(L), 0);
    lua_pop(L, 1);
    return any;
}

static void put_figures(lua_State *L, lml_builder *to, int part)
{
    char called[LML_NAMED];
    const int top = lua_gettop(L);
    const bool all = !withholds(L, part);
    lml_marks_enter(L, 0);
    for (const char *at = lml_run_of(L)->engine->wanted; *at; at += *at == '\n') {
        const size_t length = strcspn(at, "\n"),
                     kept = length < sizeof called ? length : sizeof called - 1;
        memcpy(called, at, kept);
        called[kept] = '\0';
        const bool pushed = called[0] == '=' ? (all || !is_withheld(L, part, called + 1)) &&
                                                   lml_named_push(L, part, called + 1)
                                             : lml_named_push_shown(L, part, called);
        if (!pushed)
            lua_pushnil(L);
        put_figure(L, to);
        lua_settop(L, top);
        at += length;
    }
}

bool lml_drawn_take_figure(lml_span *from, int *kind, double *size)
{
    *kind = LML_DRAWN_NONE;
    if (from->length < 1 + sizeof *size)
        return false;
    *kind = (unsigned char)from->at[0];
    memcpy(size, from->at + 1, sizeof *size);
    *from = (lml_span){from->at + 1 + sizeof *size, from->length - 1 - sizeof *size};
    return true;
}

/* ---- stops ---- */

/* Of the remark on top of the stack. */
static void put_field(lua_State *L, lml_builder *to, const char *field)
{
    lua_getfield(L, -1, field);
    const char *text = lua_tostring(L, -1);
    lml_builder_add(to, text, strlen(text) + 1);
    lua_pop(L, 1);
}

static void put_stop(lua_State *L, void *self, int part, bool withholds)
{
    (void)part;
    if (!withholds)
        return;
    put_field(L, self, "level");
    put_field(L, self, "code");
}

static bool take_text(lml_span *from, lml_span *out)
{
    const char *end = from->length > 0 ? memchr(from->at, '\0', from->length) : NULL;
    if (!end)
        return false;
    *out = lml_span_between(from->at, end);
    *from = lml_span_between(end + 1, from->at + from->length);
    return true;
}

bool lml_drawn_take_stop(lml_span *from, lml_span *level, lml_span *code)
{
    return take_text(from, level) && take_text(from, code);
}

/* ---- the whole ---- */

static int write_drawn(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    const int part = 2;
    if (t->run->engine->marks_tries)
        lml_result_withheld_look(L, part);
    put_figures(L, t->to, part);
    t->stopped = lml_remarks_each(L, part, put_stop, t->to);
    return 0;
}

lml_status lml_drawn_write(lml_run *run, lml_builder *b, bool *stopped, lml_error *err)
{
    lua_State *L = run->box.L;
    task t = {run, b, false};
    lua_pushcfunction(L, write_drawn);
    lua_pushlightuserdata(L, &t);
    lua_pushvalue(L, -3);
    lml_status status = lml_box_call(&run->box, 2, 0, err);
    if (!status)
        status = lml_builder_status(b, err);
    *stopped = t.stopped;
    return status;
}
