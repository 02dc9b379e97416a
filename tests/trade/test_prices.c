/* A price list that has been kept for years: a job finds the price of its day in it, and its result
 * holds what stood, not the years. */
#include "shipped.h"

enum { YEARS = 10, A_DAY = 2, DAYS = 365 * YEARS, MOST_BYTES = 4 << 20 };

/* Two prices a day from 2016-01-01 on: on the morning of day d gold stands at 50 + d / 100 EUR/g,
 * and half a cent higher in the afternoon. A month has 28 days here, so that every date is one. */
static char *price_list(int days)
{
    char *text = malloc(MOST_BYTES);
    size_t at = (size_t)sprintf(text, "{ \"prices\": { \"Au\": { ");
    for (int i = days * A_DAY + A_DAY - 1; i >= 0; i--) {
        int day = i / A_DAY, month = day / 28;
        if (i == days * A_DAY + A_DAY - 2)
            at += (size_t)sprintf(text + at, ", \"history\": [\n{ ");
        at += (size_t)sprintf(text + at,
                              "\"price\": \"%.3f EUR/g\", \"at\": \"%d-%02d-%02dT%s\", \"from\": "
                              "\"refiner, buying\"",
                              50 + day / 100.0 + (i % A_DAY) * 0.005, 2016 + month / 12,
                              month % 12 + 1, day % 28 + 1, i % A_DAY ? "16:00" : "09:00");
        if (i < days * A_DAY + A_DAY - 1)
            at += (size_t)sprintf(text + at, i > 0 ? " },\n{ " : " } ]");
        cr_assert_lt(at, (size_t)MOST_BYTES - 1000);
    }
    sprintf(text + at, " } } }");
    return text;
}

static cJSON *work(lml_engine *engine, const char *date, const char *list, size_t *length)
{
    char job[600];
    lml_text text;
    lml_error e;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_PRICES, NULL, list, strlen(list), "prices.json", &e), LML_OK,
        "%s", e.message);
    snprintf(
        job, sizeof job,
        "{ \"recipe\": \"old_metal\", \"date\": \"%s\", \"given\": { \"pieces\": [ { \"name\": "
        "\"ring\", \"stamp\": \"18K\", \"gross\": \"12 g\" } ] }, \"house\": { "
        "\"scale_spread\": \"0.01 g\", \"credit_share\": \"90 %%\", \"refiner\": { \"yield\": "
        "\"99 %%\", \"payable\": \"99 %%\", \"fee\": \"42 EUR\" } } }",
        date);
    cr_assert_eq(lml_engine_run(engine, job, strlen(job), "job", &text, &e), LML_OK, "%s (%s)",
                 e.message, e.hint);
    *length = text.length;
    cJSON *result = cJSON_Parse(text.text);
    lml_text_free(engine, &text);
    return result;
}

static char *setting_of_prices(const cJSON *result)
{
    const cJSON *settings = cJSON_GetObjectItemCaseSensitive(result, "settings");
    return cJSON_PrintUnformatted(cJSON_GetObjectItemCaseSensitive(settings, "old_metal.prices"));
}

Test(prices, ten_years_of_them_neither_stop_a_job_nor_stand_in_its_result)
{
    lml_engine *engine = shipped_engine();
    char *years = price_list(DAYS), *week = price_list(7);
    size_t long_result, short_result, late_result;
    /* 2016-01-05, which is day 4 of both lists: 9 g of gold at 50.04 EUR/g in the morning; a date
     * without a time of day is the whole day, and takes the afternoon's 50.045. */
    cJSON *of_week = work(engine, "2016-01-05T10:00", week, &short_result);
    cJSON *of_years = work(engine, "2016-01-05T10:00", years, &long_result);
    cr_expect_str_eq(shipped_give(of_years, "melt_value")->valuestring, "450.36");
    cr_expect(cJSON_Compare(cJSON_GetObjectItem(of_week, "results"),
                            cJSON_GetObjectItem(of_years, "results"), true));
    cr_expect(cJSON_Compare(cJSON_GetObjectItem(of_week, "sheets"),
                            cJSON_GetObjectItem(of_years, "sheets"), true));
    cr_expect_lt(long_result, short_result + 100, "%zu bytes for ten years, %zu for a week",
                 long_result, short_result);
    char *stood = setting_of_prices(of_years);
    cr_expect(strstr(stood, "\"50.04 EUR/g\"") && !strstr(stood, "\"50.03 EUR/g\"") &&
                  !strstr(stood, "\"50.045 EUR/g\"") && !strstr(stood, "\"50.05 EUR/g\""),
              "%s", stood);
    cJSON_free(stood);
    cJSON_Delete(of_years);
    of_years = work(engine, "2016-01-05", years, &long_result);
    cr_expect_str_eq(shipped_give(of_years, "melt_value")->valuestring, "450.41");
    stood = setting_of_prices(of_years);
    cr_expect(strstr(stood, "\"50.045 EUR/g\"") && !strstr(stood, "\"50.04 EUR/g\""), "%s", stood);
    cJSON_free(stood);
    /* After the last entry no former price is used, and none is written. */
    cJSON *latest = work(engine, "2030-01-01", years, &late_result);
    stood = setting_of_prices(latest);
    cr_expect(strstr(stood, "\"history\":{\"kind\":\"list\",\"value\":[]}"), "%s", stood);
    cJSON_free(stood);
    cJSON_Delete(of_week);
    cJSON_Delete(of_years);
    cJSON_Delete(latest);
    lml_engine_free(engine);
    free(years);
    free(week);
}
