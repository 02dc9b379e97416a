/* What a recipe writes on its sheets, as it stands in the result. */
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

TestSuite(box_sheet, .init = open_engine, .fini = close_engine);

/* The result of a recipe whose work is this body. */
static char *write_sheet(const char *body, lml_error *e)
{
    char source[3000];
    snprintf(
        source, sizeof source,
        "return recipe { title = 'T', version = '1', level = 1,\n"
        "  gives = { charge = give.mass { 'Charge', optional = true }, count = give.number { 'N', "
        "optional = true },\n"
        "    fine = give.fine_mass { 'Fine gold', optional = true },"
        "    light = give.text { 'L', optional = true }, go = give.text { 'G', optional = true },\n"
        "    lots = give.list { 'Lots', optional = true, of = ask.record { 'Lot', fields = { mass "
        "= ask.mass {} } } } },\n"
        "  work = function (job, house, sheet)\n%s\n  return {} end }",
        body);
    put_text(engine, LML_PUT_RECIPE, "t", source);
    return run_text(engine, "{ \"recipe\": \"t\" }", e);
}

static void expect_sheet(const char *body, const char *words)
{
    lml_error e;
    char *result = write_sheet(body, &e);
    cr_expect(result && strstr(result, words), "%s\nwants %s\n%s", body, words,
              result ? result : e.message);
    free(result);
}

static void expect_refusal(const char *body, const char *message, const char *hint)
{
    lml_error e;
    char *result = write_sheet(body, &e);
    cr_expect_null(result, "%s", body);
    cr_expect(strstr(e.message, message), "%s: %s", body, e.message);
    cr_expect(strstr(e.message, "t.lua:6: ") == e.message, "%s: %s", body, e.message);
    cr_expect(strstr(e.hint, hint), "%s: hint %s", body, e.hint);
    free(result);
}

/* Of a recipe that has ended: no line of it is to blame. */
static void expect_refusal_at_end(const char *body, const char *message)
{
    lml_error e;
    char *result = write_sheet(body, &e);
    cr_expect_null(result, "%s", body);
    cr_expect(strstr(e.message, message) == e.message && e.status == LML_BAD_RECIPE, "%s: %s", body,
              e.message);
    free(result);
}

Test(box_sheet, entries)
{
    expect_sheet("sheet.bench:heading('Wax')", "{\"is\":\"heading\",\"text\":\"Wax\"}");
    expect_sheet("sheet.client:text('One line\\nanother')",
                 "{\"is\":\"text\",\"text\":\"One line\\nanother\"}");
    expect_sheet("sheet.bench:box('Weigh the tree dry', 'tree')",
                 "{\"is\":\"line\",\"act\":\"measure\",\"label\":\"Weigh the tree "
                 "dry\",\"record\":\"tree\"}");
    expect_sheet("sheet.bench:line('Metal', Q '58.0 g')",
                 "{\"is\":\"line\",\"label\":\"Metal\",\"value\":{\"kind\":\"mass\",\"value\":58,"
                 "\"unit\":\"g\",");
    expect_sheet("sheet.bench:total('All', Q '58.0 g')", "{\"is\":\"total\",\"label\":\"All\"");
    expect_sheet("sheet.bench:line('Raw', Q '58.0 g', { record = 'raw casting', big = true })",
                 "\"record\":\"raw casting\",\"big\":true}");
    expect_sheet("sheet.bench:line('Said', Q '58.0 g', { from = 'client says' })",
                 "\"origin\":\"client says\"");
    expect_sheet("sheet.bench:line('Said', Q('58.0 g'):from 'stamp says')",
                 "\"origin\":\"stamp says\"");
    expect_sheet("sheet.bench:line('Way', 'wax')",
                 "\"value\":{\"kind\":\"text\",\"value\":\"wax\"}");
    expect_sheet("sheet.bench:line('Sprued', true)", "\"value\":true,\"text\":\"yes\"");
    expect_sheet("sheet.card:text('x') sheet.cost:text('y')",
                 "\"card\":[{\"is\":\"text\",\"text\":\"x\"}],\"cost\":[");
}

/* Value and unit are the figure's own; the text is as the page shows it. */
Test(box_sheet, units)
{
    expect_sheet("sheet.bench:line('Metal', Q '31.1034768 g', { unit = 'ozt' })",
                 "\"value\":31.1034768,\"unit\":\"g\",\"text\":\"1 ozt\"");
    put_text(
        engine, LML_PUT_HOUSE, NULL,
        "{ \"units\": { \"mass\": \"dwt\", \"mass_bench\": \"g\", \"temperature\": \"°F\" } }");
    expect_sheet("sheet.bench:line('Metal', Q '0.5 kg')", "\"text\":\"500 g\"");
    expect_sheet("sheet.client:line('Metal', Q '1 ozt')", "\"text\":\"20 dwt\"");
    expect_sheet("sheet.client:line('Metal', Q '1 dwt', { unit = 'ozt' })",
                 "\"text\":\"0.05 ozt\"");
    expect_sheet("sheet.client:line('Flask', Q '100 °C')", "\"text\":\"212 °F\"");
}

Test(box_sheet, a_grid)
{
    expect_sheet("sheet.metal:grid { columns = { 'Lot', 'Net' }, rows = { { 'ring', Q '4 g' }, { "
                 "'chain' } },"
                 " total = { 'All', Q '4 g' } }",
                 "{\"is\":\"grid\",\"columns\":[\"Lot\",\"Net\"],\"rows\":[[{\"kind\":\"text\","
                 "\"value\":\"ring\"},"
                 "{\"kind\":\"mass\",\"value\":4,\"unit\":\"g\",\"text\":\"4 "
                 "g\"}],[{\"kind\":\"text\",\"value\":\"chain\"},null]],"
                 "\"total\":[");
}

Test(box_sheet, what_a_stop_withholds_is_blank_wherever_it_stands)
{
    expect_sheet("sheet.bench:line('Metal', Q '58.0 g') sheet:stop('x', 'No', { 'charge' })"
                 " sheet.client:line('Metal', Q('58 g'):as 'dwt')"
                 " sheet.metal:grid { columns = { 'a' }, rows = { { Q '58 g' }, { Q '57 g' } } }"
                 " do return { charge = Q '58 g' } end",
                 "\"bench\":[{\"is\":\"line\",\"label\":\"Metal\",\"withheld\":true,\"withheld_"
                 "by\":\"t/x\"},{\"is\":\"remark\",");
    expect_sheet(
        "sheet:stop('x', 'No', { 'charge' }) sheet.client:line('Metal', Q('58 g'):as 'dwt')"
        " do return { charge = Q '58 g' } end",
        "{\"is\":\"line\",\"label\":\"Metal\",\"withheld\":true");
    expect_sheet("sheet:stop('x', 'No', { 'charge' })"
                 " sheet.metal:grid { columns = { 'a' }, rows = { { Q '58 g' }, { Q '57 g' } } }"
                 " do return { charge = Q '58 g' } end",
                 "\"rows\":[[{\"withheld\":true}],[{\"kind\":\"mass\",\"value\":57");
    /* A figure inside a list that is withheld. */
    expect_sheet("sheet:stop('x', 'No', { 'lots' }) sheet.bench:line('Lot', Q '4 g') "
                 "sheet.bench:line('Count', 4)"
                 " do return { lots = { { mass = Q '4 g' } } } end",
                 "{\"is\":\"line\",\"label\":\"Lot\",\"withheld\":true,\"withheld_by\":\"t/"
                 "x\"},{\"is\":\"line\",\"label\":"
                 "\"Count\",\"value\":");
    /* A volume of the same number is another figure. */
    expect_sheet("sheet:stop('x', 'No', { 'charge' }) sheet.bench:line('Water', Q '58 mL')"
                 " do return { charge = Q '58 kg' } end",
                 "\"label\":\"Water\",\"value\":{\"kind\":\"volume\"");
}

/* Two gates that both say GO: which of them a line prints is what the line says, and unsaid it is
 * either. */
Test(box_sheet, a_line_names_the_give_that_it_prints)
{
    const char *gates =
        "sheet:stop('pour', 'Not yet', { 'go' }) sheet.bench:line('Light', 'GO', { of = 'light' })"
        " sheet.bench:line('Pour', 'GO', { of = 'go' }) sheet.bench:line('Either', 'GO')"
        " do return { light = 'GO', go = 'GO' } end";
    expect_sheet(gates, "{\"is\":\"line\",\"label\":\"Light\",\"of\":\"light\",\"value\":{\"kind\":"
                        "\"text\",\"value\":\"GO\"}}");
    expect_sheet(gates, "{\"is\":\"line\",\"label\":\"Pour\",\"of\":\"go\",\"withheld\":true,"
                        "\"withheld_by\":\"t/pour\"}");
    expect_sheet(
        gates,
        "{\"is\":\"line\",\"label\":\"Either\",\"withheld\":true,\"withheld_by\":\"t/pour\"}");
    /* A name that does not give this figure is refused, so that it shields nothing. */
    expect_refusal_at_end(
        "sheet:stop('x', 'No', { 'charge' }) sheet.bench:line('Metal', Q '58 g', { of = 'count' })"
        " do return { charge = Q '58 g', count = 4 } end",
        "t: the line \"Metal\" says that it prints 'count', but 58 g is not what the recipe gives "
        "for it");
    expect_sheet("sheet:stop('x', 'No') sheet.bench:line('Light', 'GO', { of = 'light' })"
                 " do return { light = 'GO' } end",
                 "\"of\":\"light\",\"withheld\":true");
    /* Nor does one of a list that has another; one that has it does. */
    expect_refusal_at_end(
        "sheet:stop('x', 'No', { 'charge' }) sheet.bench:line('Lot', Q '58 g', { of = 'lots' })"
        " do return { charge = Q '58 g', lots = { { mass = Q '4 g' } } } end",
        "t: the line \"Lot\" says that it prints 'lots', but 58 g is not what the recipe gives for "
        "it");
    expect_sheet(
        "sheet:stop('x', 'No', { 'charge' }) sheet.bench:line('Lot', Q '58 g', { of = 'lots' })"
        " do return { charge = Q '58 g', lots = { { mass = Q '58 g' } } } end",
        "\"of\":\"lots\",\"value\":{");
    /* Where the label names the metal, a fine mass is printed as a mass. */
    expect_sheet("sheet.client:line('Fine gold', Q '58 g', { of = 'fine' })"
                 " do return { fine = Q '58 g Au' } end",
                 "\"of\":\"fine\",\"value\":{");
    /* A recipe that uses another withholds by the same name. */
    put_text(engine, LML_PUT_RECIPE, "user",
             "return recipe { title = 'U', version = '1', level = 1, uses = { 't' },\n"
             "  gives = { light = give.text { 'L', optional = true }, go = give.text { 'G', "
             "optional = true } },\n"
             "  work = function (job, house, sheet) local t = use.t {}\n"
             "    sheet:stop('x', 'No', { 'light' }) return { light = t.light, go = t.go } end }");
    lml_error e;
    free(write_sheet("sheet.bench:line('Light', 'GO', { of = 'light' }) sheet.bench:line('Pour', "
                     "'GO', { of = 'go' })"
                     " do return { light = 'GO', go = 'GO' } end",
                     &e));
    char *result = run_text(engine, "{ \"recipe\": \"user\" }", &e);
    cr_expect(result && strstr(result, "\"of\":\"light\",\"withheld\":true"), "%s",
              result ? result : e.message);
    cr_expect(result && strstr(result, "\"of\":\"go\",\"value\":{"), "%s",
              result ? result : e.message);
    free(result);
}

Test(box_sheet, remarks_stand_beside_what_they_concern)
{
    expect_sheet("sheet.bench:line('a', 1) sheet.bench:note('low', 'Rather little') "
                 "sheet.bench:line('b', 2)",
                 "\"text\":\"1\"}},{\"is\":\"remark\",\"level\":\"note\",\"code\":\"t/"
                 "low\",\"text\":\"Rather little\"},{\"is\":\"line\"");
    expect_sheet(
        "sheet:note('low', 'Rather little')",
        "\"remarks\":[{\"level\":\"note\",\"code\":\"t/low\",\"text\":\"Rather little\"}]");
    expect_sheet("sheet.metal:stop('no', 'Stop here', { 'count' })",
                 "\"metal\":[{\"is\":\"remark\",\"level\":\"stop\",\"code\":\"t/"
                 "no\",\"text\":\"Stop here\",\"withholds\":[\"t.count\"]}]");
}

Test(box_sheet, what_cannot_be_printed_is_made_visible)
{
    expect_sheet("sheet.bench:text('a\\27[31mb\\rcd\\u{202e}e\\u{200b}f\\xffg')",
                 "\"text\":\"a?[31mb?cd?e?f?g\"");
    expect_sheet("sheet:note('x', 'DO NOT\\27[2K')", "\"text\":\"do not?[2K\"");
}

Test(box_sheet, whose_metal_and_what_it_is)
{
    expect_sheet(
        "sheet.bench:line('a', Q '1 g', { owner = 'client', fineness = Q '585 ‰ Au ± 1 ‰' })",
        "\"owner\":\"client\",\"fineness\":{\"kind\":\"fineness\",\"value\":585,"
        "\"unit\":\"‰ Au\"");
    expect_sheet("sheet.bench:box('a', 'tree', { owner = 'client' })",
                 "\"owner\":\"client\",\"record\":\"tree\"");
}

Test(box_sheet, refusals)
{
    expect_refusal("sheet.bench.line('a', 1)", "a page of the sheet is needed before the colon",
                   "with a colon");
    expect_refusal("sheet.bench:line('a', nil)",
                   "a: a figure or a text is needed, but nothing was given", "");
    expect_refusal("local missing; sheet.bench:line('a', missing)", "a: 'missing' is nothing (nil)",
                   "");
    expect_refusal("sheet.bench:line('a', {})",
                   "a figure or a text is needed, but a table was given", "");
    expect_refusal("sheet.bench:line(1, 1)", "the label of a line is needed", "");
    expect_refusal("sheet.bench:line('a', Q '1 g', { unit = 'mL' })", "", "");
    expect_refusal("sheet.bench:line('a', 'wax', { unit = 'g' })",
                   "a line has unit = \"g\", but no figure with a unit", "");
    expect_refusal("sheet.bench:box('a', 'tree', { kind = 'weight' })",
                   "'weight' is not a kind of figure with a unit", "such as mass");
    expect_refusal("sheet.bench:measure('a', nil, { least = Q '1 g', kind = 'mass' })",
                   "a line has a figure or a limit, which has its kind", "");
    expect_refusal("sheet.bench:line('a', 1, { units = 'g' })", "a line has no option 'units'",
                   "did you mean 'unit'?");
    expect_refusal("sheet.bench:line('a', 1, { fineness = '585 ‰' })",
                   "a fineness is needed, but 585 ‰ is a ratio", "");
    expect_refusal("sheet.bench:box('a', 'tree', { record = 'b' })", "a box has no option 'record'",
                   "it has owner fineness");
    expect_refusal("sheet.bench:line('a', 1, { of = 'chargge' })",
                   "a line prints 'chargge', but the recipe does not give it", "");
    expect_refusal("sheet.bnech:line('a', 1)", "a sheet has no 'bnech'",
                   "bench piece client metal");
    expect_refusal("sheet.bench:lines('a', 1)", "a page has no 'lines'", "line weigh set");
    expect_refusal("sheet:note('Bad Code', 'x')",
                   "the code of a remark may only have small letters", "short-code");
    expect_refusal("sheet.note('code', 'x')", "the sheet is needed before the colon",
                   "with a colon");
    expect_refusal("sheet:stop('x', 'No', { 'chargge' })", "the recipe does not give it", "");
    expect_refusal("sheet.bench:grid { rows = {} }", "the columns of a grid", "");
    expect_refusal("sheet.bench:grid { columns = {}, rows = {} }", "a grid has 1 to 12 columns",
                   "");
    expect_refusal("sheet.bench:grid { columns = { 'a' }, rows = { { 1, 2 } } }",
                   "more cells than the grid has columns", "");
}
