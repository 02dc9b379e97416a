/* Points that a person decided: whether the job, or the house for all jobs, confirms a remark. */
#ifndef LML_RUN_CONFIRM_H
#define LML_RUN_CONFIRM_H

#include "run/run.h"

/* Whether the job confirms the remark at index: then its level becomes "confirmed" with reason and
 * by. The confirmation holds the text that was accepted; when the remark says anything else, it has
 * lapsed. Of one that may hold for all jobs (`all_jobs`) the house may say it, by the digest of its
 * text and until a day; an entry of the house that no longer holds is said as `house`. */
bool lml_confirm_holds(lua_State *L, int remark);

#endif
