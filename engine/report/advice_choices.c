#include "report/advice_choices.h"

#include "base/error.h"
#include "base/nearest.h"
#include "shelf/token.h"

#include <string.h>

/* What stands between plain quotes; an empty span for long brackets and texts with a backslash. */
static lml_span unquoted(lml_span text)
{
    if (text.length < 2 || text.at[0] == '[' || memchr(text.at, '\\', text.length))
        return (lml_span){text.at, 0};
    return (lml_span){text.at + 1, text.length - 2};
}

static const lml_shape *record_of(lml_token whole, const lml_recipe *recipe)
{
    if (lml_token_is(whole, "job"))
        return &recipe->asks;
    return lml_token_is(whole, "house") ? &recipe->allowances : NULL;
}

static void tell_none(const lml_token part[5], const lml_shape *choice, lml_advice_tell *tell,
                      void *self)
{
    lml_span option = unquoted(part[4].text);
    lml_nearest nearest = lml_nearest_to(option);
    for (const char *const *c = choice->choices; *c; c++) {
        if (option.length == 0 || lml_span_is(option, *c))
            return;
        lml_nearest_offer(&nearest, lml_span_of(*c));
    }
    lml_error words;
    lml_fail(&words, LML_OK, "%.*s.%s is a choice, and \"%.*s\" is not one of its options",
             (int)part[0].text.length, part[0].text.at, choice->name, (int)option.length,
             option.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(&words, "did you mean \"%.*s\"?", (int)nearest.best.length, nearest.best.at);
    else
        lml_error_hint(&words, "its first option is \"%s\"; lemel inspect lists them all",
                       choice->choices[0]);
    tell(self, part[4].line, words.message, words.hint);
}

void lml_advice_choices(lml_span source, const lml_recipe *recipe, lml_advice_tell *tell,
                        void *self)
{
    enum { LONG = 5 }; /* job . NAME == "option" */
    lml_token part[LONG] = {0};
    lml_scanner s = lml_scanner_on(source);
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        memmove(part, part + 1, (LONG - 1) * sizeof *part);
        part[LONG - 1] = t;
        const lml_shape *record = t.kind == LML_TOKEN_TEXT ? record_of(part[0], recipe) : NULL;
        if (!record || !lml_token_is(part[1], ".") ||
            (!lml_token_is(part[3], "==") && !lml_token_is(part[3], "~=")))
            continue;
        const lml_shape *choice = lml_shape_field_named(record, part[2].text);
        if (choice && choice->wanted == LML_WANT_CHOICE && choice->choices)
            tell_none(part, choice, tell, self);
    }
}
