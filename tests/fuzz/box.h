/* An engine that is soon at its limits, for the targets that load or work recipes. */
#ifndef LML_TESTS_FUZZ_BOX_H
#define LML_TESTS_FUZZ_BOX_H

#include "fuzz.h"
#include "file/json.h"
#include "lemel.h"

static inline lml_engine *fuzz_engine(void)
{
    lml_engine_options options = {.limits = {.steps = 100000,
                                             .memory = 4 << 20,
                                             .source = 64 << 10,
                                             .job = 64 << 10,
                                             .result = 256 << 10},
                                  .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    fuzz_expect(engine, "no engine");
    return engine;
}

/* Put one recipe on its shelf; false when it is refused there already. */
static inline bool fuzz_put(lml_engine *engine, lml_span recipe)
{
    lml_error err;
    lml_status status =
        lml_engine_put(engine, LML_PUT_RECIPE, "fuzz", recipe.at, recipe.length, "fuzz.lua", &err);
    fuzz_expect_sound(status, &err);
    return status == LML_OK;
}

/* What the engine prints is JSON that our own reader takes. */
static inline void fuzz_expect_json(lml_status status, const lml_text *text, const lml_error *err)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_limits limits = {.depth = 500};
    lml_json_document *doc;
    lml_error why;
    fuzz_expect_sound(status, err);
    if (status != LML_OK)
        return;
    fuzz_expect(lml_json_read(&heap, (lml_span){text->text, text->length}, &limits, "output", &doc,
                              &why) == LML_OK,
                "%s\n%s", why.message, text->text);
    lml_json_free(doc);
}

#endif
