/* What one step of the budget makes the processor do: each operation of tests/step_prices.h, in
 * steps and in instructions. The instructions are counted by callgrind, which tests/bench/steps.sh
 * starts: bench_steps steps          prints "NAME steps" of every operation bench_steps turns works
 * each operation twice, and says which is which to callgrind */
#include "lemel.h"

#include "../step_prices.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <valgrind/callgrind.h>

enum { SOURCE = 1 << 13, FEW = 10, MORE = 60, MANY = 3000 };

static lml_status work(const step_price *p, int turns, uint64_t steps, lml_error *err)
{
    char source[SOURCE];
    static const char job[] = "{ \"recipe\": \"t\" }";
    lml_engine_options options = {.limits = {.steps = steps}, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    lml_text text;
    step_price_recipe(p, turns, source, sizeof source);
    lml_status status =
        lml_engine_put(engine, LML_PUT_RECIPE, "t", source, strlen(source), "t.lua", err);
    if (!status && !(status = lml_engine_run(engine, job, sizeof job - 1, "job", &text, err)))
        lml_text_free(engine, &text);
    lml_engine_free(engine);
    return status;
}

/* The least budget that so many turns are done with. */
static uint64_t least(const step_price *p, int turns)
{
    uint64_t low = 1, high = 1 << 18;
    lml_error e;
    while (high < 1 << 30 && work(p, turns, high, &e))
        low = high, high *= 2;
    if (work(p, turns, high, &e)) {
        fprintf(stderr, "%s: %s\n", p->name, e.message);
        exit(1);
    }
    while (low < high) {
        uint64_t middle = low + (high - low) / 2;
        if (work(p, turns, middle, &e))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The box looks at its own count every thousand steps, so that a cheap operation is done more
 * often. */
static double steps_of(const step_price *p)
{
    double each = (double)(least(p, MORE) - least(p, FEW)) / (MORE - FEW);
    return each > 300 ? each : (double)(least(p, FEW + MANY) - least(p, FEW)) / MANY;
}

int main(int count, char **words)
{
    lml_error e;
    work(&STEP_PRICES[0], FEW, 400000000, &e); /* what only a first run does is counted nowhere */
    for (size_t i = 0; i < sizeof STEP_PRICES / sizeof *STEP_PRICES; i++) {
        const step_price *p = &STEP_PRICES[i];
        if (count > 1 && strcmp(words[1], "turns") == 0) {
            CALLGRIND_ZERO_STATS;
            work(p, FEW, 400000000, &e);
            CALLGRIND_DUMP_STATS_AT("few");
            work(p, MORE, 400000000, &e);
            CALLGRIND_DUMP_STATS_AT("more");
        } else {
            printf("%.2f\t%s\n", steps_of(p), p->name);
        }
    }
    return 0;
}
