#include "cli/proved.h"
#include "cli/complain.h"
#include "file/digest.h"
#include "file/store.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define HEAD "# Recipes whose own proofs passed here: "
#define FIRST_LINE HEAD "name, digest of the file, engine. Kept by lemel prove and lemel adopt.\n"

lml_status lml_proved_read(const lml_alloc *alloc, const char *studio, lml_proved *out,
                           lml_error *err)
{
    *out = (lml_proved){.list = lml_builder_on(alloc, 0)};
    int length =
        snprintf(out->path, sizeof out->path, "%s%srecipes/proved.txt",
                 strcmp(studio, ".") == 0 ? "" : studio, strcmp(studio, ".") == 0 ? "" : "/");
    if (length < 0 || (size_t)length >= sizeof out->path)
        return lml_fail(err, LML_NO_FILE, "the path of recipes/proved.txt is too long");
    struct stat there;
    if (stat(out->path, &there) != 0)
        return LML_OK;
    lml_status status = lml_store_read(out->path, LML_STORE_SIZE, &out->list, err);
    lml_span list = {out->list.at, out->list.length};
    if (status != LML_OK || lml_span_starts(list, HEAD))
        return status;
    out->list.length = 0;
    lml_fail(err, LML_BAD_DATA, "%s is no list of recipes that were proved", out->path);
    return lml_error_hint(err, "lemel keeps such a list there: give your file another name");
}

void lml_proved_free(lml_proved *proved)
{
    lml_builder_free(&proved->list);
}

/* The next line, without its end, taken off the front. */
static bool take_line(lml_span *rest, lml_span *line)
{
    if (rest->length == 0)
        return false;
    const char *end = memchr(rest->at, '\n', rest->length);
    *line = lml_span_between(rest->at, end ? end : rest->at + rest->length);
    const char *after = end ? end + 1 : rest->at + rest->length;
    *rest = lml_span_between(after, rest->at + rest->length);
    return true;
}

/* The next word, taken off the front. */
static lml_span take_word(lml_span *rest)
{
    *rest = lml_span_trim(*rest);
    size_t length = 0;
    while (length < rest->length && rest->at[length] != ' ')
        length++;
    lml_span word = {rest->at, length};
    *rest = lml_span_between(rest->at + length, rest->at + rest->length);
    return word;
}

bool lml_proved_holds(const lml_proved *proved, lml_span digest)
{
    lml_span rest = {proved->list.at, proved->list.length}, line;
    while (take_line(&rest, &line)) {
        take_word(&line);
        if (!lml_span_equal(take_word(&line), digest))
            continue;
        take_word(&line);
        if (lml_span_is(take_word(&line), lml_version()))
            return true;
    }
    return false;
}

static int order(lml_span a, lml_span b)
{
    int by_bytes = memcmp(a.at, b.at, a.length < b.length ? a.length : b.length);
    return by_bytes ? by_bytes : (a.length > b.length) - (a.length < b.length);
}

static void put_line(lml_builder *to, lml_span recipe, lml_span digest)
{
    lml_append_span(to, recipe);
    lml_append_char(to, ' ');
    lml_append_span(to, digest);
    lml_append_format(to, " lemel %s\n", lml_version());
}

void lml_proved_put(lml_proved *proved, lml_span recipe, lml_span digest, bool passed)
{
    lml_span rest = {proved->list.at, proved->list.length}, line;
    lml_builder list = lml_builder_on(proved->list.alloc, 0);
    bool due = passed;
    lml_append_text(&list, FIRST_LINE);
    take_line(&rest, &line);
    while (take_line(&rest, &line)) {
        lml_span words = line, name = take_word(&words);
        if (lml_span_equal(name, recipe))
            continue;
        if (due && order(recipe, name) < 0) {
            put_line(&list, recipe, digest);
            due = false;
        }
        lml_append_span(&list, line);
        lml_append_char(&list, '\n');
    }
    if (due)
        put_line(&list, recipe, digest);
    bool empty = proved->list.length == 0 && !passed;
    bool same = lml_span_equal((lml_span){list.at, list.length},
                               (lml_span){proved->list.at, proved->list.length});
    proved->changed = proved->changed || !(empty || same);
    lml_builder_free(&proved->list);
    proved->list = list;
}

lml_status lml_proved_write(lml_proved *proved, lml_error *err)
{
    lml_status status = lml_builder_status(&proved->list, err);
    if (status == LML_OK && proved->changed)
        status = lml_store_write(proved->path, (lml_span){proved->list.at, proved->list.length},
                                 true, err);
    return status;
}

/* ---- what run says ---- */

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool said_before(const lml_json *worked, const lml_json *one)
{
    for (const lml_json *w = lml_json_first(worked); w != one; w = lml_json_next(w))
        if (lml_span_equal(member_text(w, "recipe"), member_text(one, "recipe")))
            return true;
    return false;
}

static void tell_one(lml_call *call, const lml_kit_text *text)
{
    bool own = strcmp(text->from, "studio") == 0;
    lml_append_format(&call->aside, "%s is not proved %s: lemel %s %s\n", text->shown,
                      own ? "as it stands" : "here", own ? "prove" : "adopt",
                      own ? text->name : text->shown);
}

void lml_proved_tell(lml_call *call, const lml_target *target, const lml_kit *kit,
                     const lml_json *result)
{
    if (lml_call_quiet(call))
        return;
    char studio[LML_PATH];
    lml_proved proved = {.list = lml_builder_on(&call->alloc, 0)};
    bool read = false;
    const lml_json *worked = lml_json_member(result, "worked");
    for (const lml_json *w = lml_json_first(worked); w; w = lml_json_next(w)) {
        const lml_kit_text *text = lml_kit_find(kit, LML_PUT_RECIPE, member_text(w, "recipe"));
        if (!text || text->ours || said_before(worked, w))
            continue;
        if (!read) {
            lml_error error = {.status = LML_OK};
            lml_find_studio(call, target, studio);
            if (lml_proved_read(&call->alloc, studio, &proved, &error) != LML_OK)
                lml_complain_write(&error, &call->aside);
            read = true;
        }
        if (!lml_proved_holds(&proved, member_text(w, "digest")))
            tell_one(call, text);
    }
    lml_proved_free(&proved);
}
