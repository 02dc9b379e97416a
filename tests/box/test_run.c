/* Jobs worked: what a recipe is told and from where, recipes that use others, stops and what they
 * withhold, points to confirm, gates. */
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

TestSuite(run, .init = open_engine, .fini = close_engine);

static void expect_result(const char *job, const char *words)
{
    lml_error e;
    char *result = run_text(engine, job, &e);
    cr_expect(result && strstr(result, words), "%s\nwants %s\n%s", job, words,
              result ? result : e.message);
    free(result);
}

static void expect_no(const char *job, const char *words)
{
    lml_error e;
    char *result = run_text(engine, job, &e);
    cr_expect(result && !strstr(result, words), "%s\nmust not hold %s\n%s", job, words,
              result ? result : e.message);
    free(result);
}

static void expect_error(const char *job, lml_status status, const char *message, const char *hint)
{
    lml_error e;
    char *result = run_text(engine, job, &e);
    cr_expect_null(result, "%s gives %s", job, result);
    cr_expect_eq(e.status, status, "%s: %s %s", job, lml_status_name(e.status), e.message);
    cr_expect(strstr(e.message, message), "%s: %s", job, e.message);
    cr_expect(strstr(e.hint, hint), "%s: hint %s", job, e.hint);
    free(result);
}

/* ---- asks --------------------------------------------------------------------------------------
 */

static const char *const NEED =
    "return recipe { title = 'Need', version = '1.0.0', level = 1,\n"
    "  asks = { wax = ask.mass { 'Finished wax', from = '0.02 g', to = '2 kg' },\n"
    "    note = ask.text { 'Note', optional = true }, date = ask.moment { 'Date', optional = true "
    "} },\n"
    "  allowances = { button = ask.mass { 'Button' },\n"
    "    loss = ask.ratio { 'Loss', default = '0.5 %', source = 'common practice, no source' } },\n"
    "  gives = { charge = give.mass 'Metal to weigh out' },\n"
    "  work = function (job, house, sheet)\n"
    "    sheet.bench:line('Metal to weigh out', job.wax * 15 + house.button)\n"
    "    return { charge = job.wax * 15 + house.button } end }\n";

Test(run, unknown_names_are_refused_with_the_nearest)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    expect_error("{ \"recipe\": \"nead\" }", LML_NOT_FOUND,
                 "job.json:1: recipe: no recipe is called 'nead'", "did you mean 'need'?");
    expect_error("{ \"recipe\": \"need\",\n \"given\": { \"waxx\": \"2 g\" } }", LML_BAD_DATA,
                 "job.json:2: given.waxx: need does not ask for 'waxx'", "did you mean 'wax'?");
    expect_error("{ \"recipe\": \"need\", \"given\": { \"button\": \"2 g\" } }", LML_BAD_DATA,
                 "need does not ask for 'button'", "it is an allowance: set it under \"house\"");
    expect_error("{ \"recipe\": \"need\", \"house\": { \"buton\": \"2 g\" } }", LML_BAD_DATA,
                 "house.buton: no recipe of this job has such an allowance",
                 "did you mean 'button'?");
}

Test(run, a_letter_that_only_looks_latin_is_told_to_programs_too)
{
    static const char *const jobs[] = {
        "{ \"recipe\": \"need\", \"given\": { \"wax\": \"1 \u043ez\" } }",
        "{ \"recipe\": \"n\u0435ed\", \"given\": { \"wax\": \"1 g\" } }",
        "{ \"recipe\": \"need\", \"given\": { \"w\u0430x\": \"1 g\" } }",
    };
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    for (size_t i = 0; i < sizeof jobs / sizeof *jobs; i++) {
        lml_error run, check;
        lml_text text;
        cr_expect_neq(lml_engine_run(engine, jobs[i], strlen(jobs[i]), "job", &text, &run), LML_OK);
        cr_expect_neq(lml_engine_check(engine, jobs[i], strlen(jobs[i]), "job", &check), LML_OK);
        cr_expect(run.contexts > 0 && strstr(run.context[0], "in it only looks like"), "%s: %s",
                  jobs[i], run.message);
        cr_expect(check.contexts > 0 && strstr(check.context[0], "in it only looks like"), "%s: %s",
                  jobs[i], check.message);
    }
}

Test(run, what_is_missing_is_said_with_an_example)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    expect_error("{ \"recipe\": \"need\" }", LML_BAD_DATA,
                 "need needs 'wax' (Finished wax), which is not given", "a mass, such as 12.5 g");
    expect_error("{ \"recipe\": \"need\", \"given\": { \"wax\": \"2 g\" } }", LML_BAD_DATA,
                 "need needs 'button' (Button), which the house has not set",
                 "\"button\": \"12.5 g\"");
}

Test(run, figures_are_checked_where_they_stand)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    expect_error("{ \"recipe\": \"need\", \"house\": { \"button\": \"9 g\" },\n\"given\": {\n "
                 "\"wax\": \"2,8 g\" } }",
                 LML_BAD_VALUE, "job.json:3: given.wax: \"2,8 g\" has a comma", "2.8 g");
    expect_error("{ \"recipe\": \"need\", \"house\": { \"button\": \"9 g\" }, \"given\": { "
                 "\"wax\": \"2 mL\" } }",
                 LML_BAD_VALUE, "given.wax", "");
    expect_error("{ \"recipe\": \"need\", \"house\": { \"button\": \"9 g\" }, \"given\": { "
                 "\"wax\": \"3 kg\" } }",
                 LML_BAD_VALUE, "given.wax", "");
    expect_error("{ \"recipe\": \"need\", \"house\": { \"button\": \"9\" }, \"given\": { \"wax\": "
                 "\"2 g\" } }",
                 LML_BAD_VALUE, "house.button", "");
}

Test(run, check_says_the_same_without_working)
{
    put_text(engine, LML_PUT_RECIPE, "endless",
             "return recipe { title = 'E', version = '1', level = 1, asks = { wax = ask.mass { 'W' "
             "} },\n"
             "  work = function () while true do end end }");
    lml_error e;
    const char *bad = "{ \"recipe\": \"endless\", \"given\": { \"wax\": \"2 oz\" } }";
    const char *good = "{ \"recipe\": \"endless\", \"given\": { \"wax\": \"2 g\" } }";
    cr_expect_eq(lml_engine_check(engine, bad, strlen(bad), "job.json", &e), LML_BAD_VALUE);
    cr_expect(strstr(e.message, "given.wax"), "%s", e.message);
    cr_expect_eq(lml_engine_check(engine, good, strlen(good), "job.json", &e), LML_OK);
}

Test(run, date_and_record_are_the_jobs_own)
{
    put_text(
        engine, LML_PUT_RECIPE, "t",
        "return recipe { title = 'T', version = '1', level = 1,\n"
        "  asks = { date = ask.moment { 'Date' }, record = ask.list { 'Record', optional = true,\n"
        "    of = ask.record { 'Entry', fields = { at = ask.moment {}, what = ask.text {},\n"
        "      mass = ask.mass { 'M', optional = true } } } } },\n"
        "  gives = { day = give.weekday 'Day', count = give.whole 'Entries' },\n"
        "  work = function (job) return { day = job.date:weekday(), count = job.record and "
        "#job.record or 0 } end }");
    expect_result("{ \"recipe\": \"t\", \"date\": \"2026-11-24\" }", "\"value\":\"Tuesday\"");
    expect_result(
        "{ \"recipe\": \"t\", \"date\": \"2026-11-24\", \"given\": { \"date\": \"2026-11-25\" } }",
        "\"value\":\"Wednesday\"");
    expect_result("{ \"recipe\": \"t\", \"date\": \"2026-11-24\", \"record\": [ { \"at\": "
                  "\"2026-11-24T10:00\","
                  " \"what\": \"tree\", \"mass\": \"60 g\" } ] }",
                  "\"count\":{\"kind\":\"number\",\"value\":1");
}

/* ---- allowances --------------------------------------------------------------------------------
 */

static const char *const LAYERED =
    "return recipe { title = 'Layered', version = '1', level = 1,\n"
    "  allowances = { button = ask.mass { 'Button', default = '1 g', source = 'common practice, no "
    "source' } },\n"
    "  gives = { used = give.mass 'Used' },\n"
    "  work = function (job, house) return { used = house.button } end }\n";
static const char *const USER =
    "return recipe { title = 'User', version = '1', level = 1, uses = { 'layered' },\n"
    "  gives = { passed = give.mass 'Passed', own = give.mass 'Own' },\n"
    "  work = function () return { passed = use.layered { button = Q '6 g' }.used, own = "
    "use.layered().used } end }\n";

Test(run, an_allowance_comes_from_the_nearest_that_sets_it)
{
    put_text(engine, LML_PUT_RECIPE, "layered", LAYERED);
    put_text(engine, LML_PUT_RECIPE, "user", USER);
    const char *plain = "{ \"recipe\": \"layered\" }";
    expect_result(plain, "\"text\":\"1 g\",\"origin\":\"assumed\"}},");
    expect_result(plain, "\"layered.button\":{\"kind\":\"mass\",\"value\":1,\"unit\":\"g\","
                         "\"text\":\"1 g\",\"origin\":"
                         "\"assumed\",\"from\":\"default\"}");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"button\": \"2 g\" }");
    expect_result(plain, "\"text\":\"2 g\",\"from\":\"house\"");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"button\": \"2 g\", \"layered.button\": \"3 g\" }");
    expect_result(plain, "\"text\":\"3 g\",\"from\":\"house\"");
    expect_result("{ \"recipe\": \"layered\", \"house\": { \"button\": \"4 g\" } }",
                  "\"text\":\"4 g\",\"from\":\"job\"");
    expect_result("{ \"recipe\": \"layered\", \"house\": { \"button\": \"4 g\", "
                  "\"layered.button\": \"5 g\" } }",
                  "\"text\":\"5 g\",\"from\":\"job\"");
    const char *used = "{ \"recipe\": \"user\", \"house\": { \"layered.button\": \"5 g\" } }";
    expect_result(used, "\"passed\":{\"kind\":\"mass\",\"value\":6,");
    expect_result(used, "\"own\":{\"kind\":\"mass\",\"value\":5,");
    /* On the command line a figure that is given is an allowance as well. */
    expect_result(
        "{ \"recipe\": \"layered\", \"loose\": true, \"given\": { \"button\": \"7 g\" } }",
        "\"text\":\"7 g\",\"from\":\"job\"");
    /* Of a recipe that it uses, too; what that is given still wins. */
    const char *below =
        "{ \"recipe\": \"user\", \"loose\": true, \"given\": { \"button\": \"7 g\" } }";
    expect_result(below, "\"passed\":{\"kind\":\"mass\",\"value\":6,");
    expect_result(below, "\"own\":{\"kind\":\"mass\",\"value\":7,");
}

/* 1 inHg is 3386.389 Pa (NIST SP 811, table B.8), so that 28.2385 inHg is 956.266 mbar: to print no
 * more than that is to print 956.2. */
Test(run, a_figure_in_a_sentence_is_in_the_unit_of_the_house)
{
    put_text(
        engine, LML_PUT_RECIPE, "saying",
        "return recipe { title = 'Saying', version = '1', level = 1, gives = { words = give.text "
        "'Words' },\n"
        "  work = function () local v = Q '28.2385 inHg' return { words = text.fill('{x} short, "
        "{d} to {u}', "
        "{ x = v:as_house('vacuum', '0.01 inHg'), d = v:as_house('vacuum', '0.01 inHg', 'down'),\n"
        "  u = v:as_house('vacuum', '0.01 inHg', 'up') }) } end,\n"
        "  proofs = { { 'as written', given = {}, expect = { words = '28.24 inHg short, 28.23 inHg "
        "to 28.24 inHg' }, source = 'x' } } }");
    expect_result("{ \"recipe\": \"saying\" }", "28.24 inHg short, 28.23 inHg to 28.24 inHg");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"units\": { \"vacuum\": \"mbar\" } }");
    expect_result("{ \"recipe\": \"saying\" }", "956.3 mbar short, 956.2 mbar to 956.3 mbar");
    lml_text report;
    lml_error e;
    cr_expect_eq(lml_engine_prove(engine, "saying", &report, &e), LML_OK, "%s", e.message);
    cr_expect(strstr(report.text, "\"passed\":1"), "%s", report.text);
    lml_text_free(engine, &report);
}

/* 100 Δ°C are 180 Δ°F and 20 °C are 68 °F, by the definition of the scales (NIST SP 811, B.8). */
Test(run, a_difference_is_read_off_the_thermometer_of_the_house)
{
    put_text(engine, LML_PUT_RECIPE, "hotter",
             "return recipe { title = 'Hotter', version = '1', level = 1, gives = { words = "
             "give.text 'Words' },\n"
             "  work = function () return { words = text.fill('{d} above {t}', {\n"
             "    d = Q('100 Δ°C'):as_house('temperature_difference', '1 Δ°C'),\n"
             "    t = Q('20 °C'):as_house('temperature', '1 Δ°C') }) } end }");
    expect_result("{ \"recipe\": \"hotter\" }", "100 Δ°C above 20 °C");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"units\": { \"temperature\": \"°F\" } }");
    expect_result("{ \"recipe\": \"hotter\" }", "180 Δ°F above 68 °F");
    put_text(engine, LML_PUT_HOUSE, NULL,
             "{ \"units\": { \"temperature\": \"°F\", \"temperature_difference\": \"Δ°C\" } }");
    expect_result("{ \"recipe\": \"hotter\" }", "100 Δ°C above 68 °F");
}

/* What a recipe rounded is in a sentence in the house's unit, on the same side; what somebody
 * wrote, a stone's carats and a unit that was asked for are as they are. 1 dwt is 1.55517384 g and
 * 1 in is 25.4 mm by definition: 28.56 g is 18.3645 dwt, 13.77 mm is 0.54213 in, 7.5 g is 4.8226
 * dwt. */
Test(run, a_sentence_has_the_units_of_the_house)
{
    put_text(
        engine, LML_PUT_RECIPE, "tells",
        "return recipe { title = 'Tells', version = '1', level = 1, asks = { m = ask.mass "
        "'Mass' }, gives = { words = give.text 'Words' },\n"
        "  work = function (job) local m = job.m return { words = text.fill("
        "'{n} {u} {d} {l} {t} {h} {f} {as_written} {stone} {kiln}', {\n"
        "    n = m:nearest '0.01 g', u = m:up_to '0.01 g', d = m:down_to '0.01 g', l = Q('13.77 "
        "mm'):up_to '0.01 mm', t = Q('580.2 °C'):nearest '1 Δ°C', h = Q('75 Δ°C'):up_to '1 "
        "Δ°C',\n"
        "    f = Q('7.5 g Au'):down_to '0.01 g', as_written = m, stone = Q('0.138 ct'):nearest "
        "'0.001 ct', kiln = Q('580 °C'):nearest('1 Δ°C'):as '°C' }) } end }");
    static const char job[] = "{ \"recipe\": \"tells\", \"given\": { \"m\": \"28.56 g\" } }";
    expect_result(job, "28.56 g 28.56 g 28.56 g 13.77 mm 580 °C 75 Δ°C 7.50 g Au 28.56 g 0.138 ct "
                       "580 °C");
    put_text(engine, LML_PUT_HOUSE, NULL,
             "{ \"units\": { \"mass\": \"dwt\", \"length\": \"in\", \"temperature\": \"°F\" } }");
    expect_result(job, "18.36 dwt 18.37 dwt 18.36 dwt 0.543 in 1076 °F 135 Δ°F 4.82 dwt Au 28.56 g "
                       "0.138 ct 580 °C");
    put_text(engine, LML_PUT_HOUSE, NULL,
             "{ \"units\": { \"mass\": \"dwt\", \"fine_mass\": \"g\" } }");
    expect_result(job, "18.36 dwt 18.37 dwt 18.36 dwt 13.77 mm 580 °C 75 Δ°C 7.50 g Au 28.56 g "
                       "0.138 ct 580 °C");
}

/* A figure that is withheld is in no sentence in the house's unit either. */
Test(run, a_withheld_figure_is_cut_in_the_unit_of_the_house)
{
    put_text(engine, LML_PUT_RECIPE, "holds",
             "return recipe { title = 'Holds', version = '1', level = 1, asks = { m = ask.mass "
             "'Mass' }, gives = { due = give.mass 'Due' },\n"
             "  work = function (job, house, sheet) local due = (job.m * 2):up_to '0.1 g'\n"
             "    sheet:stop('no', 'Not that', { 'due' })\n"
             "    sheet.bench:tick(text.fill('Weigh {d} and no more', { d = due }))\n"
             "    return { due = due } end }");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"units\": { \"mass\": \"dwt\" } }");
    expect_result("{ \"recipe\": \"holds\", \"given\": { \"m\": \"14.48 g\" } }",
                  "Weigh \xE2\x80\xA6 and no more");
}

Test(run, prices_come_from_the_price_file)
{
    put_text(
        engine, LML_PUT_RECIPE, "t",
        "return recipe { title = 'T', version = '1', level = 1,\n"
        "  allowances = { prices = ask.by_name { 'Prices', of = ask.record { 'Price', fields = {\n"
        "    price = ask.price {}, at = ask.moment {}, from = ask.text {},\n"
        "    history = ask.list { 'Former', of = ask.anything {}, optional = true } } } } },\n"
        "  gives = { gold = give.price 'Gold', former = give.whole 'Former prices', first = "
        "give.text 'First' },\n"
        "  work = function (job, house)\n"
        "    local gold = house.prices.Au\n"
        "    return { gold = gold.price, former = #gold.history, first = gold.history[1].price } "
        "end }");
    put_text(engine, LML_PUT_PRICES, NULL,
             "{ \"prices\": { \"Au\": { \"price\": \"98.50 USD/g\", \"at\": \"2026-11-24T09:00\", "
             "\"from\": \"refiner\","
             " \"history\": [ { \"price\": \"97 USD/g\", \"at\": \"2026-11-23T09:00\", \"from\": "
             "\"refiner\" } ] } } }");
    static const char *const of_its_day = "{ \"recipe\": \"t\", \"date\": \"2026-11-23\" }";
    expect_result(of_its_day, "\"text\":\"98.50 USD/g\"");
    expect_result(of_its_day, "\"former\":{\"kind\":\"number\",\"value\":1");
    expect_result(of_its_day, "\"first\":{\"kind\":\"text\",\"value\":\"97 USD/g\"}");
}

/* ---- recipes that use others -------------------------------------------------------------------
 */

Test(run, a_used_recipe_sees_what_it_is_passed_and_its_own_settings)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    put_text(engine, LML_PUT_RECIPE, "quote",
             "return recipe { title = 'Quote', version = '1', level = 1, uses = { 'need' },\n"
             "  asks = { note = ask.text { 'Note' } }, gives = { metal = give.mass 'Metal' },\n"
             "  work = function (job, house, sheet)\n"
             "    sheet.bench:line('Before', 1)\n"
             "    local n = use.need { wax = '2 g' }\n"
             "    sheet.bench:line('After', 2)\n"
             "    return { metal = n.charge } end }");
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"need.button\": \"9 g\" }");
    const char *job = "{ \"recipe\": \"quote\", \"given\": { \"note\": \"x\" } }";
    expect_result(job, "\"metal\":{\"kind\":\"mass\",\"value\":39,\"unit\":\"g\"");
    /* Its lines stand where it was used, under its title. */
    expect_result(job, "{\"is\":\"line\",\"label\":\"Before\",\"value\":{\"kind\":\"number\","
                       "\"value\":1,\"text\":\"1\"}},"
                       "{\"is\":\"part\",\"recipe\":\"need\",\"title\":\"Need\",\"entries\":[{"
                       "\"is\":\"line\",\"label\":"
                       "\"Metal to weigh out\"");
    expect_result(job, "\"recipe\":\"need\",\"version\":\"1.0.0\",\"digest\":\"sha256:");
    expect_result(job, "\"under\":\"quote\"");
}

Test(run, what_is_passed_is_checked_like_a_job)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    static const char *const cases[][3] = {
        {"use.need { waxx = '2 g' }", "need does not ask for 'waxx'", "did you mean 'wax'?"},
        {"use.need { wax = Q '2 mL' }", "a mass", ""},
        {"use.need { wax = 2 }", "a mass is needed, but the bare number 2 was given", ""},
        {"use.need { wax = '3 kg', button = '1 g' }",
         "above the maximum of 2 kg: check the figure and its unit", ""},
        {"use.need { button = '1 g' }", "need needs 'wax'", "a mass"},
        {"use.nead {}", "does not list 'nead'", "uses = "},
        {"use.need { wax = '2 g' }.charg", "need has no 'charg'", "did you mean need.charge?"},
        {"use.need(5)", "a recipe in use needs a table or a list", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char source[600];
        snprintf(source, sizeof source,
                 "return recipe { title = 'Q', version = '1', level = 1, uses = { 'need' },\n"
                 "  work = function () local x = %s return {} end }",
                 cases[i][0]);
        put_text(engine, LML_PUT_RECIPE, "quote", source);
        lml_error e;
        char *result =
            run_text(engine, "{ \"recipe\": \"quote\", \"house\": { \"button\": \"9 g\" } }", &e);
        cr_expect_null(result, "%s", cases[i][0]);
        cr_expect(strstr(e.message, cases[i][1]), "%s: %s", cases[i][0], e.message);
        cr_expect(strstr(e.hint, cases[i][2]), "%s: %s", cases[i][0], e.hint);
        free(result);
    }
}

Test(run, circles_are_refused_by_name)
{
    static const char *const names[] = {"a", "b", "c"};
    for (int i = 0; i < 3; i++) {
        char source[300];
        snprintf(source, sizeof source,
                 "return recipe { title = 'T', version = '1', level = 1, uses = { '%s' },\n"
                 "  work = function () return {} end }",
                 names[(i + 1) % 3]);
        put_text(engine, LML_PUT_RECIPE, names[i], source);
    }
    expect_error("{ \"recipe\": \"a\" }", LML_BAD_RECIPE,
                 "the recipes use each other in a circle: a uses b uses c uses a", "uses");
    put_text(engine, LML_PUT_RECIPE, "c",
             "return recipe { title = 'T', version = '1', level = 1, uses = { 'none' },\n"
             "  work = function () return {} end }");
    expect_error("{ \"recipe\": \"a\" }", LML_NOT_FOUND, "no recipe is called 'none'", "");
}

Test(run, a_recipe_can_be_used_again_after_it_failed)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    put_text(engine, LML_PUT_RECIPE, "quote",
             "return recipe { title = 'Q', version = '1', level = 1, uses = { 'need' }, gives = { "
             "m = give.mass 'M' },\n"
             "  work = function (job, house, sheet)\n"
             "    assert(not pcall(use.need, { wax = Q '9 kg' }))\n"
             "    sheet.bench:line('Mine', 1)\n"
             "    return { m = use.need { wax = '2 g' }.charge } end }");
    const char *job = "{ \"recipe\": \"quote\", \"house\": { \"button\": \"9 g\" } }";
    expect_result(job, "\"m\":{\"kind\":\"mass\",\"value\":39");
    expect_result(job, "\"label\":\"Mine\"");
}

Test(run, an_ask_read_without_job_is_told_how_to_be_read)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1, asks = { wax = ask.mass { 'W' "
             "} },\n"
             "  allowances = { button = ask.mass { 'B', optional = true } },\n"
             "  work = function (job) return { a = job.wax > Q '3 g' and button or wax } end }");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"wax\": \"2 g\" } }", LML_BAD_RECIPE,
                 "t.lua:3: 'wax' is not known here", "write job.wax");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"wax\": \"4 g\" } }", LML_BAD_RECIPE,
                 "t.lua:3: 'button' is not known here", "write house.button");
}

Test(run, scripts_are_read_only_and_fresh)
{
    put_text(engine, LML_PUT_SCRIPT, "trade",
             "local n = 0\n"
             "return { list = { 1, 2 }, density = Q '15 g/cm3', count = function () n = n + 1 "
             "return n end, 7, 8 }");
    put_text(engine, LML_PUT_RECIPE, "t",
             "local trade = require 'trade'\n"
             "return recipe { title = 'T', version = '1', level = 1, gives = { out = give.text "
             "'Out' },\n"
             "  work = function ()\n"
             "    local names = {}\n"
             "    for name in pairs(trade) do table.insert(names, tostring(name)) end\n"
             "    return { out = text.fill('{n} {a} {l} {s}', { n = trade.count(), a = #trade, l = "
             "#trade.list,\n"
             "      s = table.concat(names, ',') }) } end }");
    for (int i = 0; i < 2; i++)
        expect_result("{ \"recipe\": \"t\" }", "\"value\":\"1 2 2 1,2,count,density,list\"");
    put_text(engine, LML_PUT_RECIPE, "t", "require('trade').density = 5");
    expect_error("{ \"recipe\": \"t\" }", LML_BAD_RECIPE, "trade cannot be changed", "local table");
    put_text(engine, LML_PUT_RECIPE, "t", "require 'trad'");
    expect_error("{ \"recipe\": \"t\" }", LML_NOT_FOUND, "no script is called 'trad'",
                 "did you mean 'trade'?");
}

/* ---- stops -------------------------------------------------------------------------------------
 */

static const char *const STOPPING =
    "return recipe { title = 'Stopping', version = '1', level = 1,\n"
    "  gives = { charge = give.mass 'Charge', piece = give.mass 'Piece',\n"
    "    share = give.ratio { 'Share', optional = true } },\n"
    "  work = function (job, house, sheet)\n"
    "    sheet.bench:line('Charge', Q '58.0 g')\n"
    "    sheet:stop('crucible', 'The charge of 58 g is larger than the crucible holds', { 'charge' "
    "})\n"
    "    return { charge = Q '58.0 g', piece = Q '45 g' } end }\n";

Test(run, a_stop_withholds_what_it_names)
{
    put_text(engine, LML_PUT_RECIPE, "stopping", STOPPING);
    const char *job = "{ \"recipe\": \"stopping\" }";
    expect_result(job, "\"stopped\":true");
    expect_result(
        job,
        "\"results\":{\"piece\":{\"kind\":\"mass\",\"value\":45,\"unit\":\"g\",\"text\":\"45 g\"}},"
        "\"withheld\":[\"charge\"]");
    expect_result(job, "{\"level\":\"stop\",\"code\":\"stopping/crucible\",\"text\":\"The charge "
                       "of 58 g is larger than "
                       "the crucible holds\",\"withholds\":[\"stopping.charge\"]}");
    expect_result(job, "{\"is\":\"line\",\"label\":\"Charge\",\"withheld\":true");
}

Test(run, a_withheld_figure_need_not_be_returned_and_all_are_withheld_when_none_is_named)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1, gives = { a = give.mass 'A', "
             "b = give.mass 'B' },\n"
             "  work = function (job, house, sheet) sheet:stop('x', 'No') return {} end }");
    expect_result("{ \"recipe\": \"t\" }", "\"results\":{},\"withheld\":[\"a\",\"b\"]");
}

Test(run, a_reader_of_a_withheld_figure_is_stopped_in_turn)
{
    put_text(engine, LML_PUT_RECIPE, "stopping", STOPPING);
    put_text(engine, LML_PUT_RECIPE, "reader",
             "return recipe { title = 'Reader', version = '1', level = 1, uses = { 'stopping' },\n"
             "  gives = { a = give.mass 'A', b = give.mass 'B' },\n"
             "  work = function (job, house, sheet)\n"
             "    local r = use.stopping {}\n"
             "    sheet.bench:line('Piece', r.piece)\n"
             "    local ok, x = pcall(function () return r.charge end)\n"
             "    return { a = Q '1 g', b = Q '2 g' } end }");
    const char *job = "{ \"recipe\": \"reader\" }";
    expect_result(job, "\"results\":{},\"withheld\":[\"a\",\"b\"]");
    expect_result(job, "\"label\":\"Piece\"");
    /* And whoever reads the reader. */
    put_text(engine, LML_PUT_RECIPE, "top",
             "return recipe { title = 'Top', version = '1', level = 1, uses = { 'reader' }, gives "
             "= { c = give.mass 'C' },\n"
             "  work = function () return { c = use.reader {}.a } end }");
    expect_result("{ \"recipe\": \"top\" }", "\"results\":{},\"withheld\":[\"c\"]");
    expect_no("{ \"recipe\": \"top\" }", "58.0 g");
}

/* The figure was printed by the recipe that was used, and is the same one. */
Test(run, what_a_recipe_withholds_is_blank_where_a_used_one_printed_it)
{
    put_text(engine, LML_PUT_RECIPE, "inner",
             "return recipe { title = 'Inner', version = '1', licence = 'CC0-1.0', level = 1,\n"
             "  gives = { stamp = give.text 'Mark', other = give.text 'Other' },\n"
             "  work = function(job, house, sheet)\n"
             "    sheet.bench:line('Mark', '14K')\n"
             "    sheet.bench:line('Other', 'struck')\n"
             "    return { stamp = '14K', other = 'struck' } end }\n");
    put_text(engine, LML_PUT_RECIPE, "outer",
             "return recipe { title = 'Outer', version = '1', licence = 'CC0-1.0', level = 1,\n"
             "  uses = { 'inner' }, gives = { stamp = give.text 'Mark' },\n"
             "  work = function(job, house, sheet)\n"
             "    local r = use.inner {}\n"
             "    sheet:stop('doubt', 'Nobody is sure', { 'stamp' })\n"
             "    return { stamp = r.stamp } end }\n");
    expect_result("{ \"recipe\": \"outer\" }",
                  "{\"is\":\"line\",\"label\":\"Mark\",\"withheld\":true");
    expect_result("{ \"recipe\": \"outer\" }", "{\"is\":\"line\",\"label\":\"Other\",\"value\"");
}

Test(run, withheld_asks_without_reading)
{
    put_text(engine, LML_PUT_RECIPE, "stopping", STOPPING);
    put_text(
        engine, LML_PUT_RECIPE, "reader",
        "return recipe { title = 'Reader', version = '1', level = 1, uses = { 'stopping' }, gives "
        "= { a = give.text 'A' },\n"
        "  work = function ()\n"
        "    local r, names = use.stopping {}, {}\n"
        "    for name in pairs(r) do table.insert(names, name) end\n"
        "    return { a = tostring(withheld(r, 'charge')) .. tostring(withheld(r, 'piece')) ..\n"
        "      tostring(r.share == nil) .. table.concat(names) } end }");
    expect_result("{ \"recipe\": \"reader\" }",
                  "\"a\":{\"kind\":\"text\",\"value\":\"truefalsetruepiece\"}");
}

Test(run, what_work_returns_is_checked)
{
    static const char *const cases[][2] = {
        {"return { charge = Q '1 g' }", "gives 'piece' (Piece), but work did not return it"},
        {"return { charge = Q '1 mL', piece = Q '1 g' }", "a mass"},
        {"return { charge = 1, piece = Q '1 g' }",
         "a mass is needed, but the bare number 1 was given"},
        {"return { charge = Q '1 g', piece = Q '1 g', other = 2 }",
         "'other', which gives does not declare"},
        {"return 5", "a table of its gives is needed"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char source[600];
        snprintf(source, sizeof source,
                 "return recipe { title = 'T', version = '1', level = 1,\n"
                 "  gives = { charge = give.mass 'Charge', piece = give.mass 'Piece' },\n"
                 "  work = function () %s end }",
                 cases[i][0]);
        put_text(engine, LML_PUT_RECIPE, "t", source);
        lml_error e;
        char *result = run_text(engine, "{ \"recipe\": \"t\" }", &e);
        cr_expect_null(result);
        cr_expect(strstr(e.message, cases[i][1]), "%s: %s", cases[i][0], e.message);
        free(result);
    }
}

/* ---- points to confirm -------------------------------------------------------------------------
 */

static const char *const ASKING = "return recipe { title = 'Asking', version = '1', level = 1, "
                                  "asks = { part = ask.ratio { 'Part' } },\n"
                                  "  gives = { charge = give.mass 'Charge' },\n"
                                  "  work = function (job, house, sheet)\n"
                                  "    sheet:confirm('old-metal', text.fill('{p} of the charge is "
                                  "old metal', { p = job.part }), { 'charge' })\n"
                                  "    return { charge = Q '58.0 g' } end }\n";

static void confirm(const char *part, const char *confirmed, const char *words)
{
    char job[600];
    snprintf(job, sizeof job,
             "{ \"recipe\": \"asking\", \"given\": { \"part\": \"%s\" }, \"confirmed\": { "
             "\"asking/old-metal\": %s } }",
             part, confirmed);
    expect_result(job, words);
}

Test(run, a_point_to_confirm_stops_until_it_is_confirmed)
{
    put_text(engine, LML_PUT_RECIPE, "asking", ASKING);
    expect_result("{ \"recipe\": \"asking\", \"given\": { \"part\": \"63 %\" } }",
                  "\"withheld\":[\"charge\"]");
    expect_result("{ \"recipe\": \"asking\", \"given\": { \"part\": \"63 %\" } }",
                  "\"stopped\":true");
    const char *good = "{ \"reason\": \"told of porosity\", \"by\": \"O.F.\", \"text\": \"63 % of "
                       "the charge is old metal\" }";
    confirm("63 %", good, "\"stopped\":false,\"results\":{\"charge\":");
    confirm("63 %", good,
            "{\"level\":\"confirmed\",\"code\":\"asking/old-metal\",\"text\":\"63 % of the charge "
            "is old "
            "metal\",\"reason\":\"told of porosity\",\"by\":\"O.F.\"}");
}

Test(run, a_confirmation_lapses_when_a_figure_changes)
{
    put_text(engine, LML_PUT_RECIPE, "asking", ASKING);
    const char *old =
        "{ \"reason\": \"told\", \"by\": \"O.F.\", \"text\": \"63 % of the charge is old metal\" }";
    confirm("64 %", old, "\"lapsed\":true,\"withholds\":[\"asking.charge\"]");
    confirm("163 %", old, "\"lapsed\":true");
    confirm("0.63 %", old, "\"lapsed\":true");
    confirm("63 %", "{ \"reason\": \"told\", \"by\": \"O.F.\", \"figure\": \"63 %\" }",
            "\"lapsed\":true");
    confirm("63 %", "{ \"reason\": \"told\", \"by\": \"O.F.\" }", "\"lapsed\":true");
    confirm("63 %", "{ \"reason\": \"told\", \"by\": \"O.F.\", \"text\": \"63 %\" }",
            "\"lapsed\":true");
}

/* What was agreed to is the sentence, so no way of writing the figure that matters hides from it.
 */
Test(run, a_confirmation_holds_for_its_own_words_alone)
{
    static const char *const tricks[][2] = {
        {"Of 1 piece 5 g is lost", "Of 1 piece 50 g is lost"}, /* the first figure is a constant */
        {"Five grams are lost", "Fifty grams are lost"},       /* figures as words */
        {"５ g is lost", "５０ g is lost"},                    /* full-width digits */
        {"1/5 g is lost", "5 g is lost"},                      /* a part of a figure */
        {"85 kg is lost", "85 g is lost"},                     /* another unit */
        {"85 g is lost", "85 g is lost and 3 stones"},         /* more is said */
        {"5 g is lost, 1 g is found",
         "1 g is lost, 5 g is found"}}; /* the same figures, the other way round */
    for (size_t i = 0; i < sizeof tricks / sizeof *tricks; i++) {
        char recipe[600], job[400];
        for (int now = 0; now < 2; now++) {
            snprintf(recipe, sizeof recipe,
                     "return recipe { title = 'T', version = '1', level = 1, gives = { a = "
                     "give.mass 'A' },\n"
                     "  work = function (job, house, sheet) sheet:confirm('loss', '%s') return { a "
                     "= Q '1 g' } end }",
                     tricks[i][now]);
            put_text(engine, LML_PUT_RECIPE, "t", recipe);
            snprintf(job, sizeof job,
                     "{ \"recipe\": \"t\", \"confirmed\": { \"t/loss\": { \"reason\": \"told\", "
                     "\"by\": \"O.F.\", \"text\": \"%s\" } } }",
                     tricks[i][0]);
            expect_result(job, now == 0 ? "\"stopped\":false" : "\"lapsed\":true");
        }
    }
}

Test(run, a_confirmation_says_why_and_who)
{
    put_text(engine, LML_PUT_RECIPE, "asking", ASKING);
    expect_error("{ \"recipe\": \"asking\", \"given\": { \"part\": \"63 %\" }, \"confirmed\": { "
                 "\"asking/old-metal\":"
                 " { \"reason\": \"\", \"by\": \"O.F.\", \"text\": \"63 %\" } } }",
                 LML_BAD_VALUE, "reason: nothing is filled in: Why it is accepted", "");
    expect_error("{ \"recipe\": \"asking\", \"given\": { \"part\": \"63 %\" }, \"confirmed\": { "
                 "\"asking/old-metal\":"
                 " { \"reason\": \"told\", \"text\": \"63 %\" } } }",
                 LML_BAD_DATA, "by", "");
}

Test(run, a_point_without_a_figure_is_bound_to_its_words_too)
{
    put_text(
        engine, LML_PUT_RECIPE, "t",
        "return recipe { title = 'T', version = '1', level = 1, gives = { a = give.mass 'A' },\n"
        "  work = function (job, house, sheet) sheet:confirm('solder', 'There is solder in it') "
        "return { a = Q '1 g' } end }");
    expect_result("{ \"recipe\": \"t\" }", "\"withheld\":[\"a\"]");
    expect_result("{ \"recipe\": \"t\", \"confirmed\": { \"t/solder\": { \"reason\": \"sawn out\", "
                  "\"by\": \"O.F.\", \"text\": \"There is solder in it\" } } }",
                  "\"stopped\":false,\"results\":{\"a\":");
}

Test(run, a_caution_cannot_be_hidden)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1,\n"
             "  allowances = { quiet = ask.yes_no { 'Quiet', default = 'false' } },\n"
             "  work = function (job, house, sheet) sheet.client:caution('fume', 'Cadmium fume "
             "kills') return {} end }");
    const char *caution =
        "{\"level\":\"caution\",\"code\":\"t/fume\",\"text\":\"Cadmium fume kills\"}";
    expect_result("{ \"recipe\": \"t\" }", caution);
    expect_result("{ \"recipe\": \"t\", \"house\": { \"quiet\": true }, \"confirmed\": { "
                  "\"t/fume\": { \"reason\": \"known\","
                  " \"by\": \"O.F.\" } } }",
                  caution);
    expect_result("{ \"recipe\": \"t\" }", "\"client\":[{\"is\":\"remark\",\"level\":\"caution\"");
    expect_result("{ \"recipe\": \"t\" }", "\"stopped\":false");
}

/* ---- gates -------------------------------------------------------------------------------------
 */

static const char *const GATES =
    "return { gates = {\n"
    "  { code = 'crucible', needs = { 'charge', 'crucible' }, check = function (facts, sheet)\n"
    "      if facts.charge > facts.crucible then\n"
    "        sheet:stop('crucible-full', 'More than the crucible holds', { 'charge' }) end end },\n"
    "  { code = 'piece', needs = { 'piece' }, check = function (facts, sheet)\n"
    "      sheet:caution('hot', 'Molten metal and damp do not mix') end } } }\n";
/* A recipe that somebody edited: the stop is no longer in it. */
static const char *const EDITED = "return recipe { title = 'Edited', version = '1', level = 1,\n"
                                  "  asks = { crucible = ask.mass { 'Crucible' } },\n"
                                  "  gives = { charge = give.mass { 'Charge', optional = true }, "
                                  "piece = give.mass { 'Piece', optional = true } },\n"
                                  "  work = function (job) return { charge = Q '60 g' } end }\n";

Test(run, a_gate_stops_a_recipe_that_leaves_the_stop_out)
{
    put_text(engine, LML_PUT_SCRIPT, "gates", GATES);
    put_text(engine, LML_PUT_RECIPE, "edited", EDITED);
    const char *small = "{ \"recipe\": \"edited\", \"given\": { \"crucible\": \"50 g\" } }";
    expect_result(small, "\"results\":{},\"withheld\":[\"charge\"]");
    expect_result(small, "\"code\":\"edited/crucible-full\"");
    expect_no(small, "edited/hot");
    expect_result("{ \"recipe\": \"edited\", \"given\": { \"crucible\": \"70 g\" } }",
                  "\"stopped\":false");
    put_text(engine, LML_PUT_RECIPE, "user",
             "return recipe { title = 'User', version = '1', level = 1, uses = { 'edited' }, gives "
             "= { out = give.mass 'Out' },\n"
             "  work = function () return { out = use.edited { crucible = '50 g' }.charge } end }");
    expect_result("{ \"recipe\": \"user\" }", "\"withheld\":[\"out\"]");
}

/* Without its gates an engine runs nothing, unless it was told to; then the result says so. */
Test(run, nothing_is_run_without_gates)
{
    static const char job[] = "{ \"recipe\": \"t\" }";
    static const char recipe[] =
        "return recipe { title = 'T', version = '1', level = 1, work = function () return {} end }";
    lml_error e;
    lml_text text;
    lml_engine *bare = lml_engine_new(NULL);
    put_text(bare, LML_PUT_RECIPE, "t", recipe);
    cr_expect_null(run_text(bare, job, &e));
    cr_expect_eq(e.status, LML_NO_GATES);
    cr_expect_eq(lml_engine_prove(bare, "t", &text, &e), LML_NO_GATES);
    put_text(bare, LML_PUT_SCRIPT, "gates", "return { gates = {} }");
    char *result = run_text(bare, job, &e);
    cr_assert(result, "%s", e.message);
    cr_expect(strstr(result, "{\"script\":\"gates\",\"digest\":\"sha256:"),
              "the gates are not among what was run: %s", result);
    cr_expect_null(strstr(result, "\"gates\":null"));
    free(result);
    lml_engine_free(bare);
    lml_engine *told = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(told, LML_PUT_RECIPE, "t", recipe);
    result = run_text(told, job, &e);
    cr_assert(result, "%s", e.message);
    cr_expect(strstr(result, "\"gates\":null"), "%s", result);
    free(result);
    lml_engine_free(told);
}

Test(run, gates_that_cannot_be_read_let_nothing_pass)
{
    put_text(engine, LML_PUT_RECIPE, "edited", EDITED);
    const char *job = "{ \"recipe\": \"edited\", \"given\": { \"crucible\": \"70 g\" } }";
    static const char *const gates[][2] = {
        {"return 5", "does not return a list of gates"},
        {"return { gate = {} }", "does not return a list of gates"},
        {"return { gates = { 5 } }", "gate 1 is not a table"},
        {"return { gates = { { needs = 'charge', check = function () end } } }",
         "the 'needs' of gate 1 is missing"},
        {"return { gates = { { needs = { 'charge' } } } }", "the 'check' of gate 1 is missing"},
        {"return { gates = { { needs = { 'charge' }, check = function (f) error 'broken' end } } }",
         "broken"}};
    for (size_t i = 0; i < sizeof gates / sizeof *gates; i++) {
        put_text(engine, LML_PUT_SCRIPT, "gates", gates[i][0]);
        expect_error(job, LML_BAD_RECIPE, gates[i][1], "");
    }
}

/* ---- kinds that are taken in -------------------------------------------------------------------
 */

Test(run, ring_sizes_alloys_and_assays)
{
    put_text(engine, LML_PUT_SCRIPT, "alloys",
             "return { alloys = { { name = 'Au750 plain', source = 's',\n"
             "  composition = { Au = '750 ‰', Ag = '125 ‰', Cu = '125 ‰' }, density = '15.4 g/cm3' "
             "} } }");
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1,\n"
             "  asks = { size = ask.ring_size { 'Size' }, metal = ask.alloy { 'Metal' }, old = "
             "ask.assay { 'Old' } },\n"
             "  gives = { size_is = give.number 'Size', fine = give.fineness 'Fineness', dense = "
             "give.density 'Density',\n"
             "    spread = give.anything 'Spread', again = give.ring_size 'Again', alloy_again = "
             "give.alloy 'Alloy' },\n"
             "  work = function (job)\n"
             "    local old = job.old:fineness 'Au'\n"
             "    return { size_is = job.size.size, fine = job.metal:fineness 'Au', dense = "
             "job.metal.density,\n"
             "      spread = old:deviation(), again = job.size, alloy_again = job.metal } end }");
    put_text(engine, LML_PUT_HOUSE, NULL,
             "{ \"stock\": { \"Studio yellow\": { \"composition\": { \"Au\": \"585 ‰\","
             " \"Cu\": \"415 ‰\" }, \"density\": \"13 g/cm3\" } } }");
    const char *job = "{ \"recipe\": \"t\", \"given\": { \"size\": \"US 6 1/4\", \"metal\": "
                      "\"Au750 plain\", \"old\":"
                      " \"585 ‰ ± 5 ‰\" } }";
    expect_result(job, "\"size_is\":{\"kind\":\"number\",\"value\":6.25");
    expect_result(job, "\"text\":\"750 ‰ Au\"");
    expect_result(job, "\"text\":\"15.4 g/cm3\"");
    expect_result(job, "\"text\":{\"kind\":\"text\",\"value\":\"US 6 1/4\"}");
    /* The house's stock goes first, and a name that is nowhere is refused with the nearest. */
    expect_result("{ \"recipe\": \"t\", \"given\": { \"size\": \"UK L\", \"metal\": \"Studio "
                  "yellow\", \"old\": \"585 ‰\" } }",
                  "\"text\":\"13 g/cm3\"");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"size\": \"UK L\", \"metal\": \"Au750 "
                 "plane\", \"old\": \"585 ‰\" } }",
                 LML_BAD_VALUE, "no alloy is called \"Au750 plane\"",
                 "did you mean \"Au750 plain\"?");
}

/* Where an assay is due, a text that reads whole as a fineness is one; else it names an alloy. */
Test(run, alloys_whose_names_begin_with_a_digit)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1,\n"
             "  asks = { old = ask.assay { 'Old', metal = 'Au' } }, gives = { fine = give.fineness "
             "'Fineness' },\n"
             "  work = function (job) return { fine = job.old:fineness 'Au' } end }");
    put_text(engine, LML_PUT_HOUSE, NULL,
             "{ \"stock\": { \"14K yellow\": { \"composition\": { \"Au\": \"590 ‰\","
             " \"Cu\": \"410 ‰\" }, \"density\": \"13 g/cm3\" } } }");
    expect_result("{ \"recipe\": \"t\", \"given\": { \"old\": \"14K yellow\" } }",
                  "\"text\":\"590 ‰ Au\"");
    expect_result("{ \"recipe\": \"t\", \"given\": { \"old\": \"600 ‰\" } }",
                  "\"text\":\"600 ‰ Au\"");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"old\": \"14K yelow\" } }", LML_BAD_VALUE,
                 "no alloy is called \"14K yelow\"", "did you mean \"14K yellow\"?");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"old\": \"585 promille\" } }", LML_BAD_VALUE,
                 "promille", "");
    expect_error("{ \"recipe\": \"t\", \"given\": { \"old\": \"585 g\" } }", LML_BAD_VALUE,
                 "fineness", "");
}

Test(run, the_same_bytes_each_time)
{
    put_text(engine, LML_PUT_RECIPE, "need", NEED);
    lml_error e;
    const char *job = "{ \"recipe\": \"need\", \"given\": { \"wax\": \"2 g\" }, \"house\": { "
                      "\"button\": \"9 g\" } }";
    char *first = run_text(engine, job, &e), *second = run_text(engine, job, &e);
    lml_engine *other = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(other, LML_PUT_RECIPE, "need", NEED);
    char *third = run_text(other, job, &e);
    cr_assert(first && second && third);
    cr_expect_str_eq(first, second);
    cr_expect_str_eq(first, third);
    free(first);
    free(second);
    free(third);
    lml_engine_free(other);
}
