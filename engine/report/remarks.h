/* Remarks: those of a finished run, each once. */
#ifndef LML_REPORT_REMARKS_H
#define LML_REPORT_REMARKS_H

#include <lua.h>
#include <stdbool.h>

/* Call `see` with each remark of the parts within the part, on top of the stack, and then with its
 * own, which may follow from theirs; every page holds each of them, so one page serves. Returns
 * whether one withholds anything. */
typedef void lml_remarks_see(lua_State *L, void *self, int part, bool withholds);
bool lml_remarks_each(lua_State *L, int part, lml_remarks_see *see, void *self);
/* Whether one withholds anything. */
bool lml_remarks_stop(lua_State *L, int part);

#endif
