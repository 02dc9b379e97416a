#include "cli/amend.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "sheet/layout.h"

#include <string.h>

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 2 || strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "lemel confirm needs a job file and the code of one point");
    } else if (!a->value[LML_OPTION_BY] || !a->value[LML_OPTION_BY][0]) {
        lml_fail(err, LML_USAGE, "who decides it?");
    } else if (!a->value[LML_OPTION_REASON] || !a->value[LML_OPTION_REASON][0]) {
        lml_fail(err, LML_USAGE, "why is it accepted?");
    } else {
        return LML_OK;
    }
    lml_error_hint(err, "lemel confirm jobs/x.json charge/old-metal-share --by O.F. --reason "
                        "\"told of porosity\"");
    return LML_USAGE;
}

static lml_status report(lml_call *call, const lml_amended *file, const lml_json *told,
                         lml_error *err)
{
    if (lml_call_wants_json(call))
        return lml_amend_put_json(call, "job", file, told, err);
    if (lml_call_quiet(call))
        return LML_OK;
    lml_layout_put(&call->out, lml_span_of(file->path));
    lml_builder_add_text(&call->out, ": confirmed: ");
    lml_layout_put(&call->out, lml_json_text(lml_json_member(told, "text")));
    lml_builder_add_char(&call->out, '\n');
    return lml_builder_status(&call->out, err);
}

/* The point is taken from the job as it is now, under the lock, so that nobody confirms what has
 * just changed. */
static lml_status confirm(lml_call *call, lml_amended *file, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    lml_confirmation said = {
        .code = a->word[1], .by = a->value[LML_OPTION_BY], .reason = a->value[LML_OPTION_REASON]};
    lml_text result = {.text = NULL};
    lml_status status = lml_boxes_read(call, file->path, &file->before, &result, err);
    if (status == LML_OK)
        status = lml_engine_confirm(file->engine, file->text, file->before.length, file->path,
                                    &result, &said, &file->after, &file->told, err);
    lml_boxes_end(call, &result);
    return status;
}

lml_status lml_cmd_confirm(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    lml_amend amend = {.path = call->arguments.word[0],
                       .change = confirm,
                       .report = report,
                       .done = "the confirmation is in ",
                       .again = ": do not confirm it again"};
    return lml_amend_file(call, &amend, err);
}
