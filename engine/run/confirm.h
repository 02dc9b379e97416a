/* Points that a person has decided: whether the job, or the house for all jobs, confirms a
 * remark. */
#ifndef LML_RUN_CONFIRM_H
#define LML_RUN_CONFIRM_H

#include "run/run.h"

/* Whether the job confirms the remark at index: then its level becomes "confirmed" with reason and
 * by. The confirmation has the text that was accepted; if the remark's text has changed, it has
 * lapsed. A remark that may be confirmed for all jobs (`all_jobs`) may be confirmed in the house,
 * by the digest of its text and until a day; an expired entry of the house is reported as
 * `house`. */
bool lml_confirm_holds(lua_State *L, int remark);

#endif
