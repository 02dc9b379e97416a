/* The questions of a job, one after the other: what is asked next, and what the job holds then. */
#include "box/worked.h"

static const char RING[] =
    "return recipe { title = \"Ring\", version = \"1.0.0\", level = 2, licence = \"CC0-1.0\",\n"
    "  asks = {\n"
    "    { \"The wax\",\n"
    "    wax = ask.mass{ \"Finished wax\", from = \"0.02 g\" },\n"
    "    way = ask.choice{ \"Way\", options = { \"carved\", \"cast\", \"cast twice\" }, optional = "
    "true },\n"
    "    count = ask.whole{ \"How many\", default = 1, source = \"one unless said\" },\n"
    "    hollow = ask.yes_no{ \"Hollow\", optional = true, seldom = true } },\n"
    "    { \"The old metal\",\n"
    "    lots = ask.list{ \"Lots\", optional = true, of = ask.record{ apart = \"name\", fields = "
    "{\n"
    "      gross = ask.mass{ \"Gross\" }, name = ask.text{ \"Its name\" },\n"
    "      dirt = ask.ratio{ \"Dirt\", optional = true, seldom = true } } } },\n"
    "    tests = ask.list{ \"Tests\", optional = true, of = ask.record{ fields = {\n"
    "      found = ask.fineness{ \"Found\" } } } },\n"
    "    most = ask.list{ \"At most\", optional = true, of = ask.mass{ \"One\" } },\n"
    "    shares = ask.by_name{ \"Shares\", optional = true, of = ask.ratio{ \"One\" } },\n"
    "    solder = ask.record{ \"Solder\", optional = true, fields = { mass = ask.mass{ \"Mass\" } "
    "} "
    "} },\n"
    "  },\n"
    "  allowances = { button = ask.mass{ \"Button\" } },\n"
    "  gives = { weight = give.mass \"The wax\" },\n"
    "  work = function(job) return { weight = job.wax } end,\n"
    "}\n";
static const char NEW[] = "{ \"recipe\": \"ring\", \"given\": {} }";

static lml_engine *engine;
static char job[4000], at[200], unfolded[400], question[4000];

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(engine, LML_PUT_RECIPE, "ring", RING);
    put_text(engine, LML_PUT_HOUSE, NULL, "{ \"units\": { \"mass\": \"g\" } }");
    snprintf(job, sizeof job, "%s", NEW);
    at[0] = unfolded[0] = '\0';
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(dialogue, .init = open_engine, .fini = close_engine);

static void keep_member(const char *name, char *out, size_t size)
{
    char head[40];
    snprintf(head, sizeof head, "\"%s\":\"", name);
    const char *from = strstr(question, head);
    out[0] = '\0';
    if (!from)
        return;
    from += strlen(head);
    size_t used = 0;
    for (; *from != '"' && used + 1 < size; from++) {
        bool escaped = *from == '\\';
        from += escaped;
        out[used++] = escaped && *from == 'n' ? '\n' : *from;
    }
    out[used] = '\0';
}

static lml_status say_under(const char *typed, const char *under, lml_error *e)
{
    lml_text after = {.text = NULL}, asked = {.text = NULL};
    const lml_answer said = {at[0] ? at : NULL, typed, under, unfolded[0] ? unfolded : NULL};
    lml_status status =
        lml_engine_ask(engine, job, strlen(job), "job.json", &said, &after, &asked, e);
    if (status == LML_OK) {
        if (after.text)
            snprintf(job, sizeof job, "%s", after.text);
        snprintf(question, sizeof question, "%s", asked.text);
        keep_member("at", at, sizeof at);
        keep_member("unfolded", unfolded, sizeof unfolded);
    }
    lml_text_free(engine, &after);
    lml_text_free(engine, &asked);
    return status;
}

/* What is typed, and at which path the next question is; "" for none. */
static void say(const char *typed, const char *next)
{
    lml_error e = {.message = ""};
    lml_status status = say_under(typed, NULL, &e);
    cr_expect_eq(status, LML_OK, "%s: %s", typed ? typed : "", e.message);
    cr_expect_str_eq(at, next, "after %s: %s", typed ? typed : "nothing", question);
}

static void holds(const char *part)
{
    char bare[4000];
    size_t used = 0;
    for (const char *c = job; *c; c++)
        if (*c != ' ' && *c != '\n')
            bare[used++] = *c;
    bare[used] = '\0';
    cr_expect(strstr(bare, part), "%s lacks %s", bare, part);
}

static void told(const char *part)
{
    cr_expect(strstr(question, part), "%s lacks %s", question, part);
}

/* 1 dwt is 1.55517384 g: NIST SP 811 (2008), Appendix B.8. */
Test(dialogue, goes_through_a_recipe)
{
    say(NULL, "given.wax");
    told("\"heading\":{\"title\":\"The wax\",\"questions\":3,\"due\":1}");
    say("2 dwt", "given.way");
    told("\"told\":\"3.11 g\"");
    say("car", "given.count");
    say("", "given.lots[0].name");
    told("\"opens\":true,\"first\":true,\"list\":\"Lots\"");
    say("ring A", "given.lots[0].gross");
    told("\"entry\":\"ring A\"");
    say("9 g", "given.lots[1].name");
    say("-", "given.tests[0]");
    say("y", "given.tests[0].found");
    say("585 ‰", "given.tests[1]");
    say("n", "given.most[0]");
    say("3 g", "given.most[1]");
    say("", "given.shares.*");
    say("T. Merrowick", "given.shares.\"T. Merrowick\"");
    say("40 %", "given.shares.*");
    say("", "given.solder");
    say("yes", "given.solder.mass");
    say("0.1 g", "");
    told("\"end\":true");
    holds("\"given\":{\"wax\":\"2dwt\",\"way\":\"carved\",\"lots\":[{\"name\":\"ringA\",\"gross\":"
          "\"9g\"}],\"tests\":[{\"found\":\"585‰\"}],\"most\":[\"3g\"],\"shares\":{\"T.Merrowick\":"
          "\"40%\"},\"solder\":{\"mass\":\"0.1g\"}}");
}

Test(dialogue, goes_back_across_lists_and_headings)
{
    say(NULL, "given.wax");
    say("2 g", "given.way");
    say("-", "given.lots[0].name");
    say("ring A", "given.lots[0].gross");
    say("<", "given.lots[0].name");
    told("\"said\":\"ring A\"");
    say("<", "given.count");
    say("<", "given.way");
    say("<", "given.wax");
    told("\"said\":\"2 g\"");
    say("<", "given.wax");
    say("3 g", "given.way");
    holds("\"wax\":\"3g\"");
}

Test(dialogue, takes_out_what_was_said)
{
    say(NULL, "given.wax");
    say("2 g", "given.way");
    say("<", "given.wax");
    say("--", "given.wax");
    holds("\"given\":{}}");
    say("--", "given.wax");
    told("nothing is written there");
    say("2 g", "given.way");
    say("-", "given.lots[0].name");
    say("A", "given.lots[0].gross");
    say("9 g", "given.lots[1].name");
    say("B", "given.lots[1].gross");
    say("8 g", "given.lots[2].name");
    say("--", "given.lots[2].name");
    told("nothing is written there");
    say("<", "given.lots[1].gross");
    say("--", "given.lots[1].gross");
    holds("\"lots\":[{\"name\":\"A\",\"gross\":\"9g\"},{\"name\":\"B\"}]");
    say("<", "given.lots[1].name");
    say("<", "given.lots[0].gross");
    say("<", "given.lots[0].name");
    say("--", "given.lots[0].name");
    told("an entry needs its name");
    say("---", "given.lots[0].name"); /* the entry; the next one moves up */
    told("\"said\":\"B\"");
    holds("\"lots\":[{\"name\":\"B\"}]");
    say("---", "given.lots[0].name");
    told("\"opens\":true,\"first\":true");
    holds("\"given\":{\"wax\":\"2g\"}}"); /* and no list without an entry */
    say("-", "given.tests[0]");
    say("-", "given.most[0]");
    say("3 g", "given.most[1]");
    say("4 g", "given.most[2]");
    say("<", "given.most[1]");
    say("--", "given.most[1]");
    holds("\"most\":[\"3g\"]");
}

Test(dialogue, asks_again_what_cannot_be_taken)
{
    say(NULL, "given.wax");
    say("2,5 g", "given.wax");
    told("\"message\":\"\\\"2,5 g\\\" has a comma\"");
    say("2 mm", "given.wax");
    say("0.01 g", "given.wax");
    say("", "given.wax");
    told("this is needed");
    say("2 g", "given.way");
    say("ca", "given.way");
    told("begins 3 of the choices");
    say("cast", "given.count");
    say("1.5", "given.count");
    holds("\"given\":{\"wax\":\"2g\",\"way\":\"cast\"}");
}

Test(dialogue, tells_more_and_unfolds_what_is_seldom)
{
    say(NULL, "given.wax");
    say("?", "given.wax");
    told("\"more\":{\"title\":\"Finished wax\",\"from\":\"0.02 g\",\"unfolded_before\":[],"
         "\"unfolded\":[\"Hollow\"]}");
    say("2 g", "given.way");
    say("", "given.count");
    say("", "given.hollow");
    say("n", "given.lots[0].name");
    holds("\"hollow\":false");
    say("A", "given.lots[0].gross");
    say("?", "given.lots[0].gross"); /* what was unfolded before stays so */
    told("\"unfolded\":[\"Dirt\"]");
    say("1 g", "given.lots[0].dirt");
    say("<", "given.lots[0].gross");
    say("<", "given.lots[0].name");
    say("<", "given.hollow");
}

/* A pennyweight is 1.55517384 g: 20 g are 12.86 of them: what is shown as 12.9 is too much. */
Test(dialogue, speaks_in_the_units_of_the_house)
{
    put_text(engine, LML_PUT_RECIPE, "kiln",
             "return recipe { title = \"Kiln\", version = \"1.0.0\", level = 2, licence = "
             "\"CC0-1.0\",\n"
             "  asks = { heat = ask.temperature{ \"Heat\", from = \"50 °C\", to = \"1000 °C\" },\n"
             "    wax = ask.mass{ \"Wax\", from = \"1 g\", to = \"20 g\" },\n"
             "    metal = ask.alloy{ \"Metal\" } },\n"
             "  gives = { hot = give.temperature \"Heat\" },\n"
             "  work = function(job) return { hot = job.heat } end }\n");
    put_text(
        engine, LML_PUT_HOUSE, NULL,
        "{ \"units\": { \"mass\": \"dwt\", \"temperature\": \"°F\" },\n"
        "  \"stock\": { \"our red\": { \"composition\": { \"Au\": \"750 ‰\", \"Cu\": \"250 ‰\" "
        "} } } }");
    snprintf(job, sizeof job, "{ \"recipe\": \"kiln\", \"given\": {} }");
    say(NULL, "given.heat");
    told("\"example\":\"1800 °F\"");
    say("?", "given.heat");
    told("\"more\":{\"title\":\"Heat\",\"from\":\"122 °F\",\"to\":\"1832 °F\"");
    say("1832 °F", "given.wax");
    told("\"example\":\"8 dwt\"");
    say("?", "given.wax");
    told("\"from\":\"1 g\",\"to\":\"20 g\"");
    say("2 g", "given.metal");
    say("?", "given.metal");
    told("\"stock\":[\"our red\"]");
}

Test(dialogue, counts_what_it_will_ask_under_a_heading)
{
    snprintf(
        job, sizeof job,
        "{ \"recipe\": \"ring\", \"given\": { \"wax\": \"2 g\", \"lots\": [ { \"name\": \"A\", "
        "\"gross\": \"1 g\" }, { \"name\": \"B\" } ] } }");
    say(NULL, "given.lots[1].gross");
    /* two names, two masses, another lot, a test, at most, shares, solder */
    told("\"heading\":{\"title\":\"The old metal\",\"questions\":9,\"due\":1}");
}

/* Begun by a yes or by a name, left by every key: the file is as it was, and the question that
 * began it comes again where one goes back. */
Test(dialogue, leaves_no_trace_of_what_got_no_answer)
{
    say(NULL, "given.wax");
    say("2 g", "given.way");
    say("-", "given.lots[0].name");
    say("-", "given.tests[0]");
    say("y", "given.tests[0].found");
    told("\"entry\":\"Tests 1\"");
    say("<", "given.tests[0]");
    say("y", "given.tests[0].found");
    say("", "given.tests[0].found");
    told("this is needed");
    say("-", "given.tests[0]");
    say("n", "given.most[0]");
    say("-", "given.shares.*");
    say("J. Doe", "given.shares.\"J. Doe\"");
    told("\"entry\":\"J. Doe\"");
    say("<", "given.shares.*");
    say("J. Doe", "given.shares.\"J. Doe\"");
    say("-", "given.shares.*");
    say("me", "given.shares.me");
    say("40 %", "given.shares.*");
    say("<", "given.shares.me");
    say("--", "given.shares.*");
    say("", "given.solder");
    say("y", "given.solder.mass");
    say("<", "given.solder");
    say("y", "given.solder.mass");
    say("-", "");
    holds("\"given\":{\"wax\":\"2g\"}}");
}

/* As in a file to fill in: left out is not empty. */
Test(dialogue, takes_out_what_was_to_be_filled_in)
{
    snprintf(job, sizeof job,
             "{ \"recipe\": \"ring\", \"given\": { \"wax\": \"\", \"way\": \"\", \"lots\": \"\", "
             "\"shares\": \"\", \"solder\": \"\" } }");
    say(NULL, "given.wax");
    say("2 g", "given.way");
    say("", "given.count");
    say("", "given.lots[0].name");
    say("A", "given.lots[0].gross");
    say("-", "given.lots[1].name");
    say("-", "given.tests[0]");
    say("-", "given.most[0]");
    say("-", "given.shares.*");
    say("", "given.solder");
    say("y", "given.solder.mass");
    say("1 g", "");
    holds("\"given\":{\"wax\":\"2g\",\"lots\":[{\"name\":\"A\"}],\"solder\":{\"mass\":\"1g\"}}}");
}

Test(dialogue, goes_on_at_what_is_missing_or_was_never_asked)
{
    say(NULL, "given.wax");
    say("2 g", "given.way");
    at[0] = '\0';
    say(NULL, "given.way");
    snprintf(job, sizeof job,
             "{ \"recipe\": \"ring\", \"given\": { \"wax\": \"2 g\", \"lots\": [ { \"name\": \"a\" "
             "}, { \"name\": \"b\", \"gross\": \"4 m\" } ], \"most\": [ \"1 g\" ] } }");
    at[0] = '\0';
    say(NULL, "given.lots[0].gross");
    say("3 g", "given.lots[1].name");
    at[0] = '\0';
    say(NULL, "given.lots[1].gross");
    say("4 g", "given.lots[2].name");
    at[0] = '\0';
    say(NULL, "given.most[1]");
}

Test(dialogue, of_a_job_that_was_changed_meanwhile)
{
    say(NULL, "given.wax");
    say("2 g", "given.way");
    snprintf(
        job, sizeof job,
        "{ \"recipe\": \"ring\", \"notes\": \"by hand\",\n  \"given\": { \"wax\": \"7 g\" } }");
    say("carved", "given.count");
    cr_expect_str_eq(job,
                     "{ \"recipe\": \"ring\", \"notes\": \"by hand\",\n  \"given\": { \"wax\": "
                     "\"7 g\", \"way\": \"carved\" } }");
    snprintf(at, sizeof at, "given.lots[4].gross"); /* an entry that somebody took out */
    say("9 g", "given.count");
    cr_expect_null(strstr(job, "9 g"));
}

Test(dialogue, under_a_path_and_of_a_setting)
{
    lml_error e = {.message = ""};
    cr_expect_eq(say_under(NULL, "count", &e), LML_OK);
    cr_expect_str_eq(at, "given.count");
    cr_expect_eq(say_under("2", "count", &e), LML_OK);
    told("\"end\":true");
    cr_expect_eq(say_under(NULL, "house.button", &e), LML_OK);
    at[0] = '\0';
    cr_expect_eq(say_under(NULL, "house.button", &e), LML_OK);
    cr_expect_str_eq(at, "house.button");
    cr_expect_eq(say_under("9 g", "house.button", &e), LML_OK);
    holds("\"house\":{\"button\":\"9g\"}");
    cr_expect_eq(say_under(NULL, "nothing", &e), LML_USAGE);
    cr_expect(strstr(e.message, "asks nothing at given.nothing"), "%s", e.message);
    cr_expect_eq(say_under(NULL, "given..wax", &e), LML_USAGE);
}

Test(dialogue, of_a_job_that_cannot_be_read)
{
    lml_error e = {.message = ""};
    snprintf(job, sizeof job, "{ \"recipe\": \"gone\", \"given\": {} }");
    cr_expect_eq(say_under(NULL, NULL, &e), LML_NOT_FOUND, "%s", e.message);
    snprintf(job, sizeof job, "{ \"recipe\": \"ring\", ");
    cr_expect_eq(say_under(NULL, NULL, &e), LML_BAD_DATA, "%s", e.message);
    snprintf(job, sizeof job, "{ \"recipe\": \"ring\", \"given\": { \"lots\": {} } }");
    at[0] = '\0';
    cr_expect_eq(say_under(NULL, NULL, &e), LML_OK, "%s", e.message);
}
