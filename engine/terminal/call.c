#include "terminal/call.h"

#include <string.h>

static bool wants(const lml_call *call, const char *what)
{
    const char *format = call->arguments.value[LML_OPTION_FORMAT];
    return format && strcmp(format, what) == 0;
}

bool lml_call_wants_json(const lml_call *call)
{
    return wants(call, "json");
}

bool lml_call_wants_html(const lml_call *call)
{
    return wants(call, "html");
}

bool lml_call_quiet(const lml_call *call)
{
    return call->arguments.given[LML_OPTION_QUIET];
}

lml_status lml_call_end_json(lml_json_writer *w, lml_error *err)
{
    lml_builder_add_char(w->to, '\n');
    return lml_json_writer_end(w, err);
}
