/* What a recipe hands over, to a used recipe or as its own gives: records taken member by member,
 * and the texts that values are written as. */
#include "worked.h"

static lml_engine *engine;

static const char *const INNER =
    "local lot = ask.record { 'A lot', fields = {\n"
    "  name = ask.text { 'Name' }, mass = ask.mass { 'Mass', from = '1 g', to = '9 g' },\n"
    "  kind = ask.choice { 'Kind', options = { 'grain', 'sheet' }, default = 'grain', source = "
    "'most are' },\n"
    "  old = ask.yes_no { 'Old', default = false, source = 'most are new' }, note = ask.text { "
    "'Note', optional = true } } }\n"
    "return recipe { title = 'Inner', version = '1', level = 1, asks = { lot = lot, count = "
    "ask.whole { 'Count', optional = true },\n"
    "    number = ask.number { 'Number', optional = true }, metal = ask.assay { 'Metal', optional "
    "= true } },\n"
    "  gives = { said = give.text 'Said' },\n"
    "  work = function (job)\n"
    "    local l = job.lot\n"
    "    return { said = table.concat({ l.name, tostring(l.mass), l.kind, tostring(l.old), l.note "
    "or 'no note',\n"
    "                                   tostring(job.count or 'no count'), tostring(job.number or "
    "'no number') }, ', ') } end }\n";

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(engine, LML_PUT_RECIPE, "inner", INNER);
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(take, .init = open_engine, .fini = close_engine);

/* The result or the error of passing this to the inner recipe. */
static char *pass(const char *passed, lml_error *e)
{
    char source[700];
    snprintf(source, sizeof source,
             "return recipe { title = 'Outer', version = '1', level = 1, uses = { 'inner' }, gives "
             "= { said = give.text 'Said' },\n"
             "  work = function () return { said = use.inner(%s).said } end }",
             passed);
    put_text(engine, LML_PUT_RECIPE, "outer", source);
    return run_text(engine, "{ \"recipe\": \"outer\" }", e);
}

static void expect_taken(const char *passed, const char *said)
{
    lml_error e;
    char *result = pass(passed, &e);
    cr_expect(result && strstr(result, said), "%s\nwants %s\n%s", passed, said,
              result ? result : e.message);
    free(result);
}

static void expect_refused(const char *passed, const char *message, const char *hint)
{
    lml_error e;
    char *result = pass(passed, &e);
    cr_expect_null(result, "%s gives %s", passed, result);
    cr_expect(!result && strstr(e.message, message), "%s: %s", passed, e.message);
    cr_expect(!result && strstr(e.hint, hint), "%s: hint %s", passed, e.hint);
    free(result);
}

Test(take, a_record_has_its_members_and_their_defaults)
{
    expect_taken("{ lot = { name = 'a', mass = Q '2 g' } }",
                 "\"a, 2 g, grain, false, no note, no count, no number\"");
    expect_taken("{ lot = { name = 'a', mass = '2 g', kind = 'sheet', old = true, note = 'n' }, "
                 "count = 3, number = 1.5 }",
                 "\"a, 2 g, sheet, true, n, 3, 1.5\"");
}

Test(take, a_member_of_a_record_is_named_when_it_is_wrong)
{
    expect_refused("{ lot = { name = 'a', mass = '2 g', kine = 'sheet' } }",
                   "'kine' is not asked for here", "did you mean 'kind'?");
    expect_refused("{ lot = { name = 'a', mass = '2 g', [1] = 'x' } }", "is not asked for here",
                   "");
    expect_refused("{ lot = { name = 'a' } }", "'mass' (Mass) is missing", "");
    expect_refused("{ lot = 5 }", "a record is needed, but the bare number 5 was given", "");
    expect_refused("{ lot = { name = 5, mass = '2 g' } }",
                   "a text is needed, but the bare number 5 was given", "");
    expect_refused("{ lot = { name = 'a', mass = '0.9 g' } }",
                   "0.9 g is below the minimum of 1 g: check the figure and its unit", "");
    expect_refused("{ lot = { name = 'a', mass = '9.1 g' } }",
                   "9.1 g is above the maximum of 9 g: check the figure and its unit", "");
    expect_taken("{ lot = { name = 'a', mass = '9 g' } }", "\"a, 9 g,");
    expect_taken("{ lot = { name = 'a', mass = '1 g' } }", "\"a, 1 g,");
}

Test(take, a_text_is_read_as_what_is_due)
{
    expect_taken("{ lot = { name = 'a', mass = '2 g', old = 'true' } }", "grain, true");
    expect_refused("{ lot = { name = 'a', mass = '2 g', old = 'yes' } }", "\"yes\" is not",
                   "such as");
    expect_refused("{ lot = { name = 'a', mass = '2 g', kind = 'bar' } }", "\"bar\" is not",
                   "such as grain");
    expect_taken("{ lot = { name = 'a', mass = '2 g' }, count = '3', number = '1.5' }",
                 "no note, 3, 1.5");
    expect_refused("{ lot = { name = 'a', mass = '2 g' }, count = '3.5' }", "3.5", "");
    expect_refused("{ lot = { name = 'a', mass = '2 g' }, number = '2 g' }", "number", "");
    expect_refused("{ lot = { name = 'a', mass = '2 g' }, metal = '585' }", "585", "");
}

/* ---- taken before ---- */

#define NAME "name = ask.text { 'Name' }, "
#define MASS "mass = ask.mass { 'Mass', from = '1 g', to = '9 g' }, "
#define KIND                                                                                       \
    "kind = ask.choice { 'Kind', options = { 'grain', 'sheet' }, default = 'grain', source = "     \
    "'most are' }, "
#define OLD "old = ask.yes_no { 'Old', default = false, source = 'most are new' }, "
#define NOTE "note = ask.text { 'Note', optional = true }"

/* The result or the error of a recipe that asks for a lot with these fields, is given this one, and
 * passes it to the inner recipe. */
static char *pass_on(const char *fields, const char *lot, lml_error *e)
{
    char source[1000], job[400];
    snprintf(source, sizeof source,
             "return recipe { title = 'Middle', version = '1', level = 1, uses = { 'inner' }, "
             "asks = { lot = ask.record { 'A lot', fields = { %s } } }, gives = { said = give.text "
             "'Said' },\n"
             "  work = function (job) return { said = use.inner { lot = job.lot }.said } end }",
             fields);
    snprintf(job, sizeof job, "{ \"recipe\": \"middle\", \"given\": { \"lot\": %s } }", lot);
    put_text(engine, LML_PUT_RECIPE, "middle", source);
    return run_text(engine, job, e);
}

static void expect_passed(const char *fields, const char *lot, const char *said)
{
    lml_error e;
    char *result = pass_on(fields, lot, &e);
    cr_expect(result && strstr(result, said), "%s of %s\nwants %s\n%s", lot, fields, said,
              result ? result : e.message);
    free(result);
}

static void expect_not_passed(const char *fields, const char *lot, const char *message)
{
    lml_error e;
    char *result = pass_on(fields, lot, &e);
    cr_expect_null(result, "%s of %s gives %s", lot, fields, result);
    cr_expect(!result && strstr(e.message, message), "%s of %s: %s", lot, fields, e.message);
    free(result);
}

Test(take, what_is_passed_on_is_what_was_taken)
{
    expect_passed(NAME MASS KIND OLD NOTE, "{ \"name\": \"a\", \"mass\": \"2 g\" }",
                  "\"a, 2 g, grain, false, no note,");
    expect_passed(NAME MASS KIND OLD NOTE,
                  "{ \"name\": \"a\", \"mass\": \"9 g\", \"kind\": \"sheet\", \"old\": true, "
                  "\"note\": \"n\" }",
                  "\"a, 9 g, sheet, true, n,");
}

/* The recipe that is passed it wants something else than the one that was given it. */
Test(take, what_is_passed_on_is_held_against_what_is_asked)
{
    const char *light = "{ \"name\": \"a\", \"mass\": \"0.5 g\" }",
               *heavy = "{ \"name\": \"a\", \"mass\": \"12 g\" }";
    expect_not_passed(NAME "mass = ask.mass { 'Mass', to = '9 g' }, " KIND OLD NOTE, light,
                      "0.5 g is below the minimum of 1 g");
    expect_not_passed(NAME "mass = ask.mass { 'Mass', from = '0.1 g', to = '9 g' }, " KIND OLD NOTE,
                      light, "0.5 g is below the minimum of 1 g");
    expect_not_passed(NAME "mass = ask.mass { 'Mass', from = '1 g' }, " KIND OLD NOTE, heavy,
                      "12 g is above the maximum of 9 g");
    expect_not_passed(
        NAME MASS
        "kind = ask.choice { 'Kind', options = { 'grain', 'sheet', 'bar' }, default = 'grain', "
        "source = 'most are' }, " OLD NOTE,
        "{ \"name\": \"a\", \"mass\": \"2 g\", \"kind\": \"bar\" }", "\"bar\" is not");
    expect_not_passed(NAME MASS KIND OLD NOTE ", more = ask.text { 'More', optional = true }",
                      "{ \"name\": \"a\", \"mass\": \"2 g\" }", "'more' is not asked for here");
    expect_not_passed(NAME "mass = ask.mass { 'Mass', optional = true }, " KIND OLD NOTE,
                      "{ \"name\": \"a\" }", "'mass' (Mass) is missing");
}

Test(take, what_is_passed_on_without_a_default_gets_one)
{
    expect_passed(NAME MASS "kind = ask.choice { 'Kind', options = { 'grain', 'sheet' }, optional "
                            "= true }, " OLD NOTE,
                  "{ \"name\": \"a\", \"mass\": \"2 g\" }", "\"a, 2 g, grain, false, no note,");
    expect_passed(NAME MASS "kind = ask.choice { 'Kind', options = { 'grain', 'sheet' }, default = "
                            "'sheet', source = 'ours are' }, " OLD NOTE,
                  "{ \"name\": \"a\", \"mass\": \"2 g\" }", "\"a, 2 g, sheet, false, no note,");
    expect_passed(NAME MASS KIND OLD, "{ \"name\": \"a\", \"mass\": \"2 g\" }",
                  "\"a, 2 g, grain, false, no note,");
}

/* A job may say what a recipe may not pass on. */
Test(take, what_is_passed_on_is_cleaned)
{
    char job[400];
    lml_error e;
    const char *asks = "asks = { by = ask.record { 'By', fields = { owner = ask.by_name { 'Owner', "
                       "of = ask.mass { 'Mass' } }, free = ask.anything { 'Free', optional = true "
                       "} } } }, gives = { said = give.text 'Said' },";
    char source[1000];
    snprintf(source, sizeof source,
             "return recipe { title = 'Last', version = '1', level = 1, %s\n"
             "  work = function (job) return { said = job.by.free or 'none' } end }",
             asks);
    put_text(engine, LML_PUT_RECIPE, "last", source);
    snprintf(source, sizeof source,
             "return recipe { title = 'First', version = '1', level = 1, uses = { 'last' }, %s\n"
             "  work = function (job) return { said = use.last { by = job.by }.said } end }",
             asks);
    put_text(engine, LML_PUT_RECIPE, "first", source);
    snprintf(job, sizeof job,
             "{ \"recipe\": \"first\", \"given\": { \"by\": { \"owner\": { \"%0101d\": \"1 g\" } "
             "} } }",
             1);
    char *result = run_text(engine, job, &e);
    cr_expect_null(result, "%s", result);
    cr_expect(strstr(e.message, "the name of an entry has more than 100 bytes"), "%s", e.message);
    free(result);
    static const char *const hidden[] = {"x\\u0001z", "x\\u007fz", "x\\u202ez"};
    for (size_t i = 0; i < sizeof hidden / sizeof *hidden; i++) {
        snprintf(job, sizeof job,
                 "{ \"recipe\": \"first\", \"given\": { \"by\": { \"owner\": { \"%s\": \"1 g\" "
                 "} } } }",
                 hidden[i]);
        result = run_text(engine, job, &e);
        cr_expect_null(result, "%s", result);
        cr_expect(strstr(e.message, "has characters that cannot be printed"), "%s", e.message);
        free(result);
    }
    result = run_text(engine,
                      "{ \"recipe\": \"first\", \"given\": { \"by\": { \"owner\": { \"a\": \"1 g\" "
                      "}, \"free\": \"x\xE2\x80\x8By\" } } }",
                      &e);
    cr_expect(result && strstr(result, "x?y"), "%s", result ? result : e.message);
    free(result);
}
