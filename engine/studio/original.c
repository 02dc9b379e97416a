#include "studio/original.h"
#include "file/store.h"
#include "sheet/complain.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

enum { LINES_MOST = 1500, TOLD_MOST = 60 };

static lml_status base_of(const char *studio, const char *name, char out[LML_PATH], lml_error *err)
{
    bool here = strcmp(studio, ".") == 0;
    int length = snprintf(out, LML_PATH, "%s%srecipes/.base/%s.lua", here ? "" : studio,
                          here ? "" : "/", name);
    if (length < 0 || length >= LML_PATH)
        return lml_fail(err, LML_NO_FILE, "the path of the base of %s is too long", name);
    return LML_OK;
}

lml_status lml_original_keep(lml_call *call, const char *name, lml_error *err)
{
    char studio[LML_PATH], place[LML_PATH];
    lml_kit shipped = lml_kit_on(&call->alloc);
    lml_find_studio(call, NULL, studio);
    lml_status status = lml_find_shipped(call, &shipped, err);
    const lml_kit_text *own = lml_kit_find(&shipped, LML_PUT_RECIPE, lml_span_of(name));
    if (status == LML_OK && own) {
        status = base_of(studio, name, place, err);
        if (status == LML_OK)
            status = lml_find_make_folder(place, err);
        if (status == LML_OK)
            status = lml_store_write(place, (lml_span){own->text.at, own->text.length}, true, err);
    }
    lml_kit_free(&shipped);
    return status;
}

/* ---- what changed -------------------------------------------------------------------------------
 */

typedef struct lines {
    lml_span line[LINES_MOST];
    size_t count;
} lines;

/* False when there are too many. */
static bool cut(lml_span text, lines *out)
{
    const char *end = text.at + text.length;
    out->count = 0;
    for (const char *at = text.at; at < end; out->count++) {
        if (out->count == LINES_MOST)
            return false;
        const char *feed = memchr(at, '\n', (size_t)(end - at));
        const char *stop = feed ? feed : end;
        out->line[out->count] = lml_span_between(at, stop);
        at = feed ? feed + 1 : end;
    }
    return true;
}

static void put_line(lml_builder *out, char mark, lml_span line, size_t *told)
{
    if ((*told)++ >= TOLD_MOST)
        return;
    lml_builder_add_format(out, "   %c ", mark);
    lml_layout_put(out, line);
    lml_builder_add_char(out, '\n');
}

/* Lines that are gone (-) and that are new (+), by the longest common run of lines: `length` is of
 * rows of `is.count` + 1. */
static size_t put_changes(const lines *was, const lines *is, const unsigned short *length,
                          lml_builder *out)
{
    size_t row = is->count + 1, a = 0, b = 0, told = 0;
    while (a < was->count || b < is->count) {
        bool both = a < was->count && b < is->count;
        if (both && lml_span_equal(was->line[a], is->line[b])) {
            a++;
            b++;
        } else if (b == is->count ||
                   (both && length[(a + 1) * row + b] >= length[a * row + b + 1])) {
            put_line(out, '-', was->line[a++], &told);
        } else {
            put_line(out, '+', is->line[b++], &told);
        }
    }
    if (told > TOLD_MOST)
        lml_builder_add_format(out, "   and %zu lines more\n", told - TOLD_MOST);
    return told;
}

static lml_status compare(const lml_alloc *alloc, lml_span was, lml_span is, lml_builder *out,
                          lml_error *err)
{
    lml_status status = LML_NO_MEMORY;
    unsigned short *length = NULL;
    size_t size = 0;
    lines *both = lml_alloc_get(alloc, 2 * sizeof *both);
    if (both && cut(was, &both[0]) && cut(is, &both[1])) {
        size_t row = both[1].count + 1;
        size = (both[0].count + 1) * row * sizeof *length;
        length = lml_alloc_get(alloc, size);
        if (length) {
            memset(length, 0, size);
            for (size_t a = both[0].count; a-- > 0;)
                for (size_t b = both[1].count; b-- > 0;) {
                    unsigned short down = length[(a + 1) * row + b],
                                   right = length[a * row + b + 1];
                    length[a * row + b] = lml_span_equal(both[0].line[a], both[1].line[b])
                                              ? (unsigned short)(length[(a + 1) * row + b + 1] + 1)
                                          : down > right ? down
                                                         : right;
                }
            put_changes(&both[0], &both[1], length, out);
            status = LML_OK;
        }
    } else if (both) {
        lml_builder_add_text(out, "   too many lines to be set side by side here\n");
        status = LML_OK;
    }
    if (length)
        lml_alloc_free(alloc, length, size);
    if (both)
        lml_alloc_free(alloc, both, 2 * sizeof *both);
    return status == LML_OK ? LML_OK
                            : lml_fail(err, status, "no memory to set two texts side by side");
}

static lml_status tell(lml_call *call, const char *base, const lml_kit_text *text,
                       const lml_kit_text *own, const lml_builder *was, lml_builder *out,
                       lml_error *err)
{
    lml_error said = {.status = LML_OK};
    lml_fail(&said, LML_OK,
             "%s: lemel's own %s has changed since yours took its place (- before, + now)",
             text->shown, text->name);
    lml_complain_write(&said, out);
    lml_status status = compare(&call->alloc, (lml_span){was->at, was->length},
                                (lml_span){own->text.at, own->text.length}, out, err);
    lml_builder_add_format(
        out, "   take over what you want of it, and then: lemel adopt %s; %s is what it was\n",
        text->shown, base);
    return status;
}

lml_status lml_original_tell(lml_call *call, const lml_target *target, const lml_kit_text *text,
                             lml_builder *out, lml_error *err)
{
    char studio[LML_PATH], base[LML_PATH];
    lml_find_studio(call, target, studio);
    lml_builder was = lml_builder_on(&call->alloc, 0);
    lml_kit shipped = lml_kit_on(&call->alloc);
    lml_status status = base_of(studio, text->name, base, err);
    /* No base: it took the place before one was kept, or by hand. */
    if (status == LML_OK && lml_store_read(base, LML_STORE_SIZE, &was, NULL) == LML_OK)
        status = lml_find_shipped(call, &shipped, err);
    const lml_kit_text *own = lml_kit_find(&shipped, LML_PUT_RECIPE, lml_span_of(text->name));
    if (status == LML_OK && own &&
        !lml_span_equal((lml_span){was.at, was.length}, (lml_span){own->text.at, own->text.length}))
        status = tell(call, base, text, own, &was, out, err);
    lml_kit_free(&shipped);
    lml_builder_free(&was);
    return status;
}
