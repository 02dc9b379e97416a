/* What a recipe file declares, what is refused while it is loaded, and what inspect shows of it. */
#include "value/wanted.h"
#include "worked.h"

/* Inspect the recipe; the text, which the caller frees, or NULL and the error. */
static char *inspect(const char *source, lml_error *e)
{
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_text text;
    char *copy = NULL;
    memset(e, 0, sizeof *e);
    put_text(engine, LML_PUT_RECIPE, "need", source);
    put_text(engine, LML_PUT_RECIPE, "other",
             "return recipe { title = 'O', version = '1', level = 1,\n"
             "  uses = { 'need' }, work = function () return {} end }");
    if (lml_engine_inspect(engine, "need", &text, e) == LML_OK) {
        copy = (char *)malloc(text.length + 1);
        memcpy(copy, text.text, text.length + 1);
        lml_text_free(engine, &text);
    }
    lml_engine_free(engine);
    return copy;
}

static void expect_refusal(const char *source, const char *message, const char *hint)
{
    lml_error e;
    char *text = inspect(source, &e);
    cr_expect_null(text, "%s", source);
    cr_expect(strstr(e.message, message), "%s\n%s", source, e.message);
    cr_expect(strstr(e.hint, hint), "%s\nhint: %s", source, e.hint);
    free(text);
}

/* With one part of the declaration given; the rest is sound. */
static void expect_part(const char *part, const char *message, const char *hint)
{
    char source[2000];
    snprintf(source, sizeof source,
             "return recipe { title = 'T', version = '1', level = 1, work = function () return {} "
             "end,\n%s }",
             part);
    if (message) {
        expect_refusal(source, message, hint);
        return;
    }
    lml_error e;
    char *text = inspect(source, &e);
    cr_expect(text, "%s\n%s", source, e.message);
    free(text);
}

Test(recipe, inspect_shows_what_is_declared)
{
    lml_error e;
    char *text =
        inspect("return recipe { title = 'Metal for a wax', version = '1.2.0', licence = "
                "'CC0-1.0', level = 1,\n"
                "  about = 'More of it', uses = {},\n"
                "  asks = { wax = ask.mass { 'Finished wax', from = '0.02 g', to = '2 kg' },\n"
                "    way = ask.choice { 'Way', options = { 'wax', 'resin' } },\n"
                "    lots = ask.list { 'Lots', of = ask.record { 'One', fields = { gross = "
                "ask.mass { 'Weight' } } } } },\n"
                "  allowances = { loss = ask.ratio { 'Loss', default = '0.5 %', source = 'common "
                "practice, no source' } },\n"
                "  gives = { charge = give.mass 'Metal' },\n"
                "  work = function () return {} end,\n"
                "  proofs = { { 'one', given = {}, expect = {}, source = 'arithmetic' } } }",
                &e);
    cr_assert(text, "%s", e.message);
    static const char *const parts[] = {
        "\"recipe\":\"need\",\"title\":\"Metal for a "
        "wax\",\"version\":\"1.2.0\",\"licence\":\"CC0-1.0\"",
        "\"about\":\"More of it\"",
        "\"digest\":\"sha256:",
        "\"file\":\"need.lua\"",
        "{\"name\":\"wax\",\"kind\":\"mass\",\"title\":\"Finished wax\",\"from\":\"0.02 "
        "g\",\"to\":\"2 kg\"",
        "\"options\":[\"wax\",\"resin\"]",
        "\"of\":\"record\",\"fields\":[{\"name\":\"gross\",\"kind\":\"mass\"",
        "\"default\":\"0.5 %\",\"source\":\"common practice, no source\"",
        "\"gives\":[{\"name\":\"charge\",\"kind\":\"mass\"",
        "\"proofs\":[{\"name\":\"one\",\"source\":\"arithmetic\"}]"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        cr_expect(strstr(text, parts[i]), "%s is not in %s", parts[i], text);
    free(text);
}

Test(recipe, every_kind_can_be_asked)
{
    char part[4000] = "asks = {", one[200];
    for (int w = 0; w < LML_WANTED_COUNT; w++) {
        const char *kind = lml_wanted_name((lml_wanted)w);
        const char *more = w == LML_WANT_CHOICE                          ? "options = { 'a', 'b' }"
                           : w == LML_WANT_RECORD                        ? "fields = {}"
                           : w == LML_WANT_LIST || w == LML_WANT_BY_NAME ? "of = ask.mass {}"
                                                                         : "";
        snprintf(one, sizeof one, " a%d = ask.%s { 'A', %s },", w, kind, more);
        strcat(part, one);
    }
    strcat(part, " }");
    char source[5000];
    snprintf(source, sizeof source,
             "return recipe { title = 'T', version = '1', level = 1, work = function () return {} "
             "end,\n%s }",
             part);
    lml_error e;
    char *text = inspect(source, &e);
    cr_expect(text, "%s", e.message);
    free(text);
}

Test(recipe, parts_that_are_missing_or_unknown)
{
    expect_refusal("return 5", "need does not return a recipe", "return recipe");
    expect_refusal("return recipe { version = '1', level = 1, work = function () end }",
                   "needs a 'title'", "");
    expect_refusal("return recipe { title = 'T', level = 1, work = function () end }",
                   "needs a 'version'", "");
    expect_refusal("return recipe { title = 'T', version = '1', work = function () end }",
                   "which level of the recipe language", "level = 2");
    expect_refusal(
        "return recipe { title = 'T', version = '1', level = 3, work = function () end }",
        "reads 1 to 2", "level 2 from lemel 0.2 on");
    expect_refusal("return recipe { title = 'T', version = '1', level = 1 }", "needs a 'work'",
                   "function");
    expect_part("ask = {}", "has no 'ask'", "did you mean 'asks'?");
    expect_part("asks = { wax = ask.mas { 'W' } }", "there is no kind 'mas'",
                "did you mean 'mass'?");
    expect_part("asks = { wax = {} }", "'wax' has no kind", "ask.mass");
    expect_part("asks = { wax = ask.mass { 'W', form = '1 g' } }", "'wax' has no 'form'",
                "did you mean 'from'?");
    expect_part("asks = { ask.mass { 'W' } }", "needs a name", "wax = ask.mass");
    expect_part("asks = 5", "'asks' must be a table", "");
}

Test(recipe, what_entries_are_told_apart_by_is_a_text_that_each_has)
{
    expect_part("asks = { l = ask.list { 'L', of = ask.record { 'J', apart = 'name', fields = { "
                "name = ask.text {} } } } }",
                NULL, NULL);
    expect_part("asks = { l = ask.list { 'L', of = ask.record { 'J', apart = 'name', fields = { "
                "name = ask.text { 'N', default = 'tree', source = 's' } } } } }",
                NULL, NULL);
    expect_part("asks = { l = ask.list { 'L', of = ask.record { 'J', apart = 'nam', fields = { "
                "name = ask.text {} } } } }",
                "told apart by nam, which is not a text", "");
    expect_part("asks = { l = ask.list { 'L', of = ask.record { 'J', apart = 'name', fields = { "
                "name = ask.text { 'N', optional = true } } } } }",
                "told apart by name, which is not a text", "");
    expect_part("asks = { l = ask.list { 'L', of = ask.record { 'J', apart = 'mass', fields = { "
                "mass = ask.mass {} } } } }",
                "told apart by mass, which is not a text", "");
    expect_part("asks = { l = ask.text { 'L', apart = 'name' } }", "only records can have a unique",
                "");
}

Test(recipe, bounds_and_defaults_are_read_at_loading)
{
    expect_part("asks = { wax = ask.mass { 'W', from = '0.02' } }", "", "");
    expect_part("asks = { wax = ask.mass { 'W', from = '2 mL' } }", "", "");
    expect_part("asks = { wax = ask.mass { 'W', from = 2 } }",
                "from of 'wax' is the bare number 2, but a mass is needed", "");
    expect_part("asks = { wax = ask.mass { 'W', default = '1 oz', source = 's' } }", "oz", "");
    expect_part("asks = { wax = ask.mass { 'W', default = '5 kg', to = '2 kg', source = 's' } }",
                "", "");
    expect_part("asks = { n = ask.whole { 'N', default = 2, source = 's' }, y = ask.yes_no { 'Y', "
                "default = true } }",
                NULL, NULL);
    expect_part("asks = { l = ask.list { 'L', of = ask.mass {}, default = {} } }", NULL, NULL);
    expect_part("allowances = { a = ask.mass { 'A', default = '1 g' } }",
                "the default of 'a' has no source", "common practice");
}

Test(recipe, a_name_stands_in_one_section_only)
{
    expect_part("asks = { a = ask.mass {} }, allowances = { a = ask.mass {} }",
                "'a' is both an ask and an allowance", "");
    expect_part("asks = { a = ask.mass {} }, gives = { a = give.mass {} }",
                "'a' is a give and also an ask", "");
    expect_part("allowances = { a = ask.mass {} }, gives = { a = give.mass {} }",
                "'a' is a give and also an ask", "");
}

Test(recipe, kinds_say_of_what)
{
    expect_part("asks = { c = ask.choice { 'C' } }", "the choice 'c' has no options", "options");
    expect_part("asks = { l = ask.list { 'L' } }", "'l' does not say of what", "of = ");
    expect_part("asks = { r = ask.record { 'R' } }", "the record 'r' has no fields", "");
    expect_part("asks = { f = ask.fineness { 'F', metal = 'Xx' } }",
                "not the symbol of a known metal", "Au");
}

Test(recipe, a_fault_in_the_file_names_its_line)
{
    expect_refusal("return recipe {\n  title = 'T'\n  version = '1' }",
                   "need.lua:2: a comma is missing before 'version'", "write it after 'T'");
    expect_refusal("local a = wax\nreturn recipe {}", "need.lua:1: 'wax' is not known here", "");
    expect_refusal("local a = Qq '1 g'\nreturn recipe {}", "'Qq' is not known here",
                   "did you mean 'Q'?");
    expect_refusal("total = 5\nreturn recipe {}", "need.lua:1: 'total' is set as a global",
                   "local total");
}

/* ---- comparisons that can never hold -----------------------------------------------------------
 */

static const char *const DECLARED =
    "local t = 1\n"
    "return recipe { title = 'T', version = '1', level = 1,\n"
    "  asks = { wax = ask.mass { 'W', optional = true }, n = ask.number { 'N', optional = true },\n"
    "    part = ask.ratio { 'P', optional = true }, name = ask.text { 'T', optional = true },\n"
    "    kiln = ask.record { 'K', optional = true, fields = { power = ask.power {}, count = "
    "ask.whole {} } } },\n"
    "  allowances = { button = ask.mass { 'B', optional = true } },\n"
    "  work = function (%s)\n%s\n  return {} end }\n";

static void slip(const char *arguments, const char *body, const char *words)
{
    char source[3000];
    snprintf(source, sizeof source, DECLARED, arguments, body);
    lml_error e;
    char *text = inspect(source, &e);
    if (words) {
        cr_expect_null(text, "%s", body);
        cr_expect(strstr(e.message, words), "%s\n%s", body, e.message);
        cr_expect(strstr(e.message, "need.lua:8: ") == e.message, "%s", e.message);
        cr_expect(strstr(e.hint, ":is_zero()"), "%s", e.hint);
    } else {
        cr_expect(text, "%s\n%s", body, e.message);
    }
    free(text);
}

Test(recipe, a_quantity_is_not_compared_with_a_bare_number)
{
    const char *usual = "job, house, sheet";
    slip(usual, "  if job.wax == 0 then end",
         "job.wax is a mass, which is never equal to the bare number 0: the "
         "comparison is always false");
    slip(usual, "  if job.wax ~= 0 then end", "always true");
    slip(usual, "  if 0 == job.wax then end", "job.wax is a mass");
    slip(usual, "  if (job.wax == -1.5e3) then end", "job.wax is a mass");
    slip(usual, "  local whole = job.part == 1 and 2", "job.part is a ratio");
    slip(usual, "  if house.button == 0 then end", "house.button is a mass");
    slip(usual, "  if house.button==0x1F then end", "house.button is a mass");
    slip(usual, "  if 0x1F==house.button then end", "house.button is a mass");
    slip(usual, "  if 1e-5 ~= house.button then end", "house.button is a mass");
    slip(usual, "  if .5 == house.button then end", "house.button is a mass");
    slip(usual, "  if house.button == .5 then end", "house.button is a mass");
    slip(usual, "  if house.button == --[[ none ]] 0 then end", "house.button is a mass");
    slip(usual, "  if 0 --[=[ none ]=] == house.button then end", "house.button is a mass");
    slip(usual, "  if house.button == - 1 then end", "house.button is a mass");
    slip(usual, "  if job.kiln.power == 0 then end", "job.kiln.power is a power");
    slip(usual, "  local w = job.wax if w == 0 then end", "w is a mass");
    slip(usual, "  if Q \"1 g\" == 1 then end", "Q \"1 g\" is a mass");
    slip(usual, "  if 1 == Q '1 g' then end", "Q '1 g' is a mass");
    slip(usual, "  local w = job.wax / Q '1 g' if w == 0 then end", "w is a ratio");
    slip(usual, "  if job.wax / house.button == 2 then end", "job.wax / house.button is a ratio");
    slip(usual, "  local w = -job.wax + house.button if (2 * w) ~= 1 then end", "2 * w");
    slip(usual, "  local a, b = 1, job.wax if b == 0 then end", "b is a mass");
    slip(usual, "  local w = job.wax local t = { 1, w = 5 } if w == 5 then end", "w is a mass");
    slip(usual, "  local w = job.wax sheet.w = 5 if w == 5 then end", "w is a mass");
    slip("j, h", "  if j.wax == 0 or h.button == 0 then end", "j.wax is a mass");
}

Test(recipe, other_comparisons_are_left_alone)
{
    const char *usual = "job, house, sheet";
    slip(usual, "  if job.n == 0 or job.kiln.count == 2 then end", NULL);
    slip(usual, "  if job.wax == Q '0 g' or job.wax:is_zero() then end", NULL);
    slip(usual, "  if job.wax:number 'g' == 0 then end", NULL);
    slip(usual, "  if 0 == job.wax:number 'g' then end", NULL);
    slip(usual, "  if job.wax <= Q '0 g' then end", NULL);
    slip(usual, "  if #job.name == 0 then end", NULL);
    slip(usual,
         "  -- job.wax == 0\n  --[[ job.wax == 0 ]] local s = 'job.wax == 0' s = [==[ job.wax == 0 "
         "]==]",
         NULL);
    slip(usual, "  local w = job.wax w = 5 if w == 0 then end", NULL);
    slip(usual, "  local w = job.wax local function f(w) return w == 0 end f(1)", NULL);
    slip(usual, "  local w = job.wax / job.n if #{ w } == 0 then end", NULL);
    slip(usual, "  local w = job.wax:number 'g' / 2 if w == 0 then end", NULL);
    slip(usual, "  local x = job.part * 2 .. 'x' if x == 0 then end", NULL);
    slip(usual, "  local x = Q '42 USD' / Q '7 USD' if x == 6 then end", NULL);
    slip(usual, "  if not job.wax == 2 then end", NULL);
    slip(usual, "  local w, x = job.wax, 1 x, w = 2, 5 if w == 5 then end", NULL);
    slip(usual, "  local w = job.wax do w = 5 end if w == 5 then end", NULL);
    slip(usual, "  local w = job.wax local function f() w = 5 end f() if w == 5 then end", NULL);

    slip(usual, "  for w = 1, 2 do if w == 0 then end end", NULL);
    slip(usual, "  local w = job.wax or 5 if w == 5 then end", NULL);
    slip("j, h", "  local job = { wax = 0 } if job.wax == 0 then end", NULL);
    slip(usual, "  local list = { wax = 0 } if list.wax == 0 then end", NULL);
    slip(usual, "  if job.n == nil or job.name == 'x' then end", NULL);
}

/* ---- settings of the house that nobody can mean ------------------------------------------------
 */

Test(recipe, a_setting_of_the_house_must_belong_to_a_recipe)
{
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "need",
             "return recipe { title = 'T', version = '1', level = 1,\n"
             "  allowances = { button = ask.mass { 'B' } }, work = function () return {} end }");
    put_text(engine, LML_PUT_HOUSE, NULL, "{\n  \"butto\": \"9 g\" }");
    cr_expect_null(run_text(engine, "{ \"recipe\": \"need\" }", &e));
    cr_expect(strstr(e.message, "house.json:2: butto: no available recipe has such an allowance"),
              "%s", e.message);
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"neeed.button\": \"9 g\" }");
    cr_expect_null(run_text(engine, "{ \"recipe\": \"need\" }", &e));
    cr_expect(strstr(e.message, "no recipe is called 'neeed'"), "%s", e.message);
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"need.button\": \"9 g\" }");
    char *result = run_text(engine, "{ \"recipe\": \"need\" }", &e);
    cr_expect(result, "%s", e.message);
    free(result);
    lml_engine_free(engine);
}
