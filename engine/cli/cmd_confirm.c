#include "cli/amend.h"
#include "cli/ask.h"
#include "cli/boxes.h"
#include "cli/closing_day.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "sheet/layout.h"
#include "studio/find.h"

#include <stdio.h>
#include <string.h>

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    size_t settings = 2;
    while (settings < a->words && strchr(a->word[settings], '='))
        settings++;
    if (a->words < 2 || settings < a->words || strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "lemel confirm needs a job file and the code of one point");
    } else if (!a->value[LML_OPTION_BY] || !a->value[LML_OPTION_BY][0]) {
        lml_fail(err, LML_USAGE, "who decides it?");
    } else if (!a->value[LML_OPTION_REASON] || !a->value[LML_OPTION_REASON][0]) {
        lml_fail(err, LML_USAGE, "why is it accepted?");
    } else if (a->given[LML_OPTION_ALL] != a->given[LML_OPTION_UNTIL]) {
        lml_fail(err, LML_USAGE,
                 a->given[LML_OPTION_ALL] ? "until when is it accepted for all jobs?"
                                          : "--until belongs to --all: for all jobs of the house");
        lml_error_hint(err,
                       "lemel confirm jobs/x.json mark/row-from-memory --all --until 2027-12-31 "
                       "--by O.F. --reason \"asked the assay office\"");
        return LML_USAGE;
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
        return lml_amend_put_json(call, call->arguments.given[LML_OPTION_ALL] ? "house" : "job",
                                  file, told, err);
    if (lml_call_quiet(call))
        return LML_OK;
    lml_layout_put(&call->out, lml_span_of(file->path));
    lml_builder_add_text(&call->out, ": confirmed");
    if (lml_json_yes(lml_json_member(told, "closing")))
        lml_builder_add_text(&call->out, " for the closing");
    lml_builder_add_text(&call->out, ": ");
    lml_layout_put(&call->out, lml_json_text(lml_json_member(told, "text")));
    lml_builder_add_char(&call->out, '\n');
    return lml_builder_status(&call->out, err);
}

/* What a result says about the point: 3 it is open, 2 it is not, 1 others are. */
static int says_of(lml_call *call, const lml_text *result, const char *code)
{
    lml_json_document *doc = NULL;
    int most = 0;
    if (result->text &&
        lml_ask_parse_span(call, (lml_span){result->text, result->length}, &doc, NULL) == LML_OK) {
        const lml_json *r = lml_json_first(lml_json_member(lml_json_root(doc), "remarks"));
        for (; r; r = lml_json_next(r)) {
            bool open = lml_span_is(lml_json_text(lml_json_member(r, "level")), "confirm"),
                 own = lml_span_is(lml_json_text(lml_json_member(r, "code")), code);
            int here = (own ? 2 : 0) + (open ? 1 : 0);
            most = here > most ? here : most;
        }
    }
    lml_json_free(doc);
    return most;
}

/* The result of the job, or of its closing, with the settings of the command line. */
static lml_status read_result(lml_call *call, const lml_builder *text, bool closing, lml_text *out,
                              lml_error *err)
{
    const char *path = call->arguments.word[0];
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0), .shown = path, .closing = closing};
    lml_builder_add(&job.text, text->at, text->length);
    lml_status status = lml_builder_status(&job.text, err);
    if (status == LML_OK && closing)
        status = lml_closing_day_put(call, false, &job, err);
    if (status == LML_OK)
        status = lml_job_text_put(call, 2, &job, err);
    if (status == LML_OK)
        status =
            (closing ? lml_boxes_read_closing : lml_boxes_read)(call, path, &job.text, out, err);
    if (status != LML_OK)
        lml_job_text_blame(call, 2, &job, err);
    lml_builder_free(&job.text);
    return status;
}

/* The result that has the point: the job's own, or that of its closing. A setting may be one of the
 * closing alone. */
static lml_status find_result(lml_call *call, const lml_builder *text, lml_text *out,
                              lml_error *err)
{
    const char *code = call->arguments.word[1];
    lml_text closing = {.text = NULL};
    lml_error of_job, of_closing;
    lml_status status = read_result(call, text, false, out, &of_job), closed = LML_OK;
    int own = status == LML_OK ? says_of(call, out, code) : 0;
    if (own < 3)
        closed = read_result(call, text, true, &closing, &of_closing);
    if (says_of(call, &closing, code) > own) {
        lml_text first = *out;
        *out = closing;
        closing = first;
        status = LML_OK;
    } else if (status != LML_OK && err) {
        *err = closed != LML_OK && strncmp(code, "closing/", 8) == 0 ? of_closing : of_job;
    }
    lml_boxes_end(call, &closing);
    return status;
}

/* The point is taken from the job as it is now, under the lock, so that a point that has just
 * changed cannot be confirmed. For all jobs the entry goes into the house, and the job only shows
 * the point. */
static lml_status confirm(lml_call *call, lml_amended *file, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    bool all = a->given[LML_OPTION_ALL];
    lml_confirmation said = {.code = a->word[1],
                             .by = a->value[LML_OPTION_BY],
                             .reason = a->value[LML_OPTION_REASON],
                             .until = a->value[LML_OPTION_UNTIL]};
    lml_text result = {.text = NULL};
    lml_builder other = lml_builder_on(&call->alloc, 0);
    lml_status status = LML_OK;
    if (all)
        status = lml_store_read(a->word[0], LML_STORE_SIZE, &other, err);
    if (status == LML_OK)
        status = find_result(call, all ? &other : &file->before, &result, err);
    if (status == LML_OK)
        status = lml_engine_confirm(file->engine, file->text, file->before.length, file->path,
                                    &result, &said, &file->after, &file->told, err);
    lml_boxes_end(call, &result);
    lml_builder_free(&other);
    return status;
}

/* The house.json that the job is run with. */
static lml_status find_house(const lml_call *call, char out[LML_PATH], lml_error *err)
{
    const char *named = call->arguments.value[LML_OPTION_HOUSE];
    lml_target job = {.kind = LML_TARGET_JOB, .path = call->arguments.word[0]};
    char studio[LML_PATH];
    lml_find_studio(call, &job, studio);
    int length = named                      ? snprintf(out, LML_PATH, "%s", named)
                 : strcmp(studio, ".") == 0 ? snprintf(out, LML_PATH, "house.json")
                                            : snprintf(out, LML_PATH, "%s/house.json", studio);
    if (length < 0 || length >= LML_PATH)
        return lml_fail(err, LML_NO_FILE, "the path of house.json is too long");
    return LML_OK;
}

lml_status lml_cmd_confirm(lml_call *call, lml_error *err)
{
    char house[LML_PATH];
    lml_status status = check_words(&call->arguments, err);
    bool all = status == LML_OK && call->arguments.given[LML_OPTION_ALL];
    if (all)
        status = find_house(call, house, err);
    if (status != LML_OK)
        return status;
    lml_amend amend = {.path = all ? house : call->arguments.word[0],
                       .change = confirm,
                       .report = report,
                       .done = "the confirmation is in ",
                       .again = ": do not confirm it again"};
    return lml_amend_file(call, &amend, err);
}
