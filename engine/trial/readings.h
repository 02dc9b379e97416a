/* Readings: how many readings a spread in a job comes from, or the readings themselves.
 *
 *     "readings": [ { "old_metal[0].tests[0].found": 5 },
 *                   { "gold": ["562 ‰", "559 ‰", ...], "copper": ["210 ‰", "214 ‰", ...] } ]
 *
 * A number says from how many readings the spread was found that is at that path. A list has the
 * readings: what is said there is their mean, and its spread is theirs over the root of how many
 * they are (JCGM 100:2008, 4.2.3). The lists of one record were read together, item by item.
 */
#ifndef LML_TRIAL_READINGS_H
#define LML_TRIAL_READINGS_H

#include "trial/uncertain.h"

/* What the job says about the readings of the figure at the path; NULL: nothing. */
const lml_json *lml_readings_of(const lml_json *job, const char *path);
/* Set spread and set of all items that have readings. LML_BAD_DATA, with the place. */
lml_status lml_readings_join(lml_uncertain *u, lml_error *err);

#endif
