/* The strict JSON reader: cJSON by itself takes what it takes and finds the same in it, and what
 * was read can be written and read again without loss. */
#include "fuzz.h"
#include "file/json.h"
#include "file/json_write.h"

#include <cjson/cJSON.h>

static bool same_text(lml_span text, const char *theirs)
{
    return theirs && lml_span_is(text, theirs);
}

static void expect_as_theirs(const lml_json *node, const cJSON *item)
{
    switch (lml_json_kind_of(node)) {
    case LML_JSON_NULL:
        fuzz_expect(cJSON_IsNull(item), "no null there");
        break;
    case LML_JSON_YES_NO:
        fuzz_expect(cJSON_IsBool(item) && cJSON_IsTrue(item) == lml_json_yes(node),
                    "another truth there");
        break;
    case LML_JSON_NUMBER:
        fuzz_expect(cJSON_IsNumber(item) && item->valuedouble == lml_json_number(node),
                    "%.17g here, %.17g there", lml_json_number(node), item->valuedouble);
        break;
    case LML_JSON_TEXT:
        fuzz_expect(cJSON_IsString(item) && same_text(lml_json_text(node), item->valuestring),
                    "another text there");
        break;
    default: {
        fuzz_expect(lml_json_kind_of(node) == LML_JSON_LIST ? cJSON_IsArray(item)
                                                            : cJSON_IsObject(item),
                    "another kind there");
        const cJSON *theirs = item->child;
        for (const lml_json *n = lml_json_first(node); n;
             n = lml_json_next(n), theirs = theirs->next) {
            fuzz_expect(theirs, "less there");
            if (cJSON_IsObject(item)) {
                fuzz_expect(same_text(lml_json_name(n), theirs->string), "another name there");
                fuzz_expect(lml_json_member(node, theirs->string) == n, "%s is not found",
                            theirs->string);
            }
            expect_as_theirs(n, theirs);
        }
        fuzz_expect(!theirs, "more there");
    }
    }
}

/* Where a node stands: in the text, on its line, by a path that any buffer cuts to a text. */
static void expect_place(const lml_json_document *doc, const lml_json *node)
{
    lml_span all = lml_json_source_text(doc), raw = lml_json_raw(node);
    fuzz_expect(raw.at >= all.at && raw.at + raw.length <= all.at + all.length && raw.length > 0,
                "outside the text");
    unsigned line = 1;
    for (const char *at = all.at; at < raw.at; at++)
        line += *at == '\n';
    fuzz_expect(lml_json_line(node) == line, "line %u is said to be line %u", line,
                lml_json_line(node));
    char path[LML_JSON_PATH], cut[8];
    fuzz_expect_clean(lml_json_path(node, path, sizeof path), "the path");
    fuzz_expect_clean(lml_json_path(node, cut, sizeof cut), "the cut path");
}

static void write(const lml_json *node, lml_json_writer *w)
{
    switch (lml_json_kind_of(node)) {
    case LML_JSON_NULL:
        lml_json_write_null(w);
        return;
    case LML_JSON_YES_NO:
        lml_json_write_yes_no(w, lml_json_yes(node));
        return;
    case LML_JSON_NUMBER:
        lml_json_write_number(w, lml_json_number(node));
        return;
    case LML_JSON_TEXT:
        lml_json_write_text(w, lml_json_text(node));
        return;
    case LML_JSON_LIST:
        lml_json_write_open_list(w);
        break;
    default:
        lml_json_write_open_record(w);
    }
    for (const lml_json *n = lml_json_first(node); n; n = lml_json_next(n)) {
        if (lml_json_kind_of(node) == LML_JSON_RECORD)
            lml_json_write_name(w, lml_json_name(n));
        write(n, w);
    }
    lml_json_write_close(w);
}

static void expect_same(const lml_json *a, const lml_json *b)
{
    fuzz_expect(lml_json_kind_of(a) == lml_json_kind_of(b), "another kind came back");
    fuzz_expect(lml_span_equal(lml_json_name(a), lml_json_name(b)), "another name came back");
    fuzz_expect(lml_span_equal(lml_json_text(a), lml_json_text(b)), "another text came back");
    fuzz_expect(lml_json_number(a) == lml_json_number(b), "%.17g came back as %.17g",
                lml_json_number(a), lml_json_number(b));
    fuzz_expect(lml_json_yes(a) == lml_json_yes(b), "another truth came back");
    fuzz_expect(lml_json_count(a) == lml_json_count(b), "another count came back");
    b = lml_json_first(b);
    for (a = lml_json_first(a); a; a = lml_json_next(a), b = lml_json_next(b))
        expect_same(a, b);
}

static void expect_back(const lml_alloc *heap, const lml_json_document *doc, bool indented)
{
    lml_builder text = lml_builder_on(heap, 0);
    lml_json_writer w = lml_json_writer_on(&text, indented);
    lml_json_document *back;
    lml_error err;
    write(lml_json_root(doc), &w);
    lml_status status = lml_json_writer_end(&w, &err);
    fuzz_expect(status == LML_OK, "what was read is not written: %s", err.message);
    status = lml_json_read(heap, (lml_span){text.at, text.length}, NULL, "back", &back, &err);
    fuzz_expect(status == LML_OK, "what was written is not read: %s", err.message);
    expect_same(lml_json_root(doc), lml_json_root(back));
    lml_json_free(back);
    lml_builder_free(&text);
}

static void expect_places(const lml_json_document *doc, const lml_json *node)
{
    expect_place(doc, node);
    for (const lml_json *n = lml_json_first(node); n; n = lml_json_next(n))
        expect_places(doc, n);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_alloc heap = lml_alloc_heap();
    lml_json_limits limits = {.depth = LML_JSON_WRITE_DEPTH};
    lml_json_document *doc;
    lml_error err;
    lml_status status =
        lml_json_read(&heap, (lml_span){(const char *)data, size}, &limits, "x.json", &doc, &err);
    fuzz_expect_sound(status, &err);
    if (status != LML_OK)
        return 0;
    cJSON *theirs = cJSON_ParseWithLength((const char *)data, size);
    fuzz_expect(theirs, "cJSON refuses what we take");
    expect_as_theirs(lml_json_root(doc), theirs);
    cJSON_Delete(theirs);
    expect_places(doc, lml_json_root(doc));
    expect_back(&heap, doc, true);
    expect_back(&heap, doc, false);
    lml_json_free(doc);
    return 0;
}
