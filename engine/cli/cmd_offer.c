#include "base/shell.h"
#include "cli/amend.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "sheet/layout.h"
#include "terminal/clock.h"
#include "terminal/line.h"

#include <string.h>

static const char *what_of(const lml_arguments *a)
{
    return a->given[LML_OPTION_ACCEPTED]       ? "accepted"
           : a->given[LML_OPTION_NOT_ACCEPTED] ? "not accepted"
           : a->given[LML_OPTION_WITHDRAWN]    ? "withdrawn"
                                               : "offered";
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 1 || strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "lemel offer needs one job file");
        lml_error_hint(err, "lemel offer jobs/x.json --by O.F.");
        return LML_USAGE;
    }
    int outcomes = a->given[LML_OPTION_ACCEPTED] + a->given[LML_OPTION_NOT_ACCEPTED] +
                   a->given[LML_OPTION_WITHDRAWN];
    if (outcomes > 1)
        return lml_fail(err, LML_USAGE,
                        "an offer is accepted, not accepted after all, or withdrawn: leave all but "
                        "one of --accepted, --not-accepted and --withdrawn out");
    if (outcomes == 0 && (a->given[LML_OPTION_REASON] || a->given[LML_OPTION_ANYWAY])) {
        bool reason = a->given[LML_OPTION_REASON];
        lml_fail(err, LML_USAGE, "--%s goes with --accepted%s", reason ? "reason" : "anyway",
                 reason ? ", --not-accepted or --withdrawn" : "");
        lml_error_hint(err, "nothing can be offered while a stop or a point is open");
        return LML_USAGE;
    }
    return LML_OK;
}

/* "offered 1,149.00 USD until ..." is what a person wants to read back. */
static void put_words(lml_builder *out, const lml_json *told)
{
    static const char *const parts[][2] = {
        {"what", ""},    {"price", " "},   {"until", ", holds until "}, {"paid", ", paid "},
        {"by", ", by "}, {"reason", ": "}, {"replaced", "; replaces "}, {"replaced_at", " of "}};
    bool made = lml_span_is(lml_json_text(lml_json_member(told, "what")), "offered");
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        lml_span text = lml_json_text(lml_json_member(told, parts[i][0]));
        if (text.length == 0 || (!made && i == 2))
            continue;
        lml_builder_add_text(out, parts[i][1]);
        lml_layout_put(out, text);
    }
    lml_builder_add_char(out, '\n');
}

/* At a terminal: what comes next. */
static void put_next(lml_builder *out, const lml_json *told, const char *path)
{
    char word[LML_SHELL_WORD];
    lml_span what = lml_json_text(lml_json_member(told, "what"));
    (void)lml_shell_word(lml_span_of(path), word);
    if (lml_span_is(what, "offered"))
        lml_builder_add_format(out, "next: lemel offer %s --accepted --by WHO\n", word);
    else if (lml_span_is(what, "accepted"))
        lml_builder_add_format(out, "next: lemel check %s, for all that its closing needs\n", word);
}

static lml_status report(lml_call *call, const lml_amended *file, const lml_json *told,
                         lml_error *err)
{
    if (lml_call_wants_json(call))
        return lml_amend_put_json(call, "job", file, told, err);
    if (lml_call_quiet(call))
        return LML_OK;
    lml_layout_put(&call->out, lml_span_of(file->path));
    lml_builder_add_text(&call->out, ": ");
    put_words(&call->out, told);
    if (lml_line_is_shown())
        put_next(&call->out, told, file->path);
    return lml_builder_status(&call->out, err);
}

/* What is offered is the job as it is now, under the lock. */
static lml_status offer(lml_call *call, lml_amended *file, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *at = a->value[LML_OPTION_AT];
    char now[LML_CLOCK_TEXT];
    lml_text result = {.text = NULL};
    lml_offer said = {.what = what_of(a),
                      .at = at,
                      .by = a->value[LML_OPTION_BY],
                      .reason = a->value[LML_OPTION_REASON],
                      .paid = a->value[LML_OPTION_PAID],
                      .anyway = a->given[LML_OPTION_ANYWAY]};
    lml_status status = LML_OK;
    if (!at || strcmp(at, "now") == 0) {
        status = lml_clock_now(now, err);
        said.at = now;
    }
    if (status == LML_OK && strcmp(said.what, "offered") == 0)
        status = lml_boxes_read_afresh(call, file->path, &file->before, &result, err);
    else if (status == LML_OK && strcmp(said.what, "accepted") == 0 && !said.anyway)
        status = lml_boxes_read(call, file->path, &file->before, &result, err);
    if (status == LML_OK)
        status =
            lml_engine_offer(file->engine, file->text, file->before.length, file->path,
                             result.text ? &result : NULL, &said, &file->after, &file->told, err);
    lml_boxes_end(call, &result);
    return status;
}

lml_status lml_cmd_offer(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    lml_amend amend = {.path = call->arguments.word[0],
                       .change = offer,
                       .report = report,
                       .done = "it is in ",
                       .again = ": do not enter it again"};
    return lml_amend_file(call, &amend, err);
}
