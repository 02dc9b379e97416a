/* A whole run: RECIPE form feed JOB, where the job calls the recipe "fuzz". The result is JSON; and
 * since recipes are pure, the same job comes out the same when the engine works it again, also from
 * a kept box. */
#include "box.h"

enum { RUNS = 3 }; /* by itself, while the box is kept, from the kept box */

static void expect_same(const lml_text text[2], const lml_status status[2], const lml_error err[2])
{
    fuzz_expect(status[0] == status[1], "first %s, then %s: %s", lml_status_name(status[0]),
                lml_status_name(status[1]), err[status[0] == LML_OK].message);
    if (status[0] == LML_OK)
        fuzz_expect(strcmp(text[0].text, text[1].text) == 0, "first\n%s\nthen\n%s", text[0].text,
                    text[1].text);
    else
        fuzz_expect(strcmp(err[0].message, err[1].message) == 0, "first \"%s\", then \"%s\"",
                    err[0].message, err[1].message);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_span job = {(const char *)data, size}, recipe = fuzz_part(&job);
    lml_engine *engine = fuzz_engine();
    if (fuzz_put(engine, recipe)) {
        lml_text text[RUNS] = {{0}};
        lml_status status[RUNS];
        lml_error err[RUNS];
        for (int i = 0; i < RUNS; i++) {
            status[i] = lml_engine_run(engine, job.at, job.length, "job.json", &text[i], &err[i]);
            fuzz_expect_json(status[i], &text[i], &err[i]);
            if (i > 0)
                expect_same(&text[i - 1], &status[i - 1], &err[i - 1]);
        }
        for (int i = 0; i < RUNS; i++)
            lml_text_free(engine, &text[i]);
    }
    lml_engine_free(engine);
    return 0;
}
