#include "report/ended.h"

#include "base/error.h"
#include "report/marks.h"
#include "report/result_withheld.h"
#include "run/part.h"
#include "run/work.h"

#include <string.h>

/* A stop or point that withholds. */
typedef struct withholder {
    char code[120], text[LML_PART_TEXT + 1];
} withholder;

typedef struct task {
    const lml_error *error;
    withholder by;
    char recipe[LML_NAME_MOST + 1];
    size_t place; /* of the line before the message */
    bool hides;
} task;

/* Find the first remark of the part, or of one within it, that withholds a give there. */
static bool find_withholder(lua_State *L, int part, withholder *out)
{
    lml_box_need_stack(L, 12);
    const int top = lua_gettop(L), withheld = top + 1, remarks = top + 2;
    bool found = false;
    lua_getfield(L, part, "withheld");
    lua_getfield(L, part, "remarks");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, remarks) && !found; i++) {
        lua_rawgeti(L, remarks, i);
        lua_getfield(L, -1, "code");
        for (lua_pushnil(L); !found && lua_next(L, withheld); lua_pop(L, 1))
            found = lua_rawequal(L, -1, remarks + 2);
        if (found) {
            lua_settop(L, remarks + 2);
            lua_getfield(L, remarks + 1, "text");
            lml_text_join(out->code, sizeof out->code, lua_tostring(L, -2), "", "");
            lml_text_join(out->text, sizeof out->text, lua_tostring(L, -1), "", "");
        }
        lua_settop(L, remarks);
    }
    lua_getfield(L, part, "within");
    const int within = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, within) && !found; i++) {
        lua_rawgeti(L, within, i);
        found = find_withholder(L, within + 1, out);
        lua_settop(L, within);
    }
    lua_settop(L, top);
    return found;
}

/* Argument: the task. */
static int look(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    uint32_t step;
    if (!lml_work_push_ended(L, &step))
        return 0;
    const int part = lua_gettop(L);
    lml_result_withheld_look(L, part);
    if (lml_run_of(L)->nothing_withheld)
        return 0;
    lua_pushstring(L, t->error->message);
    t->place = lml_result_withheld_place(L, part + 1);
    t->hides = lml_result_withheld_end(L, part, part + 1, step);
    if (t->hides)
        find_withholder(L, part, &t->by);
    lua_getfield(L, part, "recipe");
    lml_text_join(t->recipe, sizeof t->recipe, lua_tostring(L, -1), "", "");
    return 0;
}

bool lml_ended_hide(lml_run *run, lml_error *err)
{
    lml_error none, error = err ? *err : (lml_error){.status = LML_OK};
    task t = {.error = &error};
    const bool own_words = error.status != LML_LIMIT && error.status != LML_NO_MEMORY &&
                           error.status != LML_FAULT; /* the others have no figure */
    if (run->box.dead || !own_words)
        return false;
    lua_State *L = run->box.L;
    lua_pushcfunction(L, look);
    lua_pushlightuserdata(L, &t);
    bool unknown = lml_box_call(&run->box, 1, 0, &none) != LML_OK; /* a limit, met in looking */
    if (!unknown && !t.hides)
        return false;
    lml_fail(err, error.status,
             "%.*s%s failed, but its error may show a figure that %s withholds, and is not "
             "printed (a proof with the same figures prints it)",
             (int)t.place, error.message, t.recipe, t.by.code[0] ? t.by.code : "a stop");
    if (t.by.text[0])
        lml_error_hint(err, "first resolve what stops the job: %s", t.by.text);
    else
        lml_error_hint(err, "first resolve what stops the job");
    return true;
}
