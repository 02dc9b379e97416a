/* schema: the JSON Schema of the files, and of a job for one recipe. That of a house has what the
 * available recipes allow. */
#include "cli/ask.h"
#include "cli/cmd.h"
#include "file/result_schema.h"
#include "file/shapes.h"

#include <string.h>

/* Of a job for the recipe; without a word, of the house. */
static lml_status put_worked(lml_call *call, const char *word, lml_error *err)
{
    lml_target target;
    if (word)
        target = lml_find_recipe(word);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, word ? &target : NULL, &kit, err);
    const char *recipe = NULL;
    if (status == LML_OK && word)
        recipe = lml_kit_find(&kit, LML_PUT_RECIPE, target.recipe)->name;
    if (status == LML_OK)
        status = lml_ask_schema(&kit, recipe, &call->out, err);
    if (status == LML_OK)
        lml_builder_add_char(&call->out, '\n');
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_schema(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words != 1) {
        lml_fail(err, LML_USAGE, "lemel schema needs a name");
        lml_error_hint(err, "job, house, prices, result or the name of a recipe");
        return LML_USAGE;
    }
    if (strcmp(a->word[0], "result") == 0) {
        lml_result_schema(&call->out);
        return LML_OK;
    }
    const lml_shape *shape = lml_shapes_named(lml_span_of(a->word[0]));
    if (!shape || shape == &lml_shapes_house)
        return put_worked(call, shape ? NULL : a->word[0], err);
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_shape_schema(shape, true, &w);
    return lml_call_end_json(&w, err);
}
