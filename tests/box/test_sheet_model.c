/* What a line, a sign and a picture say of themselves in the result, and what is refused of them.
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

TestSuite(sheet_model, .init = open_engine, .fini = close_engine);

/* The result of a recipe whose work is this body, of a job with these members. */
static char *write_sheet(const char *body, const char *members, lml_error *e)
{
    static char source[6000], job[1000];
    snprintf(source, sizeof source,
             "return recipe { title = 'A long title', heads = 'Short', version = '1', level = 1,\n"
             "  gives = { out = give.mass { 'What comes out', optional = true } },\n"
             "  work = function (job, house, sheet)\n%s\n  return { out = Q '7.125 g' } end }",
             body);
    put_text(engine, LML_PUT_RECIPE, "t", source);
    snprintf(job, sizeof job, "{ \"recipe\": \"t\"%s }", members);
    return run_text(engine, job, e);
}

static void expect(const char *body, const char *words)
{
    lml_error e;
    char *result = write_sheet(body, "", &e);
    cr_expect(result && strstr(result, words), "%s\nshould have %s\n%s", body, words,
              result ? result : e.message);
    free(result);
}

static void expect_not(const char *body, const char *words)
{
    lml_error e;
    char *result = write_sheet(body, "", &e);
    cr_expect(result && !strstr(result, words), "%s\nhas %s\n%s", body, words,
              result ? result : e.message);
    free(result);
}

static void expect_refusal(const char *body, const char *message)
{
    lml_error e;
    char *result = write_sheet(body, "", &e);
    cr_expect_null(result, "%s", body);
    bool said = strstr(e.message, message);
    for (int i = 0; i < e.contexts; i++)
        said = said || strstr(e.context[i], message);
    cr_expect(said, "%s: %s", body, e.message);
    free(result);
}

Test(sheet_model, what_is_done_with_a_line)
{
    expect("sheet.bench:weigh('Powder', Q '270 g')",
           "{\"is\":\"line\",\"act\":\"weigh\",\"label\":\"Powder\",\"value\":{\"kind\":\"mass\"");
    expect("sheet.bench:set('Furnace', Q '1000 °C')", "\"act\":\"set\",\"label\":\"Furnace\"");
    expect("sheet.bench:measure('Held', nil, { least = Q '60 min', record = 'held' })",
           "{\"is\":\"line\",\"act\":\"measure\",\"label\":\"Held\",\"least\":{\"kind\":\"time\"");
    expect("sheet.bench:tick('POUR', { record = 'poured' })",
           "{\"is\":\"line\",\"act\":\"tick\",\"label\":\"POUR\",\"record\":\"poured\"}");
    expect("sheet.bench:tick('POUR', 'GO', { big = true })", "\"value\":{\"kind\":\"text\"");
    expect("sheet.bench:box('Button', 'button', { owner = 'client' })",
           "\"act\":\"measure\",\"label\":\"Button\",\"owner\":\"client\",\"record\":\"button\"}");
    expect("sheet.client:sign('Agreed', { 'Client', 'Date' })",
           "{\"is\":\"sign\",\"label\":\"Agreed\",\"who\":[\"Client\",\"Date\"]}");
    expect(
        "sheet.bench:grid { columns = { 'What', 'Done' }, rows = { { 'Load', { box = true } }, { "
        "'Go', { box = 'inside' } } } }",
        "{\"box\":true}],[{\"kind\":\"text\",\"value\":\"Go\"},{\"box\":true,\"record\":"
        "\"inside\"}]");
    expect("sheet.piece:line('a', 1)", "\"piece\":[{\"is\":\"line\"");
}

Test(sheet_model, what_a_line_may_be)
{
    expect(
        "sheet.bench:line('a', Q '5 mm', { least = Q '4 mm', most = Q '6 mm' })",
        "\"least\":{\"kind\":\"length\",\"value\":4,\"unit\":\"mm\",\"text\":\"4 mm\"},\"most\":{");
    expect(
        "sheet.bench:line('a', Q '587 ‰ Au ± 5 ‰', { least = Q '583.3 ‰ Au', chance = Q '15 %' })",
        "\"chance\":{\"kind\":\"ratio\"");
    expect("sheet.bench:tick('a', { at = Q '2026-11-27T14:08', till = Q '2026-11-27T14:12' })",
           "\"till\":{\"kind\":\"moment\",\"value\":\"2026-11-27T14:12\"");
    expect("sheet.bench:tick('a', { after = '4 min', latest = '6.5 min' })",
           "\"latest\":{\"kind\":\"time\",\"value\":6.5");
    expect(
        "sheet.bench:measure('Flask', Q '1076 °F', { also = '°C' })",
        "\"also\":{\"kind\":\"temperature\",\"value\":1076,\"unit\":\"°F\",\"text\":\"580 °C\"}");
    expect("sheet.bench:weigh('a', Q '13.6508 g', { step = Q '0.001 g', whole = true })",
           "\"value\":{\"kind\":\"mass\",\"value\":13.6508,\"unit\":\"g\",\"text\":\"13.651 g\"},"
           "\"step\":{\"kind\":\"mass\",\"value\":0.001,\"unit\":\"g\",\"text\":\"0.001 g\"},"
           "\"whole\":true");
}

/* 13.651 + 3.749 + 10.469 + 1.132 = 29.001: sums of what is printed, by hand. */
Test(sheet_model, a_tared_scale_shows_the_sums)
{
    static const char lots[] =
        "local o = { step = Q '0.001 g' } local b = sheet.bench b:weigh('a', Q '13.6508 g', o) "
        "b:weigh('b', Q '3.749 g', o) b:weigh('c', Q '10.469 g', o) b:weigh('d', Q '1.132 g', o) ";
    char body[500];
    snprintf(body, sizeof body, "%s b:total('All', Q '29.0008 g', o)", lots);
    expect(body, "\"shows\":{\"kind\":\"mass\",\"value\":13.651,");
    expect(body, "\"text\":\"17.400 g\"}");
    expect(body, "\"text\":\"27.869 g\"}");
    expect(body,
           "\"shows\":{\"kind\":\"mass\",\"value\":29.001,\"unit\":\"g\",\"text\":\"29.001 g\"}");
    expect(body, "\"value\":29.0008,\"unit\":\"g\",\"text\":\"29.001 g\"}");
    expect_not(lots, "shows"); /* no total: they do not go onto one scale */
    expect_not("local o = { step = Q '1 g' } sheet.bench:weigh('a', Q '2 g', o) "
               "sheet.bench:total('All', Q '2 g')",
               "shows");
}

Test(sheet_model, what_was_recorded)
{
    static const char record[] =
        ", \"client\": \"A client\", \"record\": [ { \"at\": \"2026-11-26T14:20\", \"what\": "
        "\"tree\", "
        "\"mass\": \"31.02 g\" }, { \"at\": \"2026-11-26T14:50\", \"what\": \"tree\", \"mass\": "
        "\"37.66 g\" }, { \"at\": \"2026-11-26T15:00\", \"what\": \"poured\" } ]";
    lml_error e;
    char *result = write_sheet("sheet.bench:measure('Tree', Q '38 g', { record = 'tree' }) "
                               "sheet.bench:tick('POUR', { record = 'poured' })",
                               record, &e);
    cr_assert(result, "%s", e.message);
    cr_expect(strstr(result, "\"recorded\":{\"at\":\"2026-11-26T14:50\",\"text\":\"37.66 g\"}"));
    cr_expect(strstr(result, "\"recorded\":{\"at\":\"2026-11-26T15:00\"}"));
    cr_expect(strstr(result, "\"job\":{\"recipe\":\"t\",\"client\":\"A client\"}"));
    cr_expect(strstr(result, "\"titles\":{\"out\":\"What comes out\"}"));
    free(result);
}

#define STEP(to, begins, there, ends)                                                              \
    "{ to = Q '" to "', begins = Q '2026-11-27T" begins "', there = Q '2026-11-27T" there          \
    "', ends = Q '2026-11-27T" ends "' }"

Test(sheet_model, a_curve)
{
    static const char curve[] = "sheet.bench:curve { title = 'Burnout', from = Q '20 °C', loaded = "
                                "Q '2026-11-26T22:00', unit "
                                "= '°F', nobody = { from = '22:00', to = '06:30' }, alone_most = Q "
                                "'400 °C', reads = { { at = Q "
                                "'2026-11-27T06:30', value = Q '290 °C' } }, steps = { " STEP(
                                    "150 °C", "03:06", "03:50",
                                    "05:20") ", " STEP("100 °C", "05:20", "06:00", "07:00") " } }";
    expect(curve, "{\"is\":\"curve\",\"alone_most\":{");
    expect(curve, "\"text\":\"302 °F\"");
    expect(curve, "\"down\":true");
    expect(curve, "\"nobody\":{\"from\":{\"kind\":\"time_of_day\",\"value\":\"22:00\"");
    expect(curve, "\"reads\":[{\"at\":{");
    expect_refusal("sheet.bench:curve { from = Q '20 °C', steps = { " STEP(
                       "150 °C", "03:06", "03:50", "05:20") ", " STEP("100 °C", "05:10", "06:00",
                                                                      "07:00") " } }",
                   "the curve goes back in time: step 2 of a curve begins at 2026-11-27T05:10, and "
                   "what is before it ends at 2026-11-27T05:20");
    expect_refusal("sheet.bench:curve { from = Q '20 °C', steps = { " STEP("150 °C", "03:06",
                                                                           "03:00", "05:20") " } }",
                   "step 1 of a curve is there at 2026-11-27T03:00, and it begins at "
                   "2026-11-27T03:06");
    expect_refusal("sheet.bench:curve { from = Q '20 mm', steps = { " STEP("150 °C", "03:06",
                                                                           "03:50", "05:20") " } }",
                   "'to' of step 1 of a curve");
    expect_refusal("sheet.bench:curve { from = Q '20 °C', steps = {} }", "1 to 60 entries");
    expect_refusal("sheet.bench:curve { from = Q '20 °C' }", "'steps' of a curve is a list");
    expect_refusal("sheet.bench:curve { from = Q '20 °C', step = {} }",
                   "a curve has no option 'step'");
}

Test(sheet_model, a_flow)
{
    static const char flow[] =
        "sheet.metal:flow { { 'ring A', 'melt', Q '7.9 g Au' }, { 'grain', 'melt', Q '6.1 g Au' }, "
        "{ "
        "'melt', 'casting', Q '9 g Au' }, { 'melt', 'lost', Q '0.1 g Au' }, { 'melt', 'button', Q "
        "'4.9 g "
        "Au' }, owners = { ['ring A'] = 'client' }, marks = { lost = 'lost' }, foretold = true }";
    expect(flow,
           "{\"is\":\"flow\",\"foretold\":true,\"moves\":[{\"from\":\"ring A\",\"to\":\"melt\","
           "\"value\":{\"kind\":\"fine_mass\",\"value\":7.9");
    expect(flow, "{\"column\":0,\"name\":\"ring A\",\"owner\":\"client\",\"value\":{");
    expect(flow, "{\"column\":1,\"name\":\"melt\",\"value\":{\"kind\":\"fine_mass\",\"value\":14");
    expect(flow, "{\"column\":2,\"mark\":\"lost\",\"name\":\"lost\",");
    expect_refusal(
        "sheet.metal:flow { { 'a', 'melt', Q '12.345 g' }, { 'melt', 'b', Q '12.3 g' } }",
        "the flow does not add up: 'melt' takes 12.345 g and gives 12.3 g, 0.045 g less");
    expect(
        "sheet.metal:flow { { 'a', 'melt', Q '12.345 g' }, { 'melt', 'b', Q '12.3 g' }, step = Q "
        "'0.1 g' }",
        "\"is\":\"flow\"");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '1 g' }, { 'b', 'a', Q '1 g' } }",
                   "the flow goes in a circle");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '1 g' }, { 'b', 'c', Q '1 mL' } }",
                   "move 2 of a flow");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '-1 g' } }", "is negative");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '1 g' }, owners = { c = 'client' } }",
                   "'owners' of a flow names 'c', and no move goes there");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '1 g' }, marks = { b = 'gone' } }",
                   "marked back, lost or open, and not 'gone'");
    expect_refusal("sheet.metal:flow {}", "a flow has 1 to 200 moves, and not 0");
    expect_refusal("sheet.metal:flow { { 'a', Q '1 g' } }", "does not say where it goes to");
    expect_refusal("sheet.metal:flow { { 'a', 'b', Q '2026-11-27' } }", "cannot be added up");
}

/* (63.5 - 42) / 2 = 10.75 and 76.2 - 9 - 50.7 = 16.5, by hand. */
Test(sheet_model, a_section)
{
    static const char section[] = "sheet.bench:section { vessel = { name = 'A', diameter = Q '63.5 "
                                  "mm', height = Q '76.2 mm' }, "
                                  "body = { diameter = Q '42 mm', height = Q '50.7 mm', foot = Q "
                                  "'9 mm' }, least = { wall = Q '11 "
                                  "mm', top = Q '16.5 mm' }, fill = 'rim', over = Q '8 %' }";
    expect(section,
           "\"wall\":{\"least\":{\"kind\":\"length\",\"value\":11,\"unit\":\"mm\",\"text\":\"11 "
           "mm\"},\"under\":true,\"value\":{\"kind\":\"length\",\"value\":10.75,");
    expect(section,
           "\"top\":{\"least\":{\"kind\":\"length\",\"value\":16.5,\"unit\":\"mm\",\"text\":"
           "\"16.5 mm\"},\"under\":false,\"value\":{");
    expect(section, "\"fill\":{\"kind\":\"length\",\"value\":76.2,");
    expect_refusal(
        "sheet.bench:section { vessel = { diameter = Q '63 mm', height = Q '0 mm' }, body = "
        "{ diameter = Q '4 mm', height = Q '5 mm' } }",
        "the vessel of a section has a size that is nothing or negative");
    expect_refusal("sheet.bench:section { vessel = { diameter = Q '63 mm' }, body = {} }",
                   "the vessel of a section has no 'height'");
}

Test(sheet_model, what_cannot_be_is_refused)
{
    expect_refusal("sheet.bench:line('a', Q '5 mm', { least = Q '4 g' })",
                   "the option 'least' of a line is not like its figure");
    expect_refusal("sheet.bench:line('a', Q '5 mm', { least = Q '6 mm', most = Q '4 mm' })",
                   "a line has 'least' 6 mm, which is above its 'most' 4 mm");
    expect_refusal("sheet.bench:tick('a', { at = Q '5 min' })", "the option 'at' of a line");
    expect_refusal("sheet.bench:tick('a', { after = '6 min', latest = '4 min' })", "'after' 6 min");
    expect_refusal("sheet.bench:line('a', Q '5 mm', { chance = Q '15 %' })",
                   "a line has 'chance', but neither 'least' nor 'most'");
    expect_refusal("sheet.bench:line('a', Q '5 mm', { least = Q '4 mm', chance = 2 })",
                   "is a ratio from 0 % to 100 %");
    expect_refusal("sheet.bench:weigh('a', Q '5 g', { step = Q '1 mm' })",
                   "the option 'step' of a line");
    expect_refusal("sheet.bench:weigh('a', Q '5 g', { whole = 1 })", "must be true or false");
    expect_refusal("sheet.bench:weigh('a', nil)", "a figure or a text is needed");
    expect_refusal("sheet.bench:measure('a', Q '5 g', { also = '°C' })", "");
    expect_refusal("sheet.client:sign('Agreed', {})", "1 to 6 sign, and not 0");
    expect_refusal("sheet:order('cleint', {})", "a sheet has no 'cleint'");
    expect_refusal("sheet:order('client', { 'quote' })", "does not list 'quote' in uses");
    expect_refusal("sheet:note('x', 'Look', { about = 'y' })", "a remark has no option 'about'");
    expect_refusal("sheet.bench:grid { columns = { 'a' }, rows = { { { bax = true } } } }",
                   "a box in a grid has no option 'bax'");
}

Test(sheet_model, a_remark_stands_beside_its_line)
{
    expect("sheet.bench:note('x', 'Look', { concerns = 'out' })",
           "\"code\":\"t/x\",\"text\":\"Look\",\"concerns\":\"out\"}");
    expect("sheet:stop('x', 'No', { 'out' }, { concerns = 'tree' })", "\"concerns\":\"tree\"");
}

/* Of what is withheld nothing is in the result, under whatever word it was put there. */
Test(sheet_model, what_is_withheld_is_in_no_option_and_no_picture)
{
    static const char *const bodies[] = {
        "sheet.bench:weigh('a', Q '7.125 g', { step = Q '0.01 g' })",
        "sheet.bench:measure('a', Q '9 g', { least = Q '7.125 g' })",
        "sheet.bench:measure('a', Q '9 g', { most = Q '7.125 g' })",
        "sheet.bench:measure('a', nil, { least = Q '7.125 g', also = 'mg' })",
        "sheet.bench:tick('a', { of = 'out', most = Q '7.125 g' })",
        "sheet.bench:weigh('a', Q '7.125 g', { also = 'mg' })",
        "sheet.bench:line('a', Q '9 g', { owner = 'has 7.125 g' })",
        "sheet.bench:line('a', Q '9 g', { record = 'at 7.125 g' })",
        "sheet.client:sign('For 7.125 g', { 'Whoever has 7.125 g' })",
        "sheet:note('x', 'Look', { concerns = 'the 7.125 g' })",
        "sheet.metal:flow { { 'a', 'b', Q '7.125 g' } }",
        "sheet.metal:flow { { 'a', 'b', Q '9 g' }, of = 'out', title = 'All 9 g of it' }",
        "sheet.metal:flow { { 'the 7.125 g', 'b', Q '9 g' } }",
        "sheet.metal:flow { { 'a', 'b', Q '4.125 g' }, { 'c', 'b', Q '3 g' }, { 'b', 'd', Q '7.125 "
        "g' } }",
        "local o = { step = Q '0.001 g' } local b = sheet.bench b:weigh('a', Q '4.125 g', o) "
        "b:weigh('b', Q '3 g', o) b:total('All', Q '7.125 g', o)",
        "sheet.bench:curve { from = Q '1 g', title = 'To 7.125 g', steps = { " STEP(
            "2 g", "03:06", "03:50", "05:20") " } }",
        "sheet.bench:curve { from = Q '1 g', steps = { " STEP("7.125 g", "03:06", "03:50",
                                                              "05:20") " } }",
        "sheet.bench:curve { from = Q '1 g', alone_most = Q '7.125 g', steps = { " STEP(
            "2 g", "03:06", "03:50", "05:20") " } }",
    };
    for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++) {
        char body[1000];
        snprintf(body, sizeof body, "%s\nsheet:stop('no', 'Not yet', { 'out' })", bodies[i]);
        lml_error e;
        char *result = write_sheet(body, "", &e);
        cr_expect(result, "%s: %s", bodies[i], e.message);
        if (result)
            cr_expect(!strstr(result, "7.12") && !strstr(result, "7.13") && !strstr(result, "7125"),
                      "%s\n%s", bodies[i], result);
        free(result);
    }
    expect("sheet.metal:flow { { 'a', 'b', Q '9 g' }, of = 'out' } sheet:stop('no', 'Not yet')",
           "{\"is\":\"flow\",\"withheld\":true,\"withheld_by\":\"t/no\"}");
    expect("sheet.bench:tick('POUR', { of = 'out' }) sheet:stop('no', 'Not yet')",
           "\"label\":\"POUR\",\"of\":\"out\",\"withheld\":true,\"withheld_by\":\"t/no\"}");
}

Test(sheet_model, what_was_recorded_of_a_withheld_figure_is_not_repeated)
{
    lml_error e;
    char *result =
        write_sheet("sheet.bench:box('Tree', 'tree') sheet:stop('no', 'Not yet', { 'out' })",
                    ", \"record\": [ { \"at\": \"2026-11-26T14:20\", \"what\": \"tree\", \"mass\": "
                    "\"7125 mg\" } ]",
                    &e);
    cr_assert(result, "%s", e.message);
    cr_expect(!strstr(result, "7125"), "%s", result);
    free(result);
}

/* A page in its own order; a recipe in use under its caller's heading. */
Test(sheet_model, order_and_headings_across_recipes)
{
    static const char inner[] = "return recipe { title = 'Inner', version = '1', level = 1, work = "
                                "function (job, house, sheet) sheet.client:line('%s', 1) "
                                "sheet.bench:line('%s', 1) return {} end }";
    static const char outer[] =
        "return recipe { title = 'T', version = '1', level = 1, uses = { 'one', 'two' }, work = "
        "function "
        "(job, house, sheet) use.one({}, { under = 'The melt' }) use.two {} "
        "sheet.client:line('last', 1) sheet:order('client', { 'two', 'one' }) return {} end }";
    char text[400];
    lml_error e;
    for (const char *const *name = (const char *const[]){"one", "two", NULL}; *name; name++) {
        snprintf(text, sizeof text, inner, *name, *name);
        put_text(engine, LML_PUT_RECIPE, *name, text);
    }
    put_text(engine, LML_PUT_RECIPE, "t", outer);
    char *result = run_text(engine, "{ \"recipe\": \"t\" }", &e);
    cr_assert(result, "%s", e.message);
    cr_expect(strstr(result,
                     "{\"is\":\"part\",\"recipe\":\"one\",\"title\":\"The melt\",\"joined\":true,"
                     "\"entries\":[{\"is\":\"line\""),
              "%s", result);
    const char *client = strstr(result, "\"client\":[{\"is\":\"part\",\"recipe\":\"two\"");
    cr_expect(client && strstr(client, "\"recipe\":\"one\"") < strstr(client, "\"last\""), "%s",
              result);
    free(result);
}
