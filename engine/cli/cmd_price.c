/* price: a metal's new price into prices.json, and the one that stood into its history. */
#include "base/decimal.h"
#include "cli/ask.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "studio/find.h"
#include "studio/lock.h"
#include "terminal/clock.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 2) {
        lml_fail(err, LML_USAGE, "lemel price wants a metal and its price");
        lml_error_hint(err, "lemel price Au \"2650.30 USD/ozt\" --at 2026-11-24T09:00 "
                            "--from \"refiner, buying\"");
        return LML_USAGE;
    }
    if (!a->given[LML_OPTION_AT]) {
        lml_fail(err, LML_USAGE, "when did that price stand?");
        lml_error_hint(err, "add --at 2026-11-24T09:00, or --at now");
        return LML_USAGE;
    }
    const char *from = a->value[LML_OPTION_FROM];
    if (!from || !from[strspn(from, " ")]) {
        lml_fail(err, LML_USAGE, "who quoted that price?");
        lml_error_hint(err, "add --from \"refiner, buying\"");
        return LML_USAGE;
    }
    return LML_OK;
}

static lml_status read_words(const lml_arguments *a, char now[LML_CLOCK_TEXT], lml_quote *out,
                             lml_error *err)
{
    lml_status status = check_words(a, err);
    if (status != LML_OK)
        return status;
    bool is_now = strcmp(a->value[LML_OPTION_AT], "now") == 0;
    *out = (lml_quote){.metal = a->word[0],
                       .price = a->word[1],
                       .at = is_now ? now : a->value[LML_OPTION_AT],
                       .from = a->value[LML_OPTION_FROM],
                       .anyway = a->given[LML_OPTION_ANYWAY]};
    return is_now ? lml_clock_now(now, err) : LML_OK;
}

/* ---- the report ---- */

static lml_span text_of(const lml_json *told, const char *name)
{
    return lml_json_text(lml_json_member(told, name));
}

static void append_member(lml_builder *out, const char *before, const lml_json *told,
                          const char *name)
{
    lml_builder_add_text(out, before);
    lml_builder_add_span(out, text_of(told, name));
}

static lml_status put_json(lml_call *call, const lml_json *told, const char *path, lml_error *err)
{
    static const char *const names[] = {"metal", "price", "at", "from", "before"};
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "file", path);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (!lml_json_member(told, names[i]))
            continue;
        lml_json_write_name(&w, lml_span_of(names[i]));
        lml_json_write_text(&w, text_of(told, names[i]));
    }
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}

static lml_status put_report(lml_call *call, const lml_json *told, const char *path, lml_error *err)
{
    char percent[LML_NUMBER_TEXT];
    double change = lml_json_number(lml_json_member(told, "change"));
    lml_decimal_write_double(round(change * 1000) / 10, percent);
    if (fabs(change) > 0.5 && !call->arguments.given[LML_OPTION_ANYWAY])
        lml_builder_add_format(&call->aside, "%s: %.*s moved by %s %%: is the unit right?\n", path,
                               (int)text_of(told, "name").length, text_of(told, "name").at,
                               percent);
    if (lml_call_wants_json(call))
        return put_json(call, told, path, err);
    if (lml_call_quiet(call))
        return LML_OK;
    lml_builder_add_text(&call->out, path);
    append_member(&call->out, ": ", told, "metal");
    append_member(&call->out, " ", told, "price");
    append_member(&call->out, " (", told, "at");
    append_member(&call->out, ", ", told, "from");
    lml_builder_add_char(&call->out, ')');
    if (lml_json_member(told, "before")) {
        append_member(&call->out, "; before ", told, "before");
        lml_builder_add_format(&call->out, ", %s%s %%", change > 0 ? "+" : "", percent);
    }
    const lml_json *also = lml_json_first(lml_json_member(told, "also"));
    for (; also; also = lml_json_next(also)) {
        lml_builder_add_text(&call->out, "; that is ");
        lml_builder_add_span(&call->out, lml_json_text(also));
    }
    lml_builder_add_char(&call->out, '\n');
    return lml_builder_status(&call->out, err);
}

static lml_status report(lml_call *call, const lml_text *told, const char *path, lml_error *err)
{
    lml_json_document *doc;
    lml_status status = lml_ask_parse_span(call, (lml_span){told->text, told->length}, &doc, err);
    if (status != LML_OK)
        return status;
    status = put_report(call, lml_json_root(doc), path, err);
    lml_json_free(doc);
    return status;
}

/* ---- the file ---- */

/* The new list from the one that stands, under the lock. A studio's first price makes the file; a
 * folder or an unreadable file is refused as it is written. */
static lml_status write_file(lml_call *call, lml_engine *engine, const char *path,
                             const lml_quote *quote, lml_text *told, lml_error *err)
{
    lml_builder before = lml_builder_on(&call->alloc, 0);
    lml_text after = {.text = NULL};
    lml_store_file as_read = {0};
    lml_status status = lml_store_read_as(path, LML_STORE_SIZE, &before, &as_read, err);
    bool is_new = status == LML_NO_FILE && !call->arguments.given[LML_OPTION_PRICES];
    if (is_new) {
        status = LML_OK;
        if (err)
            memset(err, 0, sizeof *err);
    }
    const char *text = is_new ? NULL : before.at ? before.at : "";
    if (status == LML_OK)
        status = lml_engine_price(engine, text, before.length, path, quote, &after, told, err);
    lml_span bytes = {after.text, after.length};
    if (status == LML_OK)
        status = is_new ? lml_store_write(path, bytes, false, err)
                        : lml_store_replace(path, bytes, &as_read, err);
    if (as_read.replaced || (is_new && status == LML_OK))
        lml_text_join(call->done, sizeof call->done, "the price is in ", path,
                      ": do not set it again");
    lml_text_free(engine, &after);
    lml_builder_free(&before);
    return status;
}

lml_status lml_cmd_price(lml_call *call, lml_error *err)
{
    lml_quote quote;
    char path[LML_PATH], now[LML_CLOCK_TEXT];
    lml_engine *engine = NULL;
    lml_text told = {.text = NULL};
    lml_lock lock;
    lml_status status = read_words(&call->arguments, now, &quote, err);
    if (status == LML_OK)
        status = lml_find_prices(call, path, err);
    if (status == LML_OK)
        status = lml_ask_engine(call, &engine, err);
    if (status != LML_OK)
        return status;
    status = lml_lock_take(path, &lock, err);
    if (status == LML_OK)
        status = write_file(call, engine, path, &quote, &told, err);
    lml_lock_end(&lock);
    if (status == LML_OK)
        status = report(call, &told, path, err);
    lml_text_free(engine, &told);
    lml_engine_free(engine);
    return status;
}
