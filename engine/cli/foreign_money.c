#include "cli/foreign_money.h"

#include "file/json.h"
#include "shelf/token.h"
#include "sheet/layout.h"
#include "unit/currency.h"

#include <ctype.h>
#include <string.h>

enum { CODE = 3 /* letters, ISO 4217 */ };

/* An amount such as "5 EUR" or "68 EUR/h": nothing else between the quotes. */
static lml_span currency_of(lml_span text)
{
    const char *end = text.at + text.length, *at = text.at;
    if (at < end && *at == '-')
        at++;
    if (at == end || !isdigit((unsigned char)*at))
        return (lml_span){at, 0};
    while (at < end && (isdigit((unsigned char)*at) || *at == '.' || *at == ','))
        at++;
    while (at < end && *at == ' ')
        at++;
    lml_span code = {at, CODE};
    bool whole = end - at == CODE || (end - at > CODE && at[CODE] == '/');
    return whole && lml_currency_by_code(code) ? code : (lml_span){at, 0};
}

/* The first amount of another currency, up to the proofs; one that is only an example is none. */
static lml_span find(lml_span text, lml_span own, int *line)
{
    lml_scanner s = lml_scanner_on(text);
    lml_token before[2] = {{0}};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        const bool set = lml_token_is(before[1], "=");
        if (lml_token_is(t, "=") && lml_token_is(before[1], "proofs"))
            break;
        if (t.kind == LML_TOKEN_TEXT && t.text.length > 2 &&
            !(set && lml_token_is(before[0], "example"))) {
            const lml_span said = {t.text.at + 1, t.text.length - 2}, code = currency_of(said);
            *line = t.line;
            if (code.length > 0 && !lml_span_equal(code, own))
                return said;
        }
        before[0] = before[1];
        before[1] = t;
    }
    return (lml_span){"", 0};
}

static void tell(const lml_call *call, const lml_kit_text *text, lml_span own, lml_builder *out)
{
    int line = 0;
    lml_span said = find(text->text, own, &line);
    if (said.length == 0)
        return;
    lml_layout layout = {.out = out, .width = call->width, .bold = call->bold};
    lml_builder words = lml_builder_on(out->alloc, 0);
    lml_builder_add_format(&words,
                           "%s:%d: %.*s, but the house is in %.*s and no exchange rate is "
                           "guessed: a job that comes to it stops. Write it in %.*s",
                           text->shown, line, LML_SPAN_SHOWN(said), LML_SPAN_SHOWN(own),
                           LML_SPAN_SHOWN(own));
    lml_layout_text(&layout, 2, lml_builder_span(&words));
    lml_builder_free(&words);
}

lml_status lml_foreign_money_tell(const lml_call *call, const lml_kit *kit, const char *recipe,
                                  lml_builder *out, lml_error *err)
{
    const lml_kit_text *house = lml_kit_settings(kit, LML_PUT_HOUSE);
    lml_json_document *doc = NULL;
    if (!house || lml_json_read(&call->alloc, house->text, NULL, house->shown, &doc, NULL))
        return LML_OK; /* what is wrong with it is said elsewhere */
    lml_span own = lml_json_text(lml_json_member(lml_json_root(doc), "currency"));
    for (size_t i = 0; i < kit->count && own.length == CODE; i++) {
        const lml_kit_text *text = &kit->texts[i];
        bool asked = recipe ? strcmp(text->name, recipe) == 0 : !text->ours;
        if (text->what == LML_PUT_RECIPE && asked && strcmp(text->from, "shipped") != 0)
            tell(call, text, own, out);
    }
    lml_json_free(doc);
    return lml_builder_status(out, err);
}
