/* Recipes' own proofs: what passes, what fails and in which words, and what a proof does not see.
 */
#include "worked.h"

static lml_engine *engine;

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(prove, .init = open_engine, .fini = close_engine);

/* The report on a recipe with this one proof, to which a source is added where it says none; the
 * caller frees it. */
static char *prove(const char *proof)
{
    char source[4000], sourced[1000];
    bool add = proof[0] == '{' && !strstr(proof, "source = ");
    snprintf(sourced, sizeof sourced, "%.*s%s", (int)strlen(proof) - add, proof,
             add ? ", source = 'arithmetic' }" : "");
    lml_text text;
    lml_error e;
    snprintf(
        source, sizeof source,
        "return recipe { title = 'T', version = '1', level = 1,\n"
        "  asks = { wax = ask.mass { 'Wax' }, mark = ask.fineness { 'Mark', optional = true } },\n"
        "  allowances = { button = ask.mass { 'Button' },\n"
        "    loss = ask.ratio { 'Loss', default = '2 %%', source = 'common practice, no source' } "
        "},\n"
        "  gives = { charge = give.mass { 'Charge', to = '1 kg' }, fine = give.fineness { 'Fine', "
        "optional = true },\n"
        "    price = give.money 'Price', count = give.whole 'Count', heat = give.temperature "
        "'Heat',\n"
        "    lots = give.list { 'Lots', of = ask.record { 'Lot', fields = { name = ask.text {}, "
        "mass = ask.mass {} } } } },\n"
        "  work = function (job, house, sheet)\n"
        "    if job.wax > Q '10 g' then sheet:stop('crucible', 'Too much', { 'charge' }) end\n"
        "    return { charge = (job.wax * 15 * (1 + house.loss) + house.button):nearest '0.1 g', "
        "price = Q '100 USD', count = 3,\n"
        "      heat = Q '960 °C', fine = job.mark,\n"
        "      lots = { { name = 'ring', mass = Q '4 g' }, { name = 'chain', mass = Q '11 g' } } } "
        "end,\n"
        "  proofs = { %s } }",
        sourced);
    put_text(engine, LML_PUT_RECIPE, "t", source);
    cr_assert_eq(lml_engine_prove(engine, "t", &text, &e), LML_OK, "%s: %s", proof, e.message);
    char *copy = (char *)malloc(text.length + 1);
    memcpy(copy, text.text, text.length + 1);
    lml_text_free(engine, &text);
    return copy;
}

#define GIVEN "given = { wax = '2 g', button = '9 g' }"

static void expect_pass(const char *proof)
{
    char *report = prove(proof);
    cr_expect(strstr(report, "\"passed\":1,\"failed\":0"), "%s: %s", proof, report);
    free(report);
}

static void expect_failure(const char *proof, const char *words)
{
    char *report = prove(proof);
    cr_expect(strstr(report, "\"passed\":0,\"failed\":1"), "%s: %s", proof, report);
    cr_expect(strstr(report, words), "%s wants %s: %s", proof, words, report);
    free(report);
}

Test(prove, figures_are_held_against_what_is_expected)
{
    expect_pass("{ 'x', " GIVEN ", expect = { charge = '39.6 g' } }");
    expect_pass("{ 'x', " GIVEN ", expect = { charge = '39.5 g' }, within = '0.1 g' }");
    expect_pass("{ 'x', " GIVEN
                ", expect = { charge = '39.5 g', price = '100 USD', count = 3 }, within = '1 %' }");
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '39.5 g' } }",
                   "\"failures\":[\"charge is 39.6 g, but 39.5 g is expected\"]");
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '39.4 g' }, within = '0.1 g' }",
                   "\"failures\":[\"charge is 39.6 g, but 39.4 g is expected within 0.1 g\"]");
    expect_failure("{ 'x', " GIVEN ", expect = { price = '99 USD' }, within = '0.5 %' }",
                   "price is 100.00 USD");
}

Test(prove, a_tolerance_of_one_kind_says_nothing_of_another)
{
    expect_pass("{ 'x', " GIVEN ", expect = { charge = '39.5 g', count = 3 }, within = '0.1 g' }");
    expect_failure("{ 'x', " GIVEN
                   ", expect = { charge = '39.5 g', price = '100.01 USD' }, within = '0.1 g' }",
                   "price is 100.00 USD, but 100.01 USD is expected");
}

Test(prove, temperatures_and_finenesses_have_tolerances_of_their_own)
{
    expect_pass("{ 'x', " GIVEN ", expect = { heat = '961 °C' }, within = '1 Δ°C' }");
    expect_failure("{ 'x', " GIVEN ", expect = { heat = '961 °C' }, within = '0.5 Δ°C' }",
                   "heat is 960");
    expect_failure("{ 'x', " GIVEN ", expect = { heat = '961 °C' }, within = '1 %' }",
                   "fits none of its figures: a percentage of this means nothing");
    expect_pass("{ 'x', given = { wax = '2 g', button = '9 g', mark = '585 ‰' }, expect = { fine = "
                "'585.5 ‰' }, within = '1 ‰' }");
    expect_failure("{ 'x', given = { wax = '2 g', button = '9 g', mark = '585 ‰' }, expect = { "
                   "fine = '587 ‰' }, within = '1 ‰' }",
                   "fine is 585");
}

Test(prove, lists_and_records)
{
    expect_pass("{ 'x', " GIVEN
                ", expect = { lots = { { name = 'ring', mass = '4 g' }, { mass = '11 g' } } } }");
    expect_pass(
        "{ 'x', " GIVEN
        ", expect = { lots = { { mass = '4.05 g' }, { mass = '11 g' } } }, within = '0.1 g' }");
    expect_failure("{ 'x', " GIVEN
                   ", expect = { lots = { { mass = '5 g' }, { mass = '11 g' } } } }",
                   "lots[1].mass is 4 g, but 5 g is expected");
    expect_failure("{ 'x', " GIVEN
                   ", expect = { lots = { { name = 'rng' }, { mass = '11 g' } } } }",
                   "lots[1].name is the text \\\"ring\\\", but the text \\\"rng\\\" is expected");
    expect_failure("{ 'x', " GIVEN ", expect = { lots = { { mass = '4 g' } } } }",
                   "lots has 2 entries, but 1 are expected");
    expect_failure("{ 'x', " GIVEN ", expect = { lots = { { weight = '4 g' }, {} } } }",
                   "the proof 'x' expects 'lots[1].weight'");
}

Test(prove, stops)
{
    expect_pass("{ 'x', given = { wax = '11 g', button = '9 g' }, stops = { 'crucible' } }");
    expect_pass("{ 'x', given = { wax = '11 g', button = '9 g' }, stops = { 't/crucible' }, expect "
                "= { price = '100 USD' } }");
    expect_failure("{ 'x', " GIVEN ", stops = { 'crucible' } }",
                   "the stop 'crucible' is expected, but does not occur");
    expect_failure("{ 'x', given = { wax = '11 g', button = '9 g' }, expect = { charge = '1 g' } }",
                   "charge is withheld by a stop");
    expect_pass("{ 'x', " GIVEN ", stops = {} }");
    expect_failure(
        "{ 'x', given = { wax = '11 g', button = '9 g' }, expect = { price = '100 USD' } }",
        "it stops with 't/crucible', which the proof does not list: Too much");
    expect_failure("{ 'x', given = { wax = '11 g', button = '9 g' }, stops = {} }",
                   "it stops with 't/crucible'");
}

Test(prove, a_proof_sees_defaults_and_its_own_given_alone)
{
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"button\": \"5 g\", \"loss\": \"50 %\" }");
    expect_failure("{ 'x', given = { wax = '2 g' }, stops = {} }",
                   "t needs 'button' (Button), which the house has not set");
    expect_pass("{ 'x', " GIVEN ", expect = { charge = '39.6 g' } }");
    expect_pass("{ 'x', given = { wax = '2 g', button = '9 g', loss = '0 %' }, expect = { charge = "
                "'39 g' } }");
}

Test(prove, faults_of_a_proof)
{
    expect_failure("{ 'x', " GIVEN " }", "the proof 'x' expects nothing");
    expect_failure("{ 'x', " GIVEN ", expect = { charg = '1 g' } }", "did you mean 'charge'?");
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '1 mL' } }", "a mass");
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '39 g' }, within = 'much' }",
                   "has a 'within' that is not a value");
    expect_failure("{ 'x', given = { waxx = '2 g' }, stops = {} }", "has 'waxx' in its 'given'");
    expect_failure("{ 'x', given = 5, stops = {} }", "has 'given', which is not a table");
    expect_failure("{ 'x', " GIVEN ", expect = 5 }", "has 'expect', which is not a table");
    expect_failure("{ 'x', " GIVEN ", stop = { 'crucible' } }", "did you mean 'stops'?");
    expect_failure("{ 'x', " GIVEN ", stops = { 5 } }",
                   "has a 'stops' that is not a list of codes");
    expect_failure("{ 'x', " GIVEN ", stops = { a = 'crucible' } }",
                   "has a 'stops' that is not a list of codes");
    expect_failure("{ 'x', 'y', " GIVEN ", stops = {} }", "has entries without names");
    expect_failure("{ 'x', " GIVEN ", stops = {}, source = ' ' }",
                   "does not give the source of its figures");
    expect_failure("{ " GIVEN ", stops = {} }", "proof 1 has no name");
    expect_failure("5", "proof 1 is not a table");
}

/* The first begins in line 13 of its file. */
Test(prove, faults_name_their_file_and_line)
{
    char *report = prove("{ 'x', " GIVEN ", source = 'arithmetic' },\n\n"
                         "{ 'y', given = 5, stops = {}, source = 'arithmetic' }");
    cr_expect(strstr(report, "\"file\":\"t.lua\""), "%s", report);
    const char *x = strstr(report, "{\"line\":13,\"name\":\"x\"");
    const char *y = strstr(report, "{\"line\":15,\"name\":\"y\"");
    cr_expect(x && y, "%s", report);
    const char *nothing = strstr(report, "the proof 'x' expects nothing");
    const char *table = strstr(report, "has 'given', which is not a table");
    cr_expect(x < nothing && nothing < y && y < table, "%s", report);
    free(report);
}

Test(prove, all_that_differs_is_told)
{
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '30 g', count = 4, price = '1 USD' } }",
                   "[\"charge is 39.6 g, but 30 g is expected\",\"count is 3, but 4 is "
                   "expected\",\"price is 100.00 USD, but 1.00 USD is expected\"]");
}

Test(prove, the_report_names_proof_and_source)
{
    char *report =
        prove("{ 'two grams', " GIVEN
              ", expect = { charge = '39.6 g' }, source = 'arithmetic: 2 * 15 * 1.02 + 9' }");
    cr_expect(strstr(report, "{\"recipe\":\"t\",\"version\":\"1\",\"digest\":\"sha256:"), "%s",
              report);
    cr_expect(strstr(report, "{\"line\":13,\"name\":\"two grams\",\"source\":\"arithmetic: 2 * 15 "
                             "* 1.02 + 9\",\"worked\":[{\"recipe\":\"t\","),
              "%s", report);
    cr_expect(strstr(report, "}],\"passed\":true}"), "%s", report);
    free(report);
}

/* An expected figure may lie beyond the bounds of the give, a given one not. */
Test(prove, bounds)
{
    expect_failure("{ 'x', " GIVEN ", expect = { charge = '2 kg' } }",
                   "charge is 39.6 g, but 2 kg is expected");
}

/* A proof that cannot fail proves nothing: 2 g of wax come to 39.6 g here. */
Test(prove, a_tolerance_has_a_cap)
{
    expect_pass("{ 'a fifth', " GIVEN ", expect = { charge = '33 g' }, within = '20 %' }");
    expect_failure("{ 'more than a fifth', " GIVEN
                   ", expect = { charge = '39.6 g' }, within = '21 %' }",
                   "allows too much: at most 7.92");
    expect_failure("{ 'anything', " GIVEN ", expect = { charge = '39.6 g' }, within = '100000 %' }",
                   "allows too much");
    expect_pass("{ 'in its own unit', " GIVEN
                ", expect = { charge = '39.5 g' }, within = '7.9 g' }");
    expect_failure("{ 'too much of it', " GIVEN
                   ", expect = { charge = '39.5 g' }, within = '8 g' }",
                   "allows too much");
    expect_pass("{ 'degrees', " GIVEN ", expect = { heat = '900 °C' }, within = '60 Δ°C' }");
    expect_failure("{ 'too many degrees', " GIVEN
                   ", expect = { heat = '960 °C' }, within = '61 Δ°C' }",
                   "allows too much");
    expect_failure("{ 'money', " GIVEN ", expect = { price = '100 USD' }, within = '20.01 USD' }",
                   "allows too much");
    expect_pass("{ 'money', " GIVEN ", expect = { price = '90 USD' }, within = '18 USD' }");
}

Test(prove, an_expectation_holds_a_figure)
{
    expect_failure("{ 'entries without a member', " GIVEN ", expect = { lots = { {}, {} } } }",
                   "a proof needs something to expect or a stop");
    expect_failure("{ 'no entries', " GIVEN ", expect = { lots = {} } }",
                   "lots has 2 entries, but 0 are expected");
    expect_pass("{ 'a member', " GIVEN ", expect = { lots = { { name = 'ring' }, {} } } }");
}

/* How deep a recipe can call itself is the same in a proof and in a job, whichever way it goes
 * down: or it could give another figure where it is proved. */
static bool goes_as_deep(bool proof, const char *way, int depth)
{
    char source[1000], job[100];
    lml_text text;
    lml_error e;
    snprintf(source, sizeof source,
             "return recipe { title = 'T', version = '1', level = 1, asks = { depth = ask.whole { "
             "'Depth' } },\n"
             "  gives = { went = give.whole 'Went' }, work = function (job)\n"
             "    local function f(n) if n == 0 then return 0 end %s end return { went = "
             "f(job.depth) } end,\n"
             "  proofs = { { 'deep', given = { depth = %d }, expect = { went = %d }, source = "
             "'arithmetic' } } }",
             way, depth, depth);
    put_text(engine, LML_PUT_RECIPE, "t", source);
    if (proof) {
        cr_assert_eq(lml_engine_prove(engine, "t", &text, &e), LML_OK);
        bool passed = strstr(text.text, "\"passed\":1,\"failed\":0") != NULL;
        cr_expect(passed || strstr(text.text, "calls itself too deep") ||
                      strstr(text.text, "more memory"),
                  "%s", text.text);
        lml_text_free(engine, &text);
        return passed;
    }
    snprintf(job, sizeof job, "{ \"recipe\": \"t\", \"given\": { \"depth\": %d } }", depth);
    char *result = run_text(engine, job, &e);
    cr_expect(result || e.status == LML_LIMIT, "%s", e.message);
    free(result);
    return result != NULL;
}

static void expect_same_depth(const char *way, int most)
{
    int good = 1, bad = most;
    cr_assert(goes_as_deep(false, way, good) && !goes_as_deep(false, way, bad), "%s", way);
    while (bad - good > 1) {
        int middle = (good + bad) / 2;
        *(goes_as_deep(false, way, middle) ? &good : &bad) = middle;
    }
    cr_expect(goes_as_deep(true, way, good), "%s: a job goes down %d calls, and a proof does not",
              way, good);
    cr_expect_not(goes_as_deep(true, way, bad),
                  "%s: a proof goes down %d calls, and a job does not", way, bad);
}

Test(prove, a_recipe_cannot_tell_a_proof_from_a_job_by_its_depth)
{
    expect_same_depth("return 1 + f(n - 1)", 1000000);
    expect_same_depth("local _, v = pcall(f, n - 1) return 1 + v", 1000);
    expect_same_depth(
        "local v table.sort({ 1, 2 }, function () v = v or f(n - 1) return false end) return 1 + v",
        1000);
}

/* What is caught is no measure of depth either. */
Test(prove, a_full_stack_is_not_caught)
{
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1, gives = { went = give.whole "
             "'Went' }, work = function ()\n"
             "  local went = 0 local function f() went = went + 1 local ok, why = pcall(f) if not "
             "ok then error(why) end end\n"
             "  pcall(f) return { went = went } end }");
    cr_expect_null(run_text(engine, "{ \"recipe\": \"t\" }", &e));
    cr_expect_eq(e.status, LML_LIMIT);
    cr_expect(strstr(e.message, "calls itself too deep"), "%s", e.message);
}
