#include "report/remarks.h"

#include "cell/state.h"
#include "run/part.h"

#include <string.h>

bool lml_remarks_each(lua_State *L, int part, lml_remarks_see *see, void *self)
{
    bool stops = false;
    lml_box_need_stack(L, 12);
    lua_getfield(L, part, "remarks");
    lua_getfield(L, part, "within");
    const int remarks = lua_gettop(L) - 1, within = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, within); i++, lua_settop(L, within)) {
        lua_rawgeti(L, within, i);
        if (lml_remarks_each(L, within + 1, see, self))
            stops = true;
    }
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, remarks); i++, lua_settop(L, within)) {
        lua_rawgeti(L, remarks, i);
        lua_getfield(L, -1, "level");
        const char *level = lua_tostring(L, -1);
        bool withholds = strcmp(level, "stop") == 0 || strcmp(level, "confirm") == 0;
        stops = stops || withholds;
        lua_pop(L, 1);
        see(L, self, part, withholds);
    }
    lua_settop(L, remarks - 1);
    return stops;
}

static void pass_by(lua_State *L, void *self, int part, bool withholds)
{
    (void)L;
    (void)self;
    (void)part;
    (void)withholds;
}

bool lml_remarks_stop(lua_State *L, int part)
{
    return lml_remarks_each(L, part, pass_by, NULL);
}
