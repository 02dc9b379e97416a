/* Points that a person decided: whether the job confirms a remark. */
#ifndef LML_RUN_CONFIRM_H
#define LML_RUN_CONFIRM_H

#include "run/run.h"

/* Whether the job confirms the remark at index: then its level becomes "confirmed" with reason and
 * by. The confirmation holds the text that was accepted; when the remark says anything else, it has
 * lapsed. */
bool lml_confirm_holds(lua_State *L, int remark);

#endif
