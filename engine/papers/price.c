/* Price: a metal's new price put into the text of a price list, and the previous one into its
 * history.
 */
#include "base/letter.h"
#include "base/locale.h"
#include "face/engine.h"
#include "file/json_copy.h"
#include "file/shapes.h"
#include "file/store.h"
#include "papers/paper.h"
#include "papers/price_held.h"
#include "read/read.h"
#include "unit/currency.h"

#include <string.h>

/* One line without hidden characters: it is in a file that people read, and on sheets. */
static lml_status check_from(const char *from, lml_error *err)
{
    lml_span text = lml_span_of(from);
    uint32_t c = 0;
    lml_status status = lml_text_check_utf8(text, err);
    if (status != LML_OK)
        return lml_error_context(err, status, "in --from");
    if (text.length > LML_TEXT_MOST)
        return lml_fail(err, LML_USAGE, "the text of --from is longer than %d bytes",
                        LML_TEXT_MOST);
    if (lml_letter_find_hidden(text, "", &c) == text.length)
        return LML_OK;
    lml_fail(err, LML_USAGE, "the text of --from contains %s (U+%04X)", lml_letter_fault(c),
             (unsigned)c);
    lml_error_hint(err, "write who quoted it on one line, such as --from \"refiner, buying\"");
    return LML_USAGE;
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
    lml_status status = lml_read_value(lml_span_of(word), LML_WANT_PRICE, LML_NO_METAL, out, err);
    if (status != LML_OK)
        return status;
    lml_dimension per_mass = {.mass = -1, .money = 1, .currency = out->dimension.currency};
    if (!lml_dimension_equal(out->dimension, per_mass)) {
        lml_fail(err, LML_BAD_VALUE, "a metal price is money per mass, but %s is not", word);
        lml_error_hint(err, "such as 2650.30 USD/ozt or 85.21 USD/g");
        return LML_BAD_VALUE;
    }
    if (!(out->amount > 0) || out->spread != LML_NO_SPREAD) {
        lml_fail(err, LML_BAD_VALUE, "%s cannot be a metal price", word);
        lml_error_hint(err, "write one figure above zero, such as 2650.30 USD/ozt");
        return LML_BAD_VALUE;
    }
    return LML_OK;
}

/* A quote is in the house's currency or in none: this is where the slip is seen first. */
static lml_status check_currency(const lml_quote *quote, const lml_price_quoted *q, lml_error *err)
{
    uint16_t own = quote->currency ? lml_currency_by_code(lml_span_of(quote->currency)) : 0;
    if (own == 0 || quote->anyway || q->value.dimension.currency == own)
        return LML_OK;
    lml_fail(err, LML_MISMATCH, "the house is in %s, but %s is in another currency",
             quote->currency, quote->price);
    lml_error_hint(err, "no exchange rate is guessed: write the price in %s", quote->currency);
    return LML_MISMATCH;
}

static lml_status read_quote(const lml_quote *quote, lml_price_quoted *q, lml_error *err)
{
    *q = (lml_price_quoted){.price = quote->price, .at = quote->at, .from = quote->from};
    if (!quote->metal || !quote->price)
        return lml_fail(err, LML_USAGE, "a price list needs a metal and its price");
    if (!quote->at)
        return lml_fail(err, LML_USAGE, "when was that price quoted?");
    if (!quote->from || !quote->from[strspn(quote->from, " ")])
        return lml_fail(err, LML_USAGE, "who quoted that price?");
    lml_status status = check_from(quote->from, err);
    if (status == LML_OK)
        status = read_metal(quote->metal, &q->metal, err);
    if (status == LML_OK)
        status = read_price(quote->price, &q->value, err);
    if (status == LML_OK)
        status = check_currency(quote, q, err);
    if (status == LML_OK)
        status =
            lml_read_value(lml_span_of(quote->at), LML_WANT_MOMENT, LML_NO_METAL, &q->moment, err);
    return status;
}

/* ---- the list ---- */

static void put_one(lml_json_writer *w, lml_span price, lml_span at, lml_span from)
{
    const lml_span names[] = {lml_span_of("price"), lml_span_of("at"), lml_span_of("from")};
    const lml_span texts[] = {price, at, from};
    for (int i = 0; i < 3; i++) {
        lml_json_write_name(w, names[i]);
        lml_json_write_text(w, texts[i]);
    }
}

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* The new entry of the metal: its price, and after its older history the previous price. */
static void put_entry(lml_json_writer *w, const lml_price_quoted *q, const lml_json *stood)
{
    lml_json_write_open_record(w);
    put_one(w, lml_span_of(q->price), lml_span_of(q->at), lml_span_of(q->from));
    if (stood) {
        lml_json_write_name(w, lml_span_of("history"));
        lml_json_write_open_list(w);
        const lml_json *past = lml_json_first(lml_json_member(stood, "history"));
        for (; past; past = lml_json_next(past))
            lml_json_copy(w, past);
        lml_json_write_open_record(w);
        put_one(w, text_of(stood, "price"), text_of(stood, "at"), text_of(stood, "from"));
        lml_json_write_close(w);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

/* The list with the new entry in its place, all else as it was. `root` NULL for a new list. */
static lml_status write_list(const lml_json *root, const lml_price_quoted *q, lml_builder *out,
                             lml_error *err)
{
    const char *symbol = lml_metal_symbol(q->metal);
    const lml_json *prices = lml_json_member(root, "prices");
    const lml_json *stood = lml_json_member(prices, symbol);
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_json_write_open_record(&w);
    if (!root) {
        lml_json_write_name(&w, lml_span_of(LML_SHAPE_VERSION));
        lml_json_write_whole(&w, LML_SHAPES_VERSION);
    }
    for (const lml_json *m = lml_json_first(root); m && m != prices; m = lml_json_next(m)) {
        lml_json_write_name(&w, lml_json_name(m));
        lml_json_copy(&w, m);
    }
    lml_json_write_name(&w, lml_span_of("prices"));
    lml_json_write_open_record(&w);
    for (const lml_json *m = lml_json_first(prices); m; m = lml_json_next(m)) {
        lml_json_write_name(&w, lml_json_name(m));
        if (m == stood)
            put_entry(&w, q, stood);
        else
            lml_json_copy(&w, m);
    }
    if (!stood) {
        lml_json_write_name(&w, lml_span_of(symbol));
        put_entry(&w, q, NULL);
    }
    lml_json_write_close(&w);
    for (const lml_json *m = prices ? lml_json_next(prices) : NULL; m; m = lml_json_next(m)) {
        lml_json_write_name(&w, lml_json_name(m));
        lml_json_copy(&w, m);
    }
    lml_json_write_close(&w);
    lml_builder_add_char(out, '\n');
    return lml_json_writer_end(&w, err);
}

/* What is written must be a list that every job can read. */
static lml_status check_list(const char *shown, const lml_builder *after, lml_error *err)
{
    if (after->length > LML_STORE_SIZE) {
        lml_fail(err, LML_LIMIT, "%s would be longer than the %d bytes that are read", shown,
                 LML_STORE_SIZE);
        lml_error_hint(
            err,
            "its history is full: keep a copy of the file, then remove the oldest years from it");
        return LML_LIMIT;
    }
    lml_json_document *made = NULL;
    lml_status status =
        lml_json_read(after->alloc, (lml_span){after->at, after->length}, NULL, shown, &made, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_prices, lml_json_root(made), err);
    lml_json_free(made);
    return lml_error_context(err, status, "nothing was written");
}

/* `wrong`: the price that this one replaces: of the same moment, or dated after now. */
static lml_status write_report(const lml_price_quoted *q, const lml_json *stood,
                               const lml_json *wrong, double change, lml_builder *out,
                               lml_error *err)
{
    char other[2][LML_VALUE_TEXT];
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "metal", lml_metal_symbol(q->metal));
    lml_json_write_member(&w, "name", lml_metal_name(q->metal));
    put_one(&w, lml_span_of(q->price), lml_span_of(q->at), lml_span_of(q->from));
    if (wrong) {
        lml_json_write_name(&w, lml_span_of("replaces"));
        lml_json_write_text(&w, text_of(wrong, "price"));
        lml_json_write_name(&w, lml_span_of("replaces_at"));
        lml_json_write_text(&w, text_of(wrong, "at"));
    }
    if (stood) {
        lml_json_write_name(&w, lml_span_of("before"));
        lml_json_write_text(&w, text_of(stood, "price"));
        lml_json_write_name(&w, lml_span_of("change"));
        lml_json_write_number(&w, change);
    } else {
        lml_price_held_by_others(q, other);
        lml_json_write_name(&w, lml_span_of("also"));
        lml_json_write_open_list(&w);
        for (int i = 0; i < 2; i++)
            if (other[i][0])
                lml_json_write_text(&w, lml_span_of(other[i]));
        lml_json_write_close(&w);
    }
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

/* Of a price that was checked before; else the earliest there is. */
static int64_t moment_of(const lml_json *price)
{
    lml_value at;
    lml_status status =
        lml_read_value(text_of(price, "at"), LML_WANT_MOMENT, LML_NO_METAL, &at, NULL);
    return status == LML_OK ? at.exact : INT64_MIN;
}

/* The last price of the history before that moment, or NULL. */
static const lml_json *last_before(const lml_json *stood, int64_t moment)
{
    const lml_json *found = NULL, *past = lml_json_first(lml_json_member(stood, "history"));
    for (; past; past = lml_json_next(past))
        if (moment_of(past) < moment && (!found || moment_of(past) >= moment_of(found)))
            found = past;
    return found;
}

/* A moment after `now` is refused: it would be used today, and have every price until then refused
 * as earlier. */
static lml_status check_now(const lml_quote *quote, const lml_price_quoted *q, int64_t now,
                            lml_error *err)
{
    if (quote->anyway || q->moment.exact <= now)
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "%s is in the future: this computer's clock says %s", quote->at,
             quote->now);
    lml_error_hint(err, "write when it was quoted, or --at now; if the clock is wrong, add "
                        "--anyway");
    return LML_BAD_VALUE;
}

static lml_status price(const lml_json *root, const char *shown, const lml_price_quoted *q,
                        const lml_quote *quote, lml_builder *after, lml_builder *report,
                        lml_error *err)
{
    double change = 0;
    int64_t now = INT64_MAX;
    const lml_json *wrong = NULL, *stood = lml_json_member(lml_json_member(root, "prices"),
                                                           lml_metal_symbol(q->metal));
    lml_value clock;
    lml_status status = LML_OK;
    if (quote->now) {
        status =
            lml_read_value(lml_span_of(quote->now), LML_WANT_MOMENT, LML_NO_METAL, &clock, err);
        if (status == LML_OK)
            status = check_now(quote, q, now = clock.exact, err);
    }
    if (stood &&
        (lml_price_held_corrects(stood, q) || (moment_of(stood) > now && q->moment.exact <= now))) {
        wrong = stood;
        stood = last_before(wrong, moment_of(wrong) > now ? now + 1 : moment_of(wrong));
        if (stood && moment_of(stood) == q->moment.exact) /* put back, or corrected */
            stood = last_before(wrong, q->moment.exact);
    }
    if (status == LML_OK && (stood || wrong))
        status = lml_price_held(stood, wrong, q, quote->anyway, &change, err);
    if (status == LML_OK)
        status = write_list(root, q, after, err);
    if (status == LML_OK)
        status = check_list(shown, after, err);
    return status == LML_OK ? write_report(q, stood, wrong, change, report, err) : status;
}

lml_status lml_engine_price(lml_engine *engine, const char *prices, size_t length,
                            const char *shown, const lml_quote *quote, lml_text *after,
                            lml_text *report, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"shown name", shown}, {"quote", quote}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_builder text = lml_builder_on(alloc, 0), told = lml_builder_on(alloc, 0);
    lml_json_document *doc = NULL;
    lml_price_quoted q;
    lml_locale entered = lml_locale_enter();
    lml_status status = read_quote(quote, &q, err);
    if (status == LML_OK && prices)
        status = lml_json_read(alloc, (lml_span){prices, length}, NULL, shown, &doc, err);
    if (status == LML_OK && doc)
        status = lml_shape_check(&lml_shapes_prices, lml_json_root(doc), err);
    if (status == LML_OK)
        status = price(doc ? lml_json_root(doc) : NULL, shown, &q, quote, &text, &told, err);
    lml_json_free(doc);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &told, report, status, err);
}
