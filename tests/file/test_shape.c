/* Shapes: what is read, what is refused and in which words, and that help and schema say the same.
 */
#include "file/alloy_read.h"
#include "file/shapes.h"
#include "value/metal.h"
#include "value/wanted.h"
#include "file/assay_read.h"
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static lml_json_document *parse(const char *text)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc = NULL;
    lml_error err = {0};
    cr_assert_eq(lml_json_read(&heap, lml_span_of(text), NULL, "t.json", &doc, &err), LML_OK,
                 "%s: %s", text, err.message);
    return doc;
}

static lml_status check(const lml_shape *s, const char *text, lml_error *err)
{
    lml_json_document *doc = parse(text);
    memset(err, 0, sizeof *err);
    lml_status status = lml_shape_check(s, lml_json_root(doc), err);
    cr_expect_eq(lml_shape_check(s, lml_json_root(doc), NULL) != LML_OK, status != LML_OK,
                 "%s without an error to fill", text);
    lml_json_free(doc);
    return status;
}

static void takes(const lml_shape *s, const char *text)
{
    lml_error err;
    cr_expect_eq(check(s, text, &err), LML_OK, "%s as %s: %s", text, lml_wanted_name(s->wanted),
                 err.message);
}

/* Refused, in a message that has all of `words` and a hint that has `hint`. */
static void refuses(const lml_shape *s, const char *text, const char *words, const char *hint)
{
    lml_error err;
    cr_expect_neq(check(s, text, &err), LML_OK, "%s as %s is taken", text,
                  lml_wanted_name(s->wanted));
    cr_expect(strstr(err.message, words), "%s: message \"%s\" lacks \"%s\"", text, err.message,
              words);
    cr_expect(strstr(err.hint, hint), "%s: hint \"%s\" lacks \"%s\"", text, err.hint, hint);
    cr_expect_eq(strncmp(err.message, "t.json:", 7), 0, "%s", err.message);
}

/* The examples of the kinds are what messages and help hold out to people: each must be taken. */
Test(shape, every_kind_takes_its_own_example)
{
    static const char *const choices[] = {"wax", "resin", NULL};
    for (int w = 0; w < LML_WANT_LIST; w++) {
        lml_shape s = {.wanted = (lml_wanted)w, .choices = choices, .metal = LML_Au};
        bool bare = w == LML_WANT_NUMBER || w == LML_WANT_WHOLE || w == LML_WANT_YES_NO;
        char text[100];
        snprintf(text, sizeof text, bare ? "%s" : "\"%s\"", lml_wanted_example((lml_wanted)w));
        takes(&s, text);
        if (w != LML_WANT_ANYTHING)
            refuses(&s, "[]", "a list where", "write something like");
        refuses(&s, "null", "null is not a value", "leave out the name");
    }
}

/* So are those of lists, records and choices, of kinds whose own example lies outside the bounds,
 * and of what holds quotes. */
Test(shape, every_shape_takes_its_example)
{
    static const char *const ways[] = {"in", "out", NULL};
    static const lml_shape fields[] = {
        {.wanted = LML_WANT_TEXT, .name = "name", .example = "14\" chain \\"},
        {.wanted = LML_WANT_MASS, .name = "mass", .to = "2 g"},
        {.wanted = LML_WANT_LENGTH, .name = "length", .from = "1 m"},
        {.wanted = LML_WANT_WHOLE, .name = "count", .from = "3", .to = "9"},
        {.wanted = LML_WANT_CHOICE, .name = "way", .choices = ways},
        {.wanted = LML_WANT_TEXT, .name = "note", .optional = true}};
    static const lml_shape record = {.wanted = LML_WANT_RECORD, .fields = fields, .field_count = 6},
                           loose = {.wanted = LML_WANT_RECORD,
                                    .fields = fields + 5,
                                    .field_count = 1},
                           none = {.wanted = LML_WANT_RECORD};
    const lml_shape shapes[] = {record,
                                loose,
                                none,
                                {.wanted = LML_WANT_LIST, .of = &record},
                                {.wanted = LML_WANT_BY_NAME, .of = &record}};
    char text[LML_EXAMPLE_TEXT];
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        cr_expect_lt(lml_shape_example_json(&shapes[i], NULL, text, sizeof text), sizeof text);
        takes(&shapes[i], text);
    }
    cr_expect_str_eq(lml_shape_example(&fields[1]), "2 g");
    cr_expect_str_eq(lml_shape_example(&fields[2]), "1 m");
    cr_expect_str_eq(lml_shape_example(&fields[4]), "in");
    cr_expect_geq(lml_shape_example_json(&shapes[3], NULL, text, 20), 20);
    cr_expect_str_eq(text, "[]", "no half of one");
}

/* The house's unit is shown in two digits, and in more where these are beyond a bound. */
Test(shape, an_example_keeps_within_its_bounds_in_any_unit)
{
    static const struct {
        lml_shape shape;
        const char *shown;
    } cases[] = {
        {{.wanted = LML_WANT_TEMPERATURE, .example = "750 °C"}, "1400 °F"},
        {{.wanted = LML_WANT_TEMPERATURE, .example = "750 °C", .to = "750 °C"}, "1380 °F"},
        {{.wanted = LML_WANT_TEMPERATURE, .example = "750 °C", .to = "750 °C", .from = "749.5 °C"},
         "1382 °F"},
        {{.wanted = LML_WANT_TEMPERATURE, .to = "750 °C"}, "1380 °F"},
        {{.wanted = LML_WANT_MASS, .example = "0.02 g", .from = "0.02 g"}, "0.02 dwt"},
        {{.wanted = LML_WANT_MASS, .example = "5 kg", .to = "5 kg"}, "5 kg"},
        {{.wanted = LML_WANT_MASS, .example = "45 g", .from = "45 g"}, "29 dwt"},
        {{.wanted = LML_WANT_MASS, .example = "45 g", .to = "45 g"}, "28.9 dwt"},
    };
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *house = NULL;
    cr_assert_eq(lml_json_read(&heap,
                               lml_span_of("{\"units\":{\"temperature\":\"°F\",\"mass\":\"dwt\"}}"),
                               NULL, "house.json", &house, NULL),
                 LML_OK);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[LML_EXAMPLE_TEXT];
        lml_shape_example_typed(&cases[i].shape, lml_json_root(house), text, sizeof text);
        cr_expect_str_eq(text, cases[i].shown, "case %zu: %s, not %s", i, text, cases[i].shown);
    }
    lml_json_free(house);
}

Test(shape, a_bare_number_is_never_a_value_with_a_unit)
{
    for (int w = LML_WANT_MASS; w < LML_WANT_NUMBER; w++) {
        lml_shape s = {.wanted = (lml_wanted)w};
        refuses(&s, "12.5", "12.5 is a bare number where ", "with its unit, in quotes, such as \"");
    }
    lml_shape mass = {.wanted = LML_WANT_MASS}, number = {.wanted = LML_WANT_NUMBER};
    refuses(&mass, "\"12.5\"", "12.5", "");
    refuses(&mass, "\"3.1 mL\"", "volume", "");
    refuses(&mass, "\"11,2 g\"", "comma", "11.2 g");
    refuses(&number, "\"0.93\"", "a text (\"0.93\") where a number is needed", "without quotes");
}

Test(shape, bounds)
{
    lml_shape wax = {.wanted = LML_WANT_MASS, .from = "0.02 g", .to = "2 kg"};
    takes(&wax, "\"0.02 g\"");
    takes(&wax, "\"2000 g\"");
    refuses(&wax, "\"0.019 g\"",
            "\"0.019 g\" is below the minimum of 0.02 g: check the figure and its unit", "");
    refuses(&wax, "\"2.1 kg\"",
            "\"2.1 kg\" is above the maximum of 2 kg: check the figure and its unit", "");
    refuses(&wax, "\"0.01..0.03 g\"", "below the minimum", "");
    takes(&wax, "\"0.03 g ± 0.02 g\"");
    lml_shape whole = {.wanted = LML_WANT_WHOLE, .from = "1", .to = "12"};
    takes(&whole, "1");
    takes(&whole, "3.0");
    refuses(&whole, "0", "below the minimum of 1: check the figure and its unit", "");
    refuses(&whole, "2.5", "2.5 is not a whole number", "");
    refuses(&whole, "1e17", "too large", "");
    lml_shape kiln = {.wanted = LML_WANT_TEMPERATURE, .to = "750 °C"};
    takes(&kiln, "\"1382 °F\"");
    refuses(&kiln, "\"1383 °F\"", "above the maximum", "");
}

Test(shape, value_is_given_back)
{
    lml_shape s = {.wanted = LML_WANT_MASS};
    lml_json_document *doc = parse("[\"2 dwt\", 3]");
    lml_value v;
    lml_error err;
    const lml_json *first = lml_json_first(lml_json_root(doc));
    cr_assert_eq(lml_shape_value(&s, first, &v, NULL), LML_OK);
    /* 1 dwt = 24 grain, 1 grain = 64.798 91 mg: NIST Handbook 44, appendix C. */
    cr_expect_eq(v.amount, 3.11034768e-3);
    s.wanted = LML_WANT_NUMBER;
    cr_assert_eq(lml_shape_value(&s, lml_json_next(first), &v, NULL), LML_OK);
    cr_expect_eq(v.amount, 3.0);
    s.wanted = LML_WANT_TEXT;
    cr_expect_eq(lml_shape_value(&s, first, &v, &err), LML_FAULT);
    lml_json_free(doc);
}

Test(shape, texts_choices_and_owners)
{
    static const char *const choices[] = {"wax", "resin", NULL};
    lml_shape text = {.wanted = LML_WANT_TEXT}, owner = {.wanted = LML_WANT_OWNER};
    lml_shape choice = {.wanted = LML_WANT_CHOICE, .choices = choices};
    takes(&text, "\"Zo\xC3\xAB's ring \\\"old\\\"\"");
    const lml_shape free = {.wanted = LML_WANT_TEXT, .title = "A wish", .optional = true};
    refuses(&text, "\"\"", "nothing is filled in", "write it like \"");
    refuses(&text, "\"  \"", "nothing is filled in", "");
    refuses(&free, "\"\"", "nothing is filled in: A wish", "or leave out the name");
    refuses(&text, "\"a\\nb\"", "control character (U+000A)", "");
    refuses(&text, "\"a\\u001b[2Jb\"", "control character (U+001B)", "");
    refuses(&text, "\"a\\u202eb\"", "an invisible character (U+202E)", "");
    char longer[LML_TEXT_MOST + 10];
    memset(longer, 'a', sizeof longer);
    snprintf(longer + LML_TEXT_MOST + 2, 2, "\"");
    longer[0] = '"';
    refuses(&text, longer, "longer than 4000 bytes", "");
    refuses(&owner, "7", "7 is a bare number where an owner is needed", "\"client\"");
    takes(&choice, "\"resin\"");
    refuses(&choice, "\"wox\"", "\"wox\" is not one of the choices", "did you mean \"wax\"?");
    refuses(&choice, "\"Wax\"", "is not one of the choices", "did you mean \"wax\"?");
    refuses(&choice, "\"plaster\"", "is not one of the choices", "the choices are: wax, resin");
    lml_shape yes = {.wanted = LML_WANT_YES_NO};
    refuses(&yes, "\"true\"", "a text (\"true\") where true or false is needed", "without quotes");
    refuses(&yes, "1", "bare number", "true");
}

/* The form alone; sizes themselves are looked up elsewhere. */
Test(shape, ring_sizes)
{
    static const char *const good[] = {
        "US 6 1/4", "US 6.25",  "US 6",     "UK L 1/2",     "UK L\xC2\xBD", "UK Z+3",
        "UK Q",     "ISO 52.5", "JP 12",    "CH 12.5",      "CA 6",         "IT 14",
        "ES 14.5",  "IE Q",     "AU M 1/2", "NZ L\xC2\xBD", "UK Z+1 1/2",   "IE Z+6"};
    static const char *const bad[] = {"6 1/4",   "L",        "US",    "US ",    "us 6",   "UK 7",
                                      "UK l",    "UK L 1/4", "UK LL", "UK A+1", "EU 52",  "ISO -3",
                                      "ISO 1e9", "US six",   "JP12",  "NZ 6",   "CA M",   "UK Z+",
                                      "UK Z+0",  "UK Y+1",   "IT L",  "IE",     "UK Z+12"};
    lml_shape s = {.wanted = LML_WANT_RING_SIZE};
    char text[60];
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        snprintf(text, sizeof text, "\"%s\"", good[i]);
        takes(&s, text);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        snprintf(text, sizeof text, "\"%s\"", bad[i]);
        refuses(&s, text, "is not a ring size", "name the system");
    }
}

/* ---- records ---- */

static const lml_shape lot_fields[] = {
    {.wanted = LML_WANT_MASS, .name = "gross", .title = "As weighed"},
    {.wanted = LML_WANT_FINENESS, .name = "fineness", .metal = LML_Au, .optional = true},
    {.wanted = LML_WANT_YES_NO, .name = "magnetic", .default_text = "false"},
};
static const lml_shape lot = {.wanted = LML_WANT_RECORD, .fields = lot_fields, .field_count = 3};
static const lml_shape ask_fields[] = {
    {.wanted = LML_WANT_LIST, .name = "old_metal", .title = "What the client brings", .of = &lot},
    {.wanted = LML_WANT_MASS,
     .name = "wax",
     .title = "Finished wax",
     .from = "0.02 g",
     .to = "2 kg"},
    {.wanted = LML_WANT_RATIO,
     .name = "melt_loss",
     .title = "Lost in the melt",
     .default_text = "0.5 %",
     .source = "common practice, no source",
     .to = "10 %"},
};
static const lml_shape asks = {
    .wanted = LML_WANT_RECORD, .title = "A remake", .fields = ask_fields, .field_count = 3};

Test(shape, records)
{
    takes(&asks,
          "{\"wax\": \"2 g\", \"old_metal\": [{\"gross\": \"4.1 dwt\", \"fineness\": \"14K\"}]}");
    takes(&asks, "{\"wax\": \"2 g\", \"old_metal\": [], \"melt_loss\": \"1 %\"}");
    refuses(&asks, "{\"old_metal\": []}", "t.json:1: wax is missing: Finished wax",
            "add \"wax\": \"12.5 g\"");
    refuses(&asks, "{}", "2 names are missing: old_metal, wax",
            "add \"old_metal\": [{\"gross\": \"12.5 g\"}]");
    refuses(&asks, "{\"waxx\": \"2 g\"}", "waxx: this name is not used", "did you mean wax?");
    refuses(&asks, "{\"Wax\": \"2 g\"}", "Wax: this name is not used", "capitals count: write wax");
    refuses(&asks, "{\"sprue_mass\": 1}", "is not used",
            "the names here are: old_metal, wax, melt_loss");
    refuses(&asks, "[]", "a list where a record is needed",
            "{\"old_metal\": [{\"gross\": \"12.5 g\"}], \"wax\": \"12.5 g\"}");
    refuses(&asks, "{\"old_metal\": {}}", "a record where a list is needed",
            "[{\"gross\": \"12.5 g\"}]");
    refuses(&asks, "{\n\"old_metal\": [{\"gross\": \"1 g\"},\n{\"gross\": 3}]}",
            "t.json:3: old_metal[1].gross: 3 is a bare number where a mass is needed",
            "\"12.5 g\"");
    refuses(&asks, "{\"old_metal\": [{}]}", "t.json:1: old_metal[0]: gross is missing: As weighed",
            "");
}

Test(shape, further_names_and_entries)
{
    static const lml_shape mass = {.wanted = LML_WANT_MASS};
    lml_shape open = {
        .wanted = LML_WANT_RECORD, .fields = lot_fields, .field_count = 3, .of = &mass};
    takes(&open, "{\"gross\": \"1 g\", \"anything else\": \"2 g\"}");
    refuses(&open, "{\"gross\": \"1 g\", \"anything else\": 2}",
            "\"anything else\": 2 is a bare number", "");
    lml_shape by_name = {.wanted = LML_WANT_BY_NAME, .of = &mass};
    takes(&by_name, "{}");
    takes(&by_name, "{\"a\": \"1 g\", \"b\": \"2 g\"}");
    refuses(&by_name, "{\"a\": \"1 g\", \"b\": \"2 mm\"}", "b: ", "");
}

/* ---- alloys and assays ---- */

Test(shape, alloys)
{
    lml_shape s = {.wanted = LML_WANT_ALLOY};
    takes(&s, "\"Au750 yellow 3N\"");
    takes(&s, "{\"composition\": {\"Au\": \"585 ‰\", \"Ag\": \"12.5 %\", \"Cu\": \"290 ‰\"}, "
              "\"density\": \"13.3 g/cm3\", "
              "\"solidus\": \"850 °C\", \"liquidus\": \"890 °C\", \"note\": \"own melt\"}");
    refuses(&s, "{}", "composition is missing", "\"composition\"");
    refuses(&s, "{\"composition\": {\"Au\": \"585 ‰\"}}", "composition: ", "");
    refuses(&s, "{\"composition\": {\"Au\": \"600 ‰\", \"Cu\": \"500 ‰\"}}", "1100", "");
    refuses(&s, "{\"composition\": {\"au\": \"1000 ‰\"}}",
            "composition.au: \"au\" is not a known metal", "did you mean Au?");
    refuses(&s, "{\"composition\": {\"gold\": \"1000 ‰\"}}", "is not a known metal",
            "did you mean Au?");
    refuses(&s, "{\"composition\": {\"unobtainium\": \"1000 ‰\"}}", "is not a known metal",
            "chemical symbol");
    refuses(&s, "{\"composition\": {\"Au\": \"1000 ‰ Ag\"}}", "silver", "");
    refuses(&s, "{\"composition\": {\"Au\": 1}}", "composition.Au: 1 is a bare number", "585 ‰");
    refuses(&s, "{\"composition\": {\"Au\": \"\"}}", "composition.Au: ", "");
    refuses(&s, "{\"composition\": {\"Au\": \"%\"}}", "composition.Au: ", "");
    refuses(&s, "{\"composition\": {\"Au\": \"1000 ‰\", \"Cu\": \"5 g%\"}}",
            "composition.Cu: ", "");
    refuses(&s,
            "{\"composition\": {\"Au\": \"1000 ‰\"}, \"solidus\": \"1070 °C\", \"liquidus\": "
            "\"1064 °C\"}",
            "solidus", "");
    refuses(&s, "{\"composition\": {\"Au\": \"1000 ‰\"}, \"densty\": \"19.3 g/cm3\"}", "densty",
            "did you mean density?");
}

Test(shape, an_alloy_is_read)
{
    lml_json_document *doc =
        parse("{\"Studio white\": {\"composition\": {\"Au\": \"750 ‰\", \"Pd\": \"250 ‰\"}, "
              "\"density\": \"15.6 g/cm3 ± 0.1 g/cm3\", \"liquidus\": \"1300 °C\", \"source\": "
              "\"supplier\"}}");
    lml_alloy a;
    lml_error err = {0};
    cr_assert_eq(lml_alloy_read(lml_json_first(lml_json_root(doc)), &a, &err), LML_OK, "%s",
                 err.message);
    cr_expect_str_eq(a.name, "Studio white");
    cr_expect_str_eq(a.source, "supplier");
    cr_expect_eq(a.composition.part[LML_Au], 0.75);
    cr_expect_eq(a.composition.part[LML_Pd], 0.25);
    cr_expect_eq(a.density, 15600.0);
    cr_expect_float_eq(a.density_deviation, 100.0, 1e-9);
    cr_expect_float_eq(a.liquidus, 1573.15, 1e-9);
    cr_expect_eq(a.density_known, LML_GIVEN);
    cr_expect_eq(a.solidus_known, LML_UNKNOWN);
    lml_json_free(doc);
}

Test(shape, assays)
{
    lml_shape s = {.wanted = LML_WANT_ASSAY}, gold = {.wanted = LML_WANT_ASSAY, .metal = LML_Au};
    takes(&s, "\"Au585 yellow\"");
    takes(&s, "\"579 ‰ Au ± 5 ‰\"");
    takes(&s, "{\"Au\": \"579 ‰ ± 5 ‰\", \"Ag\": \"90 ‰\"}");
    takes(&gold, "\"579 ‰\"");
    takes(&gold, "\"14K\"");
    takes(&gold, "\"14K yellow\""); /* a name; whether it is known is seen when it is taken */
    refuses(&s, "{\"Au\": \"900 ‰\", \"Ag\": \"200 ‰\"}", "1100", "");
    refuses(&s, "0.585", "bare number", "585 ‰ Au");
    refuses(&s, "\"585 g\"", "g", "");

    lml_json_document *doc =
        parse("[{\"Au\": \"579 ‰ ± 5 ‰\", \"Ag\": \"80..100 ‰\"}, \"750 ‰ Au\"]");
    lml_assay a;
    const lml_json *first = lml_json_first(lml_json_root(doc));
    cr_assert_eq(lml_assay_read(first, LML_NO_METAL, &a, NULL), LML_OK);
    cr_expect_float_eq(a.found.part[LML_Au], 0.579, 1e-12);
    cr_expect_float_eq(a.deviation.part[LML_Au], 0.005, 1e-12);
    cr_expect_float_eq(a.found.part[LML_NO_METAL], 1 - 0.579 - 0.09, 1e-12);
    /* A rectangular distribution of half-width w has the standard deviation w / sqrt 3: JCGM
     * 100:2008 (GUM), 4.3.7. */
    cr_expect_float_eq(a.deviation.part[LML_Ag], 0.010 / sqrt(3), 1e-12);
    cr_assert_eq(lml_assay_read(lml_json_next(first), LML_NO_METAL, &a, NULL), LML_OK);
    cr_expect_eq(a.found.part[LML_Au], 0.75);
    cr_expect_float_eq(a.found.part[LML_NO_METAL], 0.25, 1e-12);
    lml_json_free(doc);
}

/* ---- from the command line; shapes themselves ---- */

static lml_status read_line(const lml_shape *s, const char *text, char *raw, size_t size)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc;
    lml_status status = lml_shape_read(&heap, s, lml_span_of(text), "wax=", NULL, &doc, NULL);
    if (status)
        return status;
    lml_span json = lml_json_raw(lml_json_root(doc));
    snprintf(raw, size, "%.*s", (int)json.length, json.at);
    lml_json_free(doc);
    return LML_OK;
}

Test(shape, a_command_line_text_becomes_json)
{
    static const lml_shape mass = {.wanted = LML_WANT_MASS}, number = {.wanted = LML_WANT_NUMBER},
                           yes = {.wanted = LML_WANT_YES_NO}, text = {.wanted = LML_WANT_TEXT},
                           list = {.wanted = LML_WANT_LIST, .of = &mass};
    char raw[100];
    cr_expect_eq(read_line(&mass, "2.85 g", raw, sizeof raw), LML_OK);
    cr_expect_str_eq(raw, "\"2.85 g\"");
    cr_expect_eq(read_line(&number, "0.93", raw, sizeof raw), LML_OK);
    cr_expect_str_eq(raw, "0.93");
    cr_expect_eq(read_line(&yes, "true", raw, sizeof raw), LML_OK);
    cr_expect_str_eq(raw, "true");
    cr_expect_eq(read_line(&text, "[sic] \"so\"", raw, sizeof raw), LML_OK);
    cr_expect_str_eq(raw, "\"[sic] \\\"so\\\"\"");
    cr_expect_eq(read_line(&list, "[\"1 g\", \"2 g\"]", raw, sizeof raw), LML_OK);
    cr_expect_str_eq(raw, "[\"1 g\", \"2 g\"]");
    cr_expect_eq(read_line(&list, "[\"1 g\"], \"recipe\": 1", raw, sizeof raw), LML_BAD_DATA);
    cr_expect_neq(read_line(&mass, "2.85", raw, sizeof raw), LML_OK);
    cr_expect_neq(read_line(&number, "two", raw, sizeof raw), LML_OK);
    cr_expect_neq(read_line(&mass, "2 \xFF", raw, sizeof raw), LML_OK);
}

Test(shape, every_failed_allocation_is_reported)
{
    for (uint64_t n = 1;; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_json_document *doc = NULL;
        static const lml_shape mass = {.wanted = LML_WANT_MASS};
        lml_status status =
            lml_shape_read(&alloc, &mass, lml_span_of("2 g"), "wax", NULL, &doc, NULL);
        lml_json_free(doc);
        cr_assert_eq(meter.used, 0u, "request %d leaks", (int)n);
        if (status == LML_OK)
            break;
        cr_assert_eq(status, LML_NO_MEMORY);
        cr_assert_lt(n, 50u);
    }
}

static void unsound(lml_shape s, const char *words)
{
    lml_alloc heap = lml_alloc_heap();
    lml_error err = {0};
    cr_expect_neq(lml_shape_valid(&heap, &s, &err), LML_OK, "%s", words);
    cr_expect(strstr(err.message, words), "\"%s\" lacks \"%s\"", err.message, words);
}

Test(shape, an_unsound_shape_is_found)
{
    static const lml_shape twice[] = {{.wanted = LML_WANT_TEXT, .name = "a"},
                                      {.wanted = LML_WANT_TEXT, .name = "a"}};
    static const lml_shape unnamed[] = {{.wanted = LML_WANT_TEXT}};
    static const char *const none[] = {NULL};
    unsound((lml_shape){.wanted = LML_WANT_MASS, .from = "3 mm"}, "mm");
    unsound((lml_shape){.wanted = LML_WANT_MASS, .from = "2 g", .to = "1 g"},
            "from (2 g) is above to (1 g)");
    unsound((lml_shape){.wanted = LML_WANT_MASS, .from = "2 g", .default_text = "1 g"},
            "below the minimum of");
    unsound((lml_shape){.wanted = LML_WANT_MASS, .default_text = "1"}, "");
    unsound((lml_shape){.wanted = LML_WANT_TEXT, .to = "10"}, "takes neither from");
    unsound((lml_shape){.wanted = LML_WANT_CHOICE}, "no choices");
    unsound((lml_shape){.wanted = LML_WANT_CHOICE, .choices = none}, "no choices");
    unsound((lml_shape){.wanted = LML_WANT_LIST}, "does not say of what");
    unsound((lml_shape){.wanted = LML_WANT_BY_NAME}, "does not say of what");
    unsound((lml_shape){.wanted = LML_WANT_RECORD, .fields = twice, .field_count = 2},
            "two fields are called a");
    unsound((lml_shape){.wanted = LML_WANT_RECORD, .fields = unnamed, .field_count = 1}, "no name");
}

/* ---- help and schema ---- */

Test(shape, help)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_shape_help(&asks, 2, &b);
    cr_assert_eq(lml_builder_status(&b, NULL), LML_OK);
    cr_expect_str_eq(
        b.at,
        "  old_metal: What the client brings\n"
        "      a list\n"
        "      each\n"
        "          a record\n"
        "          gross: As weighed\n"
        "              a mass, such as 12.5 g\n"
        "          fineness (may be left out)\n"
        "              a fineness of gold, such as 585 ‰\n"
        "          magnetic\n"
        "              true or false, such as true; default false\n"
        "  wax: Finished wax\n"
        "      a mass, such as 12.5 g, from 0.02 g to 2 kg\n"
        "  melt_loss: Lost in the melt\n"
        "      a ratio, such as 0.5 %, at most 10 %; default 0.5 % (common practice, no source)\n");
    lml_builder_free(&b);
}

/* Keywords: JSON Schema Core and Validation, draft 2020-12 (Core 8.1.1, 10.3; Validation 6.1
 * to 6.5). */
Test(shape, schema)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_json_writer w = lml_json_writer_on(&b, true);
    lml_json_document *doc;
    lml_shape_schema(&asks, true, &w);
    cr_assert_eq(lml_json_writer_end(&w, NULL), LML_OK);
    cr_assert_eq(lml_json_read(&heap, (lml_span){b.at, b.length}, NULL, "t", &doc, NULL), LML_OK);
    const lml_json *root = lml_json_root(doc), *properties = lml_json_member(root, "properties");
    cr_expect(lml_span_is(lml_json_text(lml_json_member(root, "$schema")),
                          "https://json-schema.org/draft/2020-12/schema"));
    cr_expect(lml_span_is(lml_json_text(lml_json_member(root, "type")), "object"));
    cr_expect(lml_span_is(lml_json_raw(lml_json_member(root, "additionalProperties")), "false"));
    cr_expect_eq(lml_json_count(lml_json_member(root, "required")), 2u,
                 "what has a default is not required");
    cr_expect_eq(lml_json_count(properties), 3u);
    const lml_json *list = lml_json_member(properties, "old_metal"),
                   *items = lml_json_member(list, "items");
    cr_expect(lml_span_is(lml_json_text(lml_json_member(list, "type")), "array"));
    cr_expect(
        lml_span_is(lml_json_text(lml_json_member(
                        lml_json_member(lml_json_member(items, "properties"), "magnetic"), "type")),
                    "boolean"));
    cr_expect(
        lml_span_is(lml_json_text(lml_json_member(lml_json_member(properties, "wax"), "$ref")),
                    "#/$defs/mass"));
    const lml_json *mass = lml_json_member(lml_json_member(root, "$defs"), "mass");
    cr_expect(lml_span_is(lml_json_text(lml_json_member(mass, "type")), "string"));
    cr_expect(lml_json_member(mass, "pattern"));
    lml_json_free(doc);
    lml_builder_free(&b);

    for (uint64_t n = 1; n < 100; n++) {
        lml_meter meter = {.under = heap, .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        b = lml_builder_on(&alloc, 0);
        w = lml_json_writer_on(&b, true);
        lml_shape_schema(&asks, true, &w);
        lml_status status = lml_json_writer_end(&w, NULL);
        cr_assert_eq(status, meter.requests >= n ? LML_NO_MEMORY : LML_OK, "request %d", (int)n);
        lml_builder_free(&b);
        cr_assert_eq(meter.used, 0u);
    }
}

/* ---- the files of a studio ---- */

Test(shapes, are_sound)
{
    static const lml_shape *const all[] = {&lml_shapes_job, &lml_shapes_house, &lml_shapes_prices,
                                           &lml_alloy_read_shape, &lml_assay_read_shape};
    lml_alloc heap = lml_alloc_heap();
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        lml_error err = {0};
        cr_expect_eq(lml_shape_valid(&heap, all[i], &err), LML_OK, "%s: %s", all[i]->title,
                     err.message);
    }
    cr_expect_eq(lml_shapes_named(lml_span_of("job")), &lml_shapes_job);
    cr_expect_eq(lml_shapes_named(lml_span_of("house")), &lml_shapes_house);
    cr_expect_eq(lml_shapes_named(lml_span_of("prices")), &lml_shapes_prices);
    cr_expect_null(lml_shapes_named(lml_span_of("Job")));
}

/* Every example that a file's shape holds out is itself taken. */
static void examples_are_taken(const lml_shape *s)
{
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        char text[200];
        if (f->wanted != LML_WANT_LIST && f->wanted != LML_WANT_RECORD &&
            f->wanted != LML_WANT_BY_NAME) {
            bool bare = f->wanted == LML_WANT_WHOLE || f->wanted == LML_WANT_YES_NO;
            /* Under its name: the unit of a kind knows the kind from that. */
            lml_shape one = {
                .wanted = LML_WANT_RECORD, .title = "t", .fields = f, .field_count = 1};
            snprintf(text, sizeof text, bare ? "{\"%s\": %s}" : "{\"%s\": \"%s\"}", f->name,
                     f->wanted == LML_WANT_CHOICE ? f->choices[0] : lml_shape_example(f));
            takes(&one, text);
        }
        examples_are_taken(f);
    }
    if (s->of)
        examples_are_taken(s->of);
}

Test(shapes, examples_are_taken)
{
    examples_are_taken(&lml_shapes_job);
    examples_are_taken(&lml_shapes_house);
    examples_are_taken(&lml_shapes_prices);
}

Test(shapes, job)
{
    const lml_shape *s = &lml_shapes_job;
    takes(s, "{\"recipe\": \"remake\", \"title\": \"Two rings\", \"date\": \"2026-11-24\","
             "\"given\": {\"wax\": \"2.85 g\", \"metal\": \"Au585 yellow\", \"count\": 2},"
             "\"house\": {\"need.button\": \"12 g\"},"
             "\"confirmed\": {\"charge/old-metal-share\": {\"reason\": \"client insists\", \"by\": "
             "\"O.F.\", \"figure\": \"63 %\"}},"
             "\"record\": [{\"at\": \"2026-11-26T14:20\", \"what\": \"raw casting\", \"mass\": "
             "\"31.02 g\", "
             "\"fineness\": \"585 ‰\", \"owner\": \"client\"}]}");
    takes(s, "{\"recipe\": \"need\"}");
    refuses(s, "{}", "recipe is missing", "add \"recipe\"");
    refuses(s, "{\"recipe\": \"need\", \"givn\": {}}", "givn", "did you mean given?");
    refuses(s, "{\"recipe\": \"need\", \"date\": \"2026-02-30\"}", "date: ", "");
    refuses(s, "{\"recipe\": \"need\", \"confirmed\": {\"a/b\": {\"by\": \"O.F.\"}}}",
            "confirmed.\"a/b\": reason is missing", "");
    refuses(s,
            "{\"recipe\": \"need\", \"record\": [{\"at\": \"2026-11-26T14:20\", \"what\": \"x\", "
            "\"mass\": \"-1 g\"}]}",
            "record[0].mass: \"-1 g\" is below", "");
    refuses(s,
            "{\"recipe\": \"need\", \"record\": [{\"at\": \"2026-11-26T14:20\", \"what\": \"x\", "
            "\"mass\": \"1 oz\"}]}",
            "record[0].mass", "");
    refuses(s, "{\"recipe\": \"need\", \"record\": {}}", "record: a record where a list is needed",
            "");
}

Test(shapes, house)
{
    const lml_shape *s = &lml_shapes_house;
    takes(
        s,
        "{\"name\": \"Studio\", \"place\": \"CA-QC\", \"currency\": \"CAD\", \"units\": {\"mass\": "
        "\"g\", \"mass_bench\": \"dwt\","
        "\"length\": \"mm\", \"temperature\": \"°C\", \"vacuum\": \"inHg\", \"volume\": \"mL\", "
        "\"fineness\": \"‰\"}, \"altitude\": \"233 m\","
        "\"stock\": {\"Studio yellow\": {\"composition\": {\"Au\": \"585 ‰\", \"Cu\": \"415 ‰\"}}},"
        "\"button\": \"9 g\", \"need.button\": \"12 g\", \"flasks\": [{\"diameter\": \"63.5 "
        "mm\"}]}");
    takes(s, "{}");
    refuses(s, "{\"currency\": \"cad\"}", "\"cad\" is not a currency", "three capitals");
    refuses(s, "{\"units\": {\"mass\": \"oz\"}}", "units.mass: ", "");
    refuses(s, "{\"units\": {\"mass\": \"grams\"}}", "units.mass: ", "");
    refuses(s, "{\"altitude\": 233}", "altitude: 233 is a bare number where a length is needed",
            "\"233 m\"");
    refuses(s, "{\"altitude\": \"233 km\"}", "altitude: ", "");
    refuses(s, "{\"altitude\": \"9001 m\"}", "above the maximum of", "");
    refuses(s, "{\"stock\": {\"x\": {\"composition\": {\"Au\": \"585 ‰\"}}}}",
            "stock.x.composition: ", "");
    refuses(s, "{\"button\": null}", "button: null is not a value", "");
}

Test(shapes, prices)
{
    const lml_shape *s = &lml_shapes_prices;
    takes(s, "{\"prices\": {\"Au\": {\"price\": \"98.50 USD/g\", \"at\": \"2026-11-24T09:00\", "
             "\"from\": \"refiner\","
             "\"history\": [{\"price\": \"97.10 USD/g\", \"at\": \"2026-11-20T09:00\", \"from\": "
             "\"refiner\"}]}}}");
    refuses(s, "{}", "prices is missing", "");
    refuses(s,
            "{\"prices\": {\"Au\": {\"price\": \"98.50 USD\", \"at\": \"2026-11-24\", \"from\": "
            "\"refiner\"}}}",
            "prices.Au.price: ", "");
    refuses(s, "{\"prices\": {\"Au\": {\"price\": \"98.50 USD/g\", \"from\": \"refiner\"}}}",
            "prices.Au: at is missing", "");
}
