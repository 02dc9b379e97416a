/* A recipe's text, put on the shelf and asked all that can be asked of it without a job: what it
 * declares, the schema of its jobs, advice on its text, its own proofs. */
#include "box.h"

typedef lml_status question(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static question *const questions[] = {lml_engine_inspect, lml_engine_schema, lml_engine_advise,
                                          lml_engine_prove};
    lml_engine *engine = fuzz_engine();
    if (fuzz_put(engine, (lml_span){(const char *)data, size}))
        for (size_t i = 0; i < sizeof questions / sizeof *questions; i++) {
            lml_text text = {0};
            lml_error err;
            lml_status status = questions[i](engine, "fuzz", &text, &err);
            fuzz_expect_json(status, &text, &err);
            lml_text_free(engine, &text);
        }
    lml_engine_free(engine);
    return 0;
}
