/* One more entry in a job's record: JOB form feed ENTRY. What is put in is one run of bytes, the
 * job stays a job, and the entry is in its record once more; what can be added once can be added
 * again. */
#include "fuzz.h"
#include "file/shapes.h"
#include "file/splice.h"

static size_t same_at_start(lml_span a, lml_span b)
{
    size_t n = 0;
    while (n < a.length && n < b.length && a.at[n] == b.at[n])
        n++;
    return n;
}

static size_t same_at_end(lml_span a, lml_span b)
{
    size_t n = 0;
    while (n < a.length && n < b.length && a.at[a.length - 1 - n] == b.at[b.length - 1 - n])
        n++;
    return n;
}

static lml_json_document *read(const lml_alloc *heap, lml_span text)
{
    lml_json_document *doc;
    lml_error err;
    fuzz_expect(lml_json_read(heap, text, NULL, "job", &doc, &err) == LML_OK, "%s", err.message);
    fuzz_expect(lml_shape_check(&lml_shapes_job, lml_json_root(doc), &err) == LML_OK, "%s",
                err.message);
    return doc;
}

static size_t times_in(const lml_json *record, lml_span entry)
{
    size_t times = 0;
    for (const lml_json *n = lml_json_first(record); n; n = lml_json_next(n))
        times += lml_span_equal(lml_json_raw(n), lml_span_trim(entry)) ? 1 : 0;
    return times;
}

static void expect_added(const lml_alloc *heap, lml_span before, lml_span after, lml_span entry)
{
    lml_json_document *old = read(heap, before), *new = read(heap, after);
    const lml_json *was = lml_json_member(lml_json_root(old), "record");
    const lml_json *is = lml_json_member(lml_json_root(new), "record");
    fuzz_expect(lml_json_count(is) == lml_json_count(was) + 1, "%zu entries became %zu",
                lml_json_count(was), lml_json_count(is));
    fuzz_expect(times_in(is, entry) == times_in(was, entry) + 1, "the entry is not there");
    fuzz_expect(lml_json_count(lml_json_root(new)) ==
                    lml_json_count(lml_json_root(old)) + (was ? 0 : 1),
                "other members came or went");
    lml_json_free(new);
    lml_json_free(old);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_alloc heap = lml_alloc_heap();
    lml_span entry = {(const char *)data, size}, job = fuzz_part(&entry);
    lml_builder once = lml_builder_on(&heap, 0), twice = lml_builder_on(&heap, 0);
    lml_error err;
    lml_status status = lml_splice_record(job, "job", entry, &once, &err);
    fuzz_expect_sound(status, &err);
    if (status == LML_OK) {
        lml_span after = {once.at, once.length};
        fuzz_expect(after.length > job.length &&
                        same_at_start(job, after) + same_at_end(job, after) >= job.length,
                    "other bytes were changed:\n%.*s", (int)after.length, after.at);
        expect_added(&heap, job, after, entry);
        status = lml_splice_record(after, "job", entry, &twice, &err);
        fuzz_expect(status == LML_OK || status == LML_LIMIT, "not a second time: %s", err.message);
    } else {
        fuzz_expect(once.length == 0, "refused, and yet %zu bytes came", once.length);
    }
    lml_builder_free(&twice);
    lml_builder_free(&once);
    return 0;
}
