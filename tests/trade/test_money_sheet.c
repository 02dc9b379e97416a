/* Money on sheets: what is printed adds up, whatever the job; markup and margin invert; a price
 * looked at again at its own metal price does not move; taxes are those the laws print; a lying tax
 * is stopped. */
#include "reference.h"
#include "shipped.h"

enum { JOB = 6000, JOBS = 300 };

/* ---- figures out of a result ---- */

/* Whole cents of a money datum; a tail of a cent is a failure. */
static long cents(const cJSON *value)
{
    cr_assert(cJSON_IsString(value), "a money is a text");
    const char *text = value->valuestring, *point = strchr(text, '.');
    cr_assert(point && strlen(point) == 3, "%s has not two decimals", text);
    long whole = labs(strtol(text, NULL, 10)), part = strtol(point + 1, NULL, 10);
    return (*text == '-' ? -1 : 1) * (whole * 100 + part);
}

static long cents_of(const cJSON *result, const char *give)
{
    const cJSON *value = shipped_give(result, give);
    cr_assert(value, "%s is not given", give);
    return cents(value);
}

static const char *text_of(const cJSON *record, const char *name)
{
    const cJSON *member = cJSON_GetObjectItemCaseSensitive(record, name);
    return cJSON_IsString(member) ? member->valuestring : "";
}

static bool has_remark(const cJSON *result, const char *code)
{
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItemCaseSensitive(
                                   result, "remarks")) if (strcmp(text_of(remark, "code"), code) ==
                                                           0) return true;
    return false;
}

/* Every total of the page is the sum of the money lines above it, the total before it among them,
 * down to the total that is called `last`. Returns how many totals there were. */
static int check_page(const cJSON *result, const char *name, const char *last)
{
    const cJSON *page = cJSON_GetObjectItemCaseSensitive(
                    cJSON_GetObjectItemCaseSensitive(result, "sheets"), name),
                *part = cJSON_GetArrayItem(page, 0), *entry;
    long sum = 0;
    int totals = 0;
    if (strcmp(text_of(part, "is"), "part") == 0) /* a recipe that lets another write its page */
        page = cJSON_GetObjectItemCaseSensitive(part, "entries");
    cJSON_ArrayForEach(entry, page)
    {
        const cJSON *datum = cJSON_GetObjectItemCaseSensitive(entry, "value");
        if (!datum || strcmp(text_of(datum, "kind"), "money") != 0)
            continue;
        long amount = cents(cJSON_GetObjectItemCaseSensitive(datum, "value"));
        if (strcmp(text_of(entry, "is"), "total") != 0) {
            sum += amount;
            continue;
        }
        totals++;
        cr_expect_eq(sum, amount, "%s, %s: the lines come to %ld cents, and %ld are printed", name,
                     text_of(entry, "label"), sum, amount);
        sum = amount;
        if (strcmp(text_of(entry, "label"), last) == 0)
            break;
    }
    return totals;
}

/* ---- random jobs ---- */

static unsigned long state;

static unsigned long dice(unsigned long sides)
{
    state = state * 6364136223846793005UL + 1442695040888963407UL;
    return (state >> 33) % sides;
}

typedef struct place {
    const char *code, *currency, *rounding;
} place;

static const place places[] = {{"CA-ON", "CAD", "half up"}, {"CA-QC", "CAD", "half even"},
                               {"NZ", "NZD", "up"},         {"AU", "AUD", "half down"},
                               {"GB", "GBP", "down"},       {"CA-NS", "CAD", "half up"}};
static const char *const bases[] = {"full subtotal", "net of credit"};
static const char *const steps[] = {"0.01", "0.05", "1", "5", "10"};

static void write_job(char *out, const char *recipe)
{
    const place *p = &places[dice(6)];
    const char *c = p->currency;
    bool credited = dice(2) == 0, worked = !credited && dice(2) == 0;
    int n =
        snprintf(out, JOB,
                 "{\"recipe\":\"%s\",\"date\":\"2026-11-24T10:00\",\"given\":{\"finished\":\"%lu.%"
                 "02lu g ± 0.1 g\","
                 "\"fineness\":\"%lu ‰ Au\",\"hours\":{\"wax\":\"%lu min\",\"setting\":\"%lu "
                 "min\",\"finish\":\"%lu min\"},"
                 "\"consumables\":\"%lu.%02lu %s\",\"outside\":{\"postage\":\"%lu.35 %s\"},"
                 "\"flask_cost\":{\"cost\":\"%lu.%02lu %s\",\"pieces\":[{\"mass\":\"%lu "
                 "g\",\"own\":true},{\"mass\":\"7 g\"},{\"mass\":\"3 g\"}]},"
                 "\"stones\":[{\"kind\":\"spinel\",\"count\":%lu,\"cost\":\"%lu.%02lu %s\"},"
                 "{\"kind\":\"opal\",\"owner\":\"client\",\"value\":\"150 %s\"}],"
                 "\"quoted\":{\"price\":\"%lu.%02lu %s/g\",\"at\":\"2026-11-24T09:00\"}",
                 recipe, 1 + dice(40), dice(100), 333 + dice(667), dice(600), dice(200), dice(400),
                 dice(30), dice(100), c, dice(20), c, 10 + dice(30), dice(100), c, 1 + dice(20),
                 1 + dice(5), 5 + dice(200), dice(100), c, c, 60 + dice(80), dice(100), c);
    if (credited || worked)
        n += snprintf(out + n, (size_t)(JOB - n),
                      ",\"client_fine\":\"%lu.%03lu g Au ± 0.05 g Au\",\"client_metal\":\"%s\"",
                      1 + dice(8), dice(1000), credited ? "credited" : "worked");
    n += snprintf(
        out + n, (size_t)(JOB - n),
        "},\"house\":{\"prices\":{\"Au\":{\"price\":\"140 "
        "%s/g\",\"at\":\"2026-11-25T09:00\",\"from\":\"test\"}},"
        "\"band\":\"400 %%\",\"rates\":{\"bench\":\"%lu %s/h\",\"setting\":\"%lu.50 "
        "%s/h\"},\"overhead\":\"%lu %s/h\","
        "\"premium\":\"%lu %%\",\"alloy_price\":\"1.%02lu %s/g\",\"%s\":\"%lu %%\",\"risk\":\"%lu "
        "%%\",\"stone_markup\":\"%lu %%\","
        "\"stone_risk\":{\"spinel\":\"0.3 %%\",\"opal\":\"5 %%\"},\"credit_share\":\"%lu "
        "%%\",\"deposit_share\":\"%lu %%\","
        "\"place\":\"%s\",\"tax_base\":\"%s\",\"tax_per\":\"%s\",\"tax_apart\":%s,"
        "\"rounding\":{\"rule\":\"%s\",\"step\":\"%s %s\",\"of\":\"%s\"},\"minimum\":\"%lu %s\"}}",
        c, 40 + dice(60), c, 50 + dice(60), c, 10 + dice(30), c, dice(10), dice(100), c,
        dice(2) ? "markup" : "margin", dice(90), dice(8), dice(120), 60 + dice(35), dice(101),
        p->code, bases[dice(2)], dice(2) ? "invoice" : "line", dice(2) ? "true" : "false",
        p->rounding, steps[dice(5)], c, dice(2) ? "total" : "price before tax", dice(900), c);
    cr_assert_lt(n, JOB);
}

/* Lines to subtotal, subtotal to price, deposit and rest to price, costs to cost; and quoted again
 * at its own price nothing moves (the list's price lies within the wide band). */
static int check_quote(const cJSON *result)
{
    if (!shipped_give(result, "price"))
        return 0;
    long price = cents_of(result, "price");
    cr_expect_eq(check_page(result, "client", "Total to pay"), 2,
                 "a client's page has a subtotal and a price");
    cr_expect_eq(check_page(result, "cost", "Cost"), 1, "a cost page has a total");
    cr_expect_eq(cents_of(result, "subtotal") - cents_of(result, "credit") +
                     cents_of(result, "tax") + cents_of(result, "rounded_by"),
                 price);
    cr_expect_eq(cents_of(result, "deposit") + cents_of(result, "balance"), price);
    cr_expect_eq(cents_of(result, "price_today"), price, "at its own price a quote moves");
    const cJSON *line;
    long sum = 0;
    cJSON_ArrayForEach(line, shipped_give(result, "lines")) sum +=
        cents(shipped_member(line, "amount"));
    cr_expect_eq(sum, cents_of(result, "subtotal"));
    return 1;
}

Test(money_sheet, lines_sum_to_totals_in_any_quote)
{
    static const char *const ways[] = {"quote", "quote_own_metal"};
    lml_engine *engine = shipped_engine();
    char job[JOB];
    int priced = 0;
    state = 20261124;
    for (int i = 0; i < JOBS; i++) {
        write_job(job, ways[i % 2]);
        cJSON *result = shipped_run(engine, job);
        priced += check_quote(result);
        cJSON_Delete(result);
    }
    cr_expect_gt(priced, JOBS / 2, "only %d jobs came to a price", priced);
    lml_engine_free(engine);
}

/* ---- one amount of work ---- */

#define WORK                                                                                       \
    "\"date\":\"2026-11-24T10:00\",\"given\":{\"finished\":\"0 g\",\"fineness\":\"750 ‰ Au\""
#define HOUSE                                                                                      \
    "\"prices\":{\"Au\":{\"price\":\"90 EUR/g\",\"at\":\"2026-11-24T09:00\",\"from\":\"test\"}},"  \
    "\"rates\":{\"bench\":\"60 EUR/h\"},\"overhead\":\"0 EUR/h\",\"premium\":\"0 "                 \
    "%\",\"risk\":\"0 %\","                                                                        \
    "\"place\":\"nowhere\",\"tax_rate\":\"0 %\",\"tax_law\":\"none\""

static long price_at(lml_engine *engine, const char *profit)
{
    char job[JOB];
    snprintf(job, sizeof job,
             "{\"recipe\":\"quote\"," WORK
             ",\"hours\":{\"bench\":\"0 h\"},\"consumables\":\"123.45 EUR\"},\"house\":{%s,%s}}",
             HOUSE, profit);
    cJSON *result = shipped_run(engine, job);
    long price = cents_of(result, "price");
    cJSON_Delete(result);
    return price;
}

/* Markup u is margin u / (1 + u): the definitions of the two. */
Test(money_sheet, markup_and_margin_invert)
{
    lml_engine *engine = shipped_engine();
    static const double markups[] = {0, 5, 25, 33, 50, 100, 150, 400};
    for (size_t i = 0; i < sizeof markups / sizeof markups[0]; i++) {
        char markup[60], margin[60];
        double u = markups[i] / 100;
        snprintf(markup, sizeof markup, "\"markup\":\"%.17g %%\"", markups[i]);
        snprintf(margin, sizeof margin, "\"margin\":\"%.17g %%\"", 100 * u / (1 + u));
        long by_markup = price_at(engine, markup);
        cr_expect_eq(by_markup, price_at(engine, margin), "%s", markup);
        cr_expect_float_eq((double)by_markup, 12345 * (1 + u), 0.5 + 1e-9, "%s", markup);
    }
    lml_engine_free(engine);
}

/* What the pieces of a flask bear comes to its cost to the last cent, by mass, by volume and by
 * count. */
Test(money_sheet, a_flask_is_shared_without_a_rest)
{
    static const char *const by[] = {"mass", "volume", "count"};
    lml_engine *engine = shipped_engine();
    for (int way = 0; way < 3; way++) {
        long sum = 0;
        for (int own = 0; own < 3; own++) {
            char job[JOB];
            snprintf(job, sizeof job,
                     "{\"recipe\":\"quote\"," WORK
                     ",\"hours\":{\"bench\":\"0 h\"},\"flask_cost\":{\"cost\":\"22.00 "
                     "EUR\",\"shared_by\":\"%s\",\"pieces\":["
                     "{\"mass\":\"18.41 g\",\"volume\":\"1191 mm3\",\"count\":1,\"own\":%s},"
                     "{\"mass\":\"9.11 g\",\"volume\":\"589 mm3\",\"count\":1,\"own\":%s},"
                     "{\"mass\":\"6.21 g\",\"volume\":\"401 mm3\",\"count\":5,\"own\":%s}]}},"
                     "\"house\":{%s,\"markup\":\"0 %%\"}}",
                     by[way], own == 0 ? "true" : "false", own == 1 ? "true" : "false",
                     own == 2 ? "true" : "false", HOUSE);
            cJSON *result = shipped_run(engine, job);
            long part = cents_of(result, "price");
            cr_expect_gt(part, 0);
            sum += part;
            cJSON_Delete(result);
        }
        cr_expect_eq(sum, 2200, "by %s the parts come to %ld cents", by[way], sum);
    }
    lml_engine_free(engine);
}

/* Bench time by the begun quarter hour is one line of the house's settings. */
Test(money_sheet, quarter_hours_are_one_line)
{
#define HOURS                                                                                      \
    "{\"recipe\":\"quote\"," WORK                                                                  \
    ",\"hours\":{\"bench\":\"3 h\",\"wax\":\"5 min\"}},\"house\":{" HOUSE
    static const char plainly[] = HOURS ",\"markup\":\"0 %\"}}";
    static const char by_quarters[] = HOURS ",\"hours_step\":\"15 min\",\"markup\":\"0 %\"}}";
    lml_engine *engine = shipped_engine();
    cJSON *plain = shipped_run(engine, plainly), *rounded = shipped_run(engine, by_quarters);
    cr_expect_eq(cents_of(plain, "price"), 18500);   /* 3 h 5 min at 60 */
    cr_expect_eq(cents_of(rounded, "price"), 19500); /* 3 h and a begun quarter at 60 */
    cr_expect_eq(cents_of(rounded, "cost"), 18500);
    cJSON_Delete(plain);
    cJSON_Delete(rounded);
    lml_engine_free(engine);
}

/* ---- tax ---- */

Test(money_sheet, taxes_are_those_of_the_laws)
{
    lml_engine *engine = shipped_engine();
    ref_table *t = ref_open("taxes.tsv");
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        const char *c = ref_input_text(row, "currency"), *date = ref_input_text(row, "date");
        char job[JOB];
        snprintf(job, sizeof job,
                 "{\"recipe\":\"quote\",\"date\":\"%s\",\"given\":{\"finished\":\"0 "
                 "g\",\"fineness\":\"750 ‰ Au\"},\"house\":{"
                 "\"prices\":{\"Au\":{\"price\":\"90 "
                 "%s/g\",\"at\":\"%sT09:00\",\"from\":\"test\"}},\"rates\":{\"bench\":\"60 %s/h\"},"
                 "\"overhead\":\"0 %s/h\",\"premium\":\"0 %%\",\"markup\":\"0 "
                 "%%\",\"minimum\":\"%s %s\",\"place\":\"%s\"}}",
                 date, c, date, c, c, ref_input_text(row, "amount"), c,
                 ref_input_text(row, "place"));
        cJSON *result = shipped_run(engine, job);
        ref_expect(row, (double)cents_of(result, "tax") / 100);
        ref_end_row(row);
        cJSON_Delete(result);
    }
    lml_engine_free(engine);
}

/* A recipe of nobody's, which says what tax it likes; the gate looks at it. */
static cJSON *claim(lml_engine *engine, const char *house, const char *tax)
{
    char recipe[1000], job[1000];
    snprintf(recipe, sizeof recipe,
             "return recipe { title='x', version='1', licence='CC0-1.0', level=1, asks={ "
             "date=ask.moment{'d'} },"
             "allowances={ place=ask.text{'p'}, tax_rate=ask.ratio{'r',optional=true}, "
             "tax_law=ask.text{'l',optional=true},"
             "tax_rounding=ask.text{'r',optional=true} }, gives={ tax=give.money 't', "
             "taxed=give.money 'a' },"
             "work=function() return { tax=Q '%s', taxed=Q '100 CAD' } end, proofs={} }",
             tax);
    snprintf(job, sizeof job, "{\"recipe\":\"claim\",\"date\":\"2026-11-24\",\"house\":{%s}}",
             house);
    lml_error e;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "claim", recipe, strlen(recipe), "claim.lua", &e),
        LML_OK);
    return shipped_run(engine, job);
}

Test(money_sheet, a_lying_tax_is_stopped_whatever_the_recipe)
{
    static const struct {
        const char *house, *tax, *code;
    } cases[] = {
        {"\"place\":\"CA-ON\"", "13 CAD", NULL},
        {"\"place\":\"CA-ON\"", "12.99 CAD", "claim/tax"},
        {"\"place\":\"Atlantis\"", "13 CAD", "claim/tax-unknown"},
        {"\"place\":\"Atlantis\",\"tax_rate\":\"13 %\"", "13 CAD", "claim/tax-unknown"},
        {"\"place\":\"Atlantis\",\"tax_rate\":\"13 %\",\"tax_law\":\"its act\"", "13 CAD", NULL},
        {"\"place\":\"GB\",\"tax_rounding\":\"down\"", "20 CAD", "claim/tax-rounding"},
    };
    lml_engine *engine = shipped_engine();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cJSON *result = claim(engine, cases[i].house, cases[i].tax);
        cr_expect_eq(shipped_give(result, "tax") != NULL, cases[i].code == NULL, "%s %s",
                     cases[i].house, cases[i].tax);
        if (cases[i].code)
            cr_expect(has_remark(result, cases[i].code), "%s: no %s", cases[i].house,
                      cases[i].code);
        cJSON_Delete(result);
    }
    lml_engine_free(engine);
}

/* ---- the invoice ---- */

/* A quote closed with nothing changed is its own invoice, and the invoice's lines sum to its
 * totals. */
Test(money_sheet, a_quote_closes_at_its_own_price)
{
    lml_engine *engine = shipped_engine();
    state = 7;
    for (int i = 0; i < 60; i++) {
        char job[JOB], lines[2000] = "", closing[JOB];
        write_job(job, "quote");
        cJSON *quote = shipped_run(engine, job);
        if (!shipped_give(quote, "price") || strstr(job, "price before tax")) {
            cJSON_Delete(quote);
            continue;
        }
        const cJSON *line;
        size_t n = 0;
        const char *unit = text_of(cJSON_GetObjectItemCaseSensitive(
                                       cJSON_GetObjectItemCaseSensitive(quote, "results"), "price"),
                                   "unit");
        cJSON_ArrayForEach(line, shipped_give(quote, "lines")) n += (size_t)snprintf(
            lines + n, sizeof lines - n, "%s{\"label\":\"%s\",\"amount\":\"%s %s\"}", n ? "," : "",
            shipped_member(line, "label")->valuestring, shipped_member(line, "amount")->valuestring,
            unit);
        const char *house = strstr(job, "\"place\""), *minimum = strstr(job, ",\"minimum\"");
        snprintf(closing, sizeof closing,
                 "{\"recipe\":\"closing\",\"date\":\"2026-11-30\",\"given\":{\"quoted_lines\":[%s],"
                 "\"quoted_credit\":\"%s %s\","
                 "\"deposit_paid\":\"%s %s\"},\"house\":{\"prices\":{\"Au\":{\"price\":\"90 "
                 "%s/g\",\"at\":\"2026-11-29\",\"from\":\"test\"}},"
                 "\"premium\":\"2 %%\",%.*s}}",
                 lines, shipped_give(quote, "credit")->valuestring, unit,
                 shipped_give(quote, "deposit")->valuestring, unit, unit, (int)(minimum - house),
                 house);
        cJSON *invoice = shipped_run(engine, closing);
        cr_expect_eq(cents_of(invoice, "price"), cents_of(quote, "price"), "%s\n%s", job, closing);
        cr_expect_eq(cents_of(invoice, "balance"), cents_of(quote, "balance"));
        cr_expect_geq(check_page(invoice, "client", "Total"), 2);
        cJSON_Delete(invoice);
        cJSON_Delete(quote);
    }
    lml_engine_free(engine);
}
