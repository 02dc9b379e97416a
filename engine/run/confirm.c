#include "run/confirm.h"

#include "cell/what.h"
#include "run/engine.h"

bool lml_confirm_holds(lua_State *L, int remark)
{
    lml_run *run = lml_run_of(L);
    remark = lua_absindex(L, remark);
    lua_getfield(L, remark, "code");
    const lml_json *entry = lml_json_member(run->confirmed, lua_tostring(L, -1));
    lua_pop(L, 1);
    if (!entry)
        return false;
    static const char *const copied[] = {"reason", "by"};
    for (int i = 0; i < 2; i++) {
        lml_span words = lml_json_text(lml_json_member(entry, copied[i]));
        lua_pushlstring(L, words.at, words.length);
        lua_setfield(L, remark, copied[i]);
    }
    lua_getfield(L, remark, "text");
    lml_span text = lml_what_need_text(L, -1, "the text of a remark");
    bool holds =
        run->engine->trial || lml_span_equal(text, lml_json_text(lml_json_member(entry, "text")));
    lua_pop(L, 1);
    if (holds) {
        lua_pushliteral(L, "confirmed");
        lua_setfield(L, remark, "level");
    } else {
        lua_pushboolean(L, 1);
        lua_setfield(L, remark, "lapsed");
    }
    return holds;
}
