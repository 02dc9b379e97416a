/* Two results held against each other: EARLIER form feed LATER. The report is JSON that our own
 * reader takes, and its drawing steers no terminal; a result held against itself is the same in
 * everything, and the other way round as many figures differ. */
#include "fuzz.h"
#include "papers/differ.h"

static lml_json_document *hold(const lml_alloc *heap, const lml_json *was, const lml_json *is)
{
    lml_builder text = lml_builder_on(heap, 0);
    lml_json_writer w = lml_json_writer_on(&text, false);
    lml_json_limits limits = {.size = 64 << 20, .nodes = 16 << 20, .depth = 500};
    lml_json_document *report;
    lml_error err;
    lml_differ_write(&w, "result.json", was, is);
    fuzz_expect(lml_json_writer_end(&w, &err) == LML_OK, "%s", err.message);
    fuzz_expect(lml_json_read(heap, (lml_span){text.at, text.length}, &limits, "report", &report,
                              &err) == LML_OK,
                "%s\n%.*s", err.message, (int)text.length, text.at);
    lml_builder_free(&text);
    return report;
}

static size_t count(const lml_json_document *report, const char *name)
{
    return lml_json_count(lml_json_member(lml_json_root(report), name));
}

static bool has_figures(const lml_json_document *result)
{
    return lml_json_kind_of(lml_json_member(lml_json_root(result), "results")) == LML_JSON_RECORD;
}

static bool is_same(const lml_json_document *report)
{
    return lml_json_yes(lml_json_member(lml_json_root(report), "same"));
}

static void expect_drawn(const lml_alloc *heap, const lml_json_document *report)
{
    lml_builder text = lml_builder_on(heap, 0);
    lml_layout layout = {.out = &text, .width = 80};
    lml_differ_draw(&layout, lml_json_root(report));
    fuzz_expect(text.status == LML_OK && text.length > 0, "nothing is drawn");
    fuzz_expect(lml_text_check_utf8((lml_span){text.at, text.length}, NULL) == LML_OK,
                "not UTF-8:\n%s", text.at);
    for (size_t i = 0; i < text.length; i++)
        fuzz_expect(((unsigned char)text.at[i] >= 0x20 && text.at[i] != 0x7f) || text.at[i] == '\n',
                    "the byte %d at %zu", text.at[i], i);
    lml_builder_free(&text);
}

static void expect_nothing(const lml_json_document *report)
{
    static const char *const parts[] = {"otherwise", "sheets", "remarks"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        fuzz_expect(count(report, parts[i]) == 0, "the same, and %zu %s", count(report, parts[i]),
                    parts[i]);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_alloc heap = lml_alloc_heap();
    lml_span later = {(const char *)data, size}, earlier = fuzz_part(&later);
    lml_json_document *was, *is;
    if (lml_json_read(&heap, earlier, NULL, "earlier", &was, NULL) != LML_OK)
        return 0;
    if (lml_json_read(&heap, later, NULL, "later", &is, NULL) == LML_OK) {
        lml_json_document *there = hold(&heap, lml_json_root(was), lml_json_root(is));
        lml_json_document *back = hold(&heap, lml_json_root(is), lml_json_root(was));
        lml_json_document *self = hold(&heap, lml_json_root(was), lml_json_root(was));
        expect_drawn(&heap, there);
        fuzz_expect(is_same(self), "a result is not the same as itself");
        expect_nothing(self);
        if (is_same(there))
            expect_nothing(there);
        fuzz_expect(is_same(there) == is_same(back), "the same one way only");
        fuzz_expect(!has_figures(was) || !has_figures(is) ||
                        count(there, "otherwise") == count(back, "otherwise"),
                    "%zu figures differ, and %zu the other way", count(there, "otherwise"),
                    count(back, "otherwise"));
        lml_json_free(self);
        lml_json_free(back);
        lml_json_free(there);
        lml_json_free(is);
    }
    lml_json_free(was);
    return 0;
}
