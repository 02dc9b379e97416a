/* Ended: the error with which a job's own recipe ended. There is no result then, but what a stop
 * withheld before it stays withheld.
 *
 *     if (status && lml_ended_hide(&run, err)) ...      the error has other words now
 */
#ifndef LML_REPORT_ENDED_H
#define LML_REPORT_ENDED_H

#include "run/run.h"

/* Where the error may show a figure that is withheld, put in its place that there was one, in which
 * line, and what withholds, with the text of that stop: it is to be settled first. True then. In a
 * traced run an error that came from no such figure stays, and so does one that is written so in a
 * recipe; in any other run none does once anything is withheld. */
bool lml_ended_hide(lml_run *run, lml_error *err);

#endif
