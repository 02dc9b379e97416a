/* What a hostile recipe makes us do beyond its own steps: it is paid for, so that the budget ends it soon, and what
 * is not paid for is refused. */
#include "worked.h"

#include <stdbool.h>
#include <time.h>

#if defined(__SANITIZE_ADDRESS__)
enum { SLOWER = 10 };
#else
enum { SLOWER = 1 };
#endif

/* Time of this process alone, so that a busy machine changes nothing. */
static bool out_of_time(void *self)
{
    return clock() > *(const clock_t *)self;
}

/* The recipe "t", whose whole text this is, worked in these steps within some seconds of the processor. */
static lml_error work(const char *const texts[][2], size_t count, uint64_t steps, double seconds)
{
    clock_t end = clock() + (clock_t)(seconds * SLOWER * CLOCKS_PER_SEC);
    lml_engine_options options = {.limits = {.steps = steps}, .interrupt = out_of_time, .interrupt_self = &end, .without_gates = true};
    lml_engine *engine = lml_engine_new(&options);
    lml_error e;
    for (size_t i = 0; i < count; i++)
        put_text(engine, LML_PUT_RECIPE, texts[i][0], texts[i][1]);
    free(run_text(engine, "{ \"recipe\": \"t\" }", &e));
    cr_expect(clock() < end, "it takes longer than it is given");
    lml_engine_free(engine);
    return e;
}

static lml_error work_body(const char *before, const char *body, uint64_t steps, double seconds)
{
    enum { SIZE = 1 << 16 };
    char *source = malloc(SIZE);
    snprintf(source, SIZE,
             "%s return recipe { title = \"t\", version = \"1\", level = 1, gives = { n = give.number \"n\" },\n"
             "  work = function (job, house, sheet)\n%s\n return { n = 1 } end }", before, body);
    lml_error e = work((const char *const[][2]){{"t", source}}, 1, steps, seconds);
    free(source);
    return e;
}

static void expect_paid(const char *before, const char *body)
{
    lml_error e = work_body(before, body, 2000000, 0.5);
    cr_expect(strstr(e.message, "did more work than it is allowed"), "%.200s: %s", body, e.message);
}

Test(limits, values_written_and_refused_are_paid_for)
{
    expect_paid("", "local s, v = (\"{a}\"):rep(2700), { a = Q \"1.2345678901234567 g\" } while true do text.fill(s, v) end");
    expect_paid("", "local v = Q \"1.2345678901234567 °F\" while true do tostring(v) end");
    expect_paid("", "local s = \"12 \" .. (\"gramm\"):rep(10) while true do pcall(Q, s) end");
}

Test(limits, sharing_cents_among_many_is_paid_for)
{
    expect_paid("", "local w, m = {}, Q \"999.99 USD\" for i = 1, 1000 do w[i] = 1 end while true do m:share(w) end");
}

/* Which of twenty thousand names on a line was nil? */
Test(limits, looking_for_what_was_nil_is_paid_for)
{
    enum { NAMES = 20000 };
    char *before = malloc(2 * NAMES + 200), *at = before;
    at += sprintf(at, "local z local a = 1 local function f() return z + Q \"1 g\", #{");
    for (int i = 0; i < NAMES; i++) {
        *at++ = 'a';
        *at++ = ',';
    }
    memcpy(at, "} end", sizeof "} end");
    expect_paid(before, "while true do pcall(f) end");
    free(before);
}

Test(limits, walks_of_whole_tables_are_paid_for)
{
    static const char *const ends[] = {"pairs, t", "craft.density, t", "Q \"5 USD\".share, Q \"5 USD\", t"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        char body[300];
        snprintf(body, sizeof body, "local t = {} for i = 1, 200000 do t[i] = i end t[true] = 1\n"
                                    "while true do pcall(%s) end", ends[i]);
        expect_paid("", body);
    }
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
              "    local function f() return r[k] end while true do pcall(f) end end }"}};
    lml_error e = work(texts, 2, 20000000, 1.5);
    cr_expect(strstr(e.message, "did more work than it is allowed"), "%s", e.message);
}

Test(limits, a_job_has_so_many_remarks_and_no_more)
{
    lml_error e = work_body("", "for i = 1, 500 do sheet:caution(\"n\" .. i, \"c\") end", 1000000, 1);
    cr_expect_eq(e.status, LML_OK, "%s", e.message);
    e = work_body("", "for i = 1, 501 do pcall(sheet.bench.note, sheet.bench, \"n\" .. i, \"c\") end", 1000000, 1);
    cr_expect_eq(e.status, LML_LIMIT);
    cr_expect(strstr(e.message, "a job has more than 500 notes, cautions, confirms and stops"), "%s", e.message);
    /* Those of all its recipes together; and each that fails has one. */
    static const char *const texts[][2] = {
        {"inner", "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                  "  work = function (job, house, sheet) sheet:note(\"a\", \"b\") error(\"no\") end }"},
        {"t", "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"inner\" },\n"
              "  work = function () for i = 1, 251 do pcall(use.inner, {}) end return {} end }"}};
    e = work(texts, 2, 10000000, 5);
    cr_expect(strstr(e.message, "a job has more than 500"), "%s", e.message);
}

/* Nothing is worked when a file is only looked at, so nothing can be paid for. */
Test(limits, a_long_comment_is_read_once)
{
    enum { LONG = 240000 };
    char *source = malloc(LONG + 200);
    memcpy(source, "--[[ ", 5);
    memset(source + 5, '=', LONG);
    strcpy(source + 5 + LONG, " ]] return recipe { title = \"t\", version = \"1\", level = 1, work = function () return {} end }");
    lml_error e = work((const char *const[][2]){{"t", source}}, 1, 1000000, 0.5);
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
