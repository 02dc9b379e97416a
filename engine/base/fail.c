#include "base/fail.h"
#include "base/error.h"

#include <stdarg.h>

lml_status lml_fail(lml_error *err, lml_status status, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    lml_error_start(err, status, format, args);
    va_end(args);
    return status;
}
