#include "shelf/built_in.h"

#include <lua.h>
#include <string.h>

static const lml_built_in *row_of(lml_put kind, const char *name)
{
    size_t low = 0, high = lml_built_in_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const lml_built_in *row = &lml_built_in_rows[middle];
        int order = row->kind != kind ? (row->kind < kind ? -1 : 1) : strcmp(row->name, name);
        if (order == 0)
            return row;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

const lml_built_in *lml_built_in_find(lml_put kind, const char *name, lml_span text)
{
    const lml_built_in *row = row_of(kind, name);
    bool same = row && (text.at == row->text /* it was found before */ ||
                        lml_span_equal(text, (lml_span){row->text, row->length}));
    return same && text.length == row->length ? row : NULL;
}

bool lml_built_in_is_for_this_lua(void)
{
    return strcmp(lua_ident, lml_built_in_lua) == 0;
}
