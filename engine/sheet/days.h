/* Days: a moment as people say it, in the house's form.
 *
 *     Fri 27 Nov      Fri Nov 27      Fri 27 Nov 2026      03:06
 */
#ifndef LML_SHEET_DAYS_H
#define LML_SHEET_DAYS_H

#include "file/json.h"
#include "value/moment.h"

typedef struct lml_days {
    bool month_first; /* Fri Nov 27 */
    int year;         /* that is left out: the job's at the bench, none on a letter (0) */
} lml_days;

lml_days lml_days_of(const lml_json *result);
/* "2026-11-27" or "2026-11-27T14:08"; false of anything else. `has_clock` may be NULL. */
bool lml_days_read(lml_span text, lml_value *moment, bool *has_clock);
void lml_days_put_day(lml_days days, const lml_value *moment, bool year, lml_builder *out);
void lml_days_put_clock(const lml_value *moment, lml_builder *out);
/* A sentence of a recipe or a job, in which a moment ("2026-11-27T03:06") is written in the same
 * form, and with its year unless it is the job's. */
void lml_days_put_sentence(lml_days days, lml_span text, lml_builder *out);
/* Minutes since 1970, for time axes. */
double lml_days_minutes(const lml_value *moment);
lml_value lml_days_at(double minutes);
/* The minutes of a time that a hand sets in hours and minutes, "5 h 06": 91 and more, of which the
 * text is in minutes. False of every other figure. */
bool lml_days_long_time(const lml_json *figure, long *minutes);

#endif
