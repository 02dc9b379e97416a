/* price: a metal's new price into prices.json, and the previous one into its history. */
#include "base/decimal.h"
#include "cli/amend.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "studio/find.h"
#include "terminal/clock.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { CURRENCY_TEXT = 4 /* a code of ISO 4217 */ };

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words != 2) {
        lml_fail(err, LML_USAGE, "lemel price needs a metal and its price");
        lml_error_hint(err, "lemel price Au \"2650.30 USD/ozt\" --at 2026-11-24T09:00 "
                            "--from \"refiner, buying\"");
        return LML_USAGE;
    }
    if (!a->given[LML_OPTION_AT]) {
        lml_fail(err, LML_USAGE, "when was that price quoted?");
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
    static const char *const names[] = {"metal", "price", "at", "from", "before", "replaces"};
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

static lml_status report(lml_call *call, const lml_amended *file, const lml_json *told,
                         lml_error *err)
{
    char percent[LML_NUMBER_TEXT];
    double change = lml_json_number(lml_json_member(told, "change"));
    lml_decimal_write_double(round(change * 1000) / 10, percent);
    if (fabs(change) > 0.5 && !call->arguments.given[LML_OPTION_ANYWAY])
        lml_builder_add_format(&call->aside, "%s: %.*s moved by %s %%: is the unit right?\n",
                               file->path, (int)text_of(told, "name").length,
                               text_of(told, "name").at, percent);
    if (lml_call_wants_json(call))
        return put_json(call, told, file->path, err);
    if (lml_call_quiet(call))
        return LML_OK;
    lml_builder_add_text(&call->out, file->path);
    append_member(&call->out, ": ", told, "metal");
    append_member(&call->out, " ", told, "price");
    append_member(&call->out, " (", told, "at");
    append_member(&call->out, ", ", told, "from");
    lml_builder_add_char(&call->out, ')');
    if (lml_json_member(told, "replaces")) {
        append_member(&call->out, "; replaces ", told, "replaces");
        append_member(&call->out, " of ", told, "replaces_at");
    }
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

/* That of the house in whose studio the list is; false where there is none, or it says none. */
static bool read_currency(const lml_call *call, char out[CURRENCY_TEXT])
{
    const char *house = call->arguments.value[LML_OPTION_HOUSE];
    char path[LML_PATH];
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_json_document *doc = NULL;
    bool read =
        (house || lml_find_in_studio(call, "house.json", path, NULL) == LML_OK) &&
        lml_store_read(house ? house : path, LML_STORE_SIZE, &text, NULL) == LML_OK &&
        lml_json_read(&call->alloc, lml_builder_span(&text), NULL, "", &doc, NULL) == LML_OK;
    lml_span code = read ? text_of(lml_json_root(doc), "currency") : (lml_span){"", 0};
    read = code.length == CURRENCY_TEXT - 1;
    if (read)
        snprintf(out, CURRENCY_TEXT, "%.*s", LML_SPAN_SHOWN(code));
    lml_json_free(doc);
    lml_builder_free(&text);
    return read;
}

static lml_status price(lml_call *call, lml_amended *file, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    char now[LML_CLOCK_TEXT], currency[CURRENCY_TEXT];
    bool is_now = strcmp(a->value[LML_OPTION_AT], "now") == 0;
    lml_quote quote = {.metal = a->word[0],
                       .price = a->word[1],
                       .at = is_now ? now : a->value[LML_OPTION_AT],
                       .from = a->value[LML_OPTION_FROM],
                       .anyway = a->given[LML_OPTION_ANYWAY],
                       .currency = read_currency(call, currency) ? currency : NULL,
                       .now = now};
    lml_status status = lml_clock_now(now, err);
    if (status == LML_OK)
        status = lml_engine_price(file->engine, file->text, file->before.length, file->path, &quote,
                                  &file->after, &file->told, err);
    return status;
}

/* A studio's first price makes the file. */
lml_status lml_cmd_price(lml_call *call, lml_error *err)
{
    char path[LML_PATH];
    lml_status status = check_words(&call->arguments, err);
    if (status == LML_OK)
        status = lml_find_prices(call, path, err);
    if (status != LML_OK)
        return status;
    lml_amend amend = {.path = path,
                       .makes = !call->arguments.given[LML_OPTION_PRICES],
                       .change = price,
                       .report = report,
                       .done = "the price is in ",
                       .again = ": do not set it again"};
    return lml_amend_file(call, &amend, err);
}
