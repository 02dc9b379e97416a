/* The planner and the pattern scaler under thousands of drawn jobs: what must hold whatever the job
 * is. */
#include "shipped.h"

#include "value/random.h"

#include <math.h>

enum { PLANS = 100, STEPS = 3, FLASKS = 3, RINGS = 300 };

/* A drawn casting day, in whole degrees and minutes. */
typedef struct drawn {
    int low_rate, high_rate,
        cooling; /* what the kiln can do, °C an hour, and where it changes: 400 °C */
    int to[STEPS], rate[STEPS], hold[STEPS];
    int flasks, temperature[FLASKS], diameter[FLASKS];
    bool delay, sleeps;
    int bedtime, rise; /* minutes */
} drawn;

static drawn draw(chance *c)
{
    drawn d = {.low_rate = (int)chance_whole(c, 60, 300),
               .high_rate = (int)chance_whole(c, 60, 240),
               .cooling = (int)chance_whole(c, 60, 240),
               .flasks = (int)chance_whole(c, 1, FLASKS),
               .delay = chance_whole(c, 0, 1) == 1,
               .sleeps = chance_whole(c, 0, 2) > 0,
               .bedtime = (int)chance_whole(c, 80, 96) * 15 % 1440,
               .rise = (int)chance_whole(c, 20, 30) * 15};
    for (int i = 0; i < STEPS; i++) {
        d.to[i] = (int)(i == 0   ? chance_whole(c, 110, 200)
                        : i == 1 ? chance_whole(c, 280, 500)
                                 : chance_whole(c, 701, 735));
        d.rate[i] = (int)chance_whole(c, 30, 400); /* often more than the kiln can do */
        d.hold[i] = (int)chance_whole(c, i == 2 ? 120 : i == 0 ? 30 : 0, 240);
    }
    for (int i = 0; i < d.flasks; i++) {
        d.temperature[i] = 420 + 90 * (int)chance_whole(c, 0, 3); /* often the same for two */
        d.diameter[i] = (int)chance_whole(c, 50, 110);
    }
    return d;
}

/* Quarters of an hour from the first of the month on. */
static void job_text(const drawn *d, int quarter, const char *house, char *out, size_t size)
{
    int n = snprintf(
        out, size, "{\"recipe\":\"day\",\"given\":{\"pour\":\"2026-11-%02dT%02d:%02d\",\"load\":[",
        1 + quarter / 96, quarter % 96 / 4, quarter % 4 * 15);
    for (int i = 0; i < d->flasks; i++)
        n += snprintf(
            out + n, size - (size_t)n,
            "%s{\"name\":\"f%d\",\"diameter\":\"%d mm\",\"height\":\"100 mm\",\"pattern\":\"wax\","
            "\"temperature\":\"%d °C\",\"colour\":\"yellow\"}",
            i ? "," : "", i, d->diameter[i], d->temperature[i]);
    n += snprintf(out + n, size - (size_t)n,
                  "]},\"house\":{\"kiln\":{\"heating\":[{\"to\":\"400 °C\",\"rate\":\"%d "
                  "Δ°C/h\"},{\"to\":\"1000 °C\",\"rate\":\"%d Δ°C/h\"}],"
                  "\"cooling\":[{\"above\":\"100 °C\",\"rate\":\"%d "
                  "Δ°C/h\"}],\"segments\":40,\"hold_power\":\"0.9 kW\",\"hold_at\":\"730 "
                  "°C\",\"stores\":\"1.4 kWh\",\"can_wait\":%s},\"unattended_ceiling\":\"735 "
                  "°C\",\"pour_time\":\"4 "
                  "min\",\"cycle\":[",
                  d->low_rate, d->high_rate, d->cooling, d->delay ? "true" : "false");
    for (int i = 0; i < STEPS; i++)
        n += snprintf(out + n, size - (size_t)n,
                      "%s{\"to\":\"%d °C\",\"rate\":\"%d Δ°C/h\",\"hold\":\"%d min\"}",
                      i ? "," : "", d->to[i], d->rate[i], d->hold[i]);
    n += snprintf(out + n, size - (size_t)n, "]");
    if (d->sleeps)
        n += snprintf(out + n, size - (size_t)n,
                      ",\"sleep\":{\"from\":\"%02d:%02d\",\"to\":\"%02d:%02d\"}", d->bedtime / 60,
                      d->bedtime % 60, d->rise / 60, d->rise % 60);
    n += snprintf(out + n, size - (size_t)n, "%s}}", house);
    cr_assert_lt((size_t)n, size);
}

static const char *moment_of(const cJSON *value)
{
    cr_assert(cJSON_IsString(value), "a moment is missing");
    return value->valuestring;
}

/* Moments are ISO 8601, so that they compare as texts. */
static void in_order(const char *earlier, const char *later, const char *what, const char *job)
{
    cr_expect_leq(strcmp(earlier, later), 0, "%s: %s after %s in\n%s", what, earlier, later, job);
}

/* Minutes at or above 700 °C up to the end of the last hold there, run through in steps of a
 * hundredth of a minute from the rates and holds that are printed, as a kiln runs a program. */
static double minutes_hot(const cJSON *program)
{
    const double dt = 0.01;
    double here = 20, hot = 0;
    const cJSON *step;
    cJSON_ArrayForEach(step, program)
    {
        double to = shipped_member(step, "to")->valuedouble,
               rate = shipped_member(step, "rate")->valuedouble / 60; /* printed per hour */
        if (cJSON_IsTrue(shipped_member(step, "down")))
            break;
        for (; here < to; here += rate * dt)
            hot += here >= 700 ? dt : 0;
        here = to;
        for (double held = 0; held < shipped_member(step, "hold")->valuedouble - dt / 2; held += dt)
            hot += here >= 700 ? dt : 0;
    }
    return hot;
}

/* No rate above what the kiln can do on that way, and no segment begins before the one before it
 * has ended. */
static void check_program(const drawn *d, const cJSON *result, const char *job)
{
    const cJSON *step;
    double here = 20;
    int i = 0;
    const char *before = moment_of(shipped_give(result, "start"));
    cJSON_ArrayForEach(step, shipped_give(result, "program"))
    {
        double to = shipped_member(step, "to")->valuedouble,
               rate = shipped_member(step, "rate")->valuedouble;
        double most = to < here     ? d->cooling
                      : here >= 400 ? d->high_rate
                      : to <= 400   ? d->low_rate
                                    : fmin(d->low_rate, d->high_rate);
        cr_expect_leq(rate, most + 1e-9, "up to %g at %g, the kiln can %g:\n%s", to, rate, most,
                      job);
        cr_expect(to <= 735, "a gypsum mould would go to %g:\n%s", to, job);
        const char *begins = moment_of(shipped_member(step, "begins")),
                   *there = moment_of(shipped_member(step, "there"));
        in_order(before, begins, "segments overlap", job);
        in_order(begins, there, "a ramp that ends before it begins", job);
        before = moment_of(shipped_member(step, "ends"));
        in_order(there, before, "a hold that ends before it begins", job);
        double hold = shipped_member(step, "hold")->valuedouble;
        if (i < STEPS && d->sleeps)
            cr_expect_geq(hold, d->hold[i], "held %g instead of %d:\n%s", hold, d->hold[i], job);
        else if (i < STEPS) /* nothing to stretch for */
            cr_expect_float_eq(hold, d->hold[i], 0.5, "held %g instead of %d:\n%s", hold,
                               d->hold[i], job);
        here = to;
        i++;
    }
    double hot = minutes_hot(shipped_give(result, "program"));
    cr_expect_float_eq(shipped_give(result, "burnout")->valuedouble, hot, 1, "%g min hot:\n%s", hot,
                       job);
}

/* What is printed as burnout is what the printed program has; a printed cycle that counts its way
 * up included, or a house's own, has no less than the two hours that are asked, in any kiln. */
Test(plan, burnout_minutes)
{
    lml_engine *engine = shipped_engine();
    chance c = {732};
    static const char *const cycles[] = {
        "\"printed_cycle\":\"6 h\"", "\"printed_cycle\":\"8 h\"", "\"printed_cycle\":\"12 h\"",
        "\"cycle\":[{\"to\":\"150 °C\",\"stage\":\"120 min\"},{\"to\":\"732 "
        "°C\",\"stage\":\"150 min\"}]",
        "\"cycle\":[{\"to\":\"150 °C\",\"hold\":\"30 min\"},{\"to\":\"702 °C\",\"hold\":\"9 "
        "min\"}]"};
    for (int i = 0; i < PLANS; i++) {
        char job[2000];
        int size = snprintf(
            job, sizeof job,
            "{\"recipe\":\"day\",\"given\":{\"pour\":\"2026-11-28T14:00\",\"load\":[{\"name\":"
            "\"f\","
            "\"diameter\":\"63.5 mm\",\"height\":\"63.5 "
            "mm\",\"pattern\":\"wax\",\"temperature\":\"%d "
            "°C\",\"colour\":\"yellow\"}]},\"house\":{\"kiln\":{\"heating\":[{\"to\":\"1000 "
            "°C\",\"rate\":\"%d Δ°C/h\"}],\"cooling\":[{\"above\":\"100 °C\",\"rate\":\"150 "
            "Δ°C/h\"}],\"segments\":40,\"can_wait\":true},%s}}",
            (int)chance_whole(&c, 420, 690), (int)chance_whole(&c, 40, 400),
            cycles[chance_whole(&c, 0, 4)]);
        cr_assert_lt(size, (int)sizeof job);
        cJSON *result = shipped_run(engine, job);
        const cJSON *burnout = shipped_give(result, "burnout");
        cr_assert(burnout, "no plan:\n%s", job);
        double hot = minutes_hot(shipped_give(result, "program"));
        cr_expect_float_eq(burnout->valuedouble, hot, 1, "%g min are printed, %g are run:\n%s",
                           burnout->valuedouble, hot, job);
        cr_expect_geq(hot, 119, "%g min of burnout only:\n%s", hot, job);
        cJSON_Delete(result);
    }
    lml_engine_free(engine);
}

static void check_hands(const cJSON *result, const char *job)
{
    const cJSON *entry;
    const char *before = "", *poured = "";
    double hottest = 10000;
    cJSON_ArrayForEach(entry, shipped_give(result, "hands"))
    {
        const char *at = moment_of(shipped_member(entry, "at"));
        in_order(before, at, "hands out of order", job);
        before = at;
    }
    cJSON_ArrayForEach(entry, shipped_give(result, "pours"))
    {
        const char *at = moment_of(shipped_member(entry, "at"));
        double temperature = shipped_member(entry, "temperature")->valuedouble;
        in_order(poured, at, "pours out of order", job);
        cr_expect_leq(temperature, hottest, "a hotter flask is poured after a cooler one:\n%s",
                      job);
        poured = at;
        hottest = temperature;
    }
    in_order(moment_of(shipped_give(result, "load_by")), moment_of(shipped_give(result, "start")),
             "loaded after the start", job);
    in_order(moment_of(shipped_give(result, "gloss_off_by")),
             moment_of(shipped_give(result, "start")), "invested after the start", job);
}

/* Whether a time of day lies in the drawn night; its ends do not. */
static bool at_night(const drawn *d, const char *moment)
{
    int minute = atoi(moment + 11) * 60 + atoi(moment + 14);
    return d->bedtime <= d->rise ? minute > d->bedtime && minute < d->rise
                                 : minute > d->bedtime || minute < d->rise;
}

static void check_night(const drawn *d, const cJSON *result, const char *job)
{
    const cJSON *entry;
    cJSON_ArrayForEach(entry, shipped_give(result, "hands"))
        cr_expect(!d->sleeps || !at_night(d, moment_of(shipped_member(entry, "at"))),
                  "hands at night, unasked:\n%s", job);
}

Test(plan, drawn_days)
{
    lml_engine *engine = shipped_engine();
    chance c = {20261128};
    int planned = 0;
    for (int i = 0; i < PLANS; i++) {
        drawn d = draw(&c);
        int quarter = (int)chance_whole(&c, 960, 1056);
        char job[4000], last[40] = "";
        for (int later = 0; later < 3; later++) {
            job_text(&d, quarter, "", job, sizeof job);
            cJSON *result = shipped_run(engine, job);
            const cJSON *start = shipped_give(result, "start");
            if (start) {
                planned++;
                check_program(&d, result, job);
                check_hands(result, job);
                check_night(&d, result, job);
                in_order(last, start->valuestring, "a later pour starts the kiln earlier", job);
                snprintf(last, sizeof last, "%s", start->valuestring);
            } else {
                cr_expect(d.sleeps, "withheld, and nobody sleeps:\n%s", job);
            }
            cJSON_Delete(result);
            quarter += (int)chance_whole(&c, 0, 40);
        }
    }
    cr_expect_gt(planned, PLANS, "only %d of the drawn days were planned", planned);
    lml_engine_free(engine);
}

/* The quarter of an hour from the first of the month on. */
static int quarter_of(const char *moment)
{
    return (atoi(moment + 8) - 1) * 96 + atoi(moment + 11) * 4 + atoi(moment + 14) / 15;
}

static bool is_planned(lml_engine *engine, const drawn *d, int quarter)
{
    char job[4000];
    job_text(d, quarter, "", job, sizeof job);
    cJSON *result = shipped_run(engine, job);
    bool planned = shipped_give(result, "start") != NULL;
    cJSON_Delete(result);
    return planned;
}

/* The nearest pour that a refusal names keeps every rule, and none does that lies nearer. */
Test(plan, nearest_pour_holds)
{
    lml_engine *engine = shipped_engine();
    chance c = {4711};
    int named = 0;
    for (int i = 0; i < PLANS / 5; i++) {
        drawn d = draw(&c);
        d.sleeps = true;
        char job[4000];
        int wanted = (int)chance_whole(&c, 960, 980);
        job_text(&d, wanted, "", job, sizeof job);
        cJSON *result = shipped_run(engine, job);
        const cJSON *nearest = shipped_give(result, "nearest_pour");
        if (nearest) {
            int found = quarter_of(nearest->valuestring), away = abs(found - wanted);
            cr_expect(is_planned(engine, &d, found), "the nearest pour %s is refused as well:\n%s",
                      nearest->valuestring, job);
            for (int k = 1; k < away; k++)
                cr_expect(!is_planned(engine, &d, wanted + k) &&
                              !is_planned(engine, &d, wanted - k),
                          "nearer than %s, %d quarters away is possible:\n%s", nearest->valuestring,
                          k, job);
            named++;
        }
        cJSON_Delete(result);
    }
    cr_expect_gt(named, 5, "only %d drawn days were refused", named);
    lml_engine_free(engine);
}

static double cost_of(lml_engine *engine, const drawn *d, int quarter, const char *house)
{
    char job[4000];
    job_text(d, quarter, house, job, sizeof job);
    cJSON *result = shipped_run(engine, job);
    const cJSON *cost = shipped_give(result, "cost");
    cr_assert(cost, "no cost:\n%s", job);
    double value = atof(cost->valuestring);
    cJSON_Delete(result);
    return value;
}

#define NO_STRETCH                                                                                 \
    ",\"stretch_dewax\":\"0 min\",\"stretch_top\":\"0 min\",\"stretch_casting\":\"0 min\""

/* Who may stretch the holds never pays more than who may not, and now and then less. */
Test(plan, stretching_saves)
{
    lml_engine *engine = shipped_engine();
    chance c = {3600};
    int saved = 0;
    for (int i = 0; i < PLANS / 3; i++) {
        drawn d = draw(&c);
        d.sleeps = false;
        int from = (int)chance_whole(&c, 0, 23), to = (from + (int)chance_whole(&c, 3, 20)) % 24,
            quarter = (int)chance_whole(&c, 960, 1056);
        char tariff[400], rigid[600];
        snprintf(
            tariff, sizeof tariff,
            ",\"tariff\":[{\"from\":\"%02d:00\",\"to\":\"%02d:00\",\"price\":\"0.05 USD/kWh\"},"
            "{\"from\":\"%02d:00\",\"to\":\"%02d:00\",\"price\":\"0.90 USD/kWh\"}]",
            from, to, to, from);
        snprintf(rigid, sizeof rigid, "%s%s", tariff, NO_STRETCH);
        double free = cost_of(engine, &d, quarter, tariff),
               bound = cost_of(engine, &d, quarter, rigid);
        cr_expect_leq(free, bound + 0.005, "%g when stretched, %g when not", free, bound);
        saved += free < bound - 0.005;
    }
    cr_expect_gt(saved, 5, "stretching saved %d times only", saved);
    lml_engine_free(engine);
}

/* A pattern scaled up, shrunk at every stage and filed ends in the size that was wanted. */
Test(oversize, scaling_and_shrinking_cancel)
{
    lml_engine *engine = shipped_engine();
    chance c = {8653};
    for (int i = 0; i < RINGS; i++) {
        double size = 44 + 0.01 * (double)chance_whole(&c, 0, 3000),
               rubber = 0.001 * (double)chance_whole(&c, 0, 40);
        double wax = 0.001 * (double)chance_whole(&c, 0, 40),
               metal = 0.001 * (double)chance_whole(&c, 0, 25);
        double inside = 0.01 * (double)chance_whole(&c, 0, 30);
        char job[1000];
        snprintf(
            job, sizeof job,
            "{\"recipe\":\"oversize\",\"given\":{\"rings\":[{\"name\":\"r\",\"size\":\"ISO "
            "%.2f\"}],\"shrink_stages\":["
            "{\"at\":\"wax\",\"by\":\"%.1f %%\"},{\"at\":\"rubber mould\",\"by\":\"%.1f %%\"}]},"
            "\"house\":{\"metal_shrinkage\":\"%.1f %%\",\"finish_inside\":\"%.2f "
            "mm\",\"polish_inside\":\"0 mm\"}}",
            size, 100 * wax, 100 * rubber, 100 * metal, inside);
        cJSON *result = shipped_run(engine, job);
        const cJSON *ring = cJSON_GetArrayItem(shipped_give(result, "rings_made"), 0);
        cr_assert(ring, "%s", job);
        double pattern = shipped_member(ring, "pattern")->valuedouble;
        double ends = pattern * (1 - rubber) * (1 - wax) * (1 - metal) + 2 * inside;
        cr_expect_float_eq(ends, size / acos(-1), 0.001, "%g instead of %g:\n%s", ends,
                           size / acos(-1), job);
        cJSON_Delete(result);
    }
    lml_engine_free(engine);
}

/* A day of somebody's own, that checks nothing: from 21:00 at 2 °C a minute, 140 min to `top` of
 * 300 °C, and held. */
static const char BARE[] =
    "return recipe { title = 'bare', version = '1.0.0', licence = 'CC0-1.0', level = 1, uses = "
    "{},\n"
    "asks = { mould = ask.text { 'M' }, top = ask.temperature { 'T' }, dewax = ask.text { 'D' },\n"
    "  load = ask.list { 'L', of = ask.record { 'F', fields = { name = ask.text { 'N' }, dewax = "
    "ask.text { 'D' } } } } },\n"
    "allowances = { kiln = ask.text { 'K' }, steam_time = ask.time { 'S' },\n"
    "  sleep = ask.record { 'N', optional = true, fields = { from = ask.time_of_day { 'F' }, to = "
    "ask.time_of_day { 'T' } } },\n"
    "  unattended_ceiling = ask.temperature { 'C', optional = true } },\n"
    "gives = { program = give.list { 'P', of = give.record { 'S', fields = { to = give.temperature "
    "'T', begins = give.moment 'B',\n"
    "  there = give.moment 'T', ends = give.moment 'E' } } } },\n"
    "work = function(job) local at = Q '2026-11-27T21:00'\n"
    "  return { program = { { to = job.top, begins = at, there = at + Q '140 min', ends = at + Q "
    "'10 h' } } } end, proofs = {} }";

static char *bare(lml_engine *engine, const char *mould, const char *top, const char *dewax,
                  const char *house)
{
    char job[1000];
    snprintf(job, sizeof job,
             "{\"recipe\":\"bare\",\"given\":{\"mould\":\"%s\",\"top\":\"%s\",\"dewax\":\"%s\","
             "\"load\":[{\"name\":\"A\","
             "\"dewax\":\"%s\"}]},\"house\":{\"kiln\":\"k\"%s}}",
             mould, top, dewax, dewax, house);
    cJSON *result = shipped_run(engine, job);
    char *text = cJSON_PrintUnformatted(result);
    cJSON_Delete(result);
    return text;
}

/* What a recipe leaves out, the gates say: on either side of each of their limits. */
Test(plan, gates_of_the_kiln)
{
    static const struct {
        const char *mould, *top, *dewax, *house, *said; /* said: with a ! before it, not said */
    } cases[] = {
        {"phosphate", "735 °C", "kiln", ",\"steam_time\":\"60 min\"", "phosphate-cycle"},
        {"phosphate", "736 °C", "kiln", ",\"steam_time\":\"60 min\"", "!phosphate-cycle"},
        {"gypsum", "735 °C", "kiln", ",\"steam_time\":\"60 min\"", "!phosphate-cycle"},
        {"gypsum", "142 °C", "steam", ",\"steam_time\":\"60 min\"", "!/steam-"},
        {"gypsum", "142 °C", "steam", ",\"steam_time\":\"61 min\"", "/steam-time"},
        {"gypsum", "142 °C", "kiln", ",\"steam_time\":\"61 min\"", "!/steam-"},
        {"gypsum", "133 °C", "steam", ",\"steam_time\":\"60 min\"", "!/steam-"},
        {"gypsum", "132.9 °C", "steam", ",\"steam_time\":\"60 min\"", "/steam-kiln"},
        {"gypsum", "150.8 °C", "steam", ",\"steam_time\":\"60 min\"", "!/steam-"},
        {"gypsum", "151 °C", "steam", ",\"steam_time\":\"60 min\"", "/steam-kiln"},
        {"gypsum", "300 °C", "kiln", ",\"steam_time\":\"1 h\"",
         "is hot from 2026-11-27T21:00 to 2026-11-28T07:00, up to 300 °C"},
        {"gypsum", "300 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"unattended_ceiling\":\"400 "
         "°C\",\"sleep\":{\"from\":\"22:00\",\"to\":\"06:00\"}",
         "Nobody is there from 2026-11-27T22:00 to 06:00, and the kiln is hot, up to 300 °C"},
        {"gypsum", "300 °C", "kiln", /* night-heat withholds the program, and so its times */
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"22:00\",\"to\":\"06:00\"}",
         "/unwatched-1\",\"text\":\"Nobody is there from … to …, and the kiln is hot, up to …. "
         "Keep "
         "everything"},
        {"gypsum", "300 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"21:30\",\"to\":\"22:00\"}",
         "Nobody is there from 2026-11-27T21:30 to 22:00, and the kiln is hot, up to 140 °C"}, /* 20
                                                                                                  +
                                                                                                  2
                                                                                                  x
                                                                                                  60
                                                                                                */
        {"gypsum", "300 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"20:00\",\"to\":\"21:10\"}",
         "Nobody is there from 2026-11-27T21:00 to 21:10, and the kiln is hot, up to 40 °C"}, /* 20
                                                                                                 + 2
                                                                                                 x
                                                                                                 10
                                                                                               */
        {"gypsum", "300 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"07:00\",\"to\":\"21:00\"}",
         "!Nobody is there"},
        {"gypsum", "264 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"22:00\",\"to\":\"06:00\"}", "!night-heat"},
        {"gypsum", "265 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"sleep\":{\"from\":\"22:00\",\"to\":\"06:00\"}", "night-heat"},
        {"gypsum", "265 °C", "kiln",
         ",\"steam_time\":\"1 h\",\"unattended_ceiling\":\"400 "
         "°C\",\"sleep\":{\"from\":\"22:00\",\"to\":\"06:00\"}",
         "!night-heat"},
    };
    lml_engine *engine = shipped_engine();
    lml_error e;
    cr_assert_eq(lml_engine_put(engine, LML_PUT_RECIPE, "bare", BARE, strlen(BARE), "bare.lua", &e),
                 LML_OK, "%s", e.message);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *text = bare(engine, cases[i].mould, cases[i].top, cases[i].dewax, cases[i].house);
        const char *said = cases[i].said;
        if (*said == '!')
            cr_expect_null(strstr(text, said + 1), "case %zu says %s:\n%s", i, said + 1, text);
        else
            cr_expect(strstr(text, said), "case %zu does not say %s:\n%s", i, said, text);
        cJSON_free(text);
    }
    lml_engine_free(engine);
}
