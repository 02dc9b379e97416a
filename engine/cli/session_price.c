/* The first price of gold, asked once a studio's settings are. */
#include "cli/cmd.h"
#include "cli/session.h"
#include "sheet/complain.h"
#include "studio/find.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { PRICE = 80, FROM = 200 };

/* `?` tells what is meant, and asks again. */
static lml_status ask_for(lml_session *s, const char *question, const char *meant, char *out,
                          size_t size, lml_error *err)
{
    lml_status status;
    lml_span typed;
    do {
        lml_builder_add_format(&s->call->out, "  %s [left out]: ", question);
        status = lml_session_read(s, err);
        typed = lml_span_trim(lml_builder_span(&s->line));
        if (lml_span_is(typed, "?"))
            lml_builder_add_format(&s->call->out, "    %s\n", meant);
    } while (status == LML_OK && !s->ended && lml_span_is(typed, "?"));
    out[0] = '\0';
    if (status == LML_OK && !s->ended && !lml_span_is(typed, "-"))
        snprintf(out, size, "%.*s", LML_SPAN_SHOWN(typed));
    return status;
}

/* As lemel price sets it. */
static lml_status put_price(lml_session *s, const char *price, const char *from, lml_error *err)
{
    lml_arguments *a = &s->call->arguments, kept = *a;
    const char *word[] = {"Au", price};
    a->word = word;
    a->words = 2;
    a->given[LML_OPTION_AT] = a->given[LML_OPTION_FROM] = true;
    a->value[LML_OPTION_AT] = "now";
    a->value[LML_OPTION_FROM] = from;
    lml_status status = lml_cmd_price(s->call, err);
    *a = kept;
    return status;
}

lml_status lml_session_ask_price(lml_session *s, lml_error *err)
{
    char path[LML_PATH], price[PRICE], from[FROM] = "";
    lml_status status = lml_find_prices(s->call, path, err);
    if (status != LML_OK || access(path, F_OK) == 0)
        return status;
    lml_builder_add_text(&s->call->out, "\nThe price of gold (2 questions)\n");
    for (bool set = false; status == LML_OK && !set && !s->ended;) {
        lml_error error = {.status = LML_OK};
        status =
            ask_for(s, "Fine gold, with its currency and unit",
                    "what a gram or a troy ounce (ozt) of fine gold costs today; - leaves it out",
                    price, sizeof price, err);
        if (status != LML_OK || !price[0])
            break;
        if (!from[0])
            status =
                ask_for(s, "Who quoted it", "it is kept beside the price; - leaves the price out",
                        from, sizeof from, err);
        if (status != LML_OK || !from[0])
            break;
        set = put_price(s, price, from, &error) == LML_OK;
        if (!set)
            lml_complain_write(&error, &s->call->out);
    }
    return status;
}
