/* House rules: what a studio's rule may do to a result, and what it may not. */
#include "shipped.h"

static void put_rule(lml_engine *engine, const char *name, const char *text)
{
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_OWN_RECIPE, name, text, strlen(text), name, &e),
                 LML_OK, "%s", e.message);
}

#define RING                                                                                       \
    "{\"recipe\":\"oversize\",\"given\":{\"rings\":[{\"name\":\"a\",\"size\":\"US "                \
    "6\",\"width\":\"7 mm\"}]%s}}"

static cJSON *ring(lml_engine *engine, const char *more)
{
    char job[300];
    snprintf(job, sizeof job, RING, more);
    return shipped_run(engine, job);
}

static double finished_of(const cJSON *result)
{
    const cJSON *rings = shipped_value(cJSON_GetObjectItem(result, "results"), "rings_made");
    cr_assert(rings);
    const cJSON *one = cJSON_GetObjectItem(cJSON_GetArrayItem(rings, 0), "value");
    return shipped_value(one, "finished")->valuedouble;
}

static int count_of(const cJSON *result, const char *level)
{
    int count = 0;
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItem(result, "remarks")) count +=
        strcmp(cJSON_GetObjectItem(remark, "level")->valuestring, level) == 0;
    return count;
}

static const cJSON *house_rule_of(const cJSON *result, const char *name)
{
    const cJSON *worked;
    cJSON_ArrayForEach(worked, cJSON_GetObjectItem(result, "worked"))
    {
        const cJSON *recipe = cJSON_GetObjectItem(worked, "recipe");
        if (recipe && strcmp(recipe->valuestring, name) == 0)
            return cJSON_GetObjectItem(worked, "house_rule");
    }
    return NULL;
}

Test(rules, a_house_answers_and_the_result_says_so)
{
    lml_engine *engine = shipped_engine();
    cJSON *before = ring(engine, "");
    cr_expect_not(house_rule_of(before, "rule_widen"));
    put_rule(engine, "rule_widen",
             "return rule \"widen\" { version = \"1.0.0\", title = \"Ours\","
             " asks = { swollen = ask.yes_no { \"Swollen\", default = false, source = \"no\" } },"
             " work = function(job) return { sizes_more = job.swollen and 1.25 or 0.25, of = "
             "\"US\" } end }");
    cJSON *same = ring(engine, ""), *swollen = ring(engine, ",\"swollen\":true");
    cr_expect_float_eq(finished_of(same), finished_of(before),
                       1e-9); /* lemel's own adds a quarter too */
    /* One US size is 0.8128 mm of the inside diameter: 0.032 in, Ring size (encyclopaedia article
     * with charts). */
    cr_expect_float_eq(finished_of(swollen) - finished_of(same), 0.8128, 0.0011);
    cr_assert(house_rule_of(same, "rule_widen"));
    cr_expect_str_eq(house_rule_of(same, "rule_widen")->valuestring, "Ours");
    cJSON_Delete(before);
    cJSON_Delete(same);
    cJSON_Delete(swollen);
    lml_engine_free(engine);
}

/* What a point is told may grow: a rule that was written for less goes on. */
Test(rules, a_point_that_is_told_more)
{
    static char text[1 << 16], more[1 << 16];
    lml_engine *engine = shipped_engine();
    FILE *file = fopen(LML_SOURCE_DIR "/scripts/rule_points.lua", "rb");
    cr_assert(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    static const char told[] = "asks = { size = ask.ring_size { \"Size as ordered\" }, width = "
                               "ask.length { \"Width of the band\" },";
    char *at = strstr(text, told);
    cr_assert(at, "the point widen is told otherwise");
    snprintf(more, sizeof more,
             "%.*sasks = { hand = ask.text { \"Which hand\", optional = true },%s",
             (int)(at - text), text, at + strlen("asks = {"));
    put_rule(
        engine, "rule_widen",
        "return rule \"widen\" { version = \"1.0.0\", work = function() return { sizes_more = 0, "
        "of = \"US\" } end }");
    cJSON *before = ring(engine, "");
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_SCRIPT, "rule_points", more, strlen(more),
                                "rule_points.lua", &e),
                 LML_OK);
    cJSON *after = ring(engine, "");
    cr_expect_float_eq(finished_of(before), finished_of(after), 1e-12);
    cJSON_Delete(before);
    cJSON_Delete(after);
    lml_engine_free(engine);
}

#define FLASK                                                                                      \
    "{\"recipe\":\"flask\",\"given\":{\"tree\":{\"diameter\":\"42 mm\",\"height\":\"38 "           \
    "mm\",\"foot\":\"9 mm\",\"wax\":\"1 g\"}},"                                                    \
    "\"house\":{\"flasks\":[{\"name\":\"A\",\"diameter\":\"63.5 mm\",\"height\":\"63.5 "           \
    "mm\",\"cone\":\"12 mL\"}]}}"

/* A rule that stops withholds what rests on it, and hides no caution. */
Test(rules, a_stop_hides_no_caution)
{
    lml_engine *engine = shipped_engine();
    cJSON *before = shipped_run(engine, FLASK);
    put_rule(engine, "rule_water",
             "return rule \"water\" { version = \"1.0.0\", work = function(job, house, sheet)"
             " sheet:stop(\"no\", \"No water today\") return { ratio = job.usual_ratio } end }");
    cJSON *after = shipped_run(engine, FLASK);
    cr_expect_gt(count_of(before, "caution"), 0);
    cr_expect_eq(count_of(after, "caution"), count_of(before, "caution"));
    cr_expect_eq(count_of(before, "stop"), 0);
    cr_expect_eq(count_of(after, "stop"),
                 2); /* the rule's own, and what the recipe withholds by it */
    cJSON_Delete(before);
    cJSON_Delete(after);
    lml_engine_free(engine);
}

#define QUOTE                                                                                      \
    "{\"recipe\":\"quote\",\"date\":\"2026-11-24T10:00\",\"given\":{\"finished\":\"10 "            \
    "g\",\"fineness\":\"750 ‰ Au\","                                                             \
    "\"hours\":{\"bench\":\"3 h\"}},\"house\":{\"prices\":{\"Au\":{\"price\":\"90 "                \
    "EUR/g\",\"at\":\"2026-11-24T09:00\","                                                         \
    "\"from\":\"test\"}},\"rates\":{\"bench\":\"60 EUR/h\"},\"overhead\":\"18 "                    \
    "EUR/h\",\"premium\":\"2 %%\",\"markup\":\"20 %%\","                                           \
    "\"place\":\"nowhere\",\"tax_rate\":\"0 %%\",\"tax_law\":\"none\"}}"

static int cost_lines(const cJSON *entries)
{
    int count = 0;
    const cJSON *entry;
    cJSON_ArrayForEach(entry, entries)
    {
        const char *is = cJSON_GetObjectItem(entry, "is")->valuestring;
        const cJSON *label = cJSON_GetObjectItem(entry, "label");
        count += strcmp(is, "part") == 0 ? cost_lines(cJSON_GetObjectItem(entry, "entries")) : 0;
        count += label && (strcmp(label->valuestring, "Hours") == 0 ||
                           strcmp(label->valuestring, "Fine metal") == 0 ||
                           strcmp(label->valuestring, "Overhead") == 0 ||
                           strcmp(label->valuestring, "Cost") == 0);
    }
    return count;
}

Test(rules, a_stop_hides_no_line_of_the_cost_sheet)
{
    static const char *const names[] = {"rule_hours",   "rule_making",     "rule_said",
                                        "rule_deposit", "rule_more_lines", "rule_minimum"};
    char job[2000], text[300];
    snprintf(job, sizeof job, QUOTE);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        lml_engine *engine = shipped_engine();
        snprintf(text, sizeof text,
                 "return rule \"%s\" { version = \"1.0.0\", work = function(job, house, sheet)"
                 " sheet:stop(\"no\", \"Not today\") return {} end }",
                 names[i] + strlen("rule_"));
        put_rule(engine, names[i], text);
        cJSON *result = shipped_run(engine, job);
        cr_expect_eq(cost_lines(cJSON_GetObjectItem(cJSON_GetObjectItem(result, "sheets"), "cost")),
                     4, "%s", names[i]);
        cr_expect_not(shipped_value(cJSON_GetObjectItem(result, "results"), "price"), "%s",
                      names[i]);
        cJSON_Delete(result);
        lml_engine_free(engine);
    }
}
