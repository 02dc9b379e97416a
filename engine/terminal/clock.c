#include "terminal/clock.h"

#include "read/read.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

/* LEMEL_NOW replaces the clock: a computer whose clock is wrong, and tests that must not depend on
 * theirs. */
static lml_status read_given(const char *text, char out[LML_CLOCK_TEXT], lml_error *err)
{
    lml_value moment;
    lml_status status =
        lml_read_value(lml_span_of(text), LML_WANT_MOMENT, LML_NO_METAL, &moment, err);
    int length = snprintf(out, LML_CLOCK_TEXT, "%s", text);
    if (status == LML_OK && length >= LML_CLOCK_TEXT)
        status = lml_fail(err, LML_BAD_VALUE, "%s is longer than a moment to the minute", text);
    return lml_error_context(err, status, "in LEMEL_NOW");
}

lml_status lml_clock_now(char out[LML_CLOCK_TEXT], lml_error *err)
{
    const char *given = getenv("LEMEL_NOW");
    time_t now = time(NULL);
    struct tm local;
    if (given && given[0])
        return read_given(given, out, err);
    if (now == (time_t)-1 || !localtime_r(&now, &local) ||
        strftime(out, LML_CLOCK_TEXT, "%Y-%m-%dT%H:%M", &local) == 0)
        return lml_fail(err, LML_FAULT, "the computer's clock cannot be read");
    return LML_OK;
}
