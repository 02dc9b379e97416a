/* Values in Lua: operators, methods, words over values, and what they say when they are refused.
 * The sums themselves are tested on the floor below; here it is that Lua reaches them and names
 * what clashes. */
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

TestSuite(lua_value, .init = open_engine, .fini = close_engine);

static void expect_answer(const char *expression, const char *answer)
{
    lml_text text;
    lml_error e;
    lml_status status = lml_engine_reckon(engine, expression, NULL, 0, &text, &e);
    cr_expect_eq(status, LML_OK, "%s: %s", expression, e.message);
    if (status)
        return;
    cr_expect_str_eq(text.text, answer, "%s: %s", expression, text.text);
    lml_text_free(engine, &text);
}

static void expect_refusal(const char *expression, const char *message, const char *hint)
{
    lml_text text;
    lml_error e;
    lml_status status = lml_engine_reckon(engine, expression, NULL, 0, &text, &e);
    cr_expect_neq(status, LML_OK, "%s gives %s", expression, status ? "" : text.text);
    cr_expect(strstr(e.message, message), "%s: %s", expression, e.message);
    cr_expect(strstr(e.hint, hint), "%s: hint %s", expression, e.hint);
    if (!status)
        lml_text_free(engine, &text);
}

Test(lua_value, operators)
{
    expect_answer("Q'3 g' + Q'2 g' - Q'1 g'", "4 g");
    expect_answer("-Q'3 g'", "-3 g");
    expect_answer("Q'45 g' / Q'15 g/cm3'", "3 cm3");
    expect_answer("Q'10 g' // Q'3 g'", "3");
    expect_answer("Q'10 g' % Q'3 g'", "1 g");
    expect_answer("Q'3 mm' ^ 2", "9 mm2");
    expect_answer("1 - Q'0.5 %'", "0.995");
    expect_answer("Q'750 ‰ Au' * Q'10 g'", "7.5 g Au");
    expect_answer("Q'36 in' == Q'3 ft'", "true");
    expect_answer("Q'1 g' < Q'1 dwt' and Q'1 g' <= Q'1 g'", "true");
    expect_answer("Q'14 kt' == Q'585 ‰ Au'", "false");
    expect_answer("Q'1 g' ~= Q'2 g'", "true");
}

Test(lua_value, what_is_never_equal_is_refused)
{
    expect_refusal("Q'1 g' == Q'1 mL'", "a mass (1 g) and a volume (1 mL) cannot be compared", "");
    expect_refusal("Q'1 USD' == Q'1 CAD'", "cannot be compared", "");
    expect_refusal("Q'1 g Au' == Q'1 g Ag'", "cannot be compared", "");
    expect_refusal("Q'1 g' < 2", "cannot be compared", "");
}

Test(lua_value, the_variables_of_a_clash_are_named)
{
    lml_error e;
    lml_engine *own = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(own, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1, work = function ()\n"
             "  local ring, water = Q '12.0 g', Q '3.1 mL'\n"
             "  return { out = ring + water } end }\n");
    cr_expect_null(run_text(own, "{ \"recipe\": \"t\" }", &e));
    cr_expect_str_eq(e.message, "t.lua:3: a mass (12 g) and a volume (3.1 mL) cannot be added");
    cr_expect_eq(e.contexts, 2);
    cr_expect_str_eq(e.context[0], "'ring' is a mass");
    cr_expect_str_eq(e.context[1], "'water' is a volume");
    lml_engine_free(own);
}

Test(lua_value, nothing_in_a_sum_is_named)
{
    lml_error e;
    lml_engine *own = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(
        own, LML_PUT_RECIPE, "t",
        "return recipe { title = 'T', version = '1', level = 1,\n"
        "  asks = { wax = ask.mass { 'Wax' }, sprue = ask.mass { 'Sprue', optional = true } },\n"
        "  work = function (job)\n"
        "    local given, none = job.wax -- sprue\n"
        "    if job.wax > Q '5 g' then return { out = given + none } end\n"
        "    if job.wax > Q '3 g' then return { out = job.sprue < job.wax } end\n"
        "    return { out = job.wax + job.sprue } end }\n");
    static const char *const message[][2] = {
        {"1 g", "t.lua:7: 'job.sprue' is nothing (nil), but a value is needed"},
        {"4 g", "t.lua:6: 'job.sprue' is nothing (nil), but a value is needed"},
        {"9 g", "t.lua:5: 'none' is nothing (nil), but a value is needed"}};
    for (int i = 0; i < 3; i++) {
        char job[100];
        snprintf(job, sizeof job, "{ \"recipe\": \"t\", \"given\": { \"wax\": \"%s\" } }",
                 message[i][0]);
        cr_expect_null(run_text(own, job, &e));
        cr_expect_str_eq(e.message, message[i][1], "%s", e.message);
        cr_expect(strstr(e.hint, "optional ask"), "%s", e.hint);
    }
    lml_engine_free(own);
}

Test(lua_value, bare_numbers_and_texts_are_refused_with_a_mend)
{
    expect_refusal("Q'1 g' + 1", "cannot be added", "");
    expect_refusal("Q'1 g' + '1 g'", "the text \"1 g\" was given where a value is needed",
                   "Q \"12.5 g\"");
    expect_refusal("'metal ' .. Q'1 g'", "cannot be joined to a text with ..", "text.fill");
    expect_refusal("Q(5)", "Q needs a value in quotes", "Q \"12.5 g\"");
    expect_refusal("Q'1 g' * {}", "a value is needed, but a table was given", "");
    expect_refusal("Q'5 oz' + Q'1 g'", "oz", "");
}

Test(lua_value, methods)
{
    expect_answer("Q'57.93 g':up_to '0.1 g'", "58.0 g");
    expect_answer("Q'57.99 g':down_to '0.1 g'", "57.9 g");
    expect_answer("Q'57.94 g':nearest '0.1 g'", "57.9 g");
    expect_answer("Q'58.0 g':up_to '0.1 g'", "58.0 g");
    expect_answer("Q'751.3 ‰ Au':down_to '1 ‰'", "751 ‰ Au");
    expect_answer("Q'31.1034768 g':as 'ozt'", "1 ozt");
    expect_answer("Q'1 ozt':number 'g'", "31.1034768");
    expect_answer("Q'50 %':number()", "0.5");
    expect_answer("Q'0 g':is_zero()", "true");
    expect_answer("Q'0.1 g':is_zero()", "false");
    expect_answer("Q'7.5 g Au':metal_in(Q'750 ‰ Au')", "10 g");
    expect_answer("Q'585 ‰ Au'.metal", "Au");
    expect_answer("Q'10.005 USD':rounded 'half up'", "10.01 USD");
    expect_answer("Q'10.02 CAD':rounded('half up', '0.05 CAD')", "10.00 CAD");
    expect_answer("Q'2026-11-24T14:20':weekday()", "Tuesday");
    expect_answer("Q'2026-11-24T14:20':time_of_day()", "14:20");
    expect_answer("Q'2026-11-24T14:20':next '06:30'", "2026-11-25T06:30");
}

Test(lua_value, methods_refuse_with_a_mend)
{
    expect_refusal("Q'1 g':number()", "depends on the unit", "value:number \"g\"");
    expect_refusal("Q'1 g':as 'mL'", "", "");
    expect_refusal("Q'1 g'.as 'g'", "a value is needed before the colon", "with a colon");
    expect_refusal("Q'1 g':upto '1 g'", "a mass (1 g) has no 'upto'", "did you mean :up_to?");
    expect_refusal("Q'1 g':from 'hearsay'", "not one of the origins", "client says");
    expect_refusal("Q'1 USD':rounded 'sideways'", "", "half");
    expect_refusal("Q'1 g':weekday()", "a moment is needed", "");
    expect_refusal("Q'2026-11-24':deviation()", "has no spread", "");
}

/* A spread is kept with the value that was read; arithmetic drops it. */
Test(lua_value, spread)
{
    expect_answer("Q'12.4 g ± 0.1 g'", "12.4 g ± 0.1 g");
    expect_answer("Q'12.4 g ± 0.1 g':deviation()", "0.1 g");
    expect_answer("Q'12.4 g ± 0.1 g' + Q'0 g'", "12.4 g");
    expect_answer("sum { Q'12.4 g ± 0.1 g' }", "12.4 g");
    expect_answer("Q'12.3..12.5 g':low()", "12.3 g");
    expect_answer("Q'12.3..12.5 g':high()", "12.5 g");
    expect_answer("Q'12.4 g':deviation()", "0 g");
    /* One standard deviation of an even spread is its width over the root of 12: GUM (JCGM
     * 100:2008), 4.3.7. */
    expect_answer("(Q'10..22 g':deviation() / (Q'12 g' / root(12))):nearest '0.000001 %'",
                  "100.000000 %");
    expect_answer("Q'10 USD':low()", "10.00 USD");
}

Test(lua_value, words)
{
    expect_answer("sum { Q'1 g', Q'2 g', Q'3 g' }", "6 g");
    expect_answer("sum {}", "0");
    expect_answer("max(Q'1 g', Q'1 dwt', Q'0.5 g')", "1 dwt");
    expect_answer("min(Q'1 g', '0.5 g', Q'1 dwt')", "0.5 g");
    expect_answer("mean { Q'20 °C', Q'30 °C' }", "25 °C");
    expect_answer("abs(-Q'3 g')", "3 g");
    expect_answer("root(Q'9 mm2')", "3 mm");
    expect_answer("root(27, 3)", "3");
    expect_answer("floor(2.7) + ceil(2.2)", "5");
    expect_answer("exp(0) + log(1)", "1");
    expect_answer("fineness('Au', 0.75)", "750 ‰ Au");
    expect_answer("tostring(pi):sub(1, 8)", "3.141592");
    expect_refusal("sum { Q'1 g', Q'1 mL' }", "cannot be added", "");
    expect_refusal("max(Q'1 g', Q'1 mL')", "cannot be compared", "");
    expect_refusal("max()", "at least one", "");
    expect_refusal("root(-4)", "negative", "");
    expect_refusal("fineness('Xx', 0.5)", "not the symbol of a known metal", "Au");
    expect_refusal("fineness('Au', 1.5)", "between 0 and 1000", "");
}

Test(lua_value, shares_sum_to_the_whole)
{
    expect_answer("tostring(sum(Q'100.00 USD':share { 1, 1, 1 }))", "100.00 USD");
    expect_answer("Q'100.00 USD':share { 1, 1, 1 }[1]", "33.34 USD");
    expect_answer("Q'10.00 USD':share { Q'3 g', Q'1 dwt' }[1]", "6.59 USD");
    expect_refusal("Q'10 USD':share { Q'1 g', Q'1 mL' }", "cannot be compared", "");
    expect_refusal("Q'10 USD':share {}", "1 to 1000 weights", "");
}

Test(lua_value, texts)
{
    expect_answer("text.fill('{m} of {what}', { m = Q'58.0 g', what = 'gold' })", "58 g of gold");
    expect_answer("text.fill('{{m} {m}', { m = 1 })", "{m} 1");
    expect_answer("('Au750'):lower():upper()", "AU750");
    expect_answer("('  a b '):trim()", "a b");
    expect_answer("('14kt, Gold 20MICRONS - '):words()", "14 KT GOLD 20 MICRONS");
    expect_answer("(' -- '):words() .. ('doré 5'):words()", "DORé 5");
    expect_answer("table.concat(('a,b,,c'):split(','), ';')", "a;b;;c");
    expect_answer("tostring(('abcabc'):find('c', 4))", "6");
    expect_answer("('abc'):starts('ab')", "true");
    expect_answer("('abcdef'):sub(2, -2)", "bcde");
    expect_answer("('ab'):rep(3)", "ababab");
    expect_answer("tostring(3) .. tostring(3.0)", "33");
    expect_answer("type(Q'1 g') .. ' ' .. type(Q'1 USD') .. ' ' .. type(1) .. ' ' .. type(nil)",
                  "quantity money number nil");
    expect_refusal("text.fill('{m}', {})", "no such value was given", "");
}

Test(lua_value, tables)
{
    expect_answer(
        "(function () local t = { 3, 1, 2 } table.sort(t) return table.concat(t, ' ') end)()",
        "1 2 3");
    expect_answer("(function () local t = { Q'3 g', Q'1 dwt', Q'2 g' } table.sort(t, function (a, "
                  "b) return a > b end) "
                  "return table.concat(t, ' ') end)()",
                  "3 g 2 g 1 dwt");
    expect_answer(
        "(function () local t = { 'b', 'a' } table.insert(t, 1, 'c') table.insert(t, 'd') "
        "return table.remove(t, 2) .. table.concat(t) end)()",
        "bcad");
    expect_answer(
        "(function () local t = {} for i = 1, 300 do t[i] = { i % 7, i } end "
        "table.sort(t, function (a, b) return a[1] < b[1] end) "
        "for i = 2, 300 do if t[i][1] == t[i - 1][1] then assert(t[i][2] > t[i - 1][2]) end end "
        "return 'stable' end)()",
        "stable");
}

Test(lua_value, an_origin_is_kept_beside_a_figure_and_lost_in_a_sum)
{
    lml_error e;
    lml_engine *own = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(own, LML_PUT_RECIPE, "t",
             "return recipe { title = 'T', version = '1', level = 1,\n"
             "  allowances = { loss = ask.ratio { 'Loss', default = '2 %', source = 'common "
             "practice, no source' } },\n"
             "  gives = { said = give.mass 'Said', double = give.mass 'Double', loss_used = "
             "give.ratio 'Loss' },\n"
             "  work = function (job, house)\n"
             "    local said = Q('4 g'):from 'client says'\n"
             "    return { said = said, double = said * 2, loss_used = house.loss } end }\n");
    char *result = run_text(own, "{ \"recipe\": \"t\" }", &e);
    cr_assert(result, "%s", e.message);
    cr_expect(
        strstr(result,
               "\"said\":{\"kind\":\"mass\",\"value\":4,\"unit\":\"g\",\"text\":\"4 g\",\"origin\":"
               "\"client says\"}"),
        "%s", result);
    cr_expect(strstr(result,
                     "\"double\":{\"kind\":\"mass\",\"value\":8,\"unit\":\"g\",\"text\":\"8 g\"}"),
              "%s", result);
    cr_expect(strstr(result, "\"origin\":\"assumed\""), "%s", result);
    free(result);
    lml_engine_free(own);
}
