/* Every number and value that any proof of any recipe gives has steps, and the first is that
 * figure: all proofs, worked with every operation over values recorded. */
#include "cell/trace.h"
#include "face/engine.h"
#include "run/engine.h"

#include "../shipped.h"

static void prove_traced(const char *name)
{
    lml_error e;
    lml_text report;
    lml_trace trace;
    lml_engine *engine =
        lml_engine_new(&(lml_engine_options){.limits = {.steps = 1000000000, .memory = 1u << 30}});
    shipped_put(engine, LML_PUT_SCRIPT, "scripts");
    shipped_put(engine, LML_PUT_RECIPE, "recipes");
    lml_trace_open(&trace, lml_engine_alloc(engine));
    engine->trace = &trace;
    lml_status status = lml_engine_prove(engine, name, &report, &e);
    engine->trace = NULL;
    cr_expect(status == LML_OK || status == LML_STOPPED, "%s: %s", name, e.message);
    if (status == LML_OK) {
        cr_expect_null(strstr(report.text, "\"passed\":false"), "%s: %s", name, report.text);
        cr_expect_not(trace.short_of, "%s", name);
        lml_text_free(engine, &report);
    }
    lml_trace_close(&trace);
    lml_engine_free(engine);
}

Test(why, each_figure_of_each_proof_has_steps)
{
    lml_engine *engine = shipped_engine();
    for (size_t i = 0; lml_engine_recipe(engine, i); i++)
        prove_traced(lml_engine_recipe(engine, i));
    lml_engine_free(engine);
}
