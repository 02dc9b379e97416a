/* What was asked of any command. */
#include "cli/command.h"

bool lml_call_wants_json(const lml_call *call)
{
    const char *format = call->arguments.value[LML_OPTION_FORMAT];
    return format && strcmp(format, "json") == 0;
}

bool lml_call_quiet(const lml_call *call)
{
    return call->arguments.given[LML_OPTION_QUIET];
}
