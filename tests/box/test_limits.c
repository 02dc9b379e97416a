/* What a hostile recipe makes us do beyond its own steps: it is paid for, so that the budget ends
 * it soon, and what is not paid for is refused. */
#include "../step_prices.h"
#include "worked.h"

#include "base/pool.h"
#include "run/engine.h"
#include "run/warm.h"

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
             "%s return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = "
             "give.number \"n\" },\n"
             "  work = function (job, house, sheet)\n%s\n return { n = 1 } end }",
             before, body);
    lml_error e = work((const char *const[][2]){{"t", source}}, 1, steps);
    free(source);
    return e;
}

static bool is_limit(const lml_error *e)
{
    return e->status == LML_LIMIT && strstr(e->message, "did more work than it is allowed");
}

/* So many turns of `once` end at the limit in a budget under turns × price, and are done in twice
 * that and what the run itself costs. */
static void expect_price(const char *before, const char *once, unsigned turns, uint64_t price)
{
    enum { RUN = 60000 }; /* steps to load the recipe and work its `before` */
    char body[1000];
    snprintf(body, sizeof body, "for i = 1, %u do %s end", turns, once);
    lml_error e = work_body(before, body, turns * price - 1);
    cr_expect(is_limit(&e), "%s: %u times in %llu steps: %s", once, turns,
              (unsigned long long)(turns * price - 1), e.message);
    e = work_body(before, body, 2 * turns * price + RUN);
    cr_expect_eq(e.status, LML_OK, "%s: %s", once, e.message);
}

/* What was counted: instructions of the processor for one turn, by callgrind
 * (tests/bench/steps.sh). */
Test(limits, no_step_of_a_priced_operation_is_over_200_instructions)
{
    enum { MOST = 200, TURNS_COST = 400000 };
    for (size_t i = 0; i < sizeof STEP_PRICES / sizeof *STEP_PRICES; i++) {
        const step_price *p = &STEP_PRICES[i];
        cr_expect(p->instructions <= MOST * p->steps, "%s: %llu instructions for %llu steps",
                  p->name, (unsigned long long)p->instructions, (unsigned long long)p->steps);
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

static const char *const WALKED = "local t = {} for i = 1, 60000 do t[i] = i end t[true] = 1";

/* Two steps or three for each of sixty thousand, whatever walks them. */
Test(limits, walks_of_whole_tables_are_paid_for)
{
    static const struct {
        const char *what;
        uint64_t price; /* pairs makes a list of them before it finds the one that is no name */
    } ends[] = {{"pairs, t", 180000}, {"craft.density, t", 120000}};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        char once[300];
        snprintf(once, sizeof once, "pcall(%s)", ends[i].what);
        lml_error e = work_body(WALKED, "", 2000000);
        cr_expect_eq(e.status, LML_OK, "%s", e.message);
        expect_price(WALKED, once, 20, ends[i].price);
    }
    expect_price(WALKED, "pcall(Q \"5 USD\".share, Q \"5 USD\", t)", 1000,
                 200); /* too long to be walked at all */
}

/* Which of many names was meant? */
Test(limits, looking_for_the_nearest_name_is_paid_for)
{
    static const char *const texts[][2] = {
        {"inner", "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                  "  gives = { x = give.by_name { \"c\", of = give.number {} } },\n"
                  "  work = function () local t = {} for i = 1, 20000 do t[(\"b\"):rep(85) .. i] = "
                  "i end return { x = t } end }"},
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
    e = work_body("",
                  "for i = 1, 501 do pcall(sheet.bench.note, sheet.bench, \"n\" .. i, \"c\") end",
                  1000000);
    cr_expect_eq(e.status, LML_LIMIT);
    cr_expect(strstr(e.message, "a job has more than 500 notes, cautions, confirms and stops"),
              "%s", e.message);
    /* Those of all its recipes together; and each that fails has one. */
    static const char *const texts[][2] = {
        {"inner",
         "return recipe { title = \"t\", version = \"1\", level = 1,\n"
         "  work = function (job, house, sheet) sheet:note(\"a\", \"b\") error(\"no\") end }"},
        {"t", "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"inner\" },\n"
              "  work = function () for i = 1, 251 do pcall(use.inner, {}) end return {} end }"}};
    e = work(texts, 2, 10000000);
    cr_expect(strstr(e.message, "a job has more than 500"), "%s", e.message);
}

/* Were each of its equals signs taken for an end that has to be looked for, it would be read as
 * often as it is long. */
Test(limits, a_long_comment_is_read_once)
{
    enum { LONG = 240000 };
    char *source = malloc(LONG + 200);
    memcpy(source, "--[[ ", 5);
    memset(source + 5, '=', LONG);
    strcpy(source + 5 + LONG, " ]] return recipe { title = \"t\", version = \"1\", level = 1, work "
                              "= function () return {} end }");
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
        snprintf(source, sizeof source,
                 "return recipe { title = \"t\", version = \"1\", level = 1, uses = { %s%.0d%s },\n"
                 "  work = function () return {} end }",
                 i < CHAIN ? "\"c" : "", i < CHAIN ? i + 1 : 0, i < CHAIN ? "\"" : "");
        put_text(engine, LML_PUT_RECIPE, name, source);
    }
    for (int round = 0; round < 3; round++) {
        free(run_text(engine, "{ \"recipe\": \"c0\" }", &e));
        cr_expect(
            strstr(e.message, "recipes use each other more than 12 deep: from 'c0' down to 'c12'"),
            "%s", e.message);
    }
    free(run_text(engine, "{ \"recipe\": \"c4995\" }", &e));
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    lml_engine_free(engine);
}

/* What an ask did not get is nothing, in a lot of a job as in one that the recipe writes. */
Test(limits, a_lot_of_a_job_needs_no_price)
{
    static const char *const recipe = "return recipe { title = \"t\", version = \"1\", level = 1, "
                                      "gives = { y = give.mass \"y\" },\n"
                                      "  asks = { l = ask.list { \"l\", of = ask.record { \"n\", "
                                      "fields = { name = ask.text {}, composition = ask.assay {},\n"
                                      "    available = ask.mass {} } } }, b = ask.list { \"b\", of "
                                      "= ask.record { fields = { metal = ask.text {} } } } },\n"
                                      "  work = function (job) return { y = craft.charge { lots = "
                                      "job.l, mass = Q \"10 g\", step = Q \"0.01 g\",\n"
                                      "    bounds = job.b }.mass } end }";
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "t", recipe);
    char *result = run_text(engine,
                            "{ \"recipe\": \"t\", \"given\": { \"b\": [ { \"metal\": \"Au\" } ], "
                            "\"l\": [ { \"name\": \"x\",\n"
                            "  \"composition\": \"750 ‰\", \"available\": \"20 g\" } ] } }",
                            &e);
    cr_expect(result && strstr(result, "\"y\":{\"kind\":\"mass\",\"value\":10,"), "%s",
              result ? result : e.message);
    free(result);
    lml_engine_free(engine);
}

/* ---- interrupts --------------------------------------------------------------------------------
 */

typedef struct watch {
    lml_engine *engine;
    uint64_t last, widest; /* the most steps from one ask to the next */
    bool ended;            /* whether it has said so */
    unsigned after;        /* asks after that */
} watch;

/* True once the recipe has done so much, in steps and in what was moved, that it is in its loop. */
static bool ask(void *self)
{
    enum { IN_THE_LOOP = 3000000 };
    watch *w = self;
    const lml_box *box = &lml_warm_latest(w->engine)->box;
    if (box->spent > w->last && box->spent - w->last > w->widest)
        w->widest = box->spent - w->last;
    w->last = box->spent;
    w->after += w->ended;
    w->ended = w->ended || box->spent + box->moves.moved > IN_THE_LOOP;
    return w->ended;
}

/* The recipe is interrupted and ends, with so many steps at most between any two asks, and none
 * after the last. */
static void expect_interrupt(const char *before, const char *body)
{
    enum { MOST = 10000, SIZE = 1 << 18 };
    watch w = {0};
    lml_engine_options options = {.limits = {.steps = 1ull << 40},
                                  .without_gates = true,
                                  .interrupt = ask,
                                  .interrupt_self = &w};
    w.engine = lml_engine_new(&options);
    char *source = malloc(SIZE);
    snprintf(source, SIZE,
             "%s return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = "
             "give.number \"n\" },\n"
             "  work = function (job, house, sheet)\n%s\n return { n = 1 } end }",
             before, body);
    put_text(w.engine, LML_PUT_RECIPE, "t", source);
    lml_error e = {.status = LML_OK};
    free(run_text(w.engine, "{ \"recipe\": \"t\" }", &e));
    cr_expect(w.ended, "%.60s: it ended before it was interrupted: %s", body, e.message);
    cr_expect(e.status == LML_LIMIT && strstr(e.message, "interrupted"), "%.60s: %s", body,
              e.message);
    cr_expect(w.widest <= MOST, "%.60s: %llu steps without an ask", body,
              (unsigned long long)w.widest);
    cr_expect_eq(w.after, 0u, "%.60s: it went on", body);
    free(source);
    lml_engine_free(w.engine);
}

Test(limits, an_interrupt_ends_every_loop)
{
    static const char *const loops[] = {
        /* a table made anew at each turn */
        "local t = {} for i = 1, 32768 do t['k' .. i] = i end for i = 1, 1e9 do t['k' .. i] = nil "
        "t['x' .. i] = 1 end",
        "local t = {} for i = 1, 32768 do t[i + 0.5] = i end for i = 1, 1e9 do t[i + 0.5] = nil "
        "t[-i - 0.5] = 1 end",
        "local t = { kept = 1 } for i = 1, 60000 do t[i] = i end for i = 1, 1e9 do t['k' .. i] = 1 "
        "t['k' .. i] = nil end",
        /* keys that fall upon each other */
        "local t = {} for i = 1, 8000 do t[i * 65535 * 65536] = 1 end local n = 0 for k = 1, 1e9 "
        "do "
        "n = n + (t[k * 65535 * 65536 + 1] or 0) end",
        /* walks of a table from which all was taken out */
        "local t = {} for i = 1, 60000 do t[i] = i end for i = 1, 60000 do t[i] = nil end while "
        "true do for k in pairs(t) do end end",
        "local t = {} for i = 1, 60000 do t[i] = i end while true do for k in pairs(t) do break "
        "end end",
        /* options that a line does not have */
        "local t = {} for i = 1, 30000 do t['option ' .. i] = i end while true do "
        "pcall(sheet.bench.line, sheet.bench, 'a', 1, t) end",
        "local s = ('x'):rep(60000) local t = {} for i = 1, 500 do t[s .. i] = i end"
        " while true do pcall(sheet.bench.line, sheet.bench, 'a', 1, t) end",
        /* the nearest name */
        "local n = ('a'):rep(90) while true do pcall(function () return job[n] end) pcall(function "
        "() return Q('1 g')[n] end) end",
        "while true do pcall(function () return craft.dentistry end) pcall(function () return "
        "tostrinh end) end",
        "while true do pcall(craft.weight_in, { densoty = 1 }) pcall(alloy, 'a rose gold that "
        "nobody knows') end",
        /* operands that are refused */
        "local a, b = Q '1 g', Q '1 mm' while true do pcall(function () return a + b end) "
        "pcall(function () return a < b end) end",
        "local a while true do pcall(function () return a + Q '1 g' end) end",
        /* many values at once */
        "local t = {} for i = 1, 200 do t[i] = i end while true do select('#', table.unpack(t)) "
        "end",
        "local function f(n, ...) if n == 0 then while true do select('#', ...) end end return f(n "
        "- 1, 1, 2, 3, 4, 5, 6, 7, ...) end"
        " f(400)",
        /* long work in one call */
        "local t = {} for i = 1, 60000 do t[i] = -i end while true do table.sort(t) end",
        "local t = {} for i = 1, 60000 do t[i] = i end while true do table.insert(t, 1, 1) "
        "table.remove(t, 1) end",
        "local t = {} for i = 1, 60000 do t[i] = 1 end while true do sum(t) end",
        "local s = ('ab'):rep(30000) while true do s:find(('ab'):rep(9000) .. 'c') end",
        "local s = ('ab'):rep(30000) while true do s:split 'b' end",
        "while true do ('ab'):rep(30000):upper() end"};
    for (size_t i = 0; i < sizeof loops / sizeof *loops; i++)
        expect_interrupt("", loops[i]);
}

/* A function that ever had thousands of locals: which of them is it? */
Test(limits, an_interrupt_ends_the_search_for_a_variable)
{
    enum { LOCALS = 12000 };
    char *before = malloc(16 * LOCALS + 1000), *at = before;
    at += sprintf(at, "local function f(g, m) ");
    for (int i = 0; i < LOCALS; i++)
        at += sprintf(at, "do local a end ");
    for (int i = 0; i < 150; i++)
        at += sprintf(at, "local v%d = %d ", i, i);
    strcpy(at, "return g + m end");
    expect_interrupt(before, "while true do pcall(f, Q '1 g', Q '1 mm') end");
    expect_interrupt(before, "while true do pcall(f, nil, Q '1 mm') end");
    free(before);
}

/* ---- memory ------------------------------------------------------------------------------------
 */

/* A size of small blocks is never used for another size: texts of one after the other fill and
 * leave all that a run may hold. What it has from the system is what counts. */
Test(limits, memory_is_what_the_system_gave)
{
    enum {
        MEMORY = 8 << 20,
        BESIDE = 2 << 20 /* the engine's own, and what a run that dies of it was still given */
    };
    lml_meter meter = {.under = lml_alloc_heap()};
    lml_engine_options options = {
        .alloc = lml_alloc_metered(&meter), .limits = {.memory = MEMORY}, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number "
             "\"n\" },\n"
             "  work = function () for size = 50, 470, 16 do local t, s = {}, (\"x\"):rep(size)\n"
             "    for i = 1, 4000 do t[i] = s .. i end end return { n = 1 } end }");
    lml_error e = {.status = LML_OK};
    free(run_text(engine, "{ \"recipe\": \"t\" }", &e));
    if (LML_POOL_PASSES_THROUGH) { /* every block goes back, and serves another size */
        cr_expect_eq(e.status, LML_OK, "%s", e.message);
    } else {
        cr_expect_eq(e.status, LML_LIMIT);
        cr_expect(strstr(e.message, "more memory than it is allowed"), "%s", e.message);
    }
    cr_expect(meter.peak <= MEMORY + BESIDE, "%zu bytes were held", meter.peak);
    lml_engine_free(engine);
    cr_expect_eq(meter.used, 0u);
}

Test(limits, one_block_is_at_most_1_mib)
{
    lml_error e = work_body("", "local t = {} for i = 1, 65536 do t[i] = i end", 5000000);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    e = work_body("", "local t = {} for i = 1, 65537 do t[i] = i end", 5000000);
    cr_expect(strstr(e.message, "larger than 1 MiB"), "%s", e.message);
    e = work_body("", "local t = {} for i = 1, 32768 do t['k' .. i] = i end", 5000000);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    e = work_body("", "local t = {} for i = 1, 32769 do t['k' .. i] = i end", 5000000);
    cr_expect(strstr(e.message, "larger than 1 MiB"), "%s", e.message);
    /* The text itself stands in the block beside its length. */
    e = work_body(
        "", "local s = ('x'):rep(65536) for i = 1, 3 do s = s .. s end s = s .. s:sub(1, 65000)",
        5000000);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    e = work_body("", "local s = ('x'):rep(65536) for i = 1, 4 do s = s .. s end", 5000000);
    cr_expect(strstr(e.message, "larger than 1 MiB"), "%s", e.message);
}
