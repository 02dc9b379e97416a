/* Draws where memory fails: the figures are the same, or there are none. */
#include "base/alloc.h"
#include "lemel.h"

#include <criterion/criterion.h>
#include <string.h>

static const char *const POURED =
    "return recipe { title = 'Poured', version = '1', level = 1, asks = { wax = ask.mass { 'Wax' } "
    "},\n"
    "  gives = { charge = give.mass 'Charge' },\n"
    "  work = function (job) return { charge = job.wax * 15 } end }\n";
static const char *const UNSURE =
    "{ \"recipe\": \"poured\", \"given\": { \"wax\": \"2 g \302\261 1 g\" } }";

/* What `sure` says in one life of an engine, to be freed; NULL where memory is short. */
static char *draw(lml_meter *meter)
{
    lml_engine_options options = {.alloc = lml_alloc_metered(meter), .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    lml_text report = {0};
    lml_error e = {.status = LML_OK};
    lml_status status = engine ? lml_engine_put(engine, LML_PUT_RECIPE, "poured", POURED,
                                                strlen(POURED), "poured", &e)
                               : LML_NO_MEMORY;
    if (!status)
        status = lml_engine_sure(engine, UNSURE, strlen(UNSURE), "job.json",
                                 &(lml_asked_sure){.draws = 100}, &report, &e);
    cr_assert(status == LML_OK || status == LML_NO_MEMORY, "%s: %s", lml_status_name(status),
              e.message);
    char *said = status ? NULL : strdup(report.text);
    lml_text_free(engine, &report);
    lml_engine_free(engine);
    return said;
}

/* A draw that cannot be, as of a mass below 0, is made again; one that memory is short for is not:
 * the figures would be others. */
Test(memory, draws_are_the_same_or_none)
{
    lml_meter meter = {.under = lml_alloc_heap()};
    char *sound = draw(&meter);
    cr_assert(sound);
    const uint64_t requests = meter.requests;
    for (uint64_t n = 1; n <= requests; n += 3) {
        meter = (lml_meter){.under = lml_alloc_heap(), .fail_at = n};
        char *said = draw(&meter);
        cr_assert_eq(meter.used, 0, "request %d of %d leaks", (int)n, (int)requests);
        if (said)
            cr_assert_str_eq(said, sound, "request %d of %d changes the draws", (int)n,
                             (int)requests);
        free(said);
    }
    free(sound);
}
