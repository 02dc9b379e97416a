/* What is not in a result: the figures that a stop withholds, and those of a recipe that failed. */
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

TestSuite(withheld, .init = open_engine, .fini = close_engine);

static char *work(const char *recipe)
{
    char job[100];
    lml_error e;
    snprintf(job, sizeof job, "{ \"recipe\": \"%s\" }", recipe);
    char *result = run_text(engine, job, &e);
    cr_assert(result, "%s", e.message);
    return result;
}

static void expect_in(const char *result, const char *words)
{
    cr_expect(strstr(result, words), "it wants %s: %s", words, result);
}

static void expect_not_in(const char *result, const char *words)
{
    cr_expect_null(strstr(result, words), "it has %s: %s", words, result);
}

/* A recipe that melts more than its crucible holds, ends as it is told, and is used by one that
 * goes on whatever comes. */
static void put_melt(const char *end)
{
    static const char gates[] = "return { gates = { { code = \"crucible\", needs = { \"charge\" }, "
                                "check = function (facts, sheet)\n"
                                "  sheet:caution(\"hot\", text.fill(\"{c} is hot: "
                                "gloves\", { c = facts.charge }))\n"
                                "  if facts.charge > Q \"100 g\" then sheet:stop(\"crucible\", "
                                "\"Too much\", { \"charge\" }) end end } } }";
    static const char user[] = "return recipe { title = \"t\", version = \"1\", level = 1, uses = "
                               "{ \"melt\" }, gives = { n = give.number \"n\" },\n"
                               "  work = function () pcall(use.melt, {}) return { n = 1 } end }";
    static const char inner[] = "return recipe { title = \"t\", version = \"1\", level = 1, gives "
                                "= { m = give.mass \"m\" },\n"
                                "  work = function (job, house, sheet) sheet.client:line(\"Wax\", "
                                "Q \"7 g\") return { m = Q \"7 g\" } end }";
    char melt[1500];
    snprintf(melt, sizeof melt,
             "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"wax\" },\n"
             "  gives = { charge = give.mass \"Charge\", bad = give.mass { \"Bad\", optional = "
             "true } },\n"
             "  work = function (job, house, sheet) use.wax {}\n"
             "    sheet.bench:line(\"Weigh out\", Q \"300 g\") sheet.client:total(\"All\", Q \"300 "
             "g\")\n"
             "    sheet.bench:grid { columns = { \"a\" }, rows = { { Q \"300 g\" } } } "
             "sheet.bench:text(\"Melt it all\")\n"
             "    %s return { charge = Q \"300 g\" } end }",
             end);
    put_text(engine, LML_PUT_SCRIPT, "gates", gates);
    put_text(engine, LML_PUT_RECIPE, "wax", inner);
    put_text(engine, LML_PUT_RECIPE, "melt", melt);
    put_text(engine, LML_PUT_RECIPE, "user", user);
}

/* Whether the line "A" of the result is blank. */
static void expect_blank(const char *result, const char *printed, bool blank)
{
    const char *line = strstr(result, "\"label\":\"A\"");
    const char *end = line ? strchr(line, '}') : NULL;
    const char *at = line ? strstr(line, "\"withheld\":true") : NULL;
    cr_expect((at && at < end) == blank, "%s: %.200s", printed, line ? line : result);
}

Test(withheld, a_recipe_that_ends_well_is_looked_at_by_the_gates)
{
    put_melt("");
    char *result = work("user");
    expect_in(result, "{\"is\":\"line\",\"label\":\"Weigh out\",\"withheld\":true");
    expect_in(result, "\"code\":\"melt/crucible\"");
    expect_in(result, "\"code\":\"melt/hot\",\"text\":\"\xE2\x80\xA6 is hot: gloves\"");
    expect_in(result, "\"text\":\"7 g\"");
    expect_not_in(result, "300 g");
    free(result);
}

/* No gate has looked at what it wrote, and its user may go on as if nothing had been. */
Test(withheld, of_a_recipe_that_failed_only_remarks_are_printed)
{
    static const char *const ends[] = {
        "error(\"boom\")", "do return { charge = 3 } end", "do return {} end",
        "do return { charge = Q \"300 g\", bad = Q \"2 °C\" } end", "local x = nil + 1"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        put_melt(ends[i]);
        char *result = work("user");
        expect_in(result, "\"code\":\"melt/failed\",\"text\":\"melt failed, so none of its "
                          "figures are printed: ");
        expect_not_in(result, "300 g");
        expect_not_in(result, "7 g"); /* of what it used nothing either: it may have kept it back */
        expect_not_in(result, "Melt it all");
        free(result);
    }
}

/* What it remarked stands, and what it stopped is stopped. */
Test(withheld, the_stop_of_a_recipe_that_failed_stands)
{
    put_melt("sheet:stop(\"never\", \"Never melt this\", { \"charge\" }) error(\"boom\")");
    char *result = work("user");
    expect_in(result, "\"stopped\":true");
    expect_in(result, "\"level\":\"stop\",\"code\":\"melt/never\",\"text\":\"Never melt this\"");
    expect_in(result, "melt failed, so none of its figures are printed: melt.lua:6: boom");
    expect_not_in(result, "300 g");
    free(result);
}

/* Gates that fail have not looked at it either. */
Test(withheld, a_recipe_whose_gates_failed_has_failed)
{
    put_melt("");
    put_text(engine, LML_PUT_SCRIPT, "gates",
             "return { gates = { { code = \"x\", needs = { \"charge\" }, check = function () "
             "error(\"no scale\") end } } }");
    char *result = work("user");
    expect_in(result, "\"code\":\"melt/failed\"");
    expect_not_in(result, "300 g");
    free(result);
}

/* Nor how long a list is that is withheld: of its rows one DO NOT is left, and the boxes beside
 * them go too. */
Test(withheld, a_list_is_withheld_once)
{
    put_text(
        engine, LML_PUT_RECIPE, "lots",
        "return recipe { title = \"t\", version = \"1\", level = 1, gives = { lots = "
        "give.list { \"Lots\", of = give.mass \"One\" } },\n"
        "  work = function (job, house, sheet) local a, b = Q \"2.25 g\" * 2, Q \"3.5 g\" * 3\n"
        "    sheet.bench:grid { columns = { \"Lot\", \"Half\", \"Done\" }, rows = { { a, a / 2, { "
        "box = \"raw\" } }, { b, b / 2, { box = true } } }, total = { \"All\", a + b } }\n"
        "    sheet.metal:grid { columns = { \"Name\", \"Mass\" }, rows = { { \"x\", Q \"5 g\" }, "
        "{ a, b }, { b, a }, { \"y\", b } } }\n"
        "    sheet:stop(\"no\", \"Not yet\", { \"lots\" }) return { lots = { a, b } } end }");
    char *result = work("lots");
    expect_in(result, "\"columns\":[\"Lot\",\"Half\",\"Done\"],\"withheld\":true,\"withheld_by\":"
                      "\"lots/no\",\"rows\":[]}");
    expect_in(result,
              "\"text\":\"5 g\"}],[{\"withheld\":true},{\"withheld\":true}],[{\"kind\":\"text\","
              "\"value\":\"y\"},{\"withheld\":true}]]}");
    expect_not_in(result, "\"raw\"");
    free(result);
}

/* Stopped half-way it gives nothing that a figure could be told by: a line that names what it
 * prints is told by that. */
Test(withheld, a_line_that_names_its_give_is_blank_when_nothing_was_given)
{
    put_melt("");
    put_text(engine, LML_PUT_RECIPE, "bad",
             "return recipe { title = \"t\", version = \"1\", level = 1, gives = { m = give.mass "
             "\"m\" },\n"
             "  work = function (job, house, sheet) sheet:stop(\"no\", \"No\") return { m = Q \"1 "
             "g\" } end }");
    put_text(engine, LML_PUT_RECIPE, "melt",
             "return recipe { title = \"t\", version = \"1\", level = 1, uses = { \"bad\" }, gives "
             "= { charge = give.mass \"c\" },\n"
             "  work = function (job, house, sheet)\n"
             "    sheet.bench:line(\"Named\", Q \"300 g\", { of = \"charge\" }) return { charge = "
             "use.bad {}.m } end }");
    char *result = work("user");
    expect_in(result, "\"label\":\"Named\",\"of\":\"charge\",\"withheld\":true");
    expect_not_in(result, "300 g");
    free(result);
}

/* Numbers, texts and alloys inside a list or record are found like masses. */
Test(withheld, whatever_stands_in_a_list_or_record_is_withheld_with_it)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = \"t\", version = \"1\", level = 1,\n"
             "  gives = { x = give.list { \"x\", of = give.number { \"n\" } }, a = give.list { "
             "\"a\", of = give.alloy { \"n\" } },\n"
             "    r = give.record { \"r\", fields = { q = give.number { \"q\" }, s = give.text { "
             "\"s\" }, y = give.yes_no { \"y\" } } },\n"
             "    open = give.list { \"o\", of = give.number { \"n\" } } },\n"
             "  work = function (job, house, sheet)\n"
             "    local al = alloy { name = \"Secret 750\", composition = { Au = \"750 ‰\", Cu = "
             "\"250 ‰\" } }\n"
             "    sheet.bench:line(\"A\", 7.25) sheet.bench:line(\"B\", al) "
             "sheet.bench:line(\"C\", 4.5)\n"
             "    sheet.bench:line(\"D\", \"a text\") sheet.bench:line(\"E\", true) "
             "sheet.bench:line(\"F\", 9)\n"
             "    sheet.bench:line(\"G\", 4.5, { of = \"open\" })\n"
             "    sheet:stop(\"no\", \"No\", { \"x\", \"a\", \"r\" })\n"
             "    return { x = { 7.25, 8 }, a = { al }, r = { q = 4.5, s = \"a text\", y = true }, "
             "open = { 9, 4.5 } } end }");
    char *result = work("t");
    static const char *const labels[] = {"A", "B", "C", "D"};
    for (size_t i = 0; i < sizeof labels / sizeof *labels; i++) {
        char line[100];
        snprintf(line, sizeof line, "{\"is\":\"line\",\"label\":\"%s\",\"withheld\":true",
                 labels[i]);
        expect_in(result, line);
    }
    expect_in(result, "\"label\":\"E\",\"value\":");
    expect_in(result, "\"label\":\"F\",\"value\":");
    expect_in(result, "\"label\":\"G\",\"of\":\"open\",\"value\":");
    expect_not_in(result, "7.25");
    expect_not_in(result, "Secret");
    free(result);
}

/* A figure is told by its amount, whatever its sign and unit, and a hair beside it is the same; a
 * zero is told from none. */
static const char *amounts(const char *printed)
{
    static char recipe[4000];
    snprintf(recipe, sizeof recipe,
             "return recipe { title = \"t\", version = \"1\", level = 1,\n"
             "  gives = { due = give.fine_mass \"d\", m = give.mass \"m\", p = give.money \"p\", z "
             "= give.money \"z\", open = give.mass \"o\" },\n"
             "  work = function (job, house, sheet) local page, due = sheet.client, Q \"1 g Au\" - "
             "Q \"1.44 g Au\"\n"
             "    %s\n"
             "    sheet:stop(\"no\", \"No 5 g\", { \"due\", \"m\", \"p\", \"z\" })\n"
             "    return { due = due, m = Q \"5 g\", p = Q \"1149.5 USD\", z = Q \"0 USD\", open = "
             "Q \"7 g\" } end }",
             printed);
    return recipe;
}

static char *printed(const char *lines)
{
    put_text(engine, LML_PUT_RECIPE, "t", amounts(lines));
    return work("t");
}

Test(withheld, a_figure_is_told_by_its_amount_within_a_billionth)
{
    static const struct {
        const char *line;
        bool blank;
    } cases[] = {
        {"page:line(\"A\", -Q \"1149.5 USD\")", true},
        {"page:line(\"A\", Q \"5 g\" * (1 + 9e-10))", true},
        {"page:line(\"A\", Q \"5 g\" * (1 - 9e-10))", true},
        {"page:line(\"A\", Q \"5 g\" * (1 + 1e-8))", false},
        {"page:line(\"A\", Q \"5 g\" * (1 - 1e-8))", false},
        {"page:line(\"A\", Q \"0.005 kg\")", true},
        {"page:line(\"A\", Q \"5.01 g\")", false},
        {"page:line(\"A\", Q \"5 mL\")", false},
        {"page:line(\"A\", 0.44 * Q \"1 g Au\")", true},
        {"page:line(\"A\", 0.44 * Q \"1 g Ag\")", false},
        {"page:line(\"A\", Q \"0 USD\")", false},
        {"page:line(\"A\", Q \"1149.51 USD\")", false},
        {"page:line(\"A\", Q \"1149.5 EUR\")", false},
        {"page:line(\"A\", Q \"7 g\", { of = \"m\" })", true}, /* it says that it rests on it */
        {"page:line(\"A\", \"between 4 and 5 g\")", true},
        {"page:line(\"A\", \"between 4 and 6 g\")", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *result = printed(cases[i].line);
        expect_blank(result, cases[i].line, cases[i].blank);
        free(result);
    }
}

/* What stands beside a figure in a sentence gives it away: the sentence goes. Of a label and a note
 * the figure alone goes. */
Test(withheld, no_sentence_has_a_figure_that_is_withheld)
{
    static const struct {
        const char *line, *has, *has_not;
    } cases[] = {
        {"page:text \"Bought for 1,149.50 USD (5 x 229.90).\"", "\"is\":\"text\",\"withheld\":true",
         "229.90"},
        {"page:text \"Bought for 1149.5 USD.\"", "\"withheld\":true", "1149.5 USD"},
        {"page:text \"It weighs 5000 mg, they say\"", "\"withheld\":true", "5000 mg"},
        {"page:text \"It is 5 long, 15 g, 5 mm, 5.5 g, 2.5 g\"", "It is 5 long, 15 g",
         "\"is\":\"text\",\"withheld\""},
        {"page:text(text.fill(\"{d} is left\", { d = -due }))", "\"withheld\":true", "0.44"},
        {"page:text(\"All of it\", { of = \"p\" })", "\"of\":\"p\",\"withheld\":true", "All of it"},
        {"page:text(\"All of it\", { of = \"open\" })", "All of it",
         "\"of\":\"open\",\"withheld\""},
        {"page:line(\"Of 5 g the half\", Q \"2.5 g\")", "Of \xE2\x80\xA6 the half", "Of 5 g"},
        {"page:heading \"The 5 g\"", "The \xE2\x80\xA6", "The 5 g"},
        {"page:note(\"n\", \"Look at the 5 g, and at 6 g\")", "at the \xE2\x80\xA6, and at 6 g",
         "the 5 g"},
        {"page:grid { columns = { \"x\" }, rows = { { \"5 g of it\" }, { \"6 g of it\" } } }",
         "[[{\"withheld\":true}],[{", "5 g of it"},
        {"", "No 5 g", "\\u"}, /* whoever decides reads what it is about */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *result = printed(cases[i].line);
        expect_in(result, cases[i].has);
        expect_not_in(result, cases[i].has_not);
        free(result);
    }
}

/* Fifty thousand masses are withheld, and each of twenty thousand cells is looked for among them. A
 * figure that is gathered costs 8 steps: once for all is 400,000, and once for each cell would be
 * ten thousand million. */
Test(withheld, a_long_list_that_is_withheld_is_gathered_once)
{
    put_text(engine, LML_PUT_RECIPE, "t",
             "return recipe { title = \"t\", version = \"1\", level = 1, gives = { x = give.list { "
             "\"x\", of = give.mass { \"m\" } } },\n"
             "  work = function (job, house, sheet) local t, r = {}, {}\n"
             "    for i = 1, 10000 do t[i] = Q \"1 g\" * i end\n"
             "    sheet:stop(\"no\", \"No\", { \"x\" })\n"
             "    for i = 1, 500 do local c = {} for k = 1, 12 do c[k] = Q \"1 g\" * (i * k) end "
             "r[i] = c end\n"
             "    for g = 1, 4 do sheet.bench:grid { columns = { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, "
             "11, 12 }, rows = r } end\n"
             "    return { x = t } end }");
    char *result = work("t");
    expect_not_in(result, "\"text\":\"6000 g\"");
    free(result);
}

/* What came from a withheld figure is blank, and what only equals it is not: the tray weighs by
 * chance as much as is poured. */
Test(withheld, a_figure_is_told_by_what_it_came_from)
{
    static const struct {
        const char *line;
        bool blank;
    } cases[] = {
        {"sheet.bench:line(\"A\", job.tray)", false},
        {"sheet.bench:line(\"A\", job.tray * 2 - job.tray)", false},
        {"sheet.bench:line(\"A\", Q \"30 g\")", false},
        {"sheet.bench:line(\"A\", \"Never above 30 g\")", false},
        {"sheet.bench:line(\"A\", text.fill(\"On a tray of {t}\", { t = job.tray }))", false},
        {"sheet.bench:line(\"A\", job.wax)", false},
        {"sheet.bench:line(\"A\", poured:zero())", false},
        {"sheet.bench:line(\"A\", poured)", true},
        {"sheet.bench:line(\"A\", job.wax * 15)", true}, /* it is worked out again */
        {"sheet.bench:line(\"A\", poured / 2)", true},
        {"sheet.bench:line(\"A\", poured:number \"g\" / 7)", true},
        {"sheet.bench:line(\"A\", 4.25)", false},
        {"local n = poured:number \"g\" sheet.bench:line(\"A\", 4.25)", false},
        {"local n = poured:number \"g\" sheet.bench:line(\"A\", job.pieces)", false},
        {"local n = poured:number \"g\" sheet.bench:line(\"A\", \"the \" .. \"clean one\")", false},
        {"local n = poured:number \"g\" "
         "sheet.bench:line(\"A\", text.fill(\"{n} parts\", { n = (job.tray * 2):number \"g\" }))",
         false},
        {"local n = poured:number \"g\" "
         "sheet.bench:line(\"A\", text.fill(\"{n} parts\", { n = (poured * 2):number \"g\" }))",
         true},
        {"local n = poured:number \"g\" "
         "sheet.bench:line(\"A\", text.fill(\"{n} parts\", { n = n + 7 }))",
         true},
        {"sheet.bench:line(\"A\", text.fill(\"All of {p}\", { p = poured }))", true},
        {"sheet.bench:line(\"A\", \"All of \" .. tostring(poured / 3))", true},
        {"sheet.bench:line(\"A\", Q \"1 g\" < poured)", false}, /* a yes: see security.md */
        {"local _, e = pcall(function() return (poured / 2).q end) "
         "sheet.bench:line(\"A\", tostring(e))",
         true},
        {"local _, e = pcall(function() error(\"at \" .. tostring(poured / 2)) end) "
         "sheet.bench:line(\"A\", text.fill(\"{e}\", { e = tostring(e):upper() }))",
         true},
        {"local _, e = pcall(function() error(\"at \" .. tostring(poured / 2)) end) "
         "sheet.bench:line(\"A\", \"so \" .. tostring(e))",
         true},
        {"sheet.bench:line(\"A\", tostring(early))", false}, /* caught before there was any */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char recipe[2000];
        lml_error e;
        snprintf(recipe, sizeof recipe,
                 "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                 "  asks = { wax = ask.mass { \"Wax\" }, tray = ask.mass { \"Tray\" },\n"
                 "    pieces = ask.whole { \"Pieces\" } }, gives = { poured = give.mass \"p\" },\n"
                 "  work = function (job, house, sheet)\n"
                 "    local _, early = pcall(function() return (job.tray / 3).q end)\n"
                 "    local poured = job.wax * 15\n"
                 "    sheet:stop(\"no\", \"No\")\n%s\n"
                 "    return { poured = poured } end }",
                 cases[i].line);
        put_text(engine, LML_PUT_RECIPE, "t", recipe);
        char *result = run_text(engine,
                                "{ \"recipe\": \"t\", \"given\": { \"wax\": \"2 g\", "
                                "\"tray\": \"30 g\", \"pieces\": 3 } }",
                                &e);
        cr_assert(result, "%s", e.message);
        expect_blank(result, cases[i].line, cases[i].blank);
        free(result);
    }
}

/* 2 g × 15 / 6 = 5 g, in as many bytes as the ellipsis has. */
Test(withheld, of_a_caution_the_figure_alone_goes)
{
    static const char recipe[] =
        "return recipe { title = \"t\", version = \"1\", level = 1,\n"
        "  asks = { wax = ask.mass { \"Wax\" } }, gives = { poured = give.mass \"p\" },\n"
        "  work = function (job, house, sheet)\n"
        "    local poured = job.wax * 15\n"
        "    sheet:stop(\"no\", \"No\")\n"
        "    sheet:caution(\"hot\", text.fill(\"Hot: {p} of metal\", { p = poured / 6 }))\n"
        "    return { poured = poured } end }";
    lml_error e;
    put_text(engine, LML_PUT_RECIPE, "t", recipe);
    char *result = run_text(engine, "{ \"recipe\": \"t\", \"given\": { \"wax\": \"2 g\" } }", &e);
    cr_assert(result, "%s", e.message);
    expect_in(result, "\"Hot: \xE2\x80\xA6 of metal\"");
    free(result);
}

/* A text that is given is withheld like a figure: alone or in a list, filled or joined. */
Test(withheld, a_text_that_is_given_is_told_by_what_it_came_from)
{
    static const struct {
        const char *text;
        bool withheld;
    } cases[] = {
        {"\"is \" .. tostring(poured)", true},
        {"\"is \" .. tostring(poured / 2)", true},
        {"text.fill(\"is {p}\", { p = poured })", true},
        {"\"is \" .. tostring(job.tray)", false},
        {"text.fill(\"is {t}\", { t = job.tray })", false},
        {"\"too much\"", false},
    };
    for (size_t i = 0; i < 2 * (sizeof cases / sizeof *cases); i++) {
        bool list = i % 2;
        char recipe[2000];
        lml_error e;
        snprintf(recipe, sizeof recipe,
                 "return recipe { title = \"t\", version = \"1\", level = 1,\n"
                 "  asks = { wax = ask.mass { \"Wax\" }, tray = ask.mass { \"Tray\" } },\n"
                 "  gives = { poured = give.mass \"p\", said = %s },\n"
                 "  work = function (job, house, sheet) local poured = job.wax * 15.37\n"
                 "    sheet:stop(\"no\", \"No\", { \"poured\" })\n"
                 "    return { poured = poured, said = %s%s%s } end }",
                 list ? "give.list { \"s\", of = give.text \"t\" }" : "give.text \"s\"",
                 list ? "{ " : "", cases[i / 2].text, list ? " }" : "");
        put_text(engine, LML_PUT_RECIPE, "t", recipe);
        char *result = run_text(engine,
                                "{ \"recipe\": \"t\", \"given\": { \"wax\": \"2 g\", "
                                "\"tray\": \"30 g\" } }",
                                &e);
        cr_assert(result, "%s", e.message);
        expect_in(result, cases[i / 2].withheld ? "\"withheld\":[\"poured\",\"said\"]"
                                                : "\"withheld\":[\"poured\"]");
        free(result);
    }
}
