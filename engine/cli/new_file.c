#include "cli/new_file.h"

#include "file/store.h"
#include "studio/find.h"

#include <unistd.h>

lml_status lml_new_file_put(lml_call *call, const char *place, lml_span text, lml_error *err)
{
    bool replace = call->arguments.given[LML_OPTION_REPLACE];
    lml_status status = lml_find_make_folder(place, err);
    if (status == LML_OK)
        status = lml_store_write(place, text, replace, err);
    if (status == LML_OK && !lml_call_quiet(call))
        lml_builder_add_format(&call->out, "wrote %s\n", place);
    return status;
}

lml_status lml_new_file_refuse_taken(const char *place, const char *advice, lml_error *err)
{
    if (access(place, F_OK) != 0)
        return LML_OK;
    lml_fail(err, LML_NO_WRITE, "there is already a %s", place);
    lml_error_hint(err, "%s", advice);
    return LML_NO_WRITE;
}
