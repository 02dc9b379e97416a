/* The place of a figure, for messages. */
#include "run/take.h"

#include "cell/raise.h"

void lml_take_refuse(lua_State *L, lml_error *e, const lml_json *node, const char *path)
{
    if (node)
        lml_json_place(node, e->status, e);
    else
        lml_error_context(e, e->status, "in %s", path);
    lml_raise_as_is(L, e);
}

void lml_take_path(char out[LML_TAKE_PATH], const char *path, const char *name)
{
    lml_text_join(out, LML_TAKE_PATH, path, ".", name);
}
