#include "cli/cmd.h"

lml_status lml_cmd_close(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words > 0)
        return lml_cmd_run_target(call, true, err);
    lml_fail(err, LML_USAGE,
             a->words == 0 ? "lemel close needs a job file" : "lemel close takes one job file");
    lml_error_hint(err, "lemel close jobs/cuff-links.json, with NAME=VALUE for what neither offer "
                        "nor record holds");
    return LML_USAGE;
}
