/* One answer to one question of a recipe: which question, how it is read, how it is told. */
#include "worked.h"

static const char WAX[] =
    "return recipe { title = \"Wax\", version = \"1.0.0\", level = 2, licence = \"CC0-1.0\",\n"
    "  asks = {\n"
    "    wax = ask.mass{ \"Finished wax\", from = \"0.02 g\", to = \"500 g\" },\n"
    "    hours = ask.number{ \"Hours at the bench\", from = 0, optional = true },\n"
    "    way = ask.choice{ \"Way\", options = { \"carved\", \"cast\" }, optional = true },\n"
    "    metal = ask.alloy{ \"Metal\", optional = true },\n"
    "    due = ask.moment{ \"Due\", optional = true },\n"
    "    old_metal = ask.list{ \"Old metal\", optional = true, of = ask.record{ fields = {\n"
    "      gross = ask.mass{ \"Gross\" }, given = ask.yes_no{ \"Given\", optional = true } } } },\n"
    "    weights = ask.by_name{ \"Weights\", optional = true, of = ask.mass{ \"One\" } },\n"
    "  },\n"
    "  allowances = { loss = ask.ratio{ \"Loss\", from = \"0 %\", to = \"50 %\", default = \"5 "
    "%\",\n"
    "    source = \"common practice, no source\" } },\n"
    "  gives = { weight = ask.mass{ \"The wax\" } },\n"
    "  work = function(job) return { weight = job.wax } end,\n"
    "}\n";
static const char HOUSE[] =
    "{ \"name\": \"Studio\", \"currency\": \"USD\", \"units\": { \"mass\": \"dwt\", "
    "\"mass_bench\": \"g\" },\n"
    "  \"stock\": { \"Own red\": { \"composition\": { \"Au\": \"585 ‰\", \"Cu\": \"415 ‰\" } } } "
    "}\n";

static lml_engine *engine;

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
    put_text(engine, LML_PUT_RECIPE, "wax", WAX);
    put_text(engine, LML_PUT_HOUSE, NULL, HOUSE);
}

static void close_engine(void)
{
    lml_engine_free(engine);
}

TestSuite(answer, .init = open_engine, .fini = close_engine);

static void expect_answer(const char *field, const char *text, const char *json)
{
    lml_text out = {.text = NULL};
    lml_error e = {.message = ""};
    lml_status status = lml_engine_check_value(engine, "wax", field, text, &out, &e);
    cr_expect(status == LML_OK && strncmp(out.text, json, strlen(json)) == 0, "%s %s: %s", field,
              text, status ? e.message : out.text);
    lml_text_free(engine, &out);
}

static void expect_refusal(const char *field, const char *text, lml_status wanted,
                           const char *message, const char *hint)
{
    lml_text out = {.text = NULL};
    lml_error e = {.message = ""};
    lml_status status = lml_engine_check_value(engine, "wax", field, text, &out, &e);
    cr_expect_eq(status, wanted, "%s %s: %s", field, text, status ? e.message : out.text);
    cr_expect(strstr(e.message, message) && strstr(e.hint, hint), "%s %s: %s (%s)", field, text,
              e.message, e.hint);
    cr_expect_null(out.text);
}

/* The troy ounce is 31.1034768 g exactly: NIST SP 811 (2008), Appendix B.8. */
Test(answer, is_told_in_the_unit_of_the_house)
{
    expect_answer("wax", "0.481 ozt",
                  "{\"given\":\"0.481 ozt\",\"kind\":\"mass\",\"value\":0.481,\"unit\":\"ozt\","
                  "\"text\":\"14.96 g\"}");
    expect_answer("wax", "12.50 g",
                  "{\"given\":\"12.50 g\",\"kind\":\"mass\",\"value\":12.5,\"unit\":\"g\","
                  "\"text\":\"12.5 g\"}");
}

Test(answer, is_read_as_its_question_reads)
{
    expect_answer("hours", "2.5", "{\"given\":2.5,\"kind\":\"number\",\"value\":2.5,");
    expect_answer("way", "cast", "{\"given\":\"cast\",\"kind\":\"text\",\"value\":\"cast\"}");
    expect_answer("metal", "Own red", "{\"given\":\"Own red\",\"kind\":\"alloy\",");
    expect_answer("due", "2026-11-24", "{\"given\":\"2026-11-24\",\"kind\":\"moment\",");
    expect_answer("old_metal[0].gross", "3 dwt", "{\"given\":\"3 dwt\",\"kind\":\"mass\",");
    expect_answer("old_metal[12].given", "true", "{\"given\":true,\"kind\":\"yes_no\",");
    expect_answer("old_metal[1]", "{ \"gross\": \"3 g\" }",
                  "{\"given\":{ \"gross\": \"3 g\" },\"kind\":\"record\",");
    expect_answer("weights.\"a ring\"", "3 g", "{\"given\":\"3 g\",\"kind\":\"mass\",");
    expect_answer("house.loss", "4 %", "{\"given\":\"4 %\",\"kind\":\"ratio\",");
    expect_answer("house.wax.loss", "4 %", "{\"given\":\"4 %\",\"kind\":\"ratio\",");
}

Test(answer, that_cannot_be_read_says_why)
{
    expect_refusal("wax", "12,5 g", LML_BAD_VALUE, "", "12.5");
    expect_refusal("wax", "0.01 g", LML_BAD_VALUE, "0.02 g", "");
    expect_refusal("wax", "12.5 mm", LML_BAD_VALUE, "", "");
    expect_refusal("wax", "", LML_BAD_VALUE, "", "");
    expect_refusal("way", "crved", LML_BAD_VALUE, "", "carved");
    expect_refusal("metal", "Own rde", LML_BAD_VALUE, "no alloy is called", "Own red");
    expect_refusal("old_metal[0]", "{}", LML_BAD_DATA, "gross", "");
    expect_refusal("house.loss", "60 %", LML_BAD_VALUE, "", "");
}

Test(answer, to_no_question_is_refused)
{
    expect_refusal("waxs", "1 g", LML_NOT_FOUND, "wax has no ask called \"waxs\"", "'wax'");
    expect_refusal("old_metal[0].grosss", "1 g", LML_NOT_FOUND, "", "'gross'");
    expect_refusal("old_metal.gross", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("old_metal[].gross", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("old_metal[0", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("wax[0]", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("wax.", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("weights.", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("\"wax", "1 g", LML_NOT_FOUND, "", "");
    expect_refusal("house.losss", "4 %", LML_NOT_FOUND, "", "'loss'");
    expect_refusal("house.wax", "4 %", LML_NOT_FOUND, "", "");
    lml_text out = {.text = NULL};
    lml_error e;
    cr_expect_eq(lml_engine_check_value(engine, "none", "wax", "1 g", &out, &e), LML_NOT_FOUND);
}
