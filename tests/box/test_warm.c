/* Runs that start from a kept box give what a first run gives: the same bytes, the same errors, at
 * the same cost. */
#include "shipped.h"
#include "worked.h"

#include <stdbool.h>

static lml_engine *demo_engine(uint64_t steps)
{
    lml_engine_options options = {.limits = {.steps = steps}};
    lml_engine *engine = lml_engine_new(&options);
    shipped_put_studio(engine);
    return engine;
}

/* The result, or the error's message. */
static char *run(lml_engine *engine, const char *job, bool *worked)
{
    lml_text text;
    lml_error e;
    *worked = lml_engine_run(engine, job, strlen(job), "job", &text, &e) == LML_OK;
    if (!*worked)
        return strdup(e.message);
    char *copy = strdup(text.text);
    lml_text_free(engine, &text);
    return copy;
}

static char *job_of(const char *name)
{
    char path[600];
    snprintf(path, sizeof path, "%s/examples/jobs/%s.json", LML_SOURCE_DIR, name);
    return shipped_read(path);
}

static const char *const jobs[] = {"cuff-links", "warden-rings", "bracelet", "ear-cuff",
                                   "cloak-pin"};
enum { JOBS = sizeof jobs / sizeof jobs[0] };

Test(warm, runs_give_the_bytes_of_a_first_run)
{
    char *first[JOBS + 1], *job[JOBS + 1];
    bool worked[JOBS + 1], now;
    for (int i = 0; i <= JOBS; i++) {
        lml_engine *fresh = demo_engine(0);
        job[i] = i < JOBS ? job_of(jobs[i]) : strdup("{ \"recipe\": \"remake\", \"given\": {} }");
        first[i] = run(fresh, job[i], &worked[i]);
        cr_expect_eq(worked[i], i < JOBS, "%s", first[i]);
        lml_engine_free(fresh);
    }
    lml_engine *engine = demo_engine(0);
    for (int round = 0; round < 4; round++)
        for (int i = 0; i <= JOBS; i++) {
            char *again = run(engine, job[i], &now);
            cr_expect_str_eq(again, first[i], "job %d in round %d", i, round);
            free(again);
        }
    lml_engine_free(engine);
    for (int i = 0; i <= JOBS; i++) {
        free(first[i]);
        free(job[i]);
    }
}

/* The least steps that a first run does with are those that every later one does with. */
static void expect_equal_cost(lml_engine *(*make)(uint64_t steps), const char *job)
{
    uint64_t low = 1, high = 50000000;
    bool worked;
    while (low < high) {
        uint64_t middle = low + (high - low) / 2;
        lml_engine *fresh = make(middle);
        free(run(fresh, job, &worked));
        lml_engine_free(fresh);
        if (worked)
            high = middle;
        else
            low = middle + 1;
    }
    lml_engine *enough = make(low), *short_by_one = make(low - 1);
    for (int round = 0; round < 4; round++) {
        free(run(enough, job, &worked));
        cr_expect(worked, "%llu steps in round %d", (unsigned long long)low, round);
        free(run(short_by_one, job, &worked));
        cr_expect_not(worked, "%llu steps in round %d", (unsigned long long)(low - 1), round);
    }
    lml_engine_free(enough);
    lml_engine_free(short_by_one);
}

Test(warm, runs_cost_what_a_first_run_costs)
{
    char *job = job_of("cuff-links");
    expect_equal_cost(demo_engine, job);
    free(job);
}

/* The house sets a list, and a text so long that every step after it was made costs more. */
static lml_engine *engine_with_a_long_text(uint64_t steps)
{
    static const char inner[] = "return recipe { title = \"t\", version = \"1.0.0\", licence = "
                                "\"CC0-1.0\", level = 1, asks = {},\n"
                                "  allowances = { words = ask.text { \"w\" }, sizes = ask.list { "
                                "\"s\", of = ask.mass {} },\n"
                                "    more = ask.mass { \"m\", default = \"2 g\", source = \"common "
                                "practice, no source\" } },\n"
                                "  gives = { mass = give.mass \"m\" },\n"
                                "  work = function (job, house) local mass = house.more\n"
                                "    for i = 1, 3000 do mass = mass + house.sizes[1 + i % "
                                "#house.sizes] end return { mass = mass } end }";
    static const char outer[] =
        "return recipe { title = \"t\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1, "
        "asks = {},\n"
        "  uses = { \"inner\" }, gives = { mass = give.mass \"m\" },\n"
        "  work = function () local n = 0 for i = 1, 5000 do n = n + i end\n"
        "    return { mass = use.inner {}.mass + use.inner {}.mass } end }";
    char house[4000];
    int length =
        snprintf(house, sizeof house,
                 "{ \"sizes\": [\"1 g\", \"2.5 g\", \"1 dwt\"], \"words\": \"%03000d\" }", 0);
    lml_engine_options options = {.limits = {.steps = steps}, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    lml_error e;
    lml_engine_put(engine, LML_PUT_RECIPE, "inner", inner, sizeof inner - 1, "inner.lua", &e);
    lml_engine_put(engine, LML_PUT_RECIPE, "outer", outer, sizeof outer - 1, "outer.lua", &e);
    cr_assert_eq(lml_engine_put(engine, LML_PUT_HOUSE, "", house, (size_t)length, "house.json", &e),
                 LML_OK, "%s", e.message);
    return engine;
}

Test(warm, what_the_house_sets_costs_as_often_as_it_is_asked)
{
    expect_equal_cost(engine_with_a_long_text, "{ \"recipe\": \"outer\" }");
}

/* A text and a label that the compiler makes and its code does not hold. */
static lml_engine *engine_with_an_unused_text(uint64_t steps)
{
    enum { LONG = 60000, LABEL = 3000, SIZE = LONG + 2 * LABEL + 1000 };
    lml_engine_options options = {.limits = {.steps = steps}, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    char *source = malloc(SIZE), text[LONG + 1], label[LABEL + 1];
    memset(text, 'a', LONG);
    memset(label, 'b', LABEL);
    text[LONG] = label[LABEL] = '\0';
    snprintf(source, SIZE,
             "local unused <const> = \"%s\"\n"
             "return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number "
             "\"n\" },\n"
             "  work = function () local n = 0 ::%s:: n = n + 1 if n < 100000 then goto %s end "
             "return { n = n } end }",
             text, label, label);
    put_text(engine, LML_PUT_RECIPE, "t", source);
    free(source);
    return engine;
}

Test(warm, what_only_the_compiler_made_costs_nothing)
{
    expect_equal_cost(engine_with_an_unused_text, "{ \"recipe\": \"t\" }");
}

/* Whoever has a script loaded first, with whatever text at hand: the next recipe pays what it paid
 * before. */
Test(warm, what_one_recipe_makes_is_not_on_the_bill_of_another)
{
    lml_engine *engine = demo_engine(3000000);
    put_text(engine, LML_PUT_RECIPE, "attacker",
             "return recipe { title = \"t\", version = \"1\", level = 1,\n"
             "  work = function () local s = (\"a\"):rep(60000) require \"alloys\" require "
             "\"gates\" return {} end }");
    put_text(engine, LML_PUT_RECIPE, "victim",
             "return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number "
             "\"n\" },\n"
             "  work = function () require \"alloys\" local n = 0 for i = 1, 100000 do n = n + 1 "
             "end return { n = n } end }");
    for (int i = 0; i < 8; i++) {
        bool worked;
        char *result = run(
            engine, i % 2 ? "{ \"recipe\": \"attacker\" }" : "{ \"recipe\": \"victim\" }", &worked);
        cr_expect(worked, "run %d: %s", i, result);
        free(result);
    }
    lml_engine_free(engine);
}

/* What a run does to what is shared within it (a script's own table, through what the script
 * offers) is gone. */
Test(warm, a_run_leaves_nothing_behind)
{
    static const char script[] = "local told = { times = 0 } return { tell = function () "
                                 "told.times = told.times + 1 return told.times end }";
    static const char recipe[] =
        "local counter = require \"counter\" local own = 0\n"
        "return recipe { title = \"t\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1, "
        "asks = {},\n"
        "  gives = { times = give.number \"n\", own = give.number \"n\" },\n"
        "  work = function () own = own + 1 return { times = counter.tell(), own = own } end }";
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    lml_engine_put(engine, LML_PUT_SCRIPT, "counter", script, sizeof script - 1, "counter.lua", &e);
    lml_engine_put(engine, LML_PUT_RECIPE, "r", recipe, sizeof recipe - 1, "r.lua", &e);
    bool worked;
    char *first = run(engine, "{ \"recipe\": \"r\" }", &worked);
    cr_assert(worked, "%s", first);
    for (int round = 0; round < 4; round++) {
        char *again = run(engine, "{ \"recipe\": \"r\" }", &worked);
        cr_expect_str_eq(again, first);
        free(again);
    }
    free(first);
    lml_engine_free(engine);
}

/* Which scripts a gate comes to require depends on the job. The result names those of this job, in
 * the order that they came in, whatever was loaded for jobs before it. */
Test(warm, scripts_that_come_late_stand_in_the_order_of_their_use)
{
    static const struct {
        lml_put what;
        const char *name, *text;
    } items[] = {{LML_PUT_SCRIPT, "a", "require \"b\" return {}"},
                 {LML_PUT_SCRIPT, "b", "require \"c\" return {}"},
                 {LML_PUT_SCRIPT, "c", "return {}"},
                 {LML_PUT_SCRIPT, "d", "require \"b\" require \"e\" return {}"},
                 {LML_PUT_SCRIPT, "e", "return {}"},
                 {LML_PUT_SCRIPT, "gates",
                  "require \"e\" return { gates = { { code = \"late\", needs = { \"x\", \"y\" },\n"
                  "  check = function (facts) require(facts.x) require(facts.y) end } } }"},
                 {LML_PUT_RECIPE, "r",
                  "require \"c\" return recipe { title = \"t\", version = \"1.0.0\", licence = "
                  "\"CC0-1.0\", level = 1,\n"
                  "  asks = { first = ask.text { \"f\" }, second = ask.text { \"s\" } },\n"
                  "  gives = { x = give.text \"f\", y = give.text \"s\" },\n"
                  "  work = function (job) return { x = job.first, y = job.second } end }"}};
    enum { NAMES = 5, ROUNDS = 3, ITEMS = sizeof items / sizeof items[0] };
    lml_error e;
    bool worked;
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    for (size_t i = 0; i < ITEMS; i++)
        lml_engine_put(engine, items[i].what, items[i].name, items[i].text, strlen(items[i].text),
                       items[i].name, &e);
    for (int pair = 0; pair < ROUNDS * NAMES * NAMES; pair++) {
        char job[120];
        snprintf(job, sizeof job,
                 "{ \"recipe\": \"r\", \"given\": { \"first\": \"%c\", \"second\": \"%c\" } }",
                 'a' + pair / NAMES % NAMES, 'a' + pair % NAMES);
        lml_engine *fresh = lml_engine_new(&(lml_engine_options){.without_gates = true});
        for (size_t i = 0; i < ITEMS; i++)
            lml_engine_put(fresh, items[i].what, items[i].name, items[i].text,
                           strlen(items[i].text), items[i].name, &e);
        char *first = run(fresh, job, &worked);
        cr_assert(worked, "%s", first);
        char *again = run(engine, job, &worked);
        cr_expect_str_eq(again, first);
        free(again);
        free(first);
        lml_engine_free(fresh);
    }
    lml_engine_free(engine);
}

/* A recipe that is replaced is worked anew. */
Test(warm, what_is_on_the_shelf_is_what_is_worked)
{
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    for (int version = 1; version <= 3; version++) {
        char text[400], due[20];
        bool worked;
        lml_error e;
        snprintf(
            text, sizeof text,
            "return recipe { title = \"t\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1, "
            "asks = {}, gives = { n = give.number \"n\" }, work = function () return { n = %d } "
            "end }",
            version);
        snprintf(due, sizeof due, "\"value\":%d", version);
        lml_engine_put(engine, LML_PUT_RECIPE, "r", text, strlen(text), "r.lua", &e);
        for (int i = 0; i < 4; i++) {
            char *said = run(engine, "{ \"recipe\": \"r\" }", &worked);
            cr_expect(worked && strstr(said, due), "%s", said);
            free(said);
        }
    }
    lml_engine_free(engine);
}

/* A recipe may declare what a script holds: it is read anew when that script is another. */
Test(warm, a_changed_script_changes_what_a_recipe_declares)
{
    static const char recipe[] =
        "return recipe { title = \"T\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1,\n"
        "  allowances = { fee = ask.mass { \"Fee\", source = \"ours\","
        " default = require \"fees\".fee } },\n"
        "  gives = { out = give.mass \"Fee\" },\n"
        "  work = function(job, house) return { out = house.fee } end }";
    static const char job[] = "{ \"recipe\": \"fee\", \"given\": {} }";
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "fee", recipe);
    for (int round = 0; round < 6; round++) {
        put_text(engine, LML_PUT_SCRIPT, "fees",
                 round < 3 ? "return { fee = \"2 g\" }" : "return { fee = \"3 g\" }");
        for (int run = 0; run < 3; run++) {
            char *result = run_text(engine, job, &e);
            cr_assert(result, "%s", e.message);
            cr_expect(strstr(result, round < 3 ? "\"text\":\"2 g\"" : "\"text\":\"3 g\""), "%s",
                      result);
            free(result);
        }
    }
    lml_engine_free(engine);
}

static void put_user(lml_engine *engine, const char *used)
{
    char text[400];
    snprintf(
        text, sizeof text,
        "return recipe { title = 'U', version = '1', level = 1, uses = { '%s' }, gives = { out "
        "= give.mass 'Fee' },\n"
        "  work = function () return { out = use.%s {}.out } end }",
        used, used);
    put_text(engine, LML_PUT_RECIPE, "user", text);
}

/* Which recipes take part is kept with the rest: a job may set what those of now allow. */
Test(warm, the_parts_of_a_recipe_are_those_on_the_shelf)
{
    static const char *const used[] = {"a", "b"};
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    for (int i = 0; i < 2; i++) {
        char text[400];
        snprintf(text, sizeof text,
                 "return recipe { title = 'P', version = '1', level = 1, allowances = { fee_%s = "
                 "ask.mass { 'Fee', default = '1 g', source = 'ours' } },\n"
                 "  gives = { out = give.mass 'Fee' }, work = function (job, house) return { out = "
                 "house.fee_%s } end }",
                 used[i], used[i]);
        put_text(engine, LML_PUT_RECIPE, used[i], text);
    }
    for (int round = 0; round < 4; round++) {
        put_user(engine, used[round % 2]);
        for (int run = 0; run < 8; run++) {
            char job[100];
            const bool allowed = (run + round) % 2 == 0;
            snprintf(job, sizeof job,
                     "{ \"recipe\": \"user\", \"house\": { \"fee_%s\": \"%d g\" } }", used[run % 2],
                     run + 2);
            char *result = run_text(engine, job, &e);
            cr_expect_eq(result != NULL, allowed, "%s in round %d", job, round);
            cr_expect(allowed || strstr(e.message, "no recipe of this job has such an allowance"),
                      "%s", e.message);
            free(result);
        }
    }
    lml_engine_free(engine);
}
