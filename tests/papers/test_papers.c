/* The functions over texts, as a program that embeds the library calls them: what goes in, what
 * comes out, and that no byte of the old text is lost. The command's own tests (tests/cli) hold
 * their messages. */
#include <criterion/criterion.h>

#include "base/alloc.h"
#include "lemel.h"

#include <string.h>

static const char job[] = "{\n  \"recipe\": \"casting\",\n  \"date\": \"2026-11-24\",\n  "
                          "\"given\": { \"wax\": \"2 g\" }\n}\n";
static char result_text[] =
    "{\"results\":{\"charge\":{\"kind\":\"mass\",\"value\":30,\"unit\":\"g\",\"text\":\"30 g\"},"
    "\"price\":{\"kind\":\"money\",\"value\":\"100.00 USD\",\"text\":\"100.00 USD\"}},"
    "\"sheets\":{\"bench\":[{\"is\":\"line\",\"record\":\"raw "
    "casting\",\"value\":{\"kind\":\"mass\"}},"
    "{\"is\":\"line\",\"record\":\"flask held\",\"value\":{\"kind\":\"time\"}}]},"
    "\"remarks\":[{\"level\":\"confirm\",\"code\":\"casting/share\",\"text\":\"Much old metal\"},"
    "{\"level\":\"stop\",\"code\":\"casting/heavy\",\"text\":\"Too heavy\"}]}";
static char later_text[] =
    "{\"results\":{\"charge\":{\"kind\":\"mass\",\"value\":33,\"unit\":\"g\",\"text\":\"33 g\"},"
    "\"price\":{\"kind\":\"money\",\"value\":\"100.00 USD\",\"text\":\"100.00 "
    "USD\"}},\"sheets\":{},\"remarks\":[]}";
static const lml_text result = {.text = result_text, .length = sizeof result_text - 1};
static const lml_text later = {.text = later_text, .length = sizeof later_text - 1};

static lml_engine *engine;
static lml_text after, report;
static lml_error error;

static void open_engine(void)
{
    engine = lml_engine_new(NULL);
}

static void close_engine(void)
{
    lml_text_free(engine, &after);
    lml_text_free(engine, &report);
    lml_engine_free(engine);
}

TestSuite(papers, .init = open_engine, .fini = close_engine);

static void holds(const lml_text *text, const char *words)
{
    cr_expect(text->text && strstr(text->text, words), "wants %s\n%s", words,
              text->text ? text->text : "nothing");
}

static lml_status record(const lml_entry *entry, const lml_text *known)
{
    return lml_engine_record(engine, job, strlen(job), "job.json", known, entry, &after, &report,
                             &error);
}

Test(papers, an_entry_is_put_into_the_job)
{
    const char *const word[] = {"mass=31.02 g", "note=cut off"};
    lml_entry entry = {.what = "raw casting",
                       .word = word,
                       .count = 2,
                       .at = "2026-11-26T14:20",
                       .owner = "client"};
    cr_assert_eq(record(&entry, NULL), LML_OK, "%s", error.message);
    cr_expect_eq(strncmp(after.text, job, strlen(job) - 3), 0, "the old text stands before it: %s",
                 after.text);
    holds(&after, "\"record\"");
    holds(&after, "31.02 g");
    holds(
        &report,
        "{\"entries\":[{\"at\":\"2026-11-26T14:20\",\"what\":\"raw casting\",\"mass\":\"31.02 g\","
        "\"note\":\"cut off\",\"owner\":\"client\"}],\"also\":[\"\"],\"counts\":[\"\"]}");
}

Test(papers, readings_are_held_against_their_boxes)
{
    const char *const word[] = {"raw casting=31.02 g", "flask held=65 min"};
    lml_entry entry = {.word = word, .count = 2, .at = "2026-11-26T14:20"};
    cr_assert_eq(record(&entry, &result), LML_OK, "%s", error.message);
    holds(&report, "\"what\":\"flask held\",\"time\":\"65 min\"");
    const char *const swapped[] = {"flask held=31.02 g"}, *const unknown[] = {"flask hold=65 min"};
    entry = (lml_entry){.word = swapped, .count = 1, .at = "2026-11-26T14:20"};
    cr_expect_eq(record(&entry, &result), LML_USAGE);
    entry.word = unknown;
    cr_expect_eq(record(&entry, &result), LML_USAGE);
    cr_expect(strstr(error.hint, "flask held"), "%s", error.hint);
    lml_text_free(engine, &after);
    lml_text_free(engine, &report);
    cr_expect_eq(record(&entry, NULL), LML_OK, "without a result nothing is known of boxes: %s",
                 error.message);
}

Test(papers, a_moment_that_cannot_be_right_is_refused)
{
    lml_entry entry = {.what = "weighed", .at = "2026-11-26T14:20", .now = "2026-11-26T14:20"};
    cr_expect_eq(record(&entry, NULL), LML_OK, "%s", error.message);
    lml_text_free(engine, &after);
    lml_text_free(engine, &report);
    entry.now = "2026-11-26T14:19";
    cr_expect_eq(record(&entry, NULL), LML_BAD_VALUE, "it is still to come");
    entry = (lml_entry){.what = "weighed", .at = "2027-11-26T14:20"};
    cr_expect_eq(record(&entry, NULL), LML_BAD_VALUE, "it is of another year");
    entry.at = NULL;
    cr_expect_eq(record(&entry, NULL), LML_USAGE);
    cr_expect_null(after.text, "no text of an error is handed over");
}

Test(papers, a_box_is_found_by_its_name)
{
    cr_assert_eq(lml_engine_box(engine, &result, "raw casting", &report, &error), LML_OK);
    cr_expect_str_eq(report.text,
                     "{\"boxes\":2,\"called\":1,\"kind\":\"mass\",\"next\":\"flask held\"}");
    lml_text_free(engine, &report);
    cr_assert_eq(lml_engine_box(engine, &result, "raw castings", &report, &error), LML_OK);
    cr_expect_str_eq(report.text, "{\"boxes\":2,\"called\":0,\"near\":\"raw casting\"}");
}

static lml_status confirm(const char *code, const char *by, const char *reason)
{
    lml_confirmation said = {.code = code, .by = by, .reason = reason};
    return lml_engine_confirm(engine, job, strlen(job), "job.json", &result, &said, &after, &report,
                              &error);
}

Test(papers, an_open_point_is_confirmed_and_a_stop_is_not)
{
    cr_expect_eq(confirm("casting/heavy", "O.F.", "it will do"), LML_BAD_DATA);
    cr_expect(strstr(error.message, "is a stop"), "%s", error.message);
    cr_expect_eq(confirm("casting/shore", "O.F.", "told"), LML_BAD_DATA);
    cr_expect(strstr(error.hint, "casting/share"), "%s", error.hint);
    cr_expect_eq(confirm("casting/share", "", "told"), LML_USAGE);
    cr_expect_eq(confirm("casting/share", "O.F.", NULL), LML_USAGE);
    cr_expect_eq(confirm(NULL, "O.F.", "told"), LML_USAGE);
    cr_assert_eq(confirm("casting/share", "O.F.", "told of porosity"), LML_OK, "%s", error.message);
    holds(&after, "\"confirmed\"");
    holds(&after, "told of porosity");
    cr_expect_str_eq(report.text, "{\"confirmed\":\"casting/share\",\"text\":\"Much old metal\"}");
}

Test(papers, a_price_goes_into_the_list_and_the_old_one_into_its_history)
{
    lml_quote quote = {"Au", "2650.00 USD/ozt", "2026-11-24T09:00", "refiner, buying", false, NULL,
                       NULL};
    cr_assert_eq(lml_engine_price(engine, NULL, 0, "prices.json", &quote, &after, &report, &error),
                 LML_OK, "%s", error.message);
    /* 31.1034768 g the troy ounce: NIST Handbook 44, appendix C. 2650 / 31.1034768 = 85.1995... */
    holds(&report, "\"also\":[\"85.2 USD/g\"]");
    lml_text list = after;
    quote.price = "2703.00 USD/ozt";
    quote.at = "2026-11-23T09:00";
    cr_expect_eq(lml_engine_price(engine, list.text, list.length, "prices.json", &quote, &after,
                                  NULL, &error),
                 LML_BAD_VALUE, "a list only grows");
    quote.at = "2026-11-25T09:00";
    lml_text_free(engine, &report);
    cr_assert_eq(lml_engine_price(engine, list.text, list.length, "prices.json", &quote, &after,
                                  &report, &error),
                 LML_OK, "%s", error.message);
    lml_text_free(engine, &list);
    holds(&after, "\"history\"");
    holds(&after, "2650.00 USD/ozt");
    holds(&report, "\"before\":\"2650.00 USD/ozt\",\"change\":0.02"); /* 53 / 2650 */
}

Test(papers, a_price_of_the_same_moment_corrects_the_one_that_stands)
{
    lml_quote quote = {"Au", "85.20 USD/g", "2026-11-24T09:00", "refiner, buying", false,
                       NULL, NULL};
    cr_assert_eq(lml_engine_price(engine, NULL, 0, "prices.json", &quote, &after, &report, &error),
                 LML_OK, "%s", error.message);
    lml_text list = after;
    lml_text_free(engine, &report);
    cr_expect_eq(lml_engine_price(engine, list.text, list.length, "prices.json", &quote, &after,
                                  NULL, &error),
                 LML_BAD_VALUE, "it has that one already");
    quote.price = "82.50 USD/g";
    cr_assert_eq(lml_engine_price(engine, list.text, list.length, "prices.json", &quote, &after,
                                  &report, &error),
                 LML_OK, "%s", error.message);
    lml_text_free(engine, &list);
    holds(&after, "85.20 USD/g"); /* in the history */
    holds(&report, "\"replaces\":\"85.20 USD/g\"");
    cr_expect(!strstr(report.text, "\"before\""), "%s", report.text);
}

Test(papers, results_are_compared_figure_by_figure)
{
    cr_assert_eq(lml_engine_compare(engine, &result, &later, NULL, &report, &error), LML_OK, "%s",
                 error.message);
    holds(&report, "{\"figures\":2,\"moved\":1,\"beyond\":1,\"stops\":{\"before\":[\"casting/"
                   "share\",\"casting/heavy\"],"
                   "\"after\":[]},\"differences\":[{\"name\":\"charge\",\"before\":\"30 "
                   "g\",\"after\":\"33 g\","
                   "\"difference\":\"3 g\",\"relative\":0.1");
    lml_text_free(engine, &report);
    cr_assert_eq(lml_engine_compare(engine, &result, &later, "3.5 g", &report, &error), LML_OK);
    holds(&report, "\"moved\":1,\"beyond\":0");
    cr_expect_eq(lml_engine_compare(engine, &result, &later, "soon", &report, &error), LML_USAGE);
}

Test(papers, a_result_is_held_against_an_earlier_one)
{
    cr_assert_eq(lml_engine_again(engine, &result, &result, "old.json", &report, &error), LML_OK);
    holds(&report, "{\"result\":\"old.json\",\"same\":true,\"figures\":2,\"otherwise\":[]");
    lml_text_free(engine, &report);
    cr_assert_eq(lml_engine_again(engine, &result, &later, "old.json", &report, &error), LML_OK);
    holds(&report, "\"same\":false");
    holds(&report, "{\"name\":\"charge\",\"is\":\"33 g\",\"was\":\"30 g\"}");
}

/* Whoever draws one page is handed what it leaves out. */
Test(papers, a_page_is_drawn_and_what_it_leaves_out_is_told)
{
    static char text[] =
        "{\"lemel\":\"0.2.0\",\"job\":{\"recipe\":\"need\"},\"worked\":[],\"results\":{},"
        "\"settings\":{},"
        "\"sheets\":{\"bench\":[],\"client\":[{\"is\":\"text\",\"text\":\"Yours\"}]},"
        "\"remarks\":[{\"level\":\"stop\",\"code\":\"need/heavy\",\"text\":\"Too heavy\"}]}";
    lml_text sheet = {.text = text, .length = sizeof text - 1};
    lml_look look = {.page = "client"};
    cr_assert_eq(lml_engine_draw(engine, &sheet, &look, &after, &report, &error), LML_OK, "%s",
                 error.message);
    holds(&after, "Yours");
    cr_expect(strstr(after.text, "Too heavy") || (report.text && strstr(report.text, "Too heavy")));
    look.html = true;
    look.paper = "Letter";
    lml_text_free(engine, &after);
    cr_expect_eq(lml_engine_draw(engine, &sheet, &look, &after, NULL, &error), LML_OK);
    cr_expect(strstr(after.text, "@page { size: letter;"));
    look.paper = "A5";
    cr_expect_eq(lml_engine_draw(engine, &sheet, &look, &after, NULL, &error), LML_BAD_DATA);
    look = (lml_look){.page = "client"};
    look.page = "none";
    lml_text_free(engine, &after);
    cr_expect_eq(lml_engine_draw(engine, &sheet, &look, &after, NULL, &error), LML_NOT_FOUND);
    cr_expect_null(after.text);
}

/* Every request for memory in turn: the right status, nothing handed over, nothing lost. */
Test(papers, want_of_memory_is_told)
{
    const char *const word[] = {"raw casting=31.02 g", "flask held=65 min"};
    lml_entry entry = {.word = word, .count = 2, .at = "2026-11-26T14:20"};
    for (uint64_t n = 0;; n++) {
        lml_meter meter = {.under = lml_alloc_heap()};
        lml_engine *small =
            lml_engine_new(&(lml_engine_options){.alloc = lml_alloc_metered(&meter)});
        lml_text text = {.text = NULL}, told = {.text = NULL};
        meter.fail_at = n;
        lml_status status = lml_engine_record(small, job, strlen(job), "job.json", &result, &entry,
                                              &text, &told, &error);
        bool failed = n > 0 && meter.fail_at == 0;
        cr_assert_eq(status, failed ? LML_NO_MEMORY : LML_OK, "request %d: %s", (int)n,
                     error.message);
        lml_text_free(small, &text);
        lml_text_free(small, &told);
        lml_engine_free(small);
        cr_assert_eq(meter.used, 0u, "request %d leaks", (int)n);
        if (n > 0 && !failed)
            break;
        cr_assert_lt(n, 1000u);
    }
}

/* What lml_error_text promises: whole lines, however little room there is, and the length of all of
 * it. */
Test(papers, an_error_is_told_in_whole_lines)
{
    char text[LML_ERROR_TEXT], cut[60];
    lml_text out = {.text = NULL};
    cr_assert_eq(lml_engine_reckon(engine, "12,5 g", NULL, 0, &out, &error), LML_BAD_VALUE);
    size_t length = lml_error_text(&error, text, sizeof text);
    cr_expect_eq(length, strlen(text));
    cr_expect(strstr(text, "  12,5 g\n"), "%s", text);
    cr_expect(strstr(text, "^"), "%s", text);
    cr_expect_eq(text[length - 1], '\n');
    for (size_t size = 0; size <= sizeof cut; size++) {
        memset(cut, 'x', sizeof cut);
        cr_expect_eq(lml_error_text(&error, cut, size), length);
        if (size > 0)
            cr_expect(memchr(cut, '\0', size) && strncmp(cut, text, strlen(cut)) == 0 &&
                          (cut[0] == '\0' || cut[strlen(cut) - 1] == '\n'),
                      "%s", cut);
    }
}

/* What a program forgot is named, and nothing is read or written. */
Test(papers, null_is_refused_by_name)
{
    lml_text out = {.text = NULL};
    const char *none = NULL;
    const lml_text *no_result = NULL;
    lml_quote *no_quote = NULL;
#define REFUSED(name, call)                                                                        \
    do {                                                                                           \
        cr_expect_eq(call, LML_BAD_DATA, #call);                                                   \
        cr_expect(strstr(error.message, "the " name " is NULL"), "%s", error.message);             \
        cr_expect_null(out.text);                                                                  \
    } while (0)
    REFUSED("engine", lml_engine_run(NULL, job, 1, "job.json", &out, &error));
    REFUSED("job", lml_engine_run(engine, none, 0, "job.json", &out, &error));
    REFUSED("shown name", lml_engine_run(engine, job, 1, none, &out, &error));
    REFUSED("result", lml_engine_run(engine, job, 1, "job.json", NULL, &error));
    REFUSED("shown name", lml_engine_check(engine, job, 1, none, &error));
    REFUSED("recipe", lml_engine_inspect(engine, none, &out, &error));
    REFUSED("out", lml_engine_inspect(engine, "need", NULL, &error));
    REFUSED("out", lml_engine_prove(engine, "need", NULL, &error));
    REFUSED("out", lml_engine_reach(engine, "need", NULL, &error));
    REFUSED("out", lml_engine_schema(engine, "need", NULL, &error));
    REFUSED("out", lml_engine_advise(engine, "need", NULL, &error));
    REFUSED("out", lml_engine_faults(engine, NULL, NULL, NULL, NULL, &error));
    REFUSED("expression", lml_engine_reckon(engine, none, NULL, 0, &out, &error));
    REFUSED("engine", lml_engine_put(NULL, LML_PUT_HOUSE, NULL, "{}", 2, "house.json", &error));
    REFUSED("entry", lml_engine_record(engine, job, 1, "job.json", NULL, NULL, &out, NULL, &error));
    REFUSED("name", lml_engine_box(engine, &result, none, &out, &error));
    REFUSED("confirmation",
            lml_engine_confirm(engine, job, 1, "job.json", &result, NULL, &out, NULL, &error));
    REFUSED("quote",
            lml_engine_price(engine, NULL, 0, "prices.json", no_quote, &out, NULL, &error));
    REFUSED("result after", lml_engine_compare(engine, &result, no_result, NULL, &out, &error));
    REFUSED("shown name", lml_engine_again(engine, &result, &later, none, &out, &error));
    REFUSED("look", lml_engine_draw(engine, &result, NULL, &out, NULL, &error));
    REFUSED("text", lml_engine_check_value(engine, "need", "wax", none, &out, &error));
#undef REFUSED
    cr_expect_eq(lml_engine_check(engine, none, 0, none, NULL), LML_BAD_DATA);
    cr_expect_null(lml_engine_recipe(NULL, 0));
    cr_expect_eq(lml_engine_limits(NULL).steps, 0u);
    lml_text_free(NULL, &out);
    lml_text_free(engine, NULL);
    lml_engine_free(NULL);
}

/* A gate that two pages have is shut where one of them says so. */
Test(papers, what_a_gate_forbids_on_any_page_is_refused)
{
    static char pages[] =
        "{\"sheets\":{\"bench\":[{\"is\":\"part\",\"entries\":[{\"is\":\"line\",\"act\":\"tick\","
        "\"record\":\"lit\",\"label\":\"LIGHT\"}]}],\"card\":[{\"is\":\"line\",\"act\":\"tick\","
        "\"record\":\"lit\",\"label\":\"LIGHT\",\"withheld\":true,\"withheld_by\":\"x/gas\"}]},"
        "\"results\":{},\"remarks\":[{\"level\":\"stop\",\"code\":\"x/gas\",\"text\":\"No gas\"}]}";
    const lml_text known = {.text = pages, .length = sizeof pages - 1};
    lml_entry entry = {.at = "2026-11-26T14:20", .what = "lit"};
    cr_expect_eq(record(&entry, &known), LML_STOPPED);
    cr_expect(strstr(error.message, "No gas"), "%s", error.message);
    entry.anyway = true;
    cr_expect_eq(record(&entry, &known), LML_OK, "%s", error.message);
    holds(&report, "No gas");
}

/* ---- offers ---- */

/* The digest of `job`, as a result of it says, by an independent tool: sha256sum. */
static char offered_text[] =
    "{\"inputs\":{\"job\":{\"file\":\"job.json\",\"digest\":\"sha256:"
    "e277a6bb656f242d40967253ae567ac1163c6be460b7d15ba9997579247ad53c\"}},"
    "\"worked\":[{\"recipe\":\"casting\",\"digest\":\"sha256:00\"}],\"settings\":{},"
    "\"promised\":[\"price\",\"deposit\",\"valid_until\",\"lines\",\"gold\"],\"results\":{"
    "\"price\":{\"kind\":\"money\",\"value\":\"1149.00\",\"unit\":\"USD\",\"text\":\"1,149.00 "
    "USD\"},"
    "\"deposit\":{\"kind\":\"money\",\"value\":\"459.60\",\"unit\":\"USD\",\"text\":\"459.60 "
    "USD\"},"
    "\"valid_until\":{\"kind\":\"moment\",\"value\":\"2026-12-01T10:00\"},"
    "\"gold\":{\"kind\":\"fine_mass\",\"value\":12.5,\"unit\":\"g Au\",\"sd\":0.25},"
    "\"lines\":{\"kind\":\"list\",\"value\":[{\"kind\":\"record\",\"value\":{\"label\":{"
    "\"kind\":"
    "\"text\",\"value\":\"Making\"},\"amount\":{\"kind\":\"money\",\"value\":\"977.42\","
    "\"unit\":"
    "\"USD\"}}}]},\"cost\":{\"kind\":\"money\",\"value\":\"1.00\",\"unit\":\"USD\"}},"
    "\"remarks\":[]}";
static const lml_text offered = {.text = offered_text, .length = sizeof offered_text - 1};

static lml_status say(const char *text, size_t length, const char *what, const char *at)
{
    lml_offer said = {.what = what, .at = at, .by = "O.F.", .reason = "ill", .paid = NULL};
    const lml_text *known = strcmp(what, "offered") == 0 ? &offered : NULL;
    return lml_engine_offer(engine, text, length, "job.json", known, &said, &after, &report,
                            &error);
}

Test(papers, an_offer_keeps_what_is_promised_and_every_other_byte)
{
    cr_assert_eq(say(job, strlen(job), "offered", "2026-11-24"), LML_OK, "%s", error.message);
    holds(&after, "\"price\":\"1149.00 USD\"");
    holds(&after, "\"gold\":\"12.5 g Au ± 0.25 g Au\"");
    holds(&after, "\"lines\":[{\"label\":\"Making\",\"amount\":\"977.42 USD\"}]");
    holds(&after, "\"worked\":{\"casting\":\"sha256:00\"}");
    cr_expect_null(strstr(after.text, "cost"), "what is not promised is not kept");
    cr_expect_eq(strncmp(after.text, job, strlen(job) - 3), 0, "the bytes before it stay");
    holds(&report, "\"until\":\"2026-12-01T10:00\"");
}

/* Any one byte of what was said, changed, shows: the digits of a figure, a letter of a name. */
Test(papers, an_offer_that_is_changed_shows_whatever_is_changed)
{
    cr_assert_eq(say(job, strlen(job), "offered", "2026-11-24"), LML_OK);
    lml_text made = after;
    after = (lml_text){.text = NULL};
    lml_text_free(engine, &report);
    const char *from = strstr(made.text, "\"promised\""), *to = strstr(made.text, "\"lemel\"");
    int changed = 0;
    for (char *at = made.text + (from - made.text); at < to; at++) {
        bool digit = *at >= '0' && *at <= '9', letter = *at >= 'b' && *at <= 'y';
        if (!digit && !letter)
            continue;
        char was = *at;
        *at = digit ? (was == '9' ? '0' : '9') : 'z';
        lml_status status = say(made.text, made.length, "accepted", "2026-11-25");
        cr_expect_eq(status, LML_BAD_DATA, "changed at %.20s", at);
        *at = was;
        changed++;
    }
    cr_expect_gt(changed, 200);
    cr_expect_eq(say(made.text, made.length, "accepted", "2026-11-25"), LML_OK, "%s",
                 error.message);
    lml_text_free(engine, &made);
}

/* An entry taken out from before another shows too. */
Test(papers, an_offer_that_is_taken_out_shows)
{
    cr_assert_eq(say(job, strlen(job), "offered", "2026-11-24"), LML_OK);
    lml_text made = after;
    after = (lml_text){.text = NULL};
    lml_text_free(engine, &report);
    cr_assert_eq(say(made.text, made.length, "withdrawn", "2026-11-25"), LML_OK);
    char *first = strstr(after.text, "{\"what\":\"offered\""),
         *second = strstr(after.text, "{\"what\":\"withdrawn\"");
    memmove(first, second, strlen(second) + 1);
    size_t length = strlen(after.text);
    lml_text cut = after;
    after = (lml_text){.text = NULL};
    lml_text_free(engine, &report);
    cr_expect_eq(say(cut.text, length, "accepted", "2026-11-26"), LML_BAD_DATA);
    cr_expect(strstr(error.message, "changed by hand"), "%s", error.message);
    lml_text_free(engine, &cut);
    lml_text_free(engine, &made);
}

Test(papers, an_offer_is_made_of_the_result_of_its_own_job)
{
    static const char other[] = "{\"recipe\":\"casting\",\"date\":\"2026-11-24\"}";
    cr_expect_eq(say(other, strlen(other), "offered", "2026-11-24"), LML_BAD_DATA);
    cr_expect(strstr(error.message, "not from the job"), "%s", error.message);
}

static lml_status accept(const lml_text *made, const lml_text *known)
{
    const lml_offer said = {.what = "accepted", .at = "2026-11-25", .by = "T.M."};
    return lml_engine_offer(engine, made->text, made->length, "job.json", known, &said, &after,
                            &report, &error);
}

/* A stop of another text of the job, or of its closing, says nothing of what is accepted. */
Test(papers, an_acceptance_is_told_by_the_result_of_its_own_job)
{
    cr_assert_eq(say(job, strlen(job), "offered", "2026-11-24"), LML_OK);
    lml_text made = after;
    after = (lml_text){.text = NULL};
    lml_text_free(engine, &report);
    cr_expect_eq(accept(&made, &offered), LML_BAD_DATA);
    cr_expect(strstr(error.message, "not from the job"), "%s", error.message);
    cr_expect_eq(accept(&made, NULL), LML_OK, "%s", error.message);
    lml_text_free(engine, &made);
}
