#include "cli/advice_list.h"

#include "cli/ask.h"
#include "sheet/complain.h"

#include <string.h>

static void tell(lml_call *call, const char *shown, const lml_json *advice)
{
    lml_error said = {.status = LML_OK};
    lml_span line = lml_json_raw(lml_json_member(advice, "line"));
    bool placed = lml_json_number(lml_json_member(advice, "line")) > 0;
    lml_fail(&said, LML_OK, "%s%s%.*s: %s", shown, placed ? ":" : "", placed ? (int)line.length : 0,
             line.at, lml_json_text(lml_json_member(advice, "text")).at);
    lml_error_hint(&said, "%s", lml_json_text(lml_json_member(advice, "advice")).at);
    lml_complain_write(&said, &call->aside);
}

void lml_advice_list_tell(lml_call *call, const char *shown, const lml_json *advice)
{
    for (const lml_json *a = lml_json_first(advice); a; a = lml_json_next(a))
        tell(call, shown, a);
}

bool lml_advice_list_tell_wrong(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                                const lml_error *error, lml_json_document **out)
{
    lml_json_document *advice = NULL;
    lml_error ignored; /* the caller reports the refusal in any case */
    bool told = false;
    if (out)
        *out = NULL;
    if (lml_ask_advise(kit, text->name, &advice, &ignored) != LML_OK)
        return false;
    for (const lml_json *a = lml_json_first(lml_json_root(advice)); a; a = lml_json_next(a)) {
        const char *says = lml_json_text(lml_json_member(a, "text")).at;
        if (!lml_json_yes(lml_json_member(a, "wrong")) || (error && strstr(error->message, says)))
            continue;
        tell(call, text->shown, a);
        told = true;
    }
    if (out)
        *out = advice;
    else
        lml_json_free(advice);
    return told;
}
