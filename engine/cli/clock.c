#include "cli/clock.h"

#include <time.h>

lml_status lml_clock_now(char out[LML_CLOCK_TEXT], lml_error *err)
{
    time_t now = time(NULL);
    struct tm local;
    if (now == (time_t)-1 || !localtime_r(&now, &local) ||
        strftime(out, LML_CLOCK_TEXT, "%Y-%m-%dT%H:%M", &local) == 0)
        return lml_fail(err, LML_FAULT, "the computer's clock cannot be read");
    return LML_OK;
}
