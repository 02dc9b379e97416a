/* Closing day: the date of a closing that the job's file does not give.
 */
#ifndef LML_CLI_CLOSING_DAY_H
#define LML_CLI_CLOSING_DAY_H

#include "cli/job_text.h"

/* A job whose offer and record have all that its closing needs may have no "closing": its text gets
 * the day that the word date=DAY names, or today, and with `tells` call->aside says so. */
lml_status lml_closing_day_put(lml_call *call, bool tells, lml_job_text *job, lml_error *err);

#endif
