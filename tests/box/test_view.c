/* job, house and what `use` gives: read-only, with errors for names that are not there. */
#include "worked.h"

static const char *const RECIPE =
    "return recipe { title = 'T', version = '1', level = 1,\n"
    "  asks = { wax = ask.mass { 'Wax' }, note = ask.text { 'Note', optional = true },\n"
    "    old_metal = ask.list { 'Old metal', of = ask.record { 'One', fields = {\n"
    "      name = ask.text { 'What' }, gross = ask.mass { 'Weight' },\n"
    "      mark = ask.fineness { 'Mark', optional = true } } } },\n"
    "    stock = ask.by_name { 'Stock', of = ask.mass { 'Weight' } } },\n"
    "  gives = { out = give.anything { 'Out', optional = true } },\n"
    "  work = function (job, house, sheet) %s end }\n";
static const char *const JOB =
    "{ \"recipe\": \"t\", \"given\": { \"wax\": \"2 g\","
    " \"old_metal\": [ { \"name\": \"ring\", \"gross\": \"4 g\", \"mark\": \"585 ‰\" },"
    "                  { \"name\": \"chain\", \"gross\": \"11 g\" } ],"
    " \"stock\": { \"zinc\": \"1 g\", \"copper\": \"3 g\", \"silver\": \"2 g\" } } }";

/* The result, or the message and hint in `e`. */
static char *work(const char *body, lml_error *e)
{
    char source[2000];
    snprintf(source, sizeof source, RECIPE, body);
    lml_engine *engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(engine, LML_PUT_RECIPE, "t", source);
    char *result = run_text(engine, JOB, e);
    lml_engine_free(engine);
    return result;
}

static void expect_out(const char *body, const char *words)
{
    lml_error e;
    char *result = work(body, &e);
    cr_expect(result && strstr(result, words), "%s: %s", body, result ? result : e.message);
    free(result);
}

static void expect_refusal(const char *body, const char *message, const char *hint)
{
    lml_error e;
    char *result = work(body, &e);
    cr_expect_null(result, "%s", body);
    cr_expect(strstr(e.message, message), "%s: %s", body, e.message);
    cr_expect(strstr(e.hint, hint), "%s: %s", body, e.hint);
    free(result);
}

Test(view, members_are_read_by_name)
{
    expect_out("return { out = job.wax * 2 }", "\"text\":\"4 g\"");
    expect_out("return { out = job.old_metal[2].gross }", "\"text\":\"11 g\"");
    expect_out("return { out = job.stock.silver }", "\"text\":\"2 g\"");
    expect_out("return { out = #job.old_metal }", "\"value\":2");
}

Test(view, what_may_be_left_out_reads_as_nil)
{
    expect_out("return { out = job.note == nil }", "\"value\":true");
    expect_out("return { out = job.old_metal[2].mark == nil }", "\"value\":true");
    expect_out("return { out = job.old_metal[3] == nil }", "\"value\":true");
}

Test(view, names_that_are_not_declared_are_errors)
{
    expect_refusal("return { out = job.waxx }", "job has no 'waxx'", "did you mean job.wax?");
    expect_refusal("return { out = job.something }", "job has no 'something'", "declare it there");
    expect_refusal("return { out = job.old_metal[1].gros }", "job.old_metal[1] has no 'gros'",
                   "did you mean job.old_metal[1].gross?");
    expect_refusal("return { out = job.stock.zink }", "job.stock has no 'zink'",
                   "did you mean job.stock.zinc?");
    expect_refusal("return { out = house.wax }", "house has no 'wax'", "");
}

Test(view, nothing_can_be_written)
{
    expect_refusal("job.wax = Q '1 g'", "job cannot be changed", "local");
    expect_refusal("job.more = 1", "job cannot be changed", "local");
    expect_refusal("job.old_metal[1] = 1", "job.old_metal cannot be changed", "local");
    expect_refusal("job.old_metal[1].gross = 1", "job.old_metal[1] cannot be changed", "local");
    expect_refusal("table.sort(job.old_metal)", "needs a table of your own", "");
}

Test(view, pairs_walks_in_sorted_order)
{
    expect_out("local t = {} for name, m in pairs(job.stock) do table.insert(t, name .. '=' .. "
               "tostring(m)) end"
               " return { out = table.concat(t, ', ') }",
               "copper=3 g, silver=2 g, zinc=1 g");
    expect_out("local t = {} for i, piece in ipairs(job.old_metal) do table.insert(t, tostring(i) "
               ".. piece.name) end"
               " return { out = table.concat(t, ', ') }",
               "1ring, 2chain");
    /* What was not given is not there to be walked. */
    expect_out("local t = {} for name in pairs(job.old_metal[2]) do table.insert(t, name) end"
               " return { out = table.concat(t, ', ') }",
               "\"gross, name\"");
}

/* Few names are kept by the walk itself, more in a list. */
Test(view, pairs_walks_few_names_and_many)
{
    static const int counts[] = {0, 1, 99, 100, 101, 255, 256, 257, 300};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        char body[400], words[40];
        snprintf(body, sizeof body,
                 "local t, last, n = {}, '', 0 for i = 1, %d do t['k' .. tostring(1000 + i)] = i "
                 "end for name, at in pairs(t) do n = n + 1 assert(last < name and at == n) "
                 "last = name end return { out = n }",
                 counts[i]);
        snprintf(words, sizeof words, "\"value\":%d", counts[i]);
        expect_out(body, words);
    }
    expect_out("local t, all = { b = 1, a = 2, c = 3, d = 4 }, '' for name in pairs(t) do "
               "t.b, t.c, t.e = nil, nil, 5 all = all .. name end return { out = all }",
               "\"ad\"");
    expect_out(
        "local next = pairs { a = 1 } next() return { out = next() == nil and next() == nil }",
        "\"value\":true");
}

Test(view, lists_are_summed_by_member_or_function)
{
    expect_out("return { out = sum(job.old_metal, 'gross') }", "\"text\":\"15 g\"");
    expect_out("return { out = sum(job.old_metal, function (m) return m.gross * 2 end) }",
               "\"text\":\"30 g\"");
    expect_refusal("return { out = sum(job.old_metal, 'mark') }",
                   "item 2 of the list has no 'mark'", "");
}

Test(view, a_result_can_be_a_view)
{
    expect_out(
        "return { out = job.old_metal }",
        "{\"gross\":{\"kind\":\"mass\",\"value\":11,\"unit\":\"g\",\"text\":\"11 g\"},\"name\":");
}
