/* price: a metal's new price into prices.json, and the one that stood into its history. */
#include "base/decimal.h"
#include "base/letter.h"
#include "cli/clock.h"
#include "cli/find.h"
#include "cli/hold.h"
#include "cli/work.h"
#include "file/shapes.h"
#include "file/store.h"
#include "value/arithmetic.h"
#include "read/read.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The new price, as texts and as values. */
typedef struct quoted {
    lml_metal metal;
    const char *price, *at, *from;
    lml_value value, moment;
    char now[LML_CLOCK_TEXT];
} quoted;

/* One line that hides nothing: it stands in a file that people read, and on sheets. */
static lml_status check_from(const char *from, lml_error *err)
{
    lml_span text = lml_span_of(from);
    uint32_t c = 0;
    lml_status status = lml_text_check_utf8(text, err);
    if (status != LML_OK)
        return lml_error_context(err, status, "in --from");
    if (text.length > LML_TEXT_MOST)
        return lml_fail(err, LML_USAGE, "what --from says is longer than %d bytes", LML_TEXT_MOST);
    if (lml_letter_find_hidden(text, "", &c) == text.length)
        return LML_OK;
    lml_fail(err, LML_USAGE, "what --from says holds %s (U+%04X)", lml_letter_fault(c), (unsigned)c);
    lml_error_hint(err, "write who quoted it on one line, such as --from \"refiner, buying\"");
    return LML_USAGE;
}

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
    return check_from(from, err);
}

static lml_status read_metal(const char *word, lml_metal *out, lml_error *err)
{
    *out = lml_metal_by_symbol(lml_span_of(word));
    if (*out)
        return LML_OK;
    lml_fail(err, LML_USAGE, "\"%s\" is not the symbol of a metal", word);
    for (int m = 1; m < LML_METALS; m++)
        if (strcmp(word, lml_metal_name((lml_metal)m)) == 0) {
            lml_error_hint(err, "%s is %s", word, lml_metal_symbol((lml_metal)m));
            return LML_USAGE;
        }
    lml_error_hint(err, "write Au, Ag, Pt, Pd ...");
    return LML_USAGE;
}

/* Money per mass, above nothing. */
static lml_status read_price(const char *word, lml_value *out, lml_error *err)
{
    lml_status status = lml_value_read(lml_span_of(word), LML_WANT_PRICE, LML_NO_METAL, out, err);
    if (status != LML_OK)
        return status;
    lml_dimension per_mass = {.mass = -1, .money = 1, .currency = out->dimension.currency};
    if (!lml_dimension_equal(out->dimension, per_mass)) {
        lml_fail(err, LML_BAD_VALUE, "a metal's price is money per mass, and %s is not", word);
        lml_error_hint(err, "such as 2650.30 USD/ozt or 85.21 USD/g");
        return LML_BAD_VALUE;
    }
    if (!(out->amount > 0) || out->spread != LML_NO_SPREAD) {
        lml_fail(err, LML_BAD_VALUE, "%s is not a price that a metal could have", word);
        lml_error_hint(err, "write one figure above nothing, such as 2650.30 USD/ozt");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}

static lml_status read_words(const lml_arguments *a, quoted *q, lml_error *err)
{
    lml_status status = check_words(a, err);
    if (status == LML_OK)
        status = read_metal(a->word[0], &q->metal, err);
    q->price = a->word[1];
    q->at = a->value[LML_OPTION_AT];
    q->from = a->value[LML_OPTION_FROM];
    if (status == LML_OK)
        status = read_price(q->price, &q->value, err);
    if (status == LML_OK && strcmp(q->at, "now") == 0) {
        status = lml_clock_now(q->now, err);
        q->at = q->now;
    }
    if (status == LML_OK)
        status = lml_value_read(lml_span_of(q->at), LML_WANT_MOMENT, LML_NO_METAL, &q->moment, err);
    return status;
}

/* ---- the list ---- */

static void put_one(lml_json_writer *w, lml_span price, lml_span at, lml_span from)
{
    const lml_span names[] = {lml_span_of("price"), lml_span_of("at"), lml_span_of("from")};
    const lml_span texts[] = {price, at, from};
    for (int i = 0; i < 3; i++) {
        lml_json_put_name(w, names[i]);
        lml_json_put_text(w, texts[i]);
    }
}

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The new entry of the metal: its price, and behind its older history the price that stood. */
static void put_entry(lml_json_writer *w, const quoted *q, const lml_json *stood)
{
    lml_json_open_record(w);
    put_one(w, lml_span_of(q->price), lml_span_of(q->at), lml_span_of(q->from));
    if (stood) {
        lml_json_put_name(w, lml_span_of("history"));
        lml_json_open_list(w);
        const lml_json *past = lml_json_first(lml_json_member(stood, "history"));
        for (; past; past = lml_json_next(past))
            lml_work_put(w, past);
        lml_json_open_record(w);
        put_one(w, text_of(stood, "price"), text_of(stood, "at"), text_of(stood, "from"));
        lml_json_close(w);
        lml_json_close(w);
    }
    lml_json_close(w);
}

/* The list with the new entry in its place, all else as it was. `root` NULL for a new list. */
static lml_status write_list(const lml_json *root, const quoted *q, lml_builder *out,
                             lml_error *err)
{
    const char *symbol = lml_metal_symbol(q->metal);
    const lml_json *prices = lml_json_member(root, "prices");
    const lml_json *stood = lml_json_member(prices, symbol);
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_json_open_record(&w);
    for (const lml_json *m = lml_json_first(root); m && m != prices; m = lml_json_next(m)) {
        lml_json_put_name(&w, lml_json_name(m));
        lml_work_put(&w, m);
    }
    lml_json_put_name(&w, lml_span_of("prices"));
    lml_json_open_record(&w);
    for (const lml_json *m = lml_json_first(prices); m; m = lml_json_next(m)) {
        lml_json_put_name(&w, lml_json_name(m));
        if (m == stood)
            put_entry(&w, q, stood);
        else
            lml_work_put(&w, m);
    }
    if (!stood) {
        lml_json_put_name(&w, lml_span_of(symbol));
        put_entry(&w, q, NULL);
    }
    lml_json_close(&w);
    for (const lml_json *m = prices ? lml_json_next(prices) : NULL; m; m = lml_json_next(m)) {
        lml_json_put_name(&w, lml_json_name(m));
        lml_work_put(&w, m);
    }
    lml_json_close(&w);
    return lml_work_end(&w, err);
}

/* A price that trebles, or falls to a third, between two entries of a list that is kept up is a
 * slip of the unit sooner than news: an ounce for a gram is 31.1, a kilogram for a gram 1000.
 * Common practice, no source. What comes near again in another unit is meant so: no two of these
 * units are as close as that. */
static const double FAR = 3, NEAR = 1.5;
static const char *const traded[] = {"g", "ozt", "kg"};

/* What was typed, by another unit; false when that is no price. */
static bool by_another(const quoted *q, const char *unit, char text[LML_VALUE_TEXT], lml_value *out)
{
    const char *slash = strchr(q->price, '/');
    if (!slash || (size_t)(slash - q->price) + 8 > LML_VALUE_TEXT)
        return false;
    snprintf(text, LML_VALUE_TEXT, "%.*s/%s", (int)(slash - q->price), q->price, unit);
    return lml_value_read(lml_span_of(text), LML_WANT_PRICE, LML_NO_METAL, out, NULL) == LML_OK;
}

static lml_status refuse_far(const lml_json *stood, const quoted *q, const lml_value *price,
                             double times, lml_error *err)
{
    char count[LML_NUMBER_TEXT], text[LML_VALUE_TEXT];
    double much = times > 1 ? times : 1 / times;
    lml_write_double(much < 100 ? round(much * 10) / 10 : round(much), count);
    lml_json_fail(stood, err, LML_BAD_VALUE, "%s stands at %.*s, and %s is %s times as %s",
                  lml_metal_name(q->metal), (int)text_of(stood, "price").length,
                  text_of(stood, "price").at, q->price, count, times > 1 ? "much" : "little");
    for (size_t i = 0; i < sizeof traded / sizeof traded[0]; i++) {
        lml_value meant, ratio;
        if (by_another(q, traded[i], text, &meant) &&
            lml_div(&meant, price, &ratio, NULL) == LML_OK && ratio.amount < NEAR &&
            ratio.amount > 1 / NEAR) {
            lml_error_hint(
                err, "if it is by the %s, write \"%s\"; if it is right as it stands, add --anyway",
                traded[i], text);
            return LML_BAD_VALUE;
        }
    }
    lml_error_hint(err, "look at the figure and its unit; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

/* A list that is kept up has no gap of more than a year: a date that lies further off is a slip of the
 * year sooner than news, and would have every later price refused. Common practice, no source. */
static const int64_t LONG = 366 * 86400;

static lml_status refuse_late(const lml_json *stood, const quoted *q, lml_error *err)
{
    const lml_span at = text_of(stood, "at");
    lml_json_fail(stood, err, LML_BAD_VALUE,
                  "the price that stands is of %.*s, and %s lies more than a year after it",
                  (int)at.length, at.at, q->at);
    lml_error_hint(err, "look at the year; if it is right, add --anyway");
    return LML_BAD_VALUE;
}

/* What stood must be earlier but not by years, of the same currency, and not far off. `change` is
 * new / old - 1. */
static lml_status hold_against(const lml_json *stood, const quoted *q, bool anyway, double *change,
                               lml_error *err)
{
    lml_value price, at, ratio;
    int order = 0;
    lml_status status =
        lml_value_read(text_of(stood, "price"), LML_WANT_PRICE, LML_NO_METAL, &price, err);
    if (status == LML_OK)
        status = lml_value_read(text_of(stood, "at"), LML_WANT_MOMENT, LML_NO_METAL, &at, err);
    if (status == LML_OK)
        status = lml_compare(&q->moment, &at, &order, err);
    if (status != LML_OK)
        return lml_json_place(stood, status, err);
    if (order <= 0) {
        lml_json_fail(stood, err, LML_BAD_VALUE,
                      "the price that stands is of %.*s, and %s is not later",
                      (int)text_of(stood, "at").length, text_of(stood, "at").at, q->at);
        lml_error_hint(err, "a price list only grows; to mend an entry, edit the file");
        return LML_BAD_VALUE;
    }
    if (q->moment.exact - at.exact > LONG && !anyway)
        return refuse_late(stood, q, err);
    if (!lml_dimension_equal(price.dimension, q->value.dimension)) {
        lml_json_fail(stood, err, LML_MISMATCH, "the list has %.*s, and %s is of another currency",
                      (int)text_of(stood, "price").length, text_of(stood, "price").at, q->price);
        lml_error_hint(err, "no rate of exchange is guessed: quote it in the list's currency");
        return LML_MISMATCH;
    }
    status = lml_div(&q->value, &price, &ratio, err);
    if (status != LML_OK)
        return status;
    *change = ratio.amount - 1;
    bool far = ratio.amount > FAR || ratio.amount < 1 / FAR;
    return far && !anyway ? refuse_far(stood, q, &price, ratio.amount, err) : LML_OK;
}

/* ---- the report ---- */

/* A first price has none to be held against: the same by the other unit, for a person to look at.
 */
static void tell_by_another(lml_call *call, const quoted *q)
{
    const char *slash = strchr(q->price, '/'), *code = slash;
    while (code && code > q->price && code[-1] >= 'A' && code[-1] <= 'Z')
        code--;
    for (size_t i = 0; slash && i < 2; i++) {
        char unit[LML_VALUE_TEXT], figure[LML_NUMBER_TEXT];
        lml_value same;
        if (strcmp(slash + 1, traded[i]) == 0)
            continue;
        snprintf(unit, sizeof unit, "%.*s/%s", (int)(slash - code), code, traded[i]);
        if (lml_value_as(&q->value, lml_span_of(unit), &same, NULL) == LML_OK) {
            lml_write_double(round(lml_value_in_unit(&same) * 100) / 100, figure);
            lml_append_format(&call->out, "; that is %s %s", figure, unit);
        }
    }
}

static lml_status report(lml_call *call, const quoted *q, const char *path, const lml_json *stood,
                         double change, lml_error *err)
{
    char percent[LML_NUMBER_TEXT];
    lml_write_double(round(change * 1000) / 10, percent);
    if (fabs(change) > 0.5 && !call->arguments.given[LML_OPTION_ANYWAY])
        lml_append_format(&call->aside, "%s: %s moved by %s %%: is the unit right?\n", path,
                          lml_metal_name(q->metal), percent);
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_open_record(&w);
        lml_json_put_member(&w, "file", path);
        lml_json_put_member(&w, "metal", lml_metal_symbol(q->metal));
        put_one(&w, lml_span_of(q->price), lml_span_of(q->at), lml_span_of(q->from));
        if (stood) {
            lml_json_put_name(&w, lml_span_of("before"));
            lml_json_put_text(&w, text_of(stood, "price"));
        }
        lml_json_close(&w);
        return lml_work_end(&w, err);
    }
    if (lml_call_quiet(call))
        return LML_OK;
    lml_append_format(&call->out, "%s: %s %s (%s, %s)", path, lml_metal_symbol(q->metal), q->price,
                      q->at, q->from);
    if (stood)
        lml_append_format(&call->out, "; before %.*s, %s%s %%", (int)text_of(stood, "price").length,
                          text_of(stood, "price").at, change > 0 ? "+" : "", percent);
    else
        tell_by_another(call, q);
    lml_append_char(&call->out, '\n');
    return lml_builder_status(&call->out, err);
}

static lml_status read_list(const lml_call *call, const char *path, lml_json_document **out,
                            lml_store_file *as_read, lml_error *err)
{
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_store_read_as(path, LML_STORE_SIZE, &text, as_read, err);
    if (status == LML_OK)
        status =
            lml_json_read(&call->alloc, (lml_span){text.at, text.length}, NULL, path, out, err);
    if (status == LML_OK &&
        (status = lml_shape_check(&lml_prices_shape, lml_json_root(*out), err))) {
        lml_json_free(*out);
        *out = NULL;
    }
    lml_builder_free(&text);
    return status;
}

/* What is written must be a list that every job can read. */
static lml_status check_list(const lml_call *call, const char *path, const lml_builder *after, lml_error *err)
{
    if (after->length > LML_STORE_SIZE) {
        lml_fail(err, LML_LIMIT, "%s would be longer than the %d bytes that are read", path, LML_STORE_SIZE);
        lml_error_hint(err, "its history is full: keep a copy of the file, then take the oldest years out of it");
        return LML_LIMIT;
    }
    lml_json_document *made = NULL;
    lml_status status = lml_json_read(&call->alloc, (lml_span){after->at, after->length}, NULL, path, &made, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_prices_shape, lml_json_root(made), err);
    lml_json_free(made);
    return lml_error_context(err, status, "nothing was written");
}

lml_status lml_cmd_price(lml_call *call, lml_error *err)
{
    quoted q = {.metal = LML_NO_METAL};
    char path[LML_PATH];
    lml_json_document *list = NULL;
    lml_builder after = lml_builder_on(&call->alloc, 0);
    double change = 0;
    lml_status status = read_words(&call->arguments, &q, err);
    if (status == LML_OK)
        status = lml_find_prices(call, path, err);
    if (status != LML_OK)
        return status;
    bool is_new = false;
    lml_store_file as_read = {0};
    lml_hold hold;
    status = lml_hold_take(path, &hold, err);
    if (status == LML_OK)
        status = read_list(call, path, &list, &as_read, err);
    if (status == LML_NO_FILE && !call->arguments.given[LML_OPTION_PRICES]) {
        is_new = true; /* a studio's first price; a folder or an unreadable file is refused below */
        status = LML_OK;
        if (err)
            memset(err, 0, sizeof *err);
    }
    const lml_json *root = list ? lml_json_root(list) : NULL;
    const lml_json *stood =
        lml_json_member(lml_json_member(root, "prices"), lml_metal_symbol(q.metal));
    if (status == LML_OK && stood)
        status = hold_against(stood, &q, call->arguments.given[LML_OPTION_ANYWAY], &change, err);
    if (status == LML_OK)
        status = write_list(root, &q, &after, err);
    if (status == LML_OK)
        status = check_list(call, path, &after, err);
    if (status == LML_OK && is_new)
        status = lml_store_write(path, (lml_span){after.at, after.length}, false, err);
    else if (status == LML_OK)
        status = lml_store_replace(path, (lml_span){after.at, after.length}, &as_read, err);
    if (as_read.replaced || (is_new && status == LML_OK))
        lml_text_join(call->done, sizeof call->done, "the price is in ", path, ": do not set it again");
    lml_hold_end(&hold);
    if (status == LML_OK)
        status = report(call, &q, path, stood, change, err);
    lml_json_free(list);
    lml_builder_free(&after);
    return status;
}
