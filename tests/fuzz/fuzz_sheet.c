/* A finished result drawn as text: PAGE form feed RESULT, the name of a page, or nothing for all of
 * them. Whatever a result says, the drawing is UTF-8 that steers no terminal, the same each time;
 * and each stop is either on the pages or among what is said to be missing from them. */
#include "fuzz.h"
#include "file/json.h"
#include "sheet/sheet.h"

static void expect_clean(lml_span text)
{
    fuzz_expect(lml_text_check_utf8(text, NULL) == LML_OK, "not UTF-8:\n%.*s", (int)text.length,
                text.at);
    for (size_t i = 0; i < text.length; i++)
        fuzz_expect(((unsigned char)text.at[i] >= 0x20 && text.at[i] != 0x7f) || text.at[i] == '\n',
                    "the byte %d at %zu in\n%.*s", text.at[i], i, (int)text.length, text.at);
}

/* One word of letters, which no line is broken in and nothing is put in place of. */
static bool is_word(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (!((text.at[i] >= 'a' && text.at[i] <= 'z') || (text.at[i] >= 'A' && text.at[i] <= 'Z')))
            return false;
    return text.length > 0 && text.length < 20;
}

static bool holds(lml_span text, lml_span word)
{
    for (size_t i = 0; i + word.length <= text.length; i++)
        if (memcmp(text.at + i, word.at, word.length) == 0)
            return true;
    return false;
}

static void expect_stops(const lml_json *result, lml_span drawn, lml_span unseen)
{
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        lml_span text = lml_json_text(lml_json_member(remark, "text"));
        if (lml_span_is(lml_json_text(lml_json_member(remark, "level")), "stop") && is_word(text))
            fuzz_expect(holds(drawn, text) || holds(unseen, text), "the stop %.*s is nowhere",
                        (int)text.length, text.at);
    }
}

/* LML_FAULT is for what is no result at all. */
static lml_status draw(const lml_json *result, const lml_sheet_look *look, bool unseen,
                       bool missing, lml_builder *out)
{
    lml_error err;
    memset(&err, 0, sizeof err);
    lml_status status = unseen ? lml_sheet_draw_unseen(result, look, missing, out, &err)
                               : lml_sheet_draw(result, look, out, &err);
    if (status != LML_FAULT)
        fuzz_expect_sound(status, &err);
    return status;
}

static void work(const lml_alloc *heap, const lml_json *result, const lml_sheet_look *look)
{
    lml_builder once = lml_builder_on(heap, 0), again = once, unseen = once;
    lml_status status = draw(result, look, false, false, &once);
    bool missing = status == LML_NOT_FOUND;
    if (status == LML_OK) {
        lml_span drawn = {once.at ? once.at : "", once.length};
        expect_clean(drawn);
        fuzz_expect(draw(result, look, false, false, &again) == LML_OK &&
                        lml_span_equal(drawn, (lml_span){again.at ? again.at : "", again.length}),
                    "drawn twice, it comes out in two ways");
    }
    if ((status == LML_OK || missing) && draw(result, look, true, missing, &unseen) == LML_OK) {
        lml_span left = {unseen.at ? unseen.at : "", unseen.length};
        expect_clean(left);
        expect_stops(result, (lml_span){once.at ? once.at : "", status == LML_OK ? once.length : 0},
                     left);
    }
    lml_builder_free(&unseen);
    lml_builder_free(&again);
    lml_builder_free(&once);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const lml_sheet_look looks[] = {
        {.width = 40}, {.width = 80}, {.width = 160, .landscape = true}};
    lml_alloc heap = lml_alloc_heap();
    lml_span rest = {(const char *)data, size}, part = fuzz_part(&rest);
    char page[32];
    lml_json_document *result;
    if (part.length >= sizeof page ||
        lml_json_read(&heap, rest, NULL, "result", &result, NULL) != LML_OK)
        return 0;
    memcpy(page, part.at, part.length);
    page[part.length] = '\0';
    for (size_t i = 0; i < sizeof looks / sizeof looks[0]; i++) {
        lml_sheet_look look = looks[i];
        look.page = part.length > 0 ? page : NULL;
        work(&heap, lml_json_root(result), &look);
    }
    lml_json_free(result);
    return 0;
}
