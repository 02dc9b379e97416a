/* What scripts/learning.lua makes of readings, against what is printed of the same readings. */
#include "reference.h"
#include "shipped.h"

static double reckon(lml_engine *engine, const char *expression)
{
    char whole[900];
    snprintf(whole, sizeof whole, "(function() local l = require 'learning' return %s end)()",
             expression);
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_reckon(engine, whole, NULL, 0, &text, &e), LML_OK, "%s: %s", whole,
                 e.message);
    double value = strtod(text.text, NULL);
    lml_text_free(engine, &text);
    return value;
}

/* What to reckon for a row, with `list`, `chance`, ... in it; NULL for no such case. */
static const char *case_of(const char *name)
{
    static const struct {
        const char *name, *expression;
    } cases[] = {
        {"mean", "l.summary(list).mean"},
        {"deviation", "l.summary(list).deviation"},
        {"median", "l.median(list)"},
        {"enough", "l.enough(l.summary(list), chance)"},
        {"toward", "l.toward(l.summary(list), old, weight)"},
        {"distance", "l.distances(list)[place]"},
        {"apart", "sum(l.apart(list), function(is) return is and 1 or 0 end)"},
        {"where", "(function() for i, is in ipairs(l.apart(list)) do "
                  "if is then return i end end end)()"},
        {"grubbs", "l.grubbs_limit(n)"},
        {"doubt", "l.doubt { n = n, mean = mean, deviation = deviation }"},
        {"difference", "(l.difference({ n = n, mean = mean, deviation = deviation }, "
                       "{ n = other_n, mean = other_mean, deviation = other_deviation }))"},
        {"chance", "select(2, l.difference({ n = n, mean = mean, deviation = deviation }, "
                   "{ n = other_n, mean = other_mean, deviation = other_deviation }))"},
        /* the doubt of a bound less that of a mean, by their squares, for one of spread */
        {"spread_of_spread", "(function() local s = { n = n, mean = 0, deviation = 1 } "
                             "return 100 * root(l.doubt_of_enough(s)^2 - l.doubt(s)^2) "
                             "/ (l.reach(s) * craft.student_quantile(0.975, n - 1)) end)()"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        if (strcmp(cases[i].name, name) == 0)
            return cases[i].expression;
    return NULL;
}

Test(learning, reference)
{
    lml_engine *engine = shipped_engine();
    ref_table *t = ref_open("learning.tsv");
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        const char *name = ref_cell(row, "case"), *of = case_of(name);
        if (!of)
            ref_fail("%s: no case %s", ref_where(row), name);
        char expression[800] = "(function()";
        for (int k = 0; k < row->inputs; k++) {
            const char *input = row->input[k].name, *value = ref_input_text(row, input);
            bool list = strcmp(input, "list") == 0;
            size_t at = strlen(expression);
            snprintf(expression + at, sizeof expression - at, " local %s = %s%s%s", input,
                     list ? "{" : "", value, list ? "}" : "");
        }
        size_t at = strlen(expression);
        snprintf(expression + at, sizeof expression - at, " return %s end)()", of);
        ref_expect(row, reckon(engine, expression));
        ref_end_row(row);
    }
    lml_engine_free(engine);
}

/* What the recipe says is to stand in house.json: a house of that line alone, and the setting that
 * a job of need then has from it. */
static void check_line(lml_engine *engine, const char *allowance, const char *setting)
{
    char text[1000];
    snprintf(text, sizeof text,
             "{\"recipe\": \"learn\", \"given\": {\"allowance\": \"%s\", \"jobs\": [", allowance);
    for (int i = 0; i < 6; i++) {
        size_t at = strlen(text);
        snprintf(text + at, sizeof text - at,
                 "%s{\"job\": \"%d\", \"predicted\": \"10 g\", \"actual\": \"10.%d g\"}",
                 i ? ", " : "", i, 5 + i % 5);
    }
    strcat(text, "]}}");
    cJSON *result = shipped_run(engine, text);
    const cJSON *line = shipped_give(result, "line");
    cr_assert(line, "no line for %s", allowance);
    snprintf(text, sizeof text, "{ %s }", line->valuestring);
    cJSON_Delete(result);

    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_HOUSE, NULL, text, strlen(text), "house.json", &e),
                 LML_OK, "%s: %s", text, e.message);
    result = shipped_run(engine, "{\"recipe\": \"need\", \"given\": {\"wax\": \"2 g\", \"sprues\": "
                                 "\"0.3 g\", \"metal\": \"Au750 yellow 3N\"}, "
                                 "\"house\": {\"button\": \"9 g\", \"crucible\": \"6 cm3\"}}");
    char *settings = cJSON_PrintUnformatted(cJSON_GetObjectItemCaseSensitive(result, "settings"));
    cr_expect(strstr(settings, setting), "%s: %s", text, settings);
    cJSON_free(settings);
    cJSON_Delete(result);
}

Test(learning, the_line_is_as_the_house_takes_it)
{
    lml_engine *engine = shipped_engine();
    check_line(engine, "need.history",
               "\"need.history\":{\"kind\":\"record\",\"value\":{\"median\":{\"kind\":\"ratio\","
               "\"value\":106.5,");
    check_line(engine, "need.piece_spread",
               "\"need.piece_spread\":{\"kind\":\"ratio\",\"value\":106.7,\"unit\":\"%\",\"text\":"
               "\"106.7 % ± 2.2 %\",\"sd\":2.2,\"from\":\"house\"}");
    lml_engine_free(engine);
}
