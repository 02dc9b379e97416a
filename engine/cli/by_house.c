#include "cli/by_house.h"

#include "unit/currency.h"

#include <string.h>

#define PROVED_IN "EUR" /* the currency of most proofs that come with lemel */

enum { CODE = 3 };

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is(const lml_json *proof, const char *what)
{
    return lml_json_yes(lml_json_member(proof, what));
}

static const lml_json *proofs_of(const lml_json_document *report)
{
    return lml_json_member(lml_json_root(report), "proofs");
}

/* Whether any of them adds or compares amounts of two currencies. */
static bool any_apart(const lml_json_document *report)
{
    for (const lml_json *p = lml_json_first(proofs_of(report)); p; p = lml_json_next(p))
        if (is(p, "currencies"))
            return true;
    return false;
}

/* ---- in the house's currency ----
 */

/* A house without one, or that cannot be read, has none. */
static void read_currency(const lml_call *call, const lml_kit *kit, char *out)
{
    const lml_kit_text *house = lml_kit_settings(kit, LML_PUT_HOUSE);
    lml_json_document *doc = NULL;
    out[0] = '\0';
    if (house &&
        lml_json_read(&call->alloc, house->text, NULL, house->shown, &doc, NULL) == LML_OK) {
        lml_span currency = member_text(lml_json_root(doc), "currency");
        if (lml_currency_by_code(currency) != 0) {
            memcpy(out, currency.at, CODE);
            out[CODE] = '\0';
        }
    }
    lml_json_free(doc);
}

static bool is_letter(lml_span text, size_t at)
{
    char c = at < text.length ? (char)(text.at[at] | ' ') : ' ';
    return c >= 'a' && c <= 'z';
}

/* The currency whose code is there, as a word of its own; 0 if none is. */
static uint16_t currency_at(lml_span text, size_t at)
{
    if (at + CODE > text.length || (at > 0 && is_letter(text, at - 1)) ||
        is_letter(text, at + CODE))
        return 0;
    return lml_currency_by_code((lml_span){text.at + at, CODE});
}

/* Those of the recipe's text whose amounts have as many decimals as the house's: in another, each
 * would be rounded differently: `others` is set. Lemel's own first. How many. */
static size_t currencies_in(lml_span text, const char *house, uint16_t *out, bool *others)
{
    uint16_t own = lml_currency_by_code(lml_span_of(house));
    uint16_t first = lml_currency_by_code(lml_span_of(PROVED_IN));
    size_t count = 0;
    for (size_t i = 0; i < text.length && count < LML_BY_HOUSE_MOST - 1; i++) {
        uint16_t found = currency_at(text, i);
        bool known = found == 0 || found == own;
        if (!known && lml_currency_at(found)->minor != lml_currency_at(own)->minor)
            known = *others = true;
        for (size_t k = 0; k < count && !known; k++)
            known = out[k] == found;
        if (known)
            continue;
        out[count++] = found;
        if (found == first) {
            out[count - 1] = out[0];
            out[0] = found;
        }
    }
    return count;
}

/* The report on the recipe with the name of the house's currency in place of that one's. NULL as
 * `ask`, or without memory. */
static lml_json_document *ask_renamed(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                                      lml_ask_of ask, uint16_t from, const char *to)
{
    const size_t room = kit->count * sizeof *kit->texts;
    lml_builder renamed = lml_builder_on(&call->alloc, 0);
    lml_kit other = *kit; /* the same texts, but for this one */
    lml_json_document *report = NULL;
    lml_error ignored; /* the report as written tells what is wrong */
    other.texts = lml_alloc_get(&call->alloc, room);
    lml_builder_add_span(&renamed, text->text);
    if (other.texts && lml_builder_status(&renamed, &ignored) == LML_OK) {
        for (size_t i = 0; i < text->text.length; i++)
            if (currency_at(text->text, i) == from)
                memcpy(renamed.at + i, to, CODE);
        memcpy(other.texts, kit->texts, room);
        other.texts[text - kit->texts].text = lml_builder_span(&renamed);
        if (ask(&other, text->name, &report, &ignored) != LML_OK)
            report = NULL;
    }
    lml_alloc_free(&call->alloc, other.texts, room);
    lml_builder_free(&renamed);
    return report;
}

lml_status lml_by_house_read(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                             lml_ask_of ask, lml_by_house *out, lml_error *err)
{
    *out = (lml_by_house){.count = 0};
    lml_json_document *report;
    lml_status status = ask(kit, text->name, &report, err);
    if (status != LML_OK)
        return status;
    out->report[out->count++] = report;
    read_currency(call, kit, out->currency);
    if (!any_apart(report) || !out->currency[0])
        return LML_OK;
    uint16_t currency[LML_BY_HOUSE_MOST];
    size_t count = currencies_in(text->text, out->currency, currency, &out->decimals);
    for (size_t i = 0; i < count; i++)
        if ((report = ask_renamed(call, kit, text, ask, currency[i], out->currency)) != NULL)
            out->report[out->count++] = report;
    return LML_OK;
}

void lml_by_house_free(lml_by_house *by_house)
{
    for (size_t i = 0; i < by_house->count; i++)
        lml_json_free(by_house->report[i]);
    by_house->count = 0;
}

/* ---- what came of each proof ----
 */

/* All proofs, one after the other, each in the first report in which its currencies go together;
 * where they do in none, in the first of all. */
typedef struct walk {
    const lml_json *at[LML_BY_HOUSE_MOST];
    size_t count;
} walk;

static walk begin(const lml_by_house *by_house)
{
    walk w = {.count = by_house->count};
    for (size_t i = 0; i < w.count; i++)
        w.at[i] = lml_json_first(proofs_of(by_house->report[i]));
    return w;
}

/* The next; NULL at the end. `renamed`: in the house's currency. */
static const lml_json *next(walk *w, bool *renamed)
{
    const lml_json *found = w->count > 0 ? w->at[0] : NULL;
    *renamed = false;
    for (size_t i = 1; i < w->count && found && is(found, "currencies"); i++)
        if (w->at[i] && !is(w->at[i], "currencies")) {
            found = w->at[i];
            *renamed = true;
        }
    for (size_t i = 0; i < w->count; i++)
        w->at[i] = w->at[i] ? lml_json_next(w->at[i]) : NULL;
    return found;
}

static bool is_different(const lml_json *proof)
{
    return !is(proof, "passed") && !is(proof, "currencies");
}

size_t lml_by_house_broken(const lml_by_house *by_house)
{
    size_t broken = 0;
    bool renamed;
    walk w = begin(by_house);
    for (const lml_json *p = next(&w, &renamed); p; p = next(&w, &renamed))
        broken += is_different(p) && is(p, "broken");
    return broken;
}

void lml_by_house_write(const lml_by_house *by_house, lml_json_writer *w)
{
    bool renamed;
    walk all = begin(by_house);
    lml_json_write_open_list(w);
    for (const lml_json *p = next(&all, &renamed); p; p = next(&all, &renamed))
        if (!is(p, "passed"))
            lml_json_copy(w, p);
    lml_json_write_close(w);
}

/* ---- for a person ----
 */

static void put_line(lml_layout *layout, size_t column, const char *before, lml_span text,
                     const char *after)
{
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, before);
    lml_builder_add_span(&line, text);
    lml_builder_add_text(&line, after);
    if (line.at)
        lml_layout_text(layout, column, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
}

static void put_different(const lml_by_house *by_house, lml_layout *layout)
{
    bool renamed;
    walk w = begin(by_house);
    for (const lml_json *p = next(&w, &renamed); p; p = next(&w, &renamed)) {
        if (!is_different(p))
            continue;
        put_line(layout, 3, is(p, "broken") ? "FAILED: " : "", member_text(p, "name"), "");
        lml_layout_text(layout, 6, lml_json_text(lml_json_first(lml_json_member(p, "failures"))));
    }
}

/* What could not be compared, and why. */
static void put_apart(const lml_by_house *by_house, lml_layout *layout, size_t apart)
{
    bool renamed;
    walk w = begin(by_house);
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_format(&line, "%zu not run with them, as their currencies do not go together",
                           apart);
    if (by_house->decimals)
        lml_builder_add_format(&line, ", and amounts in %s have other decimals",
                               by_house->currency);
    lml_builder_add_char(&line, ':');
    if (line.at)
        lml_layout_text(layout, 3, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
    for (const lml_json *p = next(&w, &renamed); p; p = next(&w, &renamed)) {
        if (!is(p, "currencies"))
            continue;
        put_line(layout, 3, "", member_text(p, "name"), "");
        lml_layout_text(layout, 6, lml_json_text(lml_json_first(lml_json_member(p, "failures"))));
    }
}

void lml_by_house_put(const lml_by_house *by_house, lml_layout *layout)
{
    size_t different = 0, apart = 0, in_house = 0;
    bool renamed;
    walk w = begin(by_house);
    for (const lml_json *p = next(&w, &renamed); p; p = next(&w, &renamed)) {
        different += is_different(p);
        apart += is(p, "currencies");
        in_house += renamed;
    }
    if (different + apart == 0)
        return;
    lml_builder_add_format(layout->out,
                           "   with the house's own rules and recipes%s%s, %zu "
                           "different%s\n",
                           in_house ? ", in " : "", in_house ? by_house->currency : "", different,
                           different > 0 ? ":" : "");
    put_different(by_house, layout);
    if (apart > 0)
        put_apart(by_house, layout, apart);
}
