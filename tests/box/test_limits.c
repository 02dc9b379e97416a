/* What a hostile recipe makes us do beyond its own steps: it is paid for, so that the budget ends it soon, and what
 * is not paid for is refused. */
#include "../step_prices.h"
#include "worked.h"

#include <stdbool.h>

/* What the recipe "t" comes to in these steps; nothing here is judged by a clock. */
static lml_error work(const char *const texts[][2], size_t count, uint64_t steps)
{
    lml_engine_options options = {.limits = {.steps = steps}, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    lml_error e;
    for (size_t i = 0; i < count; i++)
        put_text(engine, LML_PUT_RECIPE, texts[i][0], texts[i][1]);
    free(run_text(engine, "{ \"recipe\": \"t\" }", &e));
    lml_engine_free(engine);
    return e;
}

static lml_error work_body(const char *before, const char *body, uint64_t steps)
{
    enum { SIZE = 1 << 16 };
    char *source = malloc(SIZE);
    snprintf(source, SIZE,
             "%s return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number \"n\" },\n"
             "  work = function (job, house, sheet)\n%s\n return { n = 1 } end }", before, body);
    lml_error e = work((const char *const[][2]){{"t", source}}, 1, steps);
    free(source);
    return e;
}

static bool is_limit(const lml_error *e)
{
    return e->status == LML_LIMIT && strstr(e->message, "did more work than it is allowed");
}

/* So many turns of `once` end at the limit in a budget under turns × price, and are done in twice that and what the run
 * itself costs. */
static void expect_price(const char *before, const char *once, unsigned turns, uint64_t price)
{
    enum { RUN = 60000 }; /* steps to load the recipe and work its `before` */
    char body[1000];
    snprintf(body, sizeof body, "for i = 1, %u do %s end", turns, once);
    lml_error e = work_body(before, body, turns * price - 1);
    cr_expect(is_limit(&e), "%s: %u times in %llu steps: %s", once, turns, (unsigned long long)(turns * price - 1),
              e.message);
    e = work_body(before, body, 2 * turns * price + RUN);
    cr_expect_eq(e.status, LML_OK, "%s: %s", once, e.message);
}

/* What was counted: instructions of the processor for one turn, by callgrind (tests/bench/steps.sh). */
Test(limits, no_step_of_a_priced_operation_is_over_200_instructions)
{
    enum { MOST = 200, TURNS_COST = 400000 };
    for (size_t i = 0; i < sizeof STEP_PRICES / sizeof *STEP_PRICES; i++) {
        const step_price *p = &STEP_PRICES[i];
        cr_expect(p->instructions <= MOST * p->steps, "%s: %llu instructions for %llu steps", p->name,
                  (unsigned long long)p->instructions, (unsigned long long)p->steps);
        uint64_t turns = TURNS_COST / p->steps;
        expect_price(p->before, p->once, (unsigned)turns, p->steps);
    }
}

/* Which of twenty thousand names on a line was nil? */
Test(limits, looking_for_what_was_nil_is_paid_for)
{
    enum { NAMES = 20000 };
    char *before = malloc(2 * NAMES + 200), *at = before;
    at += sprintf(at, "local z local a = 1 local function f() return #{");
    for (int i = 0; i < NAMES; i++) {
        *at++ = 'a';
        *at++ = ',';
    }
    strcpy(at, "}, z + Q \"1 g\" end");
    expect_price(before, "pcall(f)", 1, 20000 * 200);
    free(before);
}

static const char *const WALKED = "local t = {} for i = 1, 200000 do t[i] = i end t[true] = 1";

/* A step for each of two hundred thousand, whatever walks them. */
Test(limits, walks_of_whole_tables_are_paid_for)
{
    static const char *const ends[] = {"pairs, t", "craft.density, t"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        char once[300];
        snprintf(once, sizeof once, "pcall(%s)", ends[i]);
        lml_error e = work_body(WALKED, "", 2000000);
        cr_expect_eq(e.status, LML_OK, "%s", e.message);
        expect_price(WALKED, once, 20, 200000);
    }
    expect_price(WALKED, "pcall(Q \"5 USD\".share, Q \"5 USD\", t)", 1000, 200); /* too long to be walked at all */
}

/* Which of many names was meant? */
Test(limits, looking_for_the_nearest_name_is_paid_for)
{
    static const char *const texts[][2] = {
        {"inner", "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                  "  gives = { x = give.by_name { \"c\", of = give.number {} } },\n"
                  "  work = function () local t = {} for i = 1, 20000 do t[(\"b\"):rep(85) .. i] = i end return { x = t } end }"},
        {"t", "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"inner\" },\n"
              "  work = function () local r, k = use.inner {}.x, (\"a\"):rep(90)\n"
              "    local function f() return r[k] end pcall(f) return {} end }"}};
    lml_error e = work(texts, 2, 20000 * 200);
    cr_expect(is_limit(&e), "%s", e.message);
    e = work(texts, 2, 10 * 20000 * 200);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
}

Test(limits, a_job_has_so_many_remarks_and_no_more)
{
    lml_error e = work_body("", "for i = 1, 500 do sheet:caution(\"n\" .. i, \"c\") end", 1000000);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    e = work_body("", "for i = 1, 501 do pcall(sheet.bench.note, sheet.bench, \"n\" .. i, \"c\") end", 1000000);
    cr_expect_eq(e.status, LML_LIMIT);
    cr_expect(strstr(e.message, "a job has more than 500 notes, cautions, confirms and stops"), "%s", e.message);
    /* Those of all its recipes together; and each that fails has one. */
    static const char *const texts[][2] = {
        {"inner", "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                  "  work = function (job, house, sheet) sheet:note(\"a\", \"b\") error(\"no\") end }"},
        {"t", "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"inner\" },\n"
              "  work = function () for i = 1, 251 do pcall(use.inner, {}) end return {} end }"}};
    e = work(texts, 2, 10000000);
    cr_expect(strstr(e.message, "a job has more than 500"), "%s", e.message);
}

/* Were each of its equals signs taken for an end that has to be looked for, it would be read as often as it is long. */
Test(limits, a_long_comment_is_read_once)
{
    enum { LONG = 240000 };
    char *source = malloc(LONG + 200);
    memcpy(source, "--[[ ", 5);
    memset(source + 5, '=', LONG);
    strcpy(source + 5 + LONG, " ]] return recipe { title = \"t\", version = \"1\", level = 1, work = function () return {} end }");
    lml_error e = work((const char *const[][2]){{"t", source}}, 1, 1000000);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    free(source);
}

Test(limits, a_chain_of_recipes_is_refused_however_long)
{
    enum { CHAIN = 5000 };
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    for (int i = 0; i <= CHAIN; i++) {
        char name[20], source[200];
        snprintf(name, sizeof name, "c%d", i);
        snprintf(source, sizeof source, "return recipe { title = \"t\", version = \"1\", level = 1, uses = { %s%.0d%s },\n"
                                        "  work = function () return {} end }",
                 i < CHAIN ? "\"c" : "", i < CHAIN ? i + 1 : 0, i < CHAIN ? "\"" : "");
        put_text(engine, LML_PUT_RECIPE, name, source);
    }
    for (int round = 0; round < 3; round++) {
        free(run_text(engine, "{ \"recipe\": \"c0\" }", &e));
        cr_expect(strstr(e.message, "recipes use each other more than 12 deep: from 'c0' down to 'c12'"), "%s", e.message);
    }
    free(run_text(engine, "{ \"recipe\": \"c4995\" }", &e));
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    lml_engine_free(engine);
}

/* What an ask did not get is nothing, in a lot of a job as in one that the recipe writes. */
Test(limits, a_lot_of_a_job_needs_no_price)
{
    static const char *const recipe =
        "return recipe { title = \"t\", version = \"1\", level = 1, gives = { y = give.mass \"y\" },\n"
        "  asks = { l = ask.list { \"l\", of = ask.record { \"n\", fields = { name = ask.text {}, composition = ask.assay {},\n"
        "    available = ask.mass {} } } }, b = ask.list { \"b\", of = ask.record { fields = { metal = ask.text {} } } } },\n"
        "  work = function (job) return { y = craft.charge { lots = job.l, mass = Q \"10 g\", step = Q \"0.01 g\",\n"
        "    bounds = job.b }.mass } end }";
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "t", recipe);
    char *result = run_text(engine, "{ \"recipe\": \"t\", \"given\": { \"b\": [ { \"metal\": \"Au\" } ], \"l\": [ { \"name\": \"x\",\n"
                                    "  \"composition\": \"750 ‰\", \"available\": \"20 g\" } ] } }", &e);
    cr_expect(result && strstr(result, "\"y\":{\"kind\":\"mass\",\"value\":10,"), "%s", result ? result : e.message);
    free(result);
    lml_engine_free(engine);
}
