/* NAME=VALUE words spliced into a job text: the value lands, and all else stays where it was. */
#include <criterion/criterion.h>

#include "papers/given.h"
#include "file/json.h"

#include <string.h>

static lml_alloc heap;

static lml_builder job_of(const char *text)
{
    heap = lml_alloc_heap();
    lml_builder job = lml_builder_on(&heap, 0);
    lml_builder_add_text(&job, text);
    return job;
}

/* The text at a path of names, or "" when another kind stands there. */
static void expect_text(const lml_builder *job, const char *const *path, const char *text)
{
    lml_json_document *doc;
    lml_error err;
    cr_assert_eq(lml_json_read(&heap, (lml_span){job->at, job->length}, NULL, "job", &doc, &err),
                 LML_OK, "%s in %s", err.message, job->at);
    const lml_json *node = lml_json_root(doc);
    for (; *path; path++)
        node = lml_json_member(node, *path);
    cr_expect(lml_span_is(lml_json_text(node), text), "%s", job->at);
    lml_json_free(doc);
}

#define PATH(...) ((const char *const[]){__VA_ARGS__, NULL})

Test(given, every_line_of_the_job_keeps_its_number)
{
    lml_builder job =
        job_of("{\n  \"recipe\": \"need\",\n  \"given\": {\n    \"wax\": \"2 g\",\n"
               "    \"metal\": { \"density\": \"15 g/cm3\" }\n  },\n  \"record\": []\n}\n");
    size_t lines = 0, after = 0;
    for (size_t i = 0; i < job.length; i++)
        lines += job.at[i] == '\n';
    cr_expect_eq(lml_given_put(&job, "wax=2.85 g", "job", NULL), LML_OK);
    cr_expect_eq(lml_given_put(&job, "metal.name=old\nring", "job", NULL), LML_OK);
    cr_expect_eq(lml_given_put(&job, "lots=[ \"a\",\n \"b\" ]", "job", NULL), LML_OK);
    for (size_t i = 0; i < job.length; i++)
        after += job.at[i] == '\n';
    cr_expect_eq(after, lines);
    expect_text(&job, PATH("recipe"), "need");
    expect_text(&job, PATH("given", "wax"), "2.85 g");
    expect_text(&job, PATH("given", "metal", "density"), "15 g/cm3");
    expect_text(&job, PATH("given", "metal", "name"), "old\nring");
    lml_builder_free(&job);
}

Test(given, records_come_into_being_where_they_are_missing)
{
    lml_builder job = job_of("{}");
    cr_expect_eq(lml_given_put(&job, "a.b.c=1 g", "job", NULL), LML_OK);
    cr_expect_eq(lml_given_put(&job, "a.b.d=\"quoted\"", "job", NULL), LML_OK);
    cr_expect_eq(lml_given_put(&job, "e=x=y", "job", NULL), LML_OK);
    expect_text(&job, PATH("given", "a", "b", "c"), "1 g");
    expect_text(&job, PATH("given", "a", "b", "d"), "\"quoted\"");
    expect_text(&job, PATH("given", "e"), "x=y");
    lml_builder_free(&job);
}

Test(given, true_and_false_are_no_texts)
{
    lml_builder job = job_of("{}");
    cr_expect_eq(lml_given_put(&job, "soldered=true", "job", NULL), LML_OK);
    cr_expect_eq(lml_given_put(&job, "cut=false", "job", NULL), LML_OK);
    cr_expect(strstr(job.at, "\"soldered\":true") && strstr(job.at, "\"cut\":false"), "%s", job.at);
    lml_builder_free(&job);
}

Test(given, the_job_is_marked_as_loose_once)
{
    lml_builder job = job_of("{}");
    lml_given_put(&job, "a=1", "job", NULL);
    lml_given_put(&job, "b=1", "job", NULL);
    const char *loose = strstr(job.at, "\"loose\":true");
    cr_expect(loose && !strstr(loose + 1, "\"loose\""), "%s", job.at);
    lml_builder_free(&job);
}

Test(given, bad_words_are_refused_and_leave_the_job_alone)
{
    static const char *const words[] = {"wax",     "=2 g",       ".a=1",        "a.=1",  "a..b=1",
                                        "lots=[1", "lots={a:1}", "wax.depth=1", "a=[1]]"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        lml_builder job = job_of("{ \"given\": { \"wax\": \"2 g\" } }");
        cr_expect_eq(lml_given_put(&job, words[i], "job", NULL), LML_USAGE, "%s", words[i]);
        cr_expect_str_eq(job.at, "{ \"given\": { \"wax\": \"2 g\" } }");
        lml_builder_free(&job);
    }
}

Test(given, a_job_that_cannot_be_read_is_not_touched)
{
    lml_builder job = job_of("{ \"given\": ");
    lml_error err;
    cr_expect_eq(lml_given_put(&job, "a=1", "jobs/x.json", &err), LML_BAD_DATA);
    cr_expect(strstr(err.message, "jobs/x.json:1"), "%s", err.message);
    lml_builder_free(&job);
}

Test(given, a_failed_allocation_is_reported_and_leaks_nothing)
{
    bool through = false;
    for (uint64_t n = 1; n < 500 && !through; n++) {
        lml_meter meter = {.under = lml_alloc_heap()};
        lml_alloc metered = lml_alloc_metered(&meter);
        lml_builder job = lml_builder_on(&metered, 0);
        lml_builder_add_text(&job, "{ \"given\": {} }");
        meter.fail_at = n;
        lml_status status = lml_given_put(&job, "a.b=1 g", "job", NULL);
        through = meter.fail_at != 0;
        cr_expect_eq(status, through ? LML_OK : LML_NO_MEMORY, "at %d", (int)n);
        lml_builder_free(&job);
        cr_expect_eq(meter.used, 0);
    }
    cr_expect(through);
}
