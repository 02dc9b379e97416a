#include "cli/ask.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "sheet/layout.h"
#include "studio/lock.h"
#include "terminal/clock.h"

#include <string.h>

static const char *what_of(const lml_arguments *a)
{
    return a->given[LML_OPTION_ACCEPTED]    ? "accepted"
           : a->given[LML_OPTION_WITHDRAWN] ? "withdrawn"
                                            : "offered";
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 1 || strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "lemel offer wants one job file");
        lml_error_hint(err, "lemel offer jobs/x.json --by O.F.");
        return LML_USAGE;
    }
    if (a->given[LML_OPTION_ACCEPTED] && a->given[LML_OPTION_WITHDRAWN])
        return lml_fail(err, LML_USAGE, "an offer is accepted or withdrawn: name one of the two");
    bool made = !a->given[LML_OPTION_ACCEPTED] && !a->given[LML_OPTION_WITHDRAWN];
    if (made && (a->given[LML_OPTION_REASON] || a->given[LML_OPTION_ANYWAY])) {
        lml_fail(err, LML_USAGE, "--%s goes with --accepted or --withdrawn",
                 a->given[LML_OPTION_REASON] ? "reason" : "anyway");
        lml_error_hint(err, "nothing is offered past a stop or an open point");
        return LML_USAGE;
    }
    return LML_OK;
}

/* "offered 1,149.00 USD until ..." is what a person wants to read back. */
static void put_words(lml_builder *out, const lml_json *told)
{
    static const char *const parts[][2] = {
        {"what", ""},        {"price", " "},  {"until", ", stands until "},
        {"paid", ", paid "}, {"by", ", by "}, {"reason", ": "}};
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

static lml_status report(lml_call *call, const lml_text *told, lml_error *err)
{
    const char *path = call->arguments.word[0];
    lml_json_document *doc;
    lml_status status = lml_ask_parse_span(call, (lml_span){told->text, told->length}, &doc, err);
    if (status != LML_OK)
        return status;
    const lml_json *root = lml_json_root(doc);
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_write_open_record(&w);
        lml_json_write_member(&w, "job", path);
        for (const lml_json *m = lml_json_first(root); m; m = lml_json_next(m)) {
            lml_json_write_name(&w, lml_json_name(m));
            lml_json_write_raw(&w, lml_json_raw(m));
        }
        lml_json_write_close(&w);
        status = lml_call_end_json(&w, err);
    } else if (!lml_call_quiet(call)) {
        lml_layout_put(&call->out, lml_span_of(path));
        lml_builder_add_text(&call->out, ": ");
        put_words(&call->out, root);
    }
    lml_json_free(doc);
    return status;
}

/* What is offered is the job as it is now, under the lock. */
static lml_status offer(lml_call *call, lml_engine *engine, const lml_builder *before,
                        lml_store_file *as_read, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *path = a->word[0], *at = a->value[LML_OPTION_AT];
    char now[LML_CLOCK_TEXT];
    lml_text result = {.text = NULL}, after = {.text = NULL}, told = {.text = NULL};
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
        status = lml_boxes_read(call, path, before, &result, err);
    if (status == LML_OK)
        status = lml_engine_offer(engine, before->at ? before->at : "", before->length, path,
                                  result.text ? &result : NULL, &said, &after, &told, err);
    if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.text, after.length}, as_read, err);
    if (as_read->replaced)
        lml_text_join(call->done, sizeof call->done, "it is in ", path, ": do not say it again");
    if (status == LML_OK)
        status = report(call, &told, err);
    lml_boxes_end(call, &result);
    lml_text_free(engine, &after);
    lml_text_free(engine, &told);
    return status;
}

lml_status lml_cmd_offer(lml_call *call, lml_error *err)
{
    lml_status status = check_words(&call->arguments, err);
    if (status != LML_OK)
        return status;
    const char *path = call->arguments.word[0];
    lml_lock lock;
    lml_engine *engine = NULL;
    lml_builder before = lml_builder_on(&call->alloc, 0);
    lml_store_file as_read = {0};
    status = lml_lock_take(path, &lock, err);
    if (status == LML_OK)
        status = lml_ask_engine(call, &engine, err);
    if (status == LML_OK)
        status = lml_store_read_as(path, LML_STORE_SIZE, &before, &as_read, err);
    if (status == LML_OK)
        status = offer(call, engine, &before, &as_read, err);
    lml_lock_end(&lock);
    lml_engine_free(engine);
    lml_builder_free(&before);
    return status;
}
