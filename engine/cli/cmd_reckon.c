#include "cli/ask.h"
#include "cli/cmd.h"

#include <stdlib.h>
#include <string.h>

static lml_status read_digits(const char *text, int *out, lml_error *err)
{
    char *end;
    long n = strtol(text, &end, 10);
    if (*end != '\0' || end == text || n < 1 || n > 17)
        return lml_fail(err, LML_USAGE,
                        "--digits needs a whole number from 1 to 17, but \"%s\" is not one", text);
    *out = (int)n;
    return LML_OK;
}

/* The words up to `as UNIT`, with blanks between: so that a sum needs no quotes where the shell
 * lets it. */
static lml_status read_sum(const lml_arguments *a, lml_builder *expression, lml_sum *out,
                           lml_error *err)
{
    size_t words = a->words;
    *out = (lml_sum){.unit = NULL};
    if (words >= 2 && strcmp(a->word[words - 1], "as") == 0)
        return lml_fail(err, LML_USAGE,
                        "expected a unit after `as`, as in: lemel reckon \"1 ozt\" as g");
    if (words >= 3 && strcmp(a->word[words - 2], "as") == 0) {
        out->unit = a->word[words - 1];
        words -= 2;
    }
    if (words == 0) {
        lml_fail(err, LML_USAGE, "lemel reckon needs a sum");
        lml_error_hint(err, "lemel reckon \"1 ozt\" as g");
        return LML_USAGE;
    }
    for (size_t i = 0; i < words; i++) {
        lml_builder_add_text(expression, i > 0 ? " " : "");
        lml_builder_add_text(expression, a->word[i]);
    }
    lml_status status = lml_builder_status(expression, err);
    out->expression = expression->at;
    if (status == LML_OK && a->value[LML_OPTION_DIGITS])
        status = read_digits(a->value[LML_OPTION_DIGITS], &out->digits, err);
    return status;
}

static lml_status put_answer(lml_call *call, const lml_builder *answer, lml_error *err)
{
    lml_span text = answer->at ? (lml_span){answer->at, answer->length} : lml_span_of(NULL);
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_write_open_record(&w);
        lml_json_write_name(&w, lml_span_of("text"));
        lml_json_write_text(&w, text);
        lml_json_write_close(&w);
        return lml_call_end_json(&w, err);
    }
    lml_builder_add_span(&call->out, text);
    lml_builder_add_char(&call->out, '\n');
    return lml_builder_status(&call->out, err);
}

lml_status lml_cmd_reckon(lml_call *call, lml_error *err)
{
    lml_builder expression = lml_builder_on(&call->alloc, 0);
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_sum sum;
    lml_status status = read_sum(&call->arguments, &expression, &sum, err);
    if (status == LML_OK)
        status = lml_find_kit(call, NULL, &kit, err);
    if (status == LML_OK)
        status = lml_ask_reckon(&kit, &sum, &answer, err);
    if (status == LML_OK)
        status = put_answer(call, &answer, err);
    lml_kit_free(&kit);
    lml_builder_free(&answer);
    lml_builder_free(&expression);
    return status;
}
