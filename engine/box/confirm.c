/* Points that a person decided: whether the job confirms a remark. */
#include "box/run.h"
#include "box/token.h"

#include <string.h>

static bool has_digit(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (lml_is_digit(text.at[i]))
            return true;
    return false;
}

/* What goes on with a number: "63 %" is not what "163 %" says, nor "6" what "6.5 g" says. */
static bool number_goes_on(lml_span text, size_t from, size_t to)
{
    const char *at = text.at;
    char before = from > 0 ? at[from - 1] : ' ', after = to < text.length ? at[to] : ' ';
    char further = to + 1 < text.length ? at[to + 1] : ' ';
    bool starts_in = lml_is_digit(at[from]) &&
                     (lml_is_digit(before) || strchr(".,-", before));
    bool ends_in = lml_is_digit(at[to - 1]) &&
                   (lml_is_digit(after) ||
                    (strchr(".,", after) && lml_is_digit(further)));
    return starts_in || ends_in;
}

static bool says_figure(lml_span text, lml_span figure)
{
    if (!has_digit(figure))
        return false;
    for (size_t i = 0; i + figure.length <= text.length; i++)
        if (memcmp(text.at + i, figure.at, figure.length) == 0 &&
            !number_goes_on(text, i, i + figure.length))
            return true;
    return false;
}

bool lml_run_confirmed(lua_State *L, int remark)
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
    lml_span text = lml_need_text(L, -1, "the text of a remark");
    lml_span figure = lml_span_trim(lml_json_text(lml_json_member(entry, "figure")));
    bool holds = !has_digit(text) || says_figure(text, figure);
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
