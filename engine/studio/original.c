#include "base/shell.h"
#include "studio/original.h"
#include "file/store.h"
#include "sheet/complain.h"
#include "sheet/layout.h"

#include <stdio.h>
#include <string.h>

enum { TOLD_MOST = 60, BESIDE_MOST = 20 };
#define RECORDS "lemel prove %s records lemel's own as it is today: a change is then told"

lml_status lml_original_place(const char *studio, const char *name, char out[LML_PATH],
                              lml_error *err)
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
        status = lml_original_place(studio, name, place, err);
        if (status == LML_OK)
            status = lml_find_make_folder(place, err);
        if (status == LML_OK)
            status = lml_store_write(place, own->text, true, err);
    }
    lml_kit_free(&shipped);
    return status;
}

/* ---- what changed -------------------------------------------------------------------------------
 */

/* Line by line, because recipes may be any text. */
static void put_clean(lml_builder *out, lml_span text)
{
    while (text.length > 0) {
        const char *end = text.at + text.length, *feed = memchr(text.at, '\n', text.length);
        lml_layout_put(out, lml_span_between(text.at, feed ? feed : end));
        lml_builder_add_char(out, '\n');
        text = lml_span_between(feed ? feed + 1 : end, end);
    }
}

static lml_status put_changes(const lml_merge *m, const lml_alloc *alloc, size_t most,
                              lml_builder *out, lml_error *err)
{
    lml_builder text = lml_builder_on(alloc, 0);
    lml_status status = lml_lines_changes(alloc, &m->base, &m->theirs, "   ", most, &text, err);
    put_clean(out, lml_builder_span(&text));
    lml_builder_free(&text);
    return status;
}

lml_status lml_original_merge(const lml_alloc *alloc, lml_span was, lml_span ours, lml_span now,
                              lml_merge *out, lml_error *err)
{
    const char *below = ours.length > 0 ? strstr(ours.at, LML_ORIGINAL_BELOW) : NULL;
    size_t above = below ? (size_t)(below - ours.at) + strlen(LML_ORIGINAL_BELOW) : 0;
    lml_span rest = lml_span_between(ours.at + above, ours.at + ours.length);
    lml_status status = lml_merge_texts(alloc, was, rest, now, out, err);
    for (size_t i = 0; i < above; i++)
        out->above += ours.at[i] == '\n';
    if (status != LML_OK || out->clashes > 0 || above == 0)
        return status;
    lml_builder whole = lml_builder_on(alloc, 0);
    lml_builder_add(&whole, ours.at, above);
    lml_builder_add_span(&whole, lml_builder_span(&out->text));
    lml_builder_free(&out->text);
    out->text = whole;
    return lml_builder_status(&whole, err);
}

/* What lemel changed, and whether it goes together with what the studio did. */
static lml_status tell(lml_call *call, const lml_kit_text *text, const lml_kit_text *own,
                       const lml_builder *was, lml_builder *out, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_error said = {.status = LML_OK};
    lml_merge m;
    lml_builder clashes = lml_builder_on(&call->alloc, 0);
    lml_fail(&said, LML_OK,
             "%s: lemel's own %s has changed since yours replaced it (- before, + now)",
             text->shown, text->name);
    lml_complain_write(&said, out);
    lml_status status =
        lml_original_merge(&call->alloc, lml_builder_span(was), text->text, own->text, &m, err);
    if (status == LML_OK)
        status = put_changes(&m, &call->alloc, TOLD_MOST, out, err);
    if (status == LML_OK && m.clashes == 0) {
        lml_builder_add_format(
            out,
            "   lemel adopt %s --merge merges it into yours; without --merge yours "
            "stays as it is\n",
            lml_shell_word(lml_span_of(text->shown), word));
    } else if (status == LML_OK) {
        lml_merge_show(&m, text->shown, &clashes);
        put_clean(out, lml_builder_span(&clashes));
        lml_builder_add_format(out,
                               "   change yours there by hand, then run lemel adopt %s to mark it "
                               "as seen\n",
                               lml_shell_word(lml_span_of(text->shown), word));
    }
    lml_builder_free(&clashes);
    lml_merge_free(&m);
    return status;
}

/* A copy without a kept base: how it differs from lemel's own as that is today. A rule is the
 * house's own answer from its first line, and is beside nothing. */
static lml_status tell_without_base(lml_call *call, const lml_kit_text *text,
                                    const lml_kit_text *own, lml_builder *out, lml_error *err)
{
    lml_error said = {.status = LML_OK};
    bool rule = lml_kit_rule_point(text->name) != NULL;
    lml_fail(&said, LML_OK,
             "%s: lemel's own %s as it was when yours replaced it is not on record%s", text->shown,
             text->name, rule ? "" : "; beside today's (- lemel's own, + yours):");
    if (rule)
        lml_error_hint(&said, RECORDS, text->name);
    lml_complain_write(&said, out);
    lml_merge m;
    if (rule)
        return LML_OK;
    lml_span today = own->text, yours = text->text;
    lml_status status = lml_merge_texts(&call->alloc, today, today, yours, &m, err);
    if (status == LML_OK)
        status = put_changes(&m, &call->alloc, BESIDE_MOST, out, err);
    lml_merge_free(&m);
    lml_builder_add_text(out, "   ");
    lml_builder_add_format(out, RECORDS, text->name);
    lml_builder_add_char(out, '\n');
    return status;
}

/* What is known of lemel's own recipe that a studio's replaced. */
typedef struct record {
    lml_kit shipped;
    const lml_kit_text *own; /* NULL: lemel has none of that name */
    lml_builder was;
    bool kept;
} record;

/* `out` is to be closed in any case. */
static lml_status open_record(lml_call *call, const lml_target *target, const char *name,
                              record *out, lml_error *err)
{
    char studio[LML_PATH], base[LML_PATH];
    lml_find_studio(call, target, studio);
    *out = (record){.shipped = lml_kit_on(&call->alloc), .was = lml_builder_on(&call->alloc, 0)};
    lml_status status = lml_original_place(studio, name, base, err);
    if (status == LML_OK)
        status = lml_find_shipped(call, &out->shipped, err);
    if (status != LML_OK)
        return status;
    out->own = lml_kit_find(&out->shipped, LML_PUT_RECIPE, lml_span_of(name));
    out->kept = lml_store_read(base, LML_STORE_SIZE, &out->was, NULL) == LML_OK;
    return LML_OK;
}

static void close_record(record *r)
{
    lml_kit_free(&r->shipped);
    lml_builder_free(&r->was);
}

static bool has_changed(const record *r)
{
    return r->own && r->kept && !lml_span_equal(lml_builder_span(&r->was), r->own->text);
}

lml_status lml_original_tell(lml_call *call, const lml_target *target, const lml_kit_text *text,
                             lml_builder *out, lml_error *err)
{
    record r;
    lml_status status = open_record(call, target, text->name, &r, err);
    if (status == LML_OK && has_changed(&r))
        status = tell(call, text, r.own, &r.was, out, err);
    else if (status == LML_OK && r.own && !r.kept && strcmp(text->from, "studio") == 0)
        status = tell_without_base(call, text, r.own, out, err);
    close_record(&r);
    return status;
}

lml_status lml_original_mention(lml_call *call, const lml_target *target, const lml_kit_text *text,
                                lml_builder *out, lml_error *err)
{
    record r;
    lml_error said = {.status = LML_OK};
    bool rule = lml_kit_rule_point(text->name) != NULL;
    lml_status status = open_record(call, target, text->name, &r, err);
    if (status == LML_OK && has_changed(&r))
        lml_fail(&said, LML_OK, "%s: lemel's own %s has changed since yours replaced it",
                 text->shown, text->name);
    else if (status == LML_OK && r.own && !r.kept && !rule)
        lml_fail(&said, LML_OK,
                 "%s replaces lemel's own %s, and what that was then is not on record", text->shown,
                 text->name);
    if (said.message[0]) {
        lml_error_hint(&said, "lemel check %s shows what differs", text->name);
        lml_complain_write(&said, out);
    }
    close_record(&r);
    return status;
}

lml_status lml_original_keep_first(lml_call *call, const char *studio, const lml_kit_text *own,
                                   lml_error *err)
{
    char place[LML_PATH];
    lml_builder was = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_original_place(studio, own->name, place, err);
    if (status == LML_OK && lml_store_read(place, LML_STORE_SIZE, &was, NULL) == LML_NO_FILE) {
        status = lml_find_make_folder(place, err);
        if (status == LML_OK)
            status = lml_store_write(place, own->text, false, err);
    }
    lml_builder_free(&was);
    return status;
}
