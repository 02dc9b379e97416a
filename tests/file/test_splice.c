/* One entry more in a job's record, and nothing else moves: taking the spliced run out of the new
 * text gives the old one back, whatever the file looks like. */
#include "file/json.h"
#include "file/splice.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

static lml_alloc heap;

static void begin(void)
{
    heap = lml_alloc_heap();
}

TestSuite(splice, .init = begin);

#define ENTRY "{\"at\":\"2026-11-26T14:20\",\"what\":\"raw casting\",\"mass\":\"31.02 g\"}"

#define JOB(record) "{\"recipe\":\"need\",\"record\":" record "}"

static lml_status splice(const char *job, const char *entry, lml_builder *out, lml_error *err)
{
    *out = lml_builder_on(&heap, 0);
    return lml_splice_record(lml_span_of(job), "job.json", lml_span_of(entry), out, err);
}

/* Moments of a record as texts, which are in the order of time. */
static bool is_later(const lml_json *entry)
{
    lml_span at = lml_span_trim(lml_json_text(lml_json_member(entry, "at")));
    char text[32] = "";
    memcpy(text, at.at, at.length < 31 ? at.length : 31);
    return strcmp(text, "2026-11-26T14:20") > 0;
}

/* Behind the last entry that is not later. */
static void expect_place(const lml_json *record, const char *text)
{
    const lml_json *before = NULL, *found = NULL;
    for (const lml_json *e = lml_json_first(record), *last = NULL; e;
         last = e, e = lml_json_next(e))
        if (lml_span_is(lml_json_raw(e), ENTRY))
            found = e, before = last;
    cr_assert(found, "the entry is not there:\n%s", text);
    cr_expect(!before || !is_later(before), "behind a later one:\n%s", text);
    for (const lml_json *e = lml_json_next(found); e; e = lml_json_next(e))
        cr_expect(is_later(e), "before one that is not later:\n%s", text);
}

/* The new text is the old one with one run put in, and the new entry is where it belongs. */
static void expect_one_run(const char *old, const lml_builder *new, size_t entries)
{
    size_t length = strlen(old), front = 0, back = 0;
    cr_assert_gt(new->length, length, "%s", old);
    while (front < length && old[front] == new->at[front])
        front++;
    while (back < length - front && old[length - 1 - back] == new->at[new->length - 1 - back])
        back++;
    cr_expect_eq(front + back, length, "bytes moved:\n%s\n%s", old, new->at);

    lml_json_document *doc;
    lml_error err;
    cr_assert_eq(lml_json_read(&heap, (lml_span){new->at, new->length}, NULL, "new", &doc, &err),
                 LML_OK, "%s in\n%s", err.message, new->at);
    const lml_json *record = lml_json_member(lml_json_root(doc), "record");
    cr_expect_eq(lml_json_count(record), entries, "%s", new->at);
    expect_place(record, new->at);
    lml_json_free(doc);
}

static const struct {
    const char *job, *after; /* NULL: only the property counts */
    size_t entries;
} cases[] = {
    {"{\"recipe\":\"need\"}", "{\"recipe\":\"need\",\"record\": [ " ENTRY " ]}", 1},
    {"{\n  \"recipe\": \"need\"\n}\n",
     "{\n  \"recipe\": \"need\",\n  \"record\": [\n    " ENTRY "\n  ]\n}\n", 1},
    {"{\r\n\t\"recipe\": \"need\"\r\n}\r\n",
     "{\r\n\t\"recipe\": \"need\",\r\n\t\"record\": [\r\n\t\t" ENTRY "\r\n\t]\r\n}\r\n", 1},
    {"{ \"recipe\": \"need\", \"record\": [] }",
     "{ \"recipe\": \"need\", \"record\": [ " ENTRY " ] }", 1},
    {"{\n  \"recipe\": \"need\",\n  \"record\": []\n}",
     "{\n  \"recipe\": \"need\",\n  \"record\": [\n    " ENTRY "\n  ]\n}", 1},
    {"{\n  \"recipe\": \"need\",\n  \"record\": [\n  ]\n}",
     "{\n  \"recipe\": \"need\",\n  \"record\": [\n    " ENTRY "\n  ]\n}", 1},
    {"{\n  \"recipe\": \"need\",\n  \"record\": [\n    { \"at\": \"2026-11-26T14:20\", \"what\": "
     "\"tree\" }\n  ],\n"
     "  \"title\": \"after it\"\n}\n",
     "{\n  \"recipe\": \"need\",\n  \"record\": [\n    { \"at\": \"2026-11-26T14:20\", \"what\": "
     "\"tree\" },\n    " ENTRY "\n  ],\n  \"title\": \"after it\"\n}\n",
     2},
    /* a late one: between two, before the only one, on a line of its own */
    {JOB("[{\"at\":\"2026-11-26\",\"what\":\"a\"}, {\"at\":\"2026-11-27\",\"what\":\"b\"}]"),
     JOB("[{\"at\":\"2026-11-26\",\"what\":\"a\"}, " ENTRY
         ", {\"at\":\"2026-11-27\",\"what\":\"b\"}]"),
     3},
    {JOB("[{\"at\":\"2026-11-26T14:21\",\"what\":\"tree\"}]"),
     JOB("[" ENTRY ",{\"at\":\"2026-11-26T14:21\",\"what\":\"tree\"}]"), 2},
    {JOB("[\n  {\"at\":\"2026-11-27\",\"what\":\"tree\"}\n]"),
     JOB("[\n  " ENTRY ",\n  {\"at\":\"2026-11-27\",\"what\":\"tree\"}\n]"), 2},
    {"{\"recipe\":\"need\",\"record\":[{\"at\":\"2026-11-25\",\"what\":\"a ] , } \\\" b\"},\n"
     "{\"at\":\"2026-11-26\",\"what\":\"tree\"}]}",
     NULL, 3},
    {"  {\"record\" : [ {\"at\":\"2026-11-26\",\"what\":\"tree\"}\t] ,\"recipe\":\"need\"}  ", NULL,
     2},
    {"{\"recipe\":\"need\",\"title\":\"Zwei Ringe für Ötzi – 2½ dwt 指輪\",\n\"notes\":\"{[,]}\"}",
     NULL, 1},
    {"{\"recipe\":\"need\",\"rec\\u006frd\":[ ]}", NULL, 1},
    {"{\"given\":{\"record\":[]},\"recipe\":\"need\"}", NULL, 1},
};

Test(splice, the_entry_is_dressed_as_its_neighbours_and_nothing_else_moves)
{
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        lml_builder new;
        lml_error err;
        cr_assert_eq(splice(cases[i].job, ENTRY, &new, &err), LML_OK, "%s: %s", cases[i].job,
                     err.message);
        expect_one_run(cases[i].job, &new, cases[i].entries);
        if (cases[i].after)
            cr_expect_str_eq(new.at, cases[i].after);
        lml_builder_free(&new);
    }
}

/* Texts put together at random: any blanks, any order, any number of entries. */
static void put_blanks(lml_builder *b)
{
    static const char *const blanks[] = {"", " ", "\n", "\r\n", "\t", "\n    ", "\r\n\t\t", "  \n"};
    lml_builder_add_text(b, blanks[rand() % 8]);
}

static void put_list(lml_builder *b, int entries)
{
    lml_builder_add_char(b, '[');
    for (int i = 0; i < entries; i++) {
        put_blanks(b);
        lml_builder_add_text(b, i ? "," : "");
        put_blanks(b);
        static const char *const written[] = {"{\"at\":\"2026-11-25\",\"what\":\"Grüße ,]\"}",
                                              "{ \"what\" : \"x\\\"}\" ,\n \"at\":\"2026-11-25\" }",
                                              "{\"at\":\"2026-11-26T14:21\",\"what\":\"later ]\"}"};
        lml_builder_add_text(b, written[rand() % 3]);
    }
    put_blanks(b);
    lml_builder_add_char(b, ']');
}

Test(splice, any_layout_keeps_its_bytes)
{
    srand(26);
    for (int round = 0; round < 2000; round++) {
        lml_builder job = lml_builder_on(&heap, 0), new;
        lml_error err;
        int order = rand() % 3, entries = rand() % 4;
        put_blanks(&job);
        lml_builder_add_char(&job, '{');
        for (int i = 0; i < 3; i++) {
            put_blanks(&job);
            lml_builder_add_text(&job, i ? "," : "");
            put_blanks(&job);
            if (i == order) {
                lml_builder_add_text(&job, "\"record\"");
                put_blanks(&job);
                lml_builder_add_char(&job, ':');
                put_blanks(&job);
                put_list(&job, entries);
            } else {
                lml_builder_add_text(&job, i == (order + 1) % 3 ? "\"recipe\" : \"need\""
                                                                : "\"title\":\"a,\\\"b\\\" ½\"");
            }
            put_blanks(&job);
        }
        lml_builder_add_char(&job, '}');
        put_blanks(&job);
        cr_assert_eq(splice(job.at, ENTRY, &new, &err), LML_OK, "%s: %s", job.at, err.message);
        expect_one_run(job.at, &new, (size_t)entries + 1);
        lml_builder_free(&new);
        lml_builder_free(&job);
    }
}

static void refuses(const char *job, const char *entry, lml_status status, const char *words)
{
    lml_builder new;
    lml_error err = {.status = LML_OK};
    cr_expect_eq(splice(job, entry, &new, &err), status, "%s: %s", job, err.message);
    cr_expect(strstr(err.message, words), "\"%s\" lacks \"%s\"", err.message, words);
    cr_expect_eq(new.length, 0);
    lml_builder_free(&new);
    cr_expect_eq(splice(job, entry, &new, NULL), status);
    lml_builder_free(&new);
}

Test(splice, a_record_only_grows_and_stays_sound)
{
    refuses(JOB("{}"), ENTRY, LML_BAD_DATA, "record");
    refuses(JOB("null"), ENTRY, LML_BAD_DATA, "record");
    refuses(JOB("[{\"what\":\"no moment\"}]"), ENTRY, LML_BAD_DATA, "at");
    refuses("{\"recipe\":\"need\"", ENTRY, LML_BAD_DATA, "job.json:1");
    refuses("{\"title\":\"no recipe\"}", ENTRY, LML_BAD_DATA, "recipe");
    refuses("[]", ENTRY, LML_BAD_DATA, "job.json:1");
    refuses(JOB("[]"), "{\"what\":\"tree\"}", LML_BAD_DATA, "at");
    refuses(JOB("[]"), "{\"at\":\"2026-02-30\",\"what\":\"tree\"}", LML_BAD_VALUE, "2026-02-30");
    refuses(JOB("[]"), "{\"at\":\"2026-11-26\",\"what\":\"tree\",\"mass\":\"3 mL\"}", LML_BAD_VALUE,
            "mass");
    refuses(JOB("[]"), "{\"at\":\"2026-11-26\",\"what\":\"tree\",\"way\":\"sideways\"}",
            LML_BAD_VALUE, "way");
    refuses(JOB("[]"), "{\"at\":\"2026-11-26\",\"what\":\"tree\"},{}", LML_BAD_DATA, "the entry");
}

/* Entries of the same moment stand in the order in which they were recorded. */
Test(splice, the_same_moment_may_come_again)
{
    lml_builder new;
    lml_error err;
    cr_expect_eq(splice(JOB("[" ENTRY "]"), ENTRY, &new, &err), LML_OK, "%s", err.message);
    expect_one_run(JOB("[" ENTRY "]"), &new, 2);
    lml_builder_free(&new);
    const char *blanks = JOB("[{\"at\":\" 2026-11-26 \",\"what\":\"tree\"}]");
    cr_expect_eq(splice(blanks, ENTRY, &new, &err), LML_OK, "%s", err.message);
    expect_one_run(blanks, &new, 2);
    lml_builder_free(&new);
}
