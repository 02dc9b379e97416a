/* A job that lists others, as a program that embeds the library runs it: what is handed over is
 * what the recipe asks, every byte of the job stays, and what cannot be is refused. The demo's
 * casting day (tests/trade/test_demo.c) has a whole one. */
#include <criterion/criterion.h>

#include "lemel.h"

#include <string.h>

static const char adds[] =
    "return recipe { title = 'A sum', version = '1', licence = 'CC0-1.0', level = 1,\n"
    "  asks = { listed = ask.list { 'Jobs', optional = true, of = ask.record { 'A job', fields = "
    "{\n"
    "    job = ask.text { 'Name' }, file = ask.text { 'File' },\n"
    "    results = ask.record { 'Results', fields = { charge = ask.mass { 'Charge', optional = "
    "true "
    "} } },\n"
    "    own = ask.by_name { 'Own', of = ask.anything { 'Setting' }, default = {}, source = 'none' "
    "},\n"
    "    stops = ask.list { 'Stops', of = ask.record { 'A stop', fields = { code = ask.text { "
    "'Code' }, text = ask.text { 'Text' } } } } } } } },\n"
    "  allowances = { step = ask.mass { 'Step', default = '1 g', source = 'common practice, no "
    "source' } },\n"
    "  gives = { all = give.mass 'All', names = give.text 'Whose', stops = give.whole 'Stops', own "
    "= give.text 'Own' },\n"
    "  work = function (job, house)\n"
    "    local all, names, stops, own = Q '0 g', {}, 0, 'none'\n"
    "    for _, l in ipairs(job.listed or {}) do\n"
    "      all = all + (l.results.charge or Q '0 g')\n"
    "      table.insert(names, l.job) stops = stops + #l.stops\n"
    "      own = member(l.own, 'sum.step') or own\n"
    "    end\n"
    "    return { all = all:up_to(house.step), names = table.concat(names, ' '), stops = stops, "
    "own "
    "= own }\n"
    "  end, proofs = {} }\n";
static const char casts[] =
    "return recipe { title = 'A charge', version = '1', licence = 'CC0-1.0', level = 1, uses = { "
    "'sum' },\n"
    "  asks = { wax = ask.mass { 'Wax' } }, allowances = {}, gives = { charge = give.mass "
    "'Charge', "
    "other = give.mass 'Other' },\n"
    "  work = function (job, house, sheet)\n"
    "    local sum = use.sum {}\n"
    "    if job.wax > Q '5 g' then sheet:stop('heavy', 'Too heavy', { 'charge' }) end\n"
    "    return { charge = job.wax * 14, other = sum.all }\n"
    "  end, proofs = {} }\n";
static const char day[] = "{ \"recipe\": \"sum\",\n  \"jobs\": [\"a.json\", \"b.json\"] }\n";
static const char two[] = "{ \"recipe\": \"cast\", \"given\": { \"wax\": \"2 g\" }, \"house\": { "
                          "\"step\": \"3 g\" } }";
static const char six[] = "{ \"recipe\": \"cast\", \"given\": { \"wax\": \"6 g\" } }";

static lml_engine *engine;
static lml_text after, result;
static lml_error error;

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_engine_put(engine, LML_PUT_RECIPE, "sum", adds, strlen(adds), "sum.lua", &error);
    lml_engine_put(engine, LML_PUT_RECIPE, "cast", casts, strlen(casts), "cast.lua", &error);
}

static void close_engine(void)
{
    lml_text_free(engine, &after);
    lml_text_free(engine, &result);
    lml_engine_free(engine);
}

TestSuite(gather, .init = open_engine, .fini = close_engine);

static lml_source source(const char *text, const char *shown)
{
    return (lml_source){text, strlen(text), shown};
}

static lml_status gather(const char *job, lml_source a, lml_source b)
{
    return lml_engine_gather(engine, job, strlen(job), "jobs/day.json", (lml_source[]){a, b}, 2,
                             &after, &error);
}

static void says(const char *words)
{
    cr_expect(strstr(error.message, words), "wants %s: %s", words, error.message);
}

Test(gather, what_is_asked_is_handed_over)
{
    cr_assert_eq(gather(day, source(two, "jobs/a.json"), source(six, "jobs/b.json")), LML_OK, "%s",
                 error.message);
    cr_expect_eq(strncmp(after.text, day, strlen(day) - 3), 0, "%s", after.text);
    cr_expect_null(strstr(after.text, "other"), "nobody asks for it: %s", after.text);
    cr_assert_eq(lml_engine_run(engine, after.text, after.length, "jobs/day.json", &result, &error),
                 LML_OK, "%s", error.message);
    /* 28 g of the first, whose charge alone is given: 14 times 2 g; of the second one stop */
    cr_expect(strstr(result.text, "\"all\":{\"kind\":\"mass\",\"value\":28,"), "%s", result.text);
    cr_expect(strstr(result.text, "\"names\":{\"kind\":\"text\",\"value\":\"a b\"}"), "%s",
              result.text);
    cr_expect(strstr(result.text, "\"stops\":{\"kind\":\"number\",\"value\":1,"), "%s",
              result.text);
    cr_expect(strstr(result.text, "\"own\":{\"kind\":\"text\",\"value\":\"3 g\"}"), "%s",
              result.text);
}

Test(gather, what_stood_there_is_made_anew)
{
    lml_text first;
    cr_assert_eq(gather(day, source(two, "jobs/a.json"), source(six, "jobs/b.json")), LML_OK);
    first = after;
    cr_assert_eq(gather(first.text, source(two, "jobs/a.json"), source(six, "jobs/b.json")), LML_OK,
                 "%s", error.message);
    cr_expect_str_eq(after.text, first.text);
    lml_text_free(engine, &first);
}

Test(gather, a_job_that_lists_none_stays_as_it_is)
{
    cr_assert_eq(lml_engine_gather(engine, two, strlen(two), "a.json", NULL, 0, &after, &error),
                 LML_OK, "%s", error.message);
    cr_expect_str_eq(after.text, two);
}

Test(gather, nothing_is_run_that_was_not_gathered)
{
    cr_expect_eq(lml_engine_run(engine, day, strlen(day), "jobs/day.json", &result, &error),
                 LML_BAD_DATA);
    says("they have not been run yet");
    lml_text out = {.text = NULL};
    cr_expect_eq(lml_engine_why(engine, day, strlen(day), "jobs/day.json",
                                &(lml_asked_why){.figure = "all"}, &out, &error),
                 LML_BAD_DATA);
    says("they have not been run yet");
    cr_expect_eq(lml_engine_check(engine, day, strlen(day), "jobs/day.json", &error), LML_OK, "%s",
                 error.message);
}

Test(gather, what_cannot_be_is_refused)
{
    lml_source a = source(two, "jobs/a.json");
    cr_expect_eq(gather(day, a, source(two, "jobs/b.json")), LML_BAD_DATA);
    says("jobs/day.json:2: jobs[1]: jobs/b.json is the job that is listed as jobs/a.json");
    cr_expect_eq(gather(day, a, source(six, "jobs/day.json")), LML_BAD_DATA);
    says("jobs/day.json lists itself");
    cr_expect_eq(gather(day, a, source(day, "jobs/b.json")), LML_BAD_DATA);
    says("jobs/b.json lists other jobs itself");
    cr_expect_eq(gather(day, a, source("{ \"recipe\": \"cast\" }", "jobs/b.json")), LML_BAD_DATA);
    cr_expect_str_eq(error.context[error.contexts - 1],
                     "in jobs/b.json, which jobs/day.json lists");
    cr_expect_eq(gather(day, a, source("{ \"recipe\": \"cast\", \"file_version\": 2 }", "b.json")),
                 LML_BAD_DATA);
    says("b.json:1: file_version: a later lemel wrote this file");
    cr_expect_eq(gather(day, a, source("[", "jobs/b.json")), LML_BAD_DATA);
    cr_expect_eq(gather("{ \"recipe\": \"cast\", \"jobs\": [\"a.json\", \"b.json\"] }", a,
                        source(six, "jobs/b.json")),
                 LML_BAD_DATA);
    says("the recipe cast reads no other jobs");
    cr_expect_eq(gather("{ \"recipe\": \"sun\", \"jobs\": [\"a.json\", \"b.json\"] }", a,
                        source(six, "jobs/b.json")),
                 LML_NOT_FOUND);
    cr_expect_eq(
        gather("{ \"recipe\": \"sum\", \"jobs\": [\"a.json\"] }", a, source(six, "jobs/b.json")),
        LML_BAD_DATA);
    says("1 jobs are listed, but the texts of 2 were given");
    cr_expect_eq(gather(two, a, source(six, "jobs/b.json")), LML_BAD_DATA);
    says("the job lists no others, but the texts of 2 were given");
    cr_expect_eq(
        lml_engine_gather(engine, day, strlen(day), "jobs/day.json", NULL, 2, &after, &error),
        LML_BAD_DATA);
    cr_expect_null(after.text, "nothing is handed over");
}
