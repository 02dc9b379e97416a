/* How sure and what if, as a program that embeds the library asks: against published cases of the
 * propagation of distributions, and by what must hold of any job. */
#include <criterion/criterion.h>

#include "base/alloc.h"
#include "file/json.h"
#include "lemel.h"
#include "trial/engine_sure.h"
#include "trial/spread.h"
#include "trial/uncertain.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static lml_engine *engine;
static lml_text report;
static lml_json_document *doc;
static lml_error error;
static int digits = 1;

static void open_engine(void)
{
    engine = lml_engine_new(&(lml_engine_options){.without_gates = true});
}

static void close_engine(void)
{
    lml_json_free(doc);
    lml_text_free(engine, &report);
    lml_engine_free(engine);
}

TestSuite(trial, .init = open_engine, .fini = close_engine);

/* A recipe "case" that asks x1 to x6 and gives y. */
static void put(const char *work)
{
    char text[2000];
    int length = snprintf(
        text, sizeof text,
        "return recipe { title = \"Case\", version = \"1.0.0\", licence = \"CC0-1.0\", level = 1,\n"
        "asks = { x1 = ask.number { \"x1\" }, x2 = ask.number { \"x2\", optional = true },\n"
        "x3 = ask.number { \"x3\", optional = true }, x4 = ask.number { \"x4\", optional = true "
        "},\n"
        "x5 = ask.number { \"x5\", optional = true }, x6 = ask.number { \"x6\", optional = true } "
        "},\n"
        "gives = { y = give.number \"y\" },\n"
        "work = function (job, house, sheet) local a, b, c, d, e, f = "
        "job.x1, job.x2, job.x3, job.x4, job.x5, job.x6\n%s end }\n",
        work);
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "case", text, (size_t)length, "case.lua", &error),
        LML_OK, "%s", error.message);
}

/* A case that is published: two digits of its deviation are to be stable. */
static void put_published(const char *work)
{
    put(work);
    digits = 2;
}

static lml_status ask(const char *job, size_t draws)
{
    lml_json_free(doc);
    doc = NULL;
    lml_text_free(engine, &report);
    report = (lml_text){.text = NULL};
    const lml_asked_sure asked = {.draws = draws};
    const lml_sure_question question = {job, strlen(job), "job.json", &asked, digits};
    lml_status status = lml_engine_sure_digits(engine, &question, &report, &error);
    if (status == LML_OK) {
        static lml_alloc heap;
        heap = lml_alloc_heap();
        cr_assert_eq(lml_json_read(&heap, (lml_span){report.text, report.length}, NULL, "report",
                                   &doc, &error),
                     LML_OK);
    }
    return status;
}

static void run(const char *given, size_t draws)
{
    char job[1000];
    snprintf(job, sizeof job, "{ \"recipe\": \"case\", \"loose\": true, \"given\": { %s } }",
             given);
    cr_assert_eq(ask(job, draws), LML_OK, "%s", error.message);
}

/* The same, with what was read. */
static void run_readings(const char *given, const char *readings, size_t draws)
{
    char job[2000];
    snprintf(job, sizeof job,
             "{ \"recipe\": \"case\", \"loose\": true, \"given\": { %s }, \"readings\": [ %s ] }",
             given, readings);
    cr_assert_eq(ask(job, draws), LML_OK, "%s", error.message);
}

static const lml_json *figure(void)
{
    return lml_json_first(lml_json_member(lml_json_root(doc), "figures"));
}

static double found(const char *name)
{
    return lml_json_number(lml_json_member(figure(), name));
}

/* As the job itself gives it, with nothing drawn. */
static double estimate(void)
{
    char text[60];
    snprintf(text, sizeof text, "%.*s",
             LML_SPAN_SHOWN(lml_json_text(lml_json_member(figure(), "is"))));
    return strtod(text, NULL);
}

static double linear(const char *name)
{
    return lml_json_number(lml_json_member(lml_json_member(figure(), "linear"), name));
}

static bool agrees(void)
{
    return lml_json_yes(lml_json_member(lml_json_member(figure(), "linear"), "agrees"));
}

static double shortest(int end)
{
    const lml_json *low = lml_json_first(lml_json_member(figure(), "shortest"));
    return lml_json_number(end == 0 ? low : lml_json_next(low));
}

#define NEAR(is, due, off)                                                                         \
    cr_expect(fabs((is) - (due)) <= (off), "%s is %.10g, published %.10g ± %.3g", #is,             \
              (double)(is), (double)(due), (double)(off))

#ifdef LML_SANITIZED
enum { DRAWS = 2000, FEW = true };
#else
enum { DRAWS = 50000, FEW = false };
#endif
/* Four standard errors: of a mean, of a standard deviation, of an end of a 95 % interval. */
#define MEAN(u) (4 * (u) / sqrt(DRAWS))
#define DEVIATION(u) (4 * (u) / sqrt(2 * DRAWS))
#define END(u) (4 * 2.67 * (u) / sqrt(DRAWS))

/* JCGM 101:2008, 9.2.2, table 2: y = 0.00, u = 2.00, [-3.92, 3.92]. */
Test(trial, the_sum_of_four_normal_inputs)
{
    put_published("return { y = a + b + c + d }");
    run("\"x1\": \"0 ± 1\", \"x2\": \"0 ± 1\", \"x3\": \"0 ± 1\", \"x4\": \"0 ± 1\"", DRAWS);
    NEAR(found("likely"), 0.00, MEAN(2));
    NEAR(found("deviation"), 2.00, DEVIATION(2));
    NEAR(found("low"), -3.92, END(2));
    NEAR(found("high"), 3.92, END(2));
    NEAR(linear("deviation"), 2.00, 1e-12);
    NEAR(linear("high"), 3.92, 0.0005);
    cr_expect(agrees());
}

/* JCGM 101:2008, 9.2.4: rectangular, standard deviations 1, 1, 1 and 10: u = 10.1, by drawing
 * [-17.0, 17.0], by the law of propagation [-19.9, 19.9], which is not validated. */
Test(trial, one_even_input_rules_the_sum)
{
    put_published("return { y = a + b + c + d }");
    run("\"x1\": \"-1.7320508..1.7320508\", \"x2\": \"-1.7320508..1.7320508\", "
        "\"x3\": \"-1.7320508..1.7320508\", \"x4\": \"-17.320508..17.320508\"",
        DRAWS);
    NEAR(found("deviation"), 10.1, DEVIATION(10.1) + 0.05);
    NEAR(found("low"), -17.0, END(10.1));
    NEAR(found("high"), 17.0, END(10.1));
    NEAR(linear("low"), -19.9, 0.05);
    NEAR(linear("high"), 19.9, 0.05);
    cr_expect_not(agrees());
}

/* JCGM 101:2008, 9.4: y = x1² + x2², u = 0.005 each, uncorrelated, x2 = 0; estimate, standard
 * uncertainty and shortest interval, times 1e-6. Recalled results; the exact mean is x1² + 2 u². */
Test(trial, a_square_near_nothing)
{
    static const struct {
        const char *x1;
        double y, u, low, high;
    } row[] = {{"0 ± 0.005", 50, 50, 0, 150},
               {"0.010 ± 0.005", 150, 112, 0, 367},
               {"0.050 ± 0.005", 2551, 502, 1590, 3543}};
    put_published("return { y = (a * a + b * b) * 1e6 }");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char given[100];
        snprintf(given, sizeof given, "\"x1\": \"%s\", \"x2\": \"0 ± 0.005\"", row[i].x1);
        run(given, DRAWS);
        NEAR(found("likely"), row[i].y, MEAN(row[i].u) + 0.5);
        NEAR(found("deviation"), row[i].u, 2 * DEVIATION(row[i].u)); /* a heavy tail */
        NEAR(shortest(0), row[i].low, END(row[i].u));
        NEAR(shortest(1), row[i].high, END(row[i].u));
    }
}

/* NPL DEM-ES-011, 9.2, table 9.2: y = ln x, x even in [0.1, 1.1]: y = -0.665, u = 0.606, shortest
 * interval [-1.895, 0.095]; by the law of propagation y = -0.511, u = 0.481, up to 0.432. */
Test(trial, a_logarithm)
{
    put_published("return { y = log(a) }");
    run("\"x1\": \"0.1..1.1\"", DRAWS);
    NEAR(estimate(), -0.511, 0.0005);
    NEAR(found("likely"), -0.665, MEAN(0.606));
    NEAR(found("deviation"), 0.606, DEVIATION(0.606));
    NEAR(shortest(0), -1.895, END(0.606));
    NEAR(shortest(1), 0.095, END(0.606));
    NEAR(linear("deviation"), 0.481, 0.0005);
    NEAR(linear("high"), 0.432, 0.0005);
    cr_expect_not(agrees());
}

/* A figure that is rounded has no derivative: its sensitivity is found with the whole standard
 * deviation (JCGM 100:2008, 5.1.3, note 2), as of what it rounds but for half a step. */
Test(trial, what_is_rounded_is_shifted_by_the_standard_deviation)
{
    put("return { y = floor(a * 10 + 0.5) / 10 }");
    run("\"x1\": \"5.02 ± 0.2\"", 1000);
    NEAR(linear("deviation"), 0.2, 0.05 + 1e-12);
}

/* GUM (JCGM 100:2008), H.1: an end gauge; 32 nm to first order (31.71), 34 nm with the terms of
 * second order (33.911), which drawing has by itself. */
Test(trial, an_end_gauge)
{
    put_published("return { y = a + b - a * (c * d + e * f) }");
    run("\"x1\": \"50000623 ± 25\", \"x2\": \"215 ± 9.7\", \"x3\": \"0 ± 0.58e-6\", "
        "\"x4\": \"-0.1 ± 0.41\", \"x5\": \"11.5e-6 ± 1.2e-6\", \"x6\": \"0 ± 0.029\"",
        DRAWS);
    NEAR(linear("deviation"), 31.71, 0.01);
    NEAR(found("deviation"), 33.911, DEVIATION(33.911));
}

/* JCGM 101:2008, 9.5: the same gauge by drawing, deviation from its nominal 50 mm: 838 nm, u = 36
 * nm, where the law of propagation has 32 nm. Inputs of its table 10 (from memory, unverified):
 * Student's t of 18, 24, 5 and 8 degrees of freedom; the others by their standard deviations,
 * normal or even. */
Test(trial, an_end_gauge_of_few_readings)
{
    char text[1500];
    int length = snprintf(
        text, sizeof text,
        "return recipe { title = 'Gauge', version = '1.0.0', licence = 'CC0-1.0', level = 1,\n"
        "asks = { ls = ask.number { 'ls' }, d0 = ask.number { 'd0' }, d1 = ask.number { 'd1' },\n"
        "d2 = ask.number { 'd2' }, da = ask.number { 'da' }, th = ask.number { 'th' },\n"
        "swing = ask.number { 'swing' }, as = ask.number { 'as' }, dth = ask.number { 'dth' } },\n"
        "gives = { y = give.number 'y' },\n"
        "work = function (j) return { y = j.ls + j.d0 + j.d1 + j.d2 - 50000000 - (j.ls + j.d0 + "
        "j.d1 + j.d2) * (j.da * (j.th + j.swing) + j.as * j.dth) } end }\n");
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "case", text, (size_t)length, "case.lua", &error),
        LML_OK, "%s", error.message);
    digits = 2;
    run_readings(
        "\"ls\": \"50000623 ± 25\", \"d0\": \"215 ± 6\", \"d1\": \"0 ± 4\", \"d2\": \"0 ± 7\", "
        "\"da\": \"0 ± 0.58e-6\", \"th\": \"-0.1 ± 0.2\", \"swing\": \"0 ± 0.3536\", "
        "\"as\": \"9.5e-6..13.5e-6\", \"dth\": \"0 ± 0.029\"",
        "{ \"ls\": 19, \"d0\": 25, \"d1\": 6, \"d2\": 9 }", DRAWS);
    NEAR(found("likely"), 838, MEAN(36) + 0.5);
    NEAR(found("deviation"), 36, DEVIATION(36) + 0.5);
    NEAR(linear("deviation"), 32, 0.5);
    if (!FEW) /* they differ by less than a few draws can tell */
        cr_expect_not(agrees());
}

/* GUM (JCGM 100:2008), H.2: resistance, reactance and impedance of volts, amperes and a phase that
 * were read together five times, with the covariances of their means. */
Test(trial, readings_that_were_taken_together)
{
    static const char given[] = "\"x1\": \"4.999\", \"x2\": \"0.019661\", \"x3\": \"1.04446\"";
    static const char readings[] =
        "{ \"x1\": [\"5.007\", \"4.994\", \"5.005\", \"4.990\", \"4.999\"], "
        "\"x2\": [\"0.019663\", \"0.019639\", \"0.019640\", \"0.019685\", \"0.019678\"], "
        "\"x3\": [\"1.0456\", \"1.0438\", \"1.0468\", \"1.0428\", \"1.0433\"] }";
    static const struct {
        const char *work;
        double y, u;
    } row[] = {{"return { y = a / b * cos(c) }", 127.732, 0.071},
               {"return { y = a / b * sin(c) }", 219.847, 0.295},
               {"return { y = a / b }", 254.260, 0.236}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        char work[600];
        snprintf(work, sizeof work,
                 "local function sin(x) local s, t = x, x for n = 1, 12 do "
                 "t = -t * x * x / (2 * n * (2 * n + 1)) s = s + t end return s end "
                 "local function cos(x) return sin(1.5707963267948966 - x) end %s",
                 row[i].work);
        put_published(work);
        run_readings(given, readings, DRAWS);
        NEAR(estimate(), row[i].y, 0.001);
        NEAR(linear("deviation"), row[i].u, 0.001);
        NEAR(found("likely"), row[i].y, 0.001 + MEAN(sqrt(2) * row[i].u));
        /* Of Student's with 4 degrees of freedom: root 2 times as wide, and with a heavy tail. */
        NEAR(found("deviation"), sqrt(2) * row[i].u, (FEW ? 0.2 : 0.05) * row[i].u);
    }
}

/* A median with the spread of its logarithm: of a lognormal variable the mean is the median times
 * exp(s^2 / 2) (NIST/SEMATECH e-Handbook, 1.3.6.6.9). */
Test(trial, what_past_jobs_taught_is_drawn)
{
    put_published("return { y = a * b }");
    char job[] =
        "{ \"recipe\": \"case\", \"loose\": true, \"given\": { \"x1\": \"1 ± 1e-9\", \"x2\": "
        "\"1\" }, \"house\": { \"x2\": { \"median\": \"2 g\", \"spread\": \"20 %\" } } }";
    static lml_alloc heap;
    heap = lml_alloc_heap();
    lml_uncertain u = lml_uncertain_on(&heap);
    cr_assert_eq(lml_uncertain_find(&u, lml_span_of(job), "job.json", NULL, &error), LML_OK);
    cr_assert_eq(u.count, 2);
    cr_expect_str_eq(u.item[1].path, "house.x2.median");
    double sum = 0;
    float at[2];
    for (uint64_t i = 0; i < 20000; i++) {
        lml_builder text = lml_builder_on(&heap, 0);
        cr_assert_eq(lml_uncertain_draw(&u, i, at, &text, &error), LML_OK);
        sum += strtod(strstr(text.at, "\"median\": \"") + 11, NULL) / 20000;
        lml_builder_free(&text);
    }
    NEAR(sum, 2 * exp(0.02), 4 * 0.41 / sqrt(20000));
    lml_uncertain_free(&u);
}

/* What was read together is told as one, and the others with it. */
Test(trial, what_was_read_together_is_one_source)
{
    put("return { y = a + b }");
    run_readings("\"x1\": \"2\", \"x2\": \"3\"",
                 "{ \"x1\": [\"1\", \"2\", \"3\", \"2\"], \"x2\": [\"2\", \"3\", \"4\", \"3\"] }",
                 1000);
    const lml_json *part = lml_json_first(lml_json_member(figure(), "from"));
    cr_expect(lml_span_is(lml_json_text(lml_json_member(part, "input")), "x1"));
    NEAR(lml_json_number(lml_json_member(part, "part")), 1, 0.001);
    cr_expect_null(lml_json_next(part));
    const lml_json *second =
        lml_json_next(lml_json_first(lml_json_member(lml_json_root(doc), "inputs")));
    cr_expect(lml_span_is(lml_json_text(lml_json_member(second, "with")), "x1"));
    NEAR(linear("deviation"), 2 * sqrt(2.0 / 3 / 4), 1e-12); /* wholly together: they add */
}

/* NIST TN 1900, E13: thermal expansion; by the law of propagation 1.7266e-5 with u = 1.76e-6, by
 * drawing 1.7268e-5 with 1.74e-6, of Student's t scaled to the same deviations; u within 1 %. */
Test(trial, a_coefficient_of_thermal_expansion)
{
    put_published("return { y = (b - a) / (a * (d - c)) * 1e6 }");
    run("\"x1\": \"1.4999 ± 0.0001\", \"x2\": \"1.5021 ± 0.0002\", \"x3\": \"288.15 ± 0.02\", "
        "\"x4\": \"373.10 ± 0.05\"",
        DRAWS);
    NEAR(estimate(), 17.266, 0.0005);
    NEAR(linear("deviation"), 1.76, 0.0176);
    NEAR(found("likely"), 17.268, MEAN(1.74));
    NEAR(found("deviation"), 1.74, 0.0174 + DEVIATION(1.74));
    cr_expect(agrees());
}

/* EURACHEM/CITAC QUAM, A2: how strong a solution of lye is, 0.10214 mol/L with u = 0.00010; GTC has
 * 0.102136159706 and 0.000100500722. Inputs from memory, unverified: two weighings even within 0.15
 * mg, purity even within 0.0005, 18.64 mL with 0.03 mL triangular and 3 °C at 95 %. */
Test(trial, the_strength_of_a_lye)
{
    put_published("return { y = e * 1000 * a * b / (c * d) }");
    run("\"x1\": \"0.3888 ± 0.00012247\", \"x2\": \"1 ± 0.00028868\", \"x3\": \"204.2212 ± "
        "0.0038\", "
        "\"x4\": \"18.64 ± 0.013634\", \"x5\": \"1 ± 0.0005\"",
        DRAWS);
    NEAR(estimate(), 0.102136159706, 5e-7);
    NEAR(found("likely"), 0.102136, MEAN(0.0001) + 5e-7);
    NEAR(linear("deviation"), 0.0001005, 1e-6);
    NEAR(found("deviation"), 0.0001005, 1e-6 + DEVIATION(0.0001));
    cr_expect(agrees());
}

/* ---- what must hold ---- */

Test(trial, a_block_or_two_more_are_drawn_until_it_is_stable)
{
    put("return { y = a }");
    run("\"x1\": \"100 ± 1\"", 0);
    double draws = lml_json_number(lml_json_member(lml_json_root(doc), "draws"));
    cr_expect(lml_json_yes(lml_json_member(lml_json_root(doc), "stable")));
    cr_expect(draws >= 20000 && draws <= 50000, "%g", draws);
    run("\"x1\": \"100 ± 1\"", 1000);
    cr_expect_not(lml_json_yes(lml_json_member(lml_json_root(doc), "stable")));
}

Test(trial, a_title_moves_no_figure)
{
    char first[4000];
    put("return { y = a * b }");
    cr_assert_eq(
        ask("{\"recipe\":\"case\",\"loose\":true,\"title\":\"one\",\"given\":{\"x1\":\"2 ± "
            "1\",\"x2\":\"3 ± 1\"}}",
            1000),
        LML_OK);
    snprintf(first, sizeof first, "%s", report.text);
    cr_assert_eq(
        ask("{\"recipe\":\"case\",\"loose\":true,\"title\":\"another\",\"given\":{\"x1\":\"2 "
            "± 1\",\"x2\":\"3 ± 1\"}}",
            1000),
        LML_OK);
    cr_expect_str_eq(report.text, first);
}

/* The parts of a sum are those of its variance: 9 : 16. */
Test(trial, parts_are_those_of_the_variance)
{
    put("return { y = a + b }");
    run("\"x1\": \"0 ± 3\", \"x2\": \"0 ± 4\"", 10000);
    const lml_json *part = lml_json_first(lml_json_member(figure(), "from"));
    cr_expect(lml_span_is(lml_json_text(lml_json_member(part, "input")), "x2"));
    NEAR(lml_json_number(lml_json_member(part, "part")), 0.64, 0.03);
    NEAR(lml_json_number(lml_json_member(lml_json_next(part), "part")), 0.36, 0.03);
}

Test(trial, one_that_fails_is_counted_and_not_dropped)
{
    put("if a < 0 then error('below nothing') end return { y = a }");
    run("\"x1\": \"0 ± 1\"", 10000);
    const lml_json *died = lml_json_member(lml_json_root(doc), "died");
    NEAR(lml_json_number(lml_json_member(died, "draws")), 5000, 200);
    NEAR(found("draws") + lml_json_number(lml_json_member(died, "draws")), 10000, 0);
    cr_expect(strstr(lml_json_text(lml_json_member(died, "message")).at, "below nothing"));
}

Test(trial, a_stop_is_counted)
{
    put("sheet:note('all', 'x') if a > 1 then sheet:stop('high', 'Too high', { 'y' }) end return { "
        "y = "
        "a }");
    run("\"x1\": \"0 ± 1\"", 10000);
    const lml_json *stop = lml_json_first(lml_json_member(lml_json_root(doc), "stops"));
    cr_expect(lml_span_is(lml_json_text(lml_json_member(stop, "code")), "case/high"));
    NEAR(lml_json_number(lml_json_member(stop, "draws")), 1586.6, 150); /* above one u: 15.866 % */
    NEAR(found("draws") + lml_json_number(lml_json_member(stop, "draws")), 10000, 0);
    cr_expect_leq(found("high"), 1);
}

/* Nothing moves it: the first thousand are enough. Where a stop is met now and then, or one input
 * moves it in few draws, they are not. */
Test(trial, what_nothing_moves_takes_no_more_draws)
{
    put("return { y = 3 }");
    run("\"x1\": \"0 ± 1\"", 10000);
    NEAR(found("draws"), 1000, 0);
    NEAR(found("deviation"), 0, 0);
    put("return { y = a > 4 and 4 or 3 }");
    run("\"x1\": \"0 ± 1\"", 10000);
    NEAR(found("draws"), 1000, 0);
    put("return { y = a > 2 and 4 or 3 }");
    run("\"x1\": \"0 ± 1\"", 10000);
    NEAR(found("draws"), 10000, 0);
    put("if a > 2 then sheet:stop('high', 'Too high', { 'y' }) end return { y = 3 }");
    run("\"x1\": \"0 ± 1\"", 10000);
    NEAR(lml_json_number(lml_json_member(lml_json_root(doc), "draws")), 10000, 0);
}

Test(trial, nothing_uncertain_is_refused)
{
    put("return { y = a }");
    cr_expect_eq(ask("{\"recipe\":\"case\",\"given\":{\"x1\":2}}", 1000), LML_BAD_VALUE);
    cr_expect(strstr(error.hint, "12.3..12.5 g"));
}

/* ---- what is uncertain ---- */

static lml_uncertain look(const char *job)
{
    static lml_alloc heap;
    heap = lml_alloc_heap();
    lml_uncertain u = lml_uncertain_on(&heap);
    cr_assert_eq(lml_uncertain_find(&u, lml_span_of(job), "job.json", NULL, &error), LML_OK, "%s",
                 error.message);
    return u;
}

Test(trial, entries_of_one_assay_share_their_chance)
{
    lml_uncertain u = look("{\"record\":[{\"fineness\":\"750 ‰ ± 2 ‰\",\"assay\":\"the melt\"},"
                           "{\"fineness\":\"750 ‰ ± 1 ‰\",\"assay\":\"grain\"},"
                           "{\"fineness\":\"750 ‰ ± 2 ‰\",\"assay\":\"the melt\"}]}");
    cr_expect_eq(u.count, 3);
    cr_expect_eq(u.sources, 2);
    cr_expect_eq(u.item[0].source, u.item[2].source);
    lml_uncertain_free(&u);
}

Test(trial, what_cannot_be_is_never_drawn)
{
    float at[2];
    lml_uncertain u = look("{\"given\":{\"a\":\"999.9 ‰ ± 0.2 ‰\",\"b\":\"0.1 g ± 0.1 g\"}}");
    for (uint64_t i = 0; i < 2000; i++) {
        lml_builder text = lml_builder_on(u.alloc, 0);
        cr_assert_eq(lml_uncertain_draw(&u, i, at, &text, &error), LML_OK);
        cr_expect_not(strstr(text.at, "\"-"));
        cr_expect(strtod(strstr(text.at, "\"a\":\"") + 5, NULL) <= 1000);
        lml_builder_free(&text);
    }
    lml_uncertain_free(&u);
}

/* More gold is less of the rest: in each draw the parts add up to the whole, as the analysis does,
 * and silver stays to copper as 2 to 3. What adds up to less has a rest that is not named. */
Test(trial, the_parts_of_a_whole_stay_one)
{
    float at[2];
    lml_uncertain u = look("{\"given\":{\"found\":{\"Au\":\"600 ‰ ± 9 ‰\",\"Ag\":\"160 "
                           "‰\",\"Cu\":\"240 ‰\"},\"part\":{\"Pd\":\"600 ‰ ± 9 ‰\"}}}");
    cr_expect_eq(u.sources, 2);
    for (uint64_t i = 0; i < 200; i++) {
        lml_builder text = lml_builder_on(u.alloc, 0);
        cr_assert_eq(lml_uncertain_draw(&u, i, at, &text, &error), LML_OK);
        double gold = strtod(strstr(text.at, "\"Au\":\"") + 6, NULL);
        double silver = strtod(strstr(text.at, "\"Ag\":\"") + 6, NULL);
        double copper = strtod(strstr(text.at, "\"Cu\":\"") + 6, NULL);
        NEAR(gold, 600 + 9 * at[0], 1e-4);
        NEAR(gold + silver + copper, 1000, 1e-9);
        NEAR(copper / silver, 1.5, 1e-12);
        lml_builder_free(&text);
    }
    lml_uncertain_free(&u);
}

/* Three parts of 333 ‰ are written to whole per mille, and miss the whole by no more than that may:
 * 333 + 333 + 333.5 are a whole, 333 + 333 + 333.4 have a rest. */
Test(trial, parts_written_to_whole_per_mille_are_a_whole)
{
    static const char *const copper[] = {"333.5", "333.4"};
    for (int k = 0; k < 2; k++) {
        char job[160];
        float at[1];
        snprintf(
            job, sizeof job,
            "{\"given\":{\"found\":{\"Au\":\"333 ‰ ± 9 ‰\",\"Ag\":\"333 ‰\",\"Cu\":\"%s ‰\"}}}",
            copper[k]);
        lml_uncertain u = look(job);
        bool moves = false;
        for (uint64_t i = 0; i < 10; i++) {
            lml_builder text = lml_builder_on(u.alloc, 0);
            cr_assert_eq(lml_uncertain_draw(&u, i, at, &text, &error), LML_OK);
            moves = moves || !strstr(text.at, "\"Ag\":\"333 ‰\"");
            lml_builder_free(&text);
        }
        cr_expect_eq(moves, k == 0, "%s", copper[k]);
        lml_uncertain_free(&u);
    }
}

Test(trial, all_else_of_the_job_stays_as_it_is)
{
    static const char job[] =
        "{ \"title\": \"12.4 g ± 0.1 g\",\n \"given\": { \"a\": \"2 1/2 dwt ± 0.1 "
        "dwt\", \"b\": \"x\" } }";
    float at[1];
    lml_uncertain u = look(job);
    cr_assert_eq(u.count, 1);
    cr_expect(lml_span_is(u.item[0].unit, "dwt"));
    NEAR(u.item[0].middle, 2.5, 0);
    lml_builder text = lml_builder_on(u.alloc, 0);
    cr_assert_eq(lml_uncertain_draw(&u, 0, at, &text, &error), LML_OK);
    cr_expect(strstr(text.at, "\"title\": \"12.4 g ± 0.1 g\",\n \"given\": { \"a\": \""));
    cr_expect(strstr(text.at, " dwt ± 0.1 dwt\", \"b\": \"x\" } }"));
    lml_builder_free(&text);
    lml_uncertain_free(&u);
}

/* ---- spread ---- */

/* JCGM 101:2008, 7.9.2: u = 0.00035 g with two digits, 35 and 10^-5, is 0.000 005; with one, u = 2
 * K (example 2) is 0.5 K; and 0.97 is 1 with one digit. */
Test(trial, tolerance_of_a_deviation)
{
    NEAR(lml_spread_tolerance(2, 1), 0.5, 1e-12);
    NEAR(lml_spread_tolerance(0.00035, 2), 0.000005, 1e-12);
    NEAR(lml_spread_tolerance(0.97, 1), 0.5, 1e-12);
    NEAR(lml_spread_tolerance(0, 1), 0, 0);
}

Test(trial, spread_of_known_numbers)
{
    double draw[100], room[100];
    lml_spread_found s;
    for (int i = 0; i < 100; i++)
        draw[i] = (i * 37) % 100; /* 0 to 99 in another order */
    lml_spread_of(draw, 100, room, &s);
    NEAR(s.mean, 49.5, 1e-12);
    NEAR(s.deviation, 29.011491975882016, 1e-12); /* sqrt(100 * 101 / 12) */
    NEAR(s.low, 2, 0);
    NEAR(s.high, 97, 0);
}

/* ---- what if ---- */

static const char *what(const char *figure_name, const char *wish, const char *range)
{
    static const char job[] = "{\"recipe\":\"case\",\"given\":{\"x1\":2}}";
    lml_text_free(engine, &report);
    report = (lml_text){.text = NULL};
    cr_assert_eq(
        lml_engine_what(
            engine, job, strlen(job), "job.json",
            &(lml_asked_what){.figure = figure_name, .input = "x1", .range = range, .wish = wish},
            &report, &error),
        LML_OK, "%s", error.message);
    return report.text;
}

#define HOLDS(text, words) cr_expect(strstr(text, words), "needs %s\n%s", words, text)

Test(trial, a_figure_over_a_range)
{
    put("return { y = a * a }");
    const char *text = what("y", NULL, "0..4");
    HOLDS(text, "\"is\":\"4\"");
    HOLDS(text, "{\"input\":\"1.5\",\"is\":\"2.25\"}");
    HOLDS(text, "{\"input\":\"4.0\",\"is\":\"16\"}");
}

/* a² = 2 at the root of 2, on both sides of nothing. */
Test(trial, every_place_where_it_is_what_is_wished)
{
    put("return { y = a * a }");
    const char *text = what("y", "2", "-3..3");
    HOLDS(text, "\"before\":\"-1.415\"");
    HOLDS(text, "\"after\":\"-1.410\"");
    HOLDS(text, "\"before\":\"1.410\"");
    HOLDS(text, "\"after\":\"1.415\"");
}

Test(trial, a_stretch_that_steps)
{
    put("return { y = floor(a) }");
    const char *text = what("y", "2", "0..4");
    HOLDS(text, "\"from\":\"2.000\",\"to\":\"2.998\"");
}

Test(trial, nowhere_says_between_what_it_lies)
{
    put("return { y = a * a }");
    const char *text = what("y", "17", "0..4");
    HOLDS(text, "\"answers\":[]");
    HOLDS(text, "\"low\":\"0\",\"high\":\"16\"");
}
