/* One sum: EXPRESSION [form feed UNIT [form feed DIGITS]]. What comes out is one text of whole
 * characters; and a value that comes out comes to itself. */
#include "box.h"
#include "read/read.h"
#include "value/wanted.h"

static char *text_of(lml_span span)
{
    char *text = malloc(span.length + 1);
    fuzz_expect(text, "no memory");
    if (span.length)
        memcpy(text, span.at, span.length);
    text[span.length] = '\0';
    return text;
}

/* Whether the expression had an answer; the answer is in *out. */
static bool reckon(lml_engine *engine, const char *expression, const char *unit, int digits,
                   lml_text *out)
{
    lml_error err;
    lml_status status = lml_engine_reckon(engine, expression, unit, digits, out, &err);
    fuzz_expect_sound(status, &err);
    if (status == LML_OK) {
        fuzz_expect(out->text && strlen(out->text) == out->length, "an answer that is no text");
        fuzz_expect(lml_text_check_utf8((lml_span){out->text, out->length}, NULL) == LML_OK,
                    "not UTF-8: %s", out->text);
    }
    return status == LML_OK;
}

static bool is_value(const lml_text *answer)
{
    lml_value v;
    return lml_read_value((lml_span){answer->text, answer->length}, LML_WANT_ANYTHING, LML_NO_METAL,
                          &v, NULL) == LML_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_span rest = {(const char *)data, size}, part = fuzz_part(&rest);
    char *expression = text_of(part), *unit = text_of(fuzz_part(&rest)), *digits = text_of(rest);
    lml_engine *engine = fuzz_engine();
    lml_text first = {0}, second = {0}, third = {0};
    if (reckon(engine, expression, *unit ? unit : NULL, (int)(strtoul(digits, NULL, 10) % 100),
               &first) &&
        is_value(&first)) {
        fuzz_expect(reckon(engine, first.text, NULL, 0, &second), "%s has no answer", first.text);
        fuzz_expect(reckon(engine, second.text, NULL, 0, &third), "%s has no answer", second.text);
        fuzz_expect(strcmp(second.text, third.text) == 0, "%s comes to %s", second.text,
                    third.text);
    }
    lml_text_free(engine, &third);
    lml_text_free(engine, &second);
    lml_text_free(engine, &first);
    lml_engine_free(engine);
    free(digits);
    free(unit);
    free(expression);
    return 0;
}
