#include "cli/cmd.h"

lml_status lml_cmd_close(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words > 0)
        return lml_cmd_run_target(call, true, err);
    lml_fail(err, LML_USAGE,
             a->words == 0 ? "lemel close needs a job file"
                           : "lemel close takes a job file and nothing else");
    lml_error_hint(err, "what the closing needs is in the job, under \"closing\"");
    return LML_USAGE;
}
