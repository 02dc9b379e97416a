/* The words of the casting day's planner: craft.casting_plan, craft.casting_pour. */
#ifndef LML_WORDS_BIND_SCHEDULE_H
#define LML_WORDS_BIND_SCHEDULE_H

#include "cell/word.h"

extern const lml_word lml_bind_schedule[];

#endif
