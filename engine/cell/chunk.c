#include "cell/chunk.h"

#include "cell/names.h"

#include <stdio.h>

typedef struct reading {
    lml_span left;
    bool done;
} reading;

static const char *read_source(lua_State *L, void *self, size_t *size)
{
    (void)L;
    reading *r = self;
    if (r->done)
        return NULL;
    r->done = true;
    *size = r->left.length;
    return r->left.at;
}

lml_status lml_chunk_load(lml_box *box, lml_span source, const char *shown, lml_error *err)
{
    lua_State *L = box->L;
    char chunk[200];
    snprintf(chunk, sizeof chunk, "@%s", shown);
    reading r = {source, false};
    int failed = lua_load(L, read_source, &r, chunk, "t");
    if (failed) {
        lml_status status = lml_box_take_error(box, failed, err);
        if (status == LML_BAD_RECIPE)
            lml_error_hint(err,
                           "%s is not valid Lua; look at the line named and "
                           "the one before it",
                           shown);
        return status;
    }
    lua_pushcfunction(L, lml_names_environment);
    failed = lua_pcall(L, 0, 1, 0);
    if (failed) {
        lua_remove(L, -2);
        return lml_box_take_error(box, failed, err);
    }
    if (!lua_setupvalue(L, -2, 1)) /* a chunk that names no global at all has no _ENV to set */
        lua_pop(L, 1);
    return LML_OK;
}
