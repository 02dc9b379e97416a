/* The strict reader and the writer of JSON.
 *
 * What is allowed is RFC 8259 (T. Bray, ed., "The JavaScript Object Notation (JSON) Data
 * Interchange Format", 2017); the section stands beside each text. Where we refuse more than it
 * does, the row says "ours". */
#include "file/json.h"
#include "file/json_write.h"
#include <cjson/cJSON.h>
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static lml_status read_text(const char *text, lml_json_document **doc, lml_error *err)
{
    lml_alloc heap = lml_alloc_heap();
    return lml_json_read(&heap, lml_span_of(text), NULL, "t.json", doc, err);
}

struct row {
    const char *text;
    const char *source;
    const char *message; /* NULL: it is read */
};

static const struct row corpus[] = {
    {"null", "RFC 8259 section 2: any value is a text", NULL},
    {" \t\r\n[ 1 , 2 ]\n", "section 2: blanks around structural characters", NULL},
    {"{\"a\":{\"b\":[]},\"c\":[{}]}", "sections 4, 5", NULL},
    {"[-0, 0, 0.5, 1e5, 1E+5, 1.25e-3, -12.75]", "section 6", NULL},
    {"[true,false,null]", "section 3", NULL},
    {"\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\"", "section 7", NULL},
    {"\"\\uD834\\uDD1E\"", "section 7: the G clef, its own example", NULL},
    {"\"\xF0\x9D\x84\x9E\"", "section 8.1", NULL},
    {"\"\x7F\"", "section 7: DEL need not be escaped", NULL},
    {"{\"\":0}", "section 4: a name is any string", NULL},

    {"", "section 2: a value is due", "empty"},
    {"  \n ", "section 2", "empty"},
    {"[", "section 5", "ends"},
    {"{", "section 4", "ends"},
    {"{\"a\"", "section 4", "ends"},
    {"{\"a\":", "section 4", "ends"},
    {"[1", "section 5", "ends"},
    {"[1,", "section 5", "ends"},
    {"[1,]", "section 5", "a comma before"},
    {"{\"a\":1,}", "section 4", "a comma before"},
    {"[,1]", "section 5", ", where a value"},
    {"[1 2]", "section 5", "a comma or the ]"},
    {"{\"a\":1 \"b\":2}", "section 4", "a comma or the }"},
    {"{\"a\" 1}", "section 4", "a colon"},
    {"{a:1}", "section 4", "a name in quotes"},
    {"{1:1}", "section 4", "a name in quotes"},
    {"{\"a\":1]", "section 4", "a comma or the }"},
    {"[1}", "section 5", "a comma or the ]"},
    {"1 2", "section 2: one value", "the end of the text"},
    {"{} x", "section 2", "the end of the text"},
    {"[]\"\"", "section 2", "the end of the text"},
    {"]", "section 2", "] where a value"},

    {"[01]", "section 6: leading zeros are not allowed", "01 is not a number"},
    {"[-01]", "section 6", "-01 is not a number"},
    {"[1.]", "section 6: frac is a point and digits", "1. is not a number"},
    {"[.5]", "section 6: int is needed", ".5 is not a number"},
    {"[+1]", "section 6: no plus", "+1 is not a number"},
    {"[-]", "section 6", "- is not a number"},
    {"[1e]", "section 6", "1e is not a number"},
    {"[1e+]", "section 6", "1e+ is not a number"},
    {"[1.e3]", "section 6", "is not a number"},
    {"[0x10]", "section 6", "0x10 is not a number"},
    {"[1_000]", "section 6", "is not a number"},
    {"[12.5g]", "section 6", "12.5g is not a number"},
    {"[12.5 g]", "section 5", "g where a comma"},
    {"[NaN]", "section 6: NaN is not permitted", "NaN where a value"},
    {"[Infinity]", "section 6", "Infinity where a value"},
    {"[-Infinity]", "section 6", "-Infinity is not a number"},
    {"[1e999]", "ours: no double holds it", "too large"},
    {"[-1e999]", "ours", "too large"},
    {"[1e-999]", "ours: a number that would become 0", "too small"},
    {"[1234567890123456789012345678901234567890123456789012345678901]", "ours: 61 digits",
     "more than 60"},

    {"[True]", "section 3: lowercase", "True where a value"},
    {"[nul]", "section 3", "nul where a value"},
    {"[truex]", "section 3", "truex where a value"},
    {"['a']", "section 7", "' where a value"},
    {"[\xE2\x80\x9C"
     "a\xE2\x80\x9D]",
     "section 7", "where a value"},
    {"[1] // x", "no comments in section 2", "/ where"},
    {"/* x */ 1", "no comments in section 2", "/ where"},
    {"#x\n1", "no comments in section 2", "# where"},
    {"[\xC2\xA0"
     "1]",
     "section 2: four blanks only", "where a value"},
    {"[\f1]", "section 2: four blanks only", "control character (0x0C)"},
    {"[1\x1B]", "section 2", "control character (0x1B)"},

    {"\"a", "section 7", "not closed"},
    {"\"a\nb\"", "section 7: control characters must be escaped", "not closed"},
    {"\"a\tb\"", "section 7", "control character (0x09)"},
    {"\"a\x01"
     "b\"",
     "section 7", "control character (0x01)"},
    {"\"\\x41\"", "section 7", "backslash"},
    {"\"\\'\"", "section 7", "backslash"},
    {"\"\\u12\"", "section 7: four digits", "four hexadecimal"},
    {"\"\\u12G4\"", "section 7", "four hexadecimal"},
    {"\"\\", "section 7", "backslash"},
    {"\"\\u", "section 7", "four hexadecimal"},
    {"\"a\\u0000b\"", "ours: section 9 lets a parser limit strings", "\\u0000"},
    {"{\"a\\u0000\":1}", "ours", "\\u0000"},
    {"\"\\uD834\"", "ours: section 8.2 calls its meaning unpredictable", "without its second"},
    {"\"\\uD834\\uD834\"", "ours: section 8.2", "without its second"},
    {"\"\\uD834\\n\"", "ours: section 8.2", "without its second"},
    {"\"\\uDD1E\"", "ours: section 8.2", "without its first"},

    {"\xEF\xBB\xBF{}", "section 8.1: no byte order mark", "byte order mark"},
    {"\xFF\xFE{", "section 8.1: UTF-8 only", "byte order mark of UTF-16"},
    {"\"\x80\"", "section 8.1, RFC 3629 section 3: a lone continuation byte", "UTF-8"},
    {"\"\xC0\xAF\"", "RFC 3629 section 3: overlong", "UTF-8"},
    {"\"\xE0\x80\xAF\"", "RFC 3629: overlong", "UTF-8"},
    {"\"\xED\xA0\x80\"", "RFC 3629: a surrogate", "UTF-8"},
    {"\"\xF4\x90\x80\x80\"", "RFC 3629: above U+10FFFF", "UTF-8"},
    {"\"\xE2\x82\"", "RFC 3629: cut short", "UTF-8"},
    {"\"\xE9\"", "Latin-1 e acute", "UTF-8"},
    {"[\xE9]", "Latin-1 outside a text", "UTF-8"},

    {"{\"a\":1,\"a\":2}", "ours: section 4 says names SHOULD be unique",
     "was used before, on line 1"},
    {"{\"a\":1,\n\"b\":2,\n\"\\u0061\":2}", "ours: the same name, escaped",
     "was used before, on line 1"},
    {"{\"a\":1,\"A\":2}", "section 4: case counts, these differ", NULL},
    {"{\"a\":{\"a\":1},\"b\":{\"a\":1}}", "section 4: names of other objects", NULL},
};

Test(json, corpus_of_rfc_8259)
{
    for (size_t i = 0; i < sizeof corpus / sizeof *corpus; i++) {
        const struct row *r = &corpus[i];
        lml_json_document *doc = NULL;
        lml_error err = {0};
        lml_status status = read_text(r->text, &doc, &err);
        if (!r->message) {
            cr_expect_eq(status, LML_OK, "%s (%s): %s", r->text, r->source, err.message);
        } else {
            cr_expect_eq(status, LML_BAD_DATA, "%s (%s) was read", r->text, r->source);
            cr_expect(strstr(err.message, r->message), "%s (%s) says: %s", r->text, r->source,
                      err.message);
            cr_expect_eq(strncmp(err.message, "t.json:", 7), 0, "%s", err.message);
            cr_expect_null(doc);
        }
        lml_json_free(doc);
        cr_expect_eq(read_text(r->text, &doc, NULL), status, "%s without an error to fill",
                     r->text);
        if (!status)
            lml_json_free(doc);
    }
}

Test(json, a_nul_byte_is_no_end)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc = NULL;
    static const char outside[] = "[1]\0x", inside[] = "\"a\0b\"", escaped[] = "\"\\\0\"",
                      word[] = "[tru\0]";
    cr_expect_eq(lml_json_read(&heap, (lml_span){outside, 5}, NULL, "t", &doc, NULL), LML_BAD_DATA);
    cr_expect_eq(lml_json_read(&heap, (lml_span){inside, 5}, NULL, "t", &doc, NULL), LML_BAD_DATA);
    cr_expect_eq(lml_json_read(&heap, (lml_span){escaped, 4}, NULL, "t", &doc, NULL), LML_BAD_DATA);
    cr_expect_eq(lml_json_read(&heap, (lml_span){word, 6}, NULL, "t", &doc, NULL), LML_BAD_DATA);
}

Test(json, every_proper_prefix_is_refused)
{
    lml_alloc heap = lml_alloc_heap();
    const char *text =
        "{\"a\\u00e9\": [1.5e+2, true, {\"\xC2\xB5\": null}], \"b\": \"\\uD834\\uDD1E\"}";
    for (size_t n = 0; n < strlen(text); n++) {
        lml_json_document *doc = NULL;
        char *exact = malloc(n + 1); /* so that a sanitizer sees a read past the end */
        memcpy(exact, text, n);
        cr_expect_eq(lml_json_read(&heap, (lml_span){exact, n}, NULL, "t", &doc, NULL),
                     LML_BAD_DATA, "the first %zu bytes", n);
        free(exact);
    }
}

/* Whether our tree is the one that cJSON reads from the same text. */
static bool same_tree(const lml_json *node, const cJSON *item)
{
    const cJSON *child = item->child;
    if (!lml_span_is(lml_json_name(node), item->string ? item->string : ""))
        return false;
    switch (lml_json_kind_of(node)) {
    case LML_JSON_TEXT:
        return cJSON_IsString(item) && lml_span_is(lml_json_text(node), item->valuestring);
    case LML_JSON_NUMBER:
        return cJSON_IsNumber(item) && item->valuedouble == lml_json_number(node);
    case LML_JSON_YES_NO:
        return cJSON_IsBool(item) && cJSON_IsTrue(item) == lml_json_yes(node);
    case LML_JSON_NULL:
        return cJSON_IsNull(item);
    case LML_JSON_LIST:
    case LML_JSON_RECORD:
        if (!(lml_json_kind_of(node) == LML_JSON_LIST ? cJSON_IsArray(item) : cJSON_IsObject(item)))
            return false;
        for (const lml_json *n = lml_json_first(node); n; n = lml_json_next(n), child = child->next)
            if (!child || !same_tree(n, child))
                return false;
        return !child;
    case LML_JSON_ABSENT:
        break;
    }
    return false;
}

static bool cjson_agrees(const lml_json_document *doc)
{
    lml_span text = lml_json_source_text(doc);
    cJSON *tree = cJSON_ParseWithLength(text.at, text.length);
    bool same = tree && same_tree(lml_json_root(doc), tree);
    cJSON_Delete(tree);
    return same;
}

/* Every character that there is, as it stands and as an escape: cJSON decodes the same. */
Test(json, every_character_is_decoded_as_cjson_does)
{
    for (uint32_t code = 1; code <= 0x10FFFF; code += code < 0x3000 ? 1 : 61) {
        char text[40];
        lml_json_document *doc;
        uint32_t pair = code - 0x10000;
        if (code >= 0xD800 && code <= 0xDFFF)
            continue;
        if (code < 0x10000)
            snprintf(text, sizeof text, code % 2 ? "[\"a\\u%04xb\"]" : "{\"\\u%04X\":0}",
                     (unsigned)code);
        else
            snprintf(text, sizeof text, "[\"\\u%04x\\u%04X\"]", (unsigned)(0xD800 + (pair >> 10)),
                     (unsigned)(0xDC00 + (pair & 0x3FF)));
        if (read_text(text, &doc, NULL) != LML_OK) /* a name may not hold what nobody sees */
            continue;
        cr_expect(cjson_agrees(doc), "%s", text);
        lml_json_free(doc);
    }
}

/* Mutations of sound texts: whatever the scan lets through, cJSON must read the same. */
Test(json, the_two_readers_agree)
{
    static const char *const seeds[] = {
        "{\"a\": [1.5, -2e3, \"x\\n\\u00e9\"], \"b\": {\"c\": true, \"d\": null}}",
        "[[[[]]], {\"\": {}}, 0, -0.0, \"\\\\\\\"\", 123456789012345678901234567890]",
        "[\"\\uD83D\\uDE00\\/\\b\\f\\r\\t\\\\n\", {\"n\\u0061me\": \"\\u20ac\"}]",
    };
    static const char bytes[] = "{}[],:\"\\ue0129.+-EtrufalsnN \n\t\x01\x7F\xC3\xA9\xFF";
    uint32_t random = 12345;
    size_t taken = 0;
    for (int round = 0; round < 60000; round++) {
        char text[128];
        const char *seed = seeds[round % 3];
        size_t length = strlen(seed);
        memcpy(text, seed, length);
        for (int k = 0; k < 1 + round % 3; k++) {
            random = random * 1664525u + 1013904223u;
            text[(random >> 8) % length] = bytes[(random >> 20) % (sizeof bytes - 1)];
        }
        lml_alloc heap = lml_alloc_heap();
        lml_json_document *doc = NULL;
        lml_error err;
        lml_status status = lml_json_read(&heap, (lml_span){text, length}, NULL, "t", &doc, &err);
        taken += status == LML_OK;
        cr_assert(status != LML_OK || cjson_agrees(doc), "%.*s", (int)length, text);
        if (!status)
            lml_json_free(doc);
    }
    cr_expect_gt(taken, 1000u, "the mutations reach the second reader");
}

Test(json, limits)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc = NULL;
    lml_error err;
    lml_json_limits l = {.size = 10};
    cr_expect_eq(lml_json_read(&heap, lml_span_of("[1,2,3,45]"), &l, "t", &doc, &err), LML_OK);
    lml_json_free(doc);
    cr_expect_eq(lml_json_read(&heap, lml_span_of("[1,2,3,456]"), &l, "t", &doc, &err), LML_LIMIT);
    l = (lml_json_limits){.nodes = 4};
    cr_expect_eq(lml_json_read(&heap, lml_span_of("[1,2,3]"), &l, "t", &doc, &err), LML_OK);
    lml_json_free(doc);
    cr_expect_eq(lml_json_read(&heap, lml_span_of("[1,2,3,4]"), &l, "t", &doc, &err), LML_LIMIT);

    char deep[4100];
    for (size_t depth = 63; depth <= 66; depth++) {
        memset(deep, '[', depth);
        memset(deep + depth, ']', depth);
        deep[2 * depth] = 0;
        lml_status wanted = depth <= LML_JSON_DEPTH ? LML_OK : LML_LIMIT;
        cr_expect_eq(read_text(deep, &doc, &err), wanted, "depth %zu", depth);
        if (wanted == LML_OK)
            lml_json_free(doc);
    }
    memset(deep, '[', 2000); /* never closed, deeper than cJSON itself goes */
    deep[2000] = 0;
    cr_expect_eq(read_text(deep, &doc, &err), LML_LIMIT);
    l = (lml_json_limits){.depth = 100000}; /* is held at 500 */
    cr_expect_eq(lml_json_read(&heap, lml_span_of(deep), &l, "t", &doc, &err), LML_LIMIT);
    cr_expect(strstr(err.message, "500"), "%s", err.message);
}

Test(json, nodes_say_what_they_are)
{
    lml_json_document *doc;
    cr_assert_eq(read_text("{\n \"n\": 0.30,\n \"t\": \"a\\u00e9\",\n \"y\": true, \"f\": false,\n"
                           " \"l\": [ null , {\"x\": []} ]\n}",
                           &doc, NULL),
                 LML_OK);
    const lml_json *root = lml_json_root(doc), *n = lml_json_member(root, "n");
    cr_expect_eq(lml_json_kind_of(root), LML_JSON_RECORD);
    cr_expect_eq(lml_json_count(root), 5u);
    cr_expect(lml_span_is(lml_json_raw(n), "0.30"), "the digits as written");
    cr_expect_eq(lml_json_number(n), 0.3);
    cr_expect_eq(lml_json_line(n), 2u);
    cr_expect(lml_span_is(lml_json_text(lml_json_member(root, "t")), "a\xC3\xA9"));
    cr_expect(lml_span_is(lml_json_raw(lml_json_member(root, "t")), "\"a\\u00e9\""));
    cr_expect(lml_json_yes(lml_json_member(root, "y")));
    cr_expect(!lml_json_yes(lml_json_member(root, "f")));
    cr_expect_null(lml_json_member(root, "N"), "case counts");
    cr_expect_null(lml_json_member(root, ""));
    cr_expect_null(lml_json_member(n, "x"));
    cr_expect_null(lml_json_member(NULL, "x"));
    cr_expect_eq(lml_json_kind_of(NULL), LML_JSON_ABSENT);
    cr_expect_eq(lml_json_text(NULL).length, 0u);

    const lml_json *list = lml_json_member(root, "l"), *item = lml_json_first(list);
    cr_expect_null(lml_json_next(list), "the last member");
    cr_expect_null(lml_json_next(root));
    cr_expect_eq(lml_json_kind_of(item), LML_JSON_NULL);
    cr_expect_eq(lml_json_name(item).length, 0u);
    item = lml_json_next(item);
    cr_expect(lml_span_is(lml_json_raw(item), "{\"x\": []}"));
    cr_expect_null(lml_json_next(item));
    cr_expect_null(lml_json_first(lml_json_member(item, "x")));
    cr_expect(lml_span_is(lml_json_name(lml_json_member(item, "x")), "x"));
    lml_json_free(doc);
}

Test(json, many_members_are_found_by_exact_name)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    for (int i = 0; i < 5000; i++)
        lml_builder_add_format(&b, "%s\"n%d\":%d", i ? "," : "{", i * 7919 % 5000, i * 7919 % 5000);
    lml_builder_add_text(&b, "}");
    lml_json_document *doc;
    cr_assert_eq(lml_json_read(&heap, (lml_span){b.at, b.length}, NULL, "t", &doc, NULL), LML_OK);
    for (int i = 0; i < 5000; i++) {
        char name[16];
        snprintf(name, sizeof name, "n%d", i);
        cr_assert_eq(lml_json_number(lml_json_member(lml_json_root(doc), name)), i);
    }
    lml_json_free(doc);
    lml_builder_free(&b);
}

Test(json, messages_say_file_line_and_path)
{
    lml_json_document *doc;
    lml_error err;
    cr_assert_eq(read_text("{\"given\": {\n\"old_metal\": [{}, {}, {\n\"gross\": \"1 g\"}],\n"
                           "\"a b\": [[1, [2]]], \"need.button\": 1}}",
                           &doc, NULL),
                 LML_OK);
    const lml_json *given = lml_json_member(lml_json_root(doc), "given");
    const lml_json *lot = lml_json_first(lml_json_member(given, "old_metal"));
    lot = lml_json_next(lml_json_next(lot));
    cr_expect_eq(lml_json_fail(lml_json_member(lot, "gross"), &err, LML_BAD_VALUE, "%d is odd", 3),
                 LML_BAD_VALUE);
    cr_expect_str_eq(err.message, "t.json:3: given.old_metal[2].gross: 3 is odd");
    lml_json_fail(lml_json_root(doc), &err, LML_BAD_DATA, "no");
    cr_expect_str_eq(err.message, "t.json:1: no");

    char path[LML_JSON_PATH];
    const lml_json *two = lml_json_first(
        lml_json_next(lml_json_first(lml_json_first(lml_json_member(given, "a b")))));
    cr_expect_str_eq(lml_json_path(two, path, sizeof path), "given.\"a b\"[0][1][0]");
    cr_expect_str_eq(lml_json_path(lml_json_member(given, "need.button"), path, sizeof path),
                     "given.\"need.button\"");
    cr_expect_str_eq(lml_json_path(lml_json_member(lot, "gross"), path, 12), "given.old_m");

    lml_fail(&err, LML_BAD_VALUE, "\"11,2 g\" has a comma");
    lml_error_hint(&err, "write 11.2 g");
    lml_json_place(lml_json_member(lot, "gross"), LML_BAD_VALUE, &err);
    cr_expect_str_eq(err.message, "t.json:3: given.old_metal[2].gross: \"11,2 g\" has a comma");
    cr_expect_str_eq(err.hint, "write 11.2 g");
    cr_expect_eq(lml_json_place(lot, LML_OK, &err), LML_OK);
    lml_json_free(doc);

    cr_expect_eq(read_text("{\n\"given\": {\n\"a\": [1,\n 2,\n x]}}", &doc, &err), LML_BAD_DATA);
    cr_expect_eq(strncmp(err.message, "t.json:5: given.a[2]: x where", 29), 0, "%s", err.message);
    cr_expect_eq(err.labels, 1);
    cr_expect_str_eq(err.label[0].text, " x]}}");
    cr_expect_eq(err.label[0].offset, 1);
    cr_expect_eq(read_text("{\"a\":\n[1,\n\n]}", &doc, &err), LML_BAD_DATA);
    cr_expect_eq(strncmp(err.message, "t.json:2: a: there is a comma", 29), 0, "%s", err.message);
    cr_expect_str_eq(err.label[0].text, "[1,");
    cr_expect_eq(err.label[0].offset, 2);
    cr_expect_eq(read_text("{\"g\": {\"m\": 12.5 g}}", &doc, &err), LML_BAD_DATA);
    cr_expect(strstr(err.hint, "quotes"), "%s", err.hint);
    cr_expect_eq(read_text("{\"g\": 12,5}", &doc, &err), LML_BAD_DATA);
    cr_expect(strstr(err.hint, "use a point"), "%s", err.hint);
}

/* Each character that a hand puts into JSON, and the mend that it gets. */
Test(json, a_wrong_character_is_told_its_mend)
{
    static const struct {
        const char *texts[6], *mend;
    } mends[] = {
        {{"{wax: 1}", "[True]", "[Z]"}, "names, texts and values with a unit go in double quotes"},
        {{"{1: 2}"}, "names go in double quotes; decimals use a point: 12.5"},
        {{"[1 // two\n]", "[1 # two\n]"}, "JSON has no comments"},
        {{"['a']", "[\u2018a]", "[\u2019a]", "[\u201ca]", "[\u201da]", "[\u201ea]"},
         "straight double quotes"},
        {{"[\u00aba]", "[\u00bba]"}, "straight double quotes"},
        {{"[5%]", "[5 \u2030]", "[5 \u00b0C]", "[5 \u00b5m]"},
         "put a value with a unit in quotes, such as \"12.5 g\""},
        {{"[\u00a05]", "[\ufeff5]", "[\u20005]", "[\u200f5]", "[\u200b5]"},
         "an invisible character here"},
        {{"[;]", "[\u20105]", "[\u00b1]", "[\u201f]", "[\u201b]"}, ""},
    };
    for (size_t i = 0; i < sizeof mends / sizeof *mends; i++)
        for (size_t k = 0; k < 6 && mends[i].texts[k]; k++) {
            lml_json_document *doc = NULL;
            lml_error err = {0};
            cr_expect_eq(read_text(mends[i].texts[k], &doc, &err), LML_BAD_DATA, "%s",
                         mends[i].texts[k]);
            cr_expect(*mends[i].mend
                          ? strstr(err.hint, mends[i].mend) != NULL
                          : !strstr(err.hint, "quotes") && !strstr(err.hint, "invisible"),
                      "%s: %s", mends[i].texts[k], err.hint);
        }
}

Test(json, a_path_is_never_cut_within_a_character)
{
    lml_json_document *doc;
    char path[LML_JSON_PATH];
    uint32_t code;
    cr_assert_eq(read_text("{\"\xC2\xB5\xE2\x82\xAC\xF0\x9D\x84\x9E\": 1}", &doc, NULL), LML_OK);
    for (size_t size = 1; size < 12; size++) {
        lml_json_path(lml_json_first(lml_json_root(doc)), path, size);
        for (lml_span rest = lml_span_of(path); rest.length;) {
            size_t bytes = lml_utf8_next(rest, &code);
            cr_assert_gt(bytes, 0u, "cut at %zu", size);
            rest = (lml_span){rest.at + bytes, rest.length - bytes};
        }
    }
    lml_json_free(doc);
}

Test(json, every_failed_allocation_is_reported_and_leaks_nothing)
{
    const char *text = "{\"a\":[1,2,3],\"b\":{\"c\":\"d\"},\"e\":[[],[],[],{},{},{},1,2,3,4,5,6,7,"
                       "8,9,10,11,12,13,14,15,16,"
                       "17,18,19,20,21,22,23,24,25,26,27,28,29,30,31,32,33,34,35,36,37,38,39,40,41,"
                       "42,43,44,45,46,47,"
                       "48,49,50,51,52,53,54,55,56,57,58,59,60,61]}";
    for (uint64_t n = 1;; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_json_document *doc = NULL;
        lml_error err;
        lml_status status = lml_json_read(&alloc, lml_span_of(text), NULL, "t", &doc, &err);
        if (status == LML_OK) {
            cr_expect_gt(n, 5u);
            lml_json_free(doc);
            cr_expect_eq(meter.used, 0u);
            break;
        }
        cr_assert_eq(status, LML_NO_MEMORY, "request %d", (int)n);
        cr_assert_null(doc);
        cr_assert_eq(meter.used, 0u, "request %d leaks", (int)n);
        cr_assert_lt(n, 100u);
    }
}

static int asked; /* by cJSON */
static void *counted(size_t size)
{
    asked++;
    return malloc(size);
}

static void counted_free(void *block)
{
    asked++;
    free(block);
}

/* Its allocator is the C library's, and what is read here must not pass the limits of ours. */
Test(json, cjson_is_asked_for_no_memory)
{
    cJSON_Hooks hooks = {counted, counted_free};
    cJSON_InitHooks(&hooks);
    lml_json_document *doc = NULL;
    cr_assert_eq(read_text("{\"a\":[1,\"x\"],\"b\":{\"c\":null}}", &doc, NULL), LML_OK);
    lml_json_free(doc);
    cr_expect_eq(asked, 0);
    cJSON_InitHooks(NULL);
}

/* ---- writing ---- */

static void write_sample(lml_json_writer *w)
{
    lml_json_write_open_record(w);
    lml_json_write_member(w, "t",
                          "q\" b\\ n\n t\t e\x1B d\x7F l\xE2\x80\xA8 p\xE2\x80\xA9 \xC3\xA9");
    lml_json_write_name(w, lml_span_of("l"));
    lml_json_write_open_list(w);
    lml_json_write_number(w, 0.1);
    lml_json_write_whole(w, INT64_MIN);
    lml_json_write_yes_no(w, true);
    lml_json_write_null(w);
    lml_json_write_raw(w, lml_span_of("[1]"));
    lml_json_write_open_record(w);
    lml_json_write_close(w);
    lml_json_write_close(w);
    lml_json_write_close(w);
}

Test(json_write, what_is_written_reads_back)
{
    lml_alloc heap = lml_alloc_heap();
    for (int indented = 0; indented < 2; indented++) {
        lml_builder b = lml_builder_on(&heap, 0);
        lml_json_writer w = lml_json_writer_on(&b, indented);
        lml_json_document *doc;
        lml_error err;
        write_sample(&w);
        cr_assert_eq(lml_json_writer_end(&w, &err), LML_OK, "%s", err.message);
        cr_assert_eq(lml_json_read(&heap, (lml_span){b.at, b.length}, NULL, "t", &doc, &err),
                     LML_OK, "%s", err.message);
        const lml_json *t = lml_json_member(lml_json_root(doc), "t");
        cr_expect_str_eq(lml_json_text(t).at,
                         "q\" b\\ n\n t\t e\x1B d\x7F l\xE2\x80\xA8 p\xE2\x80\xA9 \xC3\xA9");
        for (size_t i = 0; i < lml_json_raw(t).length; i++)
            cr_expect((unsigned char)lml_json_raw(t).at[i] >= 0x20, "no raw control character");
        cr_expect_null(strstr(b.at, "\xE2\x80\xA8"));
        const lml_json *item = lml_json_first(lml_json_member(lml_json_root(doc), "l"));
        cr_expect_eq(lml_json_number(item), 0.1);
        cr_expect(lml_span_is(lml_json_raw(lml_json_next(item)), "-9223372036854775808"));
        lml_json_free(doc);
        lml_builder_free(&b);
    }
}

/* Written a row of eight bytes at a time: each byte of ASCII at each place, read back by cJSON. */
Test(json_write, every_byte_of_ascii_reads_back_wherever_it_stands)
{
    lml_alloc heap = lml_alloc_heap();
    char text[18] = "sixteen \xC3\xBC letter";
    for (int byte = 1; byte < 128; byte++) {
        for (size_t at = 0; at < 17; at++) {
            if ((unsigned char)text[at] >= 0x80)
                continue;
            char was = text[at];
            text[at] = (char)byte;
            lml_builder b = lml_builder_on(&heap, 0);
            lml_json_writer w = lml_json_writer_on(&b, false);
            lml_json_write_text(&w, (lml_span){text, 17});
            cr_assert_eq(lml_json_writer_end(&w, NULL), LML_OK);
            cJSON *read = cJSON_Parse(b.at);
            cr_expect(read && strncmp(cJSON_GetStringValue(read), text, 17) == 0, "%02X at %zu: %s",
                      (unsigned)byte, at, b.at);
            cJSON_Delete(read);
            lml_builder_free(&b);
            text[at] = was;
        }
    }
}

Test(json_write, layout)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_json_writer w = lml_json_writer_on(&b, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "a", "b");
    lml_json_write_name(&w, lml_span_of("c"));
    lml_json_write_open_list(&w);
    lml_json_write_whole(&w, 1);
    lml_json_write_open_list(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    cr_assert_eq(lml_json_writer_end(&w, NULL), LML_OK);
    cr_expect_str_eq(b.at, "{\n  \"a\": \"b\",\n  \"c\": [\n    1,\n    []\n  ]\n}");
    lml_builder_free(&b);
}

Test(json_write, misuse_and_bad_values_stick)
{
    lml_alloc heap = lml_alloc_heap();
    for (int fault = 0; fault < 10; fault++) {
        lml_builder b = lml_builder_on(&heap, fault == 9 ? 20 : 0);
        lml_json_writer w = lml_json_writer_on(&b, false);
        lml_status wanted = LML_FAULT;
        switch (fault) {
        case 0:
            lml_json_write_open_record(&w), lml_json_write_null(&w), lml_json_write_close(&w);
            break;
        case 1:
            lml_json_write_open_list(&w), lml_json_write_name(&w, lml_span_of("a"));
            break;
        case 2:
            lml_json_write_null(&w), lml_json_write_null(&w);
            break;
        case 3:
            lml_json_write_close(&w);
            break;
        case 4:
            lml_json_write_open_list(&w);
            break;
        case 5:
            break;
        case 6:
            lml_json_write_number(&w, NAN), wanted = LML_BAD_VALUE;
            break;
        case 7:
            lml_json_write_text(&w, lml_span_of("\xFF")), wanted = LML_BAD_DATA;
            break;
        case 8:
            lml_json_write_text(&w, (lml_span){"a\0b", 3}), wanted = LML_BAD_DATA;
            break;
        case 9:
            write_sample(&w), wanted = LML_LIMIT;
            break;
        }
        lml_error err;
        cr_expect_eq(lml_json_writer_end(&w, &err), wanted, "fault %d", fault);
        lml_builder_free(&b);
    }
}

Test(json_write, names_and_values_must_alternate)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    lml_json_writer w = lml_json_writer_on(&b, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("a"));
    lml_json_write_close(&w);
    cr_expect_eq(lml_json_writer_end(&w, NULL), LML_FAULT);
    w = lml_json_writer_on(&b, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("a"));
    lml_json_write_name(&w, lml_span_of("b"));
    cr_expect_eq(lml_json_writer_end(&w, NULL), LML_FAULT);
    w = lml_json_writer_on(&b, false);
    for (int i = 0; i <= LML_JSON_WRITE_DEPTH; i++)
        lml_json_write_open_list(&w);
    cr_expect_eq(lml_json_writer_end(&w, NULL), LML_FAULT, "too deep");
    lml_builder_free(&b);
}

Test(json_write, every_failed_allocation_is_reported)
{
    for (uint64_t n = 1;; n++) {
        lml_meter meter = {.under = lml_alloc_heap(), .fail_at = n};
        lml_alloc alloc = lml_alloc_metered(&meter);
        lml_builder b = lml_builder_on(&alloc, 0);
        lml_json_writer w = lml_json_writer_on(&b, true);
        write_sample(&w);
        lml_status status = lml_json_writer_end(&w, NULL);
        lml_builder_free(&b);
        cr_assert_eq(meter.used, 0u);
        if (status == LML_OK)
            break;
        cr_assert_eq(status, LML_NO_MEMORY);
        cr_assert_lt(n, 100u);
    }
}
