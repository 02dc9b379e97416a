#include "base/letter.h"
#include "base/shell.h"
#include "base/text.h"

#include <criterion/criterion.h>
#include <limits.h>
#include <locale.h>
#include <string.h>
#include <wchar.h>

/* Declared here because strict C11 with POSIX hides it: X/Open, System Interfaces, wcwidth. */
extern int wcwidth(wchar_t c);

#define SPAN(text) lml_span_of(text)

Test(text, spans)
{
    cr_expect_eq(lml_span_of(NULL).length, 0);
    const char *text = "12 g";
    cr_expect(lml_span_is(lml_span_between(text, text + 2), "12"));
    cr_expect(lml_span_is(lml_span_trim(SPAN(" \t\r\n a b \n")), "a b"));
    cr_expect(lml_span_is(lml_span_trim(SPAN(" \n ")), ""));
    cr_expect(lml_span_starts(SPAN("gold"), "go"));
    cr_expect_not(lml_span_starts(SPAN("g"), "go"));
    cr_expect_not(lml_span_equal(SPAN("gold"), SPAN("golf")));
    cr_expect(lml_span_equal((lml_span){NULL, 0}, SPAN("")));
    cr_expect(lml_span_is_line_of(SPAN("mass"), SPAN("lot.mass\nmass\n")));
    cr_expect(lml_span_is_line_of(SPAN("mass"), SPAN("lot.mass\nmass")));
    cr_expect_not(lml_span_is_line_of(SPAN("mass"), SPAN("lot.mass\nmass.net\n")));
    cr_expect_not(lml_span_is_line_of(SPAN("mass"), SPAN("")));
}

/* IEEE 1003.1, XCU 2.2.2: nothing is special between single quotes, and a single quote cannot be
 * there. */
Test(text, a_place_in_a_list)
{
    char out[14];
    static const struct {
        int index;
        const char *path;
    } places[] = {{0, "lots[0]"}, {9, "lots[9]"}, {10, "lots[10]"}, {1234567, "lots[1234567]"}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        lml_text_place(out, sizeof out, "lots", places[i].index);
        cr_expect_str_eq(out, places[i].path);
    }
    lml_text_place(out, sizeof out, "lots", INT_MAX); /* cut */
    cr_expect_str_eq(out, "lots[21474836");
}

Test(text, a_word_of_a_command_can_be_copied)
{
    static const struct {
        const char *word, *typed;
    } CASES[] = {{"jobs/ring-2.json", "jobs/ring-2.json"},
                 {"", "''"},
                 {"a b", "'a b'"},
                 {"Anna's ring", "'Anna'\\''s ring'"},
                 {"'", "''\\'''"},
                 {"$HOME `ls` \"x\" \\ *", "'$HOME `ls` \"x\" \\ *'"},
                 {"~/x", "'~/x'"},
                 {"-x.json", "./-x.json"},
                 {"-a b.json", "'./-a b.json'"},
                 {"k\u00e4stchen", "'k\u00e4stchen'"}};
    lml_alloc heap = lml_alloc_heap();
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char word[LML_SHELL_WORD];
        lml_builder b = lml_builder_on(&heap, 0);
        lml_shell_add_word(&b, SPAN(CASES[i].word));
        cr_expect_str_eq(b.at, CASES[i].typed);
        cr_expect_str_eq(lml_shell_word(SPAN(CASES[i].word), word), CASES[i].typed);
        lml_builder_free(&b);
    }
}

Test(text, a_word_too_long_for_its_buffer_is_cut_within_its_quotes)
{
    char text[LML_SHELL_WORD * 2], word[LML_SHELL_WORD];
    for (size_t most = LML_SHELL_WORD - 8; most < sizeof text; most++) {
        memset(text, '\'', most);
        text[most] = '\0';
        (void)lml_shell_word(SPAN(text), word);
        cr_expect_lt(strlen(word), sizeof word);
        cr_expect_eq(word[strlen(word) - 1], '\'');
    }
}

static void write_all(lml_builder *b)
{
    lml_builder_add_text(b, "gold");
    lml_builder_add_char(b, ' ');
    lml_builder_add_format(b, "%d %s", 750, "parts");
    lml_builder_add_repeat(b, '-', 300);
    lml_builder_add_format(b, "%0500d", 7);
    lml_builder_add_span(b, SPAN(" end"));
    lml_builder_add(b, NULL, 0);
}

Test(text, a_builder_keeps_what_was_appended)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    cr_expect_null(b.at);
    write_all(&b);
    cr_expect_eq(lml_builder_status(&b, NULL), LML_OK);
    cr_expect_eq(b.length, 4 + 1 + 9 + 300 + 500 + 4);
    cr_expect_eq(strlen(b.at), b.length);
    cr_expect_eq(strncmp(b.at, "gold 750 parts---", 17), 0);
    cr_expect_str_eq(b.at + b.length - 6, "07 end");
    lml_builder_free(&b);
    cr_expect_null(b.at);
}

Test(text, a_builder_survives_the_failure_of_any_request)
{
    uint64_t requests = 1;
    for (uint64_t n = 1; n <= requests; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_builder b = lml_builder_on(&alloc, 0);
        write_all(&b);
        lml_error err;
        cr_expect_eq(lml_builder_status(&b, &err), LML_NO_MEMORY);
        cr_expect_eq(err.status, LML_NO_MEMORY);
        size_t length = b.length;
        lml_builder_add_text(&b, "x");
        cr_expect_eq(b.length, length, "sticky");
        lml_builder_free(&b);
        cr_expect_eq(meter.used, 0, "nothing leaks when request %d fails", (int)n);

        meter.requests = 0;
        b = lml_builder_on(&alloc, 0);
        write_all(&b);
        cr_expect_eq(lml_builder_status(&b, NULL), LML_OK);
        requests = meter.requests;
        lml_builder_free(&b);
    }
    cr_expect_gt(requests, 2);
}

Test(text, a_builder_stops_at_its_bound)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 10);
    lml_builder_add_text(&b, "0123456789");
    cr_expect_eq(lml_builder_status(&b, NULL), LML_OK);
    lml_builder_add_char(&b, 'x');
    cr_expect_eq(lml_builder_status(&b, NULL), LML_LIMIT);
    cr_expect_str_eq(b.at, "0123456789");
    lml_builder_free(&b);
    b = lml_builder_on(&heap, 0);
    lml_builder_add_char(&b, 'a');
    lml_builder_add_repeat(&b, 'x', SIZE_MAX - 1);
    cr_expect_eq(lml_builder_status(&b, NULL), LML_LIMIT);
    lml_builder_free(&b);
}

/* The Unicode Standard, section 3.9, table 3-7 (well-formed byte sequences): the ends of its rows
 * and their neighbours. Length 0 is ill-formed. */
Test(text, utf8_is_what_the_standard_says)
{
    static const struct {
        const char *bytes;
        size_t length;
        uint32_t code;
    } cases[] = {
        {"\x7f", 1, 0x7f},
        {"\x80", 0, 0},
        {"\xc1\xbf", 0, 0},
        {"\xc2\x80", 2, 0x80},
        {"\xdf\xbf", 2, 0x7ff},
        {"\xe0\x9f\xbf", 0, 0},
        {"\xe0\xa0\x80", 3, 0x800},
        {"\xed\x9f\xbf", 3, 0xd7ff},
        {"\xed\xa0\x80", 0, 0},
        {"\xee\x80\x80", 3, 0xe000},
        {"\xef\xbf\xbf", 3, 0xffff},
        {"\xf0\x8f\xbf\xbf", 0, 0},
        {"\xf0\x90\x80\x80", 4, 0x10000},
        {"\xf4\x8f\xbf\xbf", 4, 0x10ffff},
        {"\xf4\x90\x80\x80", 0, 0},
        {"\xf5\x80\x80\x80", 0, 0},
        {"\xff", 0, 0},
        {"\xc2", 0, 0},
        {"\xe2\x80", 0, 0},
        {"\xe2\x28\xa1", 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        uint32_t code = 0;
        cr_expect_eq(lml_utf8_next(SPAN(cases[i].bytes), &code), cases[i].length, "case %zu", i);
        cr_expect_eq(code, cases[i].code, "case %zu", i);
        cr_expect_eq(lml_text_check_utf8(SPAN(cases[i].bytes), NULL) == LML_OK,
                     cases[i].length > 0);
    }
    uint32_t code = 0;
    cr_expect_eq(lml_utf8_next((lml_span){"\0", 1}, &code), 1);
    cr_expect_eq(lml_utf8_next((lml_span){NULL, 0}, &code), 0);
    lml_error err;
    cr_expect_eq(lml_text_check_utf8(SPAN("or\xe9"), &err), LML_BAD_DATA);
    cr_expect_not_null(strstr(err.message, "offset 2"));
}

static size_t encode(uint32_t code, char out[4])
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    size_t length = code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    for (size_t i = length - 1; i > 0; i--, code >>= 6)
        out[i] = (char)(0x80 | (code & 0x3f));
    out[0] = (char)((0xf00u >> length & 0xf0) | code);
    return length;
}

Test(text, columns)
{
    cr_expect_eq(lml_letter_columns_of(SPAN("12.4 g")), 6);
    cr_expect_eq(lml_letter_columns_of(SPAN("585 \xe2\x80\xb0")), 5);
    cr_expect_eq(lml_letter_columns_of(SPAN("e\xcc\x81")), 1);
    cr_expect_eq(lml_letter_columns_of(SPAN("\xe9\x87\x91")), 2); /* the character for gold */
    cr_expect_eq(lml_letter_columns_of(SPAN("\xff\xff")), 2);
}

/* Outside check: wcwidth of the C library, over the scripts that a sheet may meet. */
Test(text, columns_are_those_of_the_c_library)
{
    if (!setlocale(LC_CTYPE, "C.UTF-8"))
        cr_skip_test("the system has no C.UTF-8 locale");
    static const uint32_t ranges[][2] = {
        {0x20, 0x7e},     {0xa1, 0xac},     {0xae, 0x36f},      {0x374, 0x377},
        {0x384, 0x38a},   {0x400, 0x482},   {0x48a, 0x52f},     {0x2010, 0x2027},
        {0x2030, 0x205f}, {0x20a0, 0x20bf}, {0x2100, 0x218b},   {0x2190, 0x23f3},
        {0x2500, 0x27bf}, {0x3041, 0x3096}, {0x30a0, 0x30ff},   {0x4e00, 0x9fef},
        {0xac00, 0xd7a3}, {0xff01, 0xff60}, {0x1f600, 0x1f64f}, {0x20000, 0x2a6d6},
    };
    for (size_t r = 0; r < sizeof ranges / sizeof *ranges; r++) {
        for (uint32_t code = ranges[r][0]; code <= ranges[r][1]; code++) {
            char bytes[4];
            size_t length = encode(code, bytes);
            int theirs = wcwidth((wchar_t)code);
            cr_expect(theirs == (int)lml_letter_columns_of((lml_span){bytes, length}),
                      "U+%04X takes %d columns", code, theirs);
        }
    }
}

/* F. J. Damerau, A technique for computer detection and correction of spelling errors,
 * Communications of the ACM 7 (1964) 171-176: one insertion, omission, substitution or swap of
 * neighbours is one error. The pairs kitten/sitting and Saturday/Sunday are the usual ones of
 * textbooks (from memory, unverified); CA/ABC tells the restricted distance (3) from the full (2).
 */
Test(text, edit_distance)
{
    static const struct {
        const char *a, *b;
        size_t distance;
    } cases[] = {
        {"kitten", "sitting", 3}, {"Saturday", "Sunday", 3},
        {"CA", "ABC", 3},         {"", "", 0},
        {"", "abc", 3},           {"gross", "gorss", 1},
        {"wax", "WAX", 0},        {"metal", "metla", 1},
        {"button", "buton", 1},   {"\xc3\xa9t\xc3\xa9", "ete", 2},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        lml_span a = SPAN(cases[i].a), b = SPAN(cases[i].b);
        size_t distance = cases[i].distance;
        cr_expect_eq(lml_nearest_distance(a, b, 10), distance, "%s, %s", a.at, b.at);
        cr_expect_eq(lml_nearest_distance(b, a, 10), distance, "%s, %s", b.at, a.at);
        cr_expect_eq(lml_nearest_distance(a, b, distance), distance);
        if (distance > 0)
            cr_expect_eq(lml_nearest_distance(a, b, distance - 1), distance);
    }
    char longer[200];
    memset(longer, 'a', sizeof longer);
    lml_span whole = {longer, 200}, part = {longer, 199};
    cr_expect_eq(lml_nearest_distance(whole, whole, 3), 0);
    cr_expect_eq(lml_nearest_distance(whole, part, 3), 4);
}

static const char *nearest(const char *wanted)
{
    static const char *const names[] = {"wax",       "sprues", "button", "crucible",
                                        "melt_loss", "g",      "L"};
    lml_nearest n = lml_nearest_to(SPAN(wanted));
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        lml_nearest_offer(&n, SPAN(names[i]));
    return lml_nearest_found(&n) ? n.best.at : "(none)";
}

Test(text, the_nearest_name)
{
    cr_expect_str_eq(nearest("wxa"), "wax");
    cr_expect_str_eq(nearest("wx"), "wax");
    cr_expect_str_eq(nearest("crucable"), "crucible");
    cr_expect_str_eq(nearest("crusabel"), "(none)");
    cr_expect_str_eq(nearest("meltloses"), "melt_loss");
    cr_expect_str_eq(nearest("l"), "L");
    cr_expect_str_eq(nearest("hallmark"), "(none)");
}
