#include "studio/proved.h"
#include "file/digest.h"
#include "file/store.h"
#include "studio/lock.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define HEAD "# Recipes whose own proofs passed here"
#define FIRST_LINE HEAD " and with what; maintained by lemel prove and lemel adopt\n"

static lml_status read_list(lml_proved *proved, lml_error *err)
{
    struct stat there;
    proved->list.length = 0;
    /* Only a missing list counts as empty: one that cannot be read would be overwritten. */
    if (lstat(proved->path, &there) != 0 && (errno == ENOENT || errno == ENOTDIR))
        return LML_OK;
    lml_status status = lml_store_read(proved->path, LML_STORE_SIZE, &proved->list, err);
    if (status != LML_OK)
        return status;
    if (lml_span_starts(lml_builder_span(&proved->list), HEAD)) {
        if (proved->list.at[proved->list.length - 1] != '\n')
            lml_builder_add_char(&proved->list, '\n'); /* an editor may leave the last one out */
        return lml_builder_status(&proved->list, err);
    }
    proved->list.length = 0;
    lml_fail(err, LML_BAD_DATA, "%s is not a list of proved recipes", proved->path);
    lml_error_hint(err, "lemel keeps such a list there: give your file another name");
    return LML_BAD_DATA;
}

lml_status lml_proved_read(const lml_alloc *alloc, const char *studio, lml_proved *out,
                           lml_error *err)
{
    *out = (lml_proved){.list = lml_builder_on(alloc, 0), .news = lml_builder_on(alloc, 0)};
    int length =
        snprintf(out->path, sizeof out->path, "%s%srecipes/proved.txt",
                 strcmp(studio, ".") == 0 ? "" : studio, strcmp(studio, ".") == 0 ? "" : "/");
    if (length < 0 || (size_t)length >= sizeof out->path)
        return lml_fail(err, LML_NO_FILE, "the path of recipes/proved.txt is too long");
    return read_list(out, err);
}

void lml_proved_free(lml_proved *proved)
{
    lml_builder_free(&proved->list);
    lml_builder_free(&proved->news);
}

/* ---- entries ---- */

/* The next line, with its end, taken off the front; empty when there is none. */
static lml_span take_line(lml_span *rest)
{
    const char *end = rest->at + rest->length;
    const char *feed = rest->length > 0 ? memchr(rest->at, '\n', rest->length) : NULL;
    lml_span line = lml_span_between(rest->at, feed ? feed + 1 : end);
    *rest = lml_span_between(line.at + line.length, end);
    return line;
}

/* The next entry with the lines that are set in under it, taken off the front; comments are passed.
 */
static bool take_entry(lml_span *rest, lml_span *entry)
{
    lml_span line = take_line(rest);
    while (line.length > 0 && (line.at[0] == '#' || line.at[0] == ' ' || line.at[0] == '\n'))
        line = take_line(rest);
    while (rest->length > 0 && rest->at[0] == ' ')
        line.length += take_line(rest).length;
    *entry = line;
    return line.length > 0;
}

/* The next word, taken off the front. */
static lml_span take_word(lml_span *rest)
{
    *rest = lml_span_trim(*rest);
    size_t length = 0;
    while (length < rest->length && rest->at[length] != ' ' && rest->at[length] != '\n')
        length++;
    lml_span word = {rest->at, length};
    *rest = lml_span_between(rest->at + length, rest->at + rest->length);
    return word;
}

static lml_span name_of(lml_span entry)
{
    return take_word(&entry);
}

static bool is_in_kit(const lml_kit *kit, lml_put what, lml_span name, lml_span digest)
{
    char own[LML_DIGEST_TEXT];
    const lml_kit_text *text = lml_kit_find(kit, what, name);
    if (!text)
        return false;
    lml_digest_of(text->text, own);
    return lml_span_is(digest, own);
}

/* Whether what is set in under an entry is in the kit as it did when it was proved. */
static bool rest_holds(lml_span lines, const lml_kit *kit, lml_proved_gap *gap)
{
    while (lines.length > 0) {
        lml_span line = take_line(&lines);
        lml_span kind = take_word(&line), name = take_word(&line);
        lml_put what = lml_span_is(kind, "script") ? LML_PUT_SCRIPT : LML_PUT_RECIPE;
        if (!is_in_kit(kit, what, name, take_word(&line))) {
            *gap = (lml_proved_gap){kind, name};
            return false;
        }
    }
    return true;
}

bool lml_proved_holds(const lml_proved *proved, const lml_kit *kit, const lml_kit_text *recipe,
                      lml_proved_gap *gap)
{
    char digest[LML_DIGEST_TEXT];
    lml_digest_of(recipe->text, digest);
    *gap = (lml_proved_gap){{"", 0}, {"", 0}};
    lml_span rest = lml_builder_span(&proved->list), entry;
    while (take_entry(&rest, &entry)) {
        lml_span head = take_line(&entry);
        take_word(&head);
        if (!lml_span_is(take_word(&head), digest))
            continue;
        take_word(&head);
        if (lml_span_is(take_word(&head), lml_version()) && rest_holds(entry, kit, gap))
            return true;
    }
    return false;
}

/* ---- keeping ---- */

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* Two proofs may rest on the same. */
static bool stands_in(const lml_builder *text, size_t from, lml_span line)
{
    lml_span rest = lml_span_between(text->at + from, text->at + text->length);
    while (rest.length > 0)
        if (lml_span_equal(take_line(&rest), line))
            return true;
    return false;
}

static void put_text(lml_builder *to, const lml_kit_text *text)
{
    char digest[LML_DIGEST_TEXT];
    lml_digest_of(text->text, digest);
    lml_builder_add_format(to, "%s %s", text->name, digest);
}

static void put_part(lml_builder *to, size_t from, const lml_kit_text *text)
{
    lml_builder line = lml_builder_on(to->alloc, 0);
    lml_builder_add_text(&line, text->what == LML_PUT_SCRIPT ? "  script " : "  recipe ");
    put_text(&line, text);
    lml_builder_add_char(&line, '\n');
    if (line.status != LML_OK)
        to->status = line.status;
    else if (!stands_in(to, from, lml_builder_span(&line)))
        lml_builder_add_span(to, lml_builder_span(&line));
    lml_builder_free(&line);
}

static const lml_kit_text *text_of(const lml_kit *kit, const lml_json *worked)
{
    lml_span script = member_text(worked, "script");
    return script.length > 0 ? lml_kit_find(kit, LML_PUT_SCRIPT, script)
                             : lml_kit_find(kit, LML_PUT_RECIPE, member_text(worked, "recipe"));
}

static bool all_passed(const lml_json *report)
{
    return lml_json_number(lml_json_member(report, "passed")) > 0 &&
           lml_json_number(lml_json_member(report, "failed")) == 0;
}

void lml_proved_put(lml_proved *proved, const lml_kit *kit, const lml_kit_text *recipe,
                    const lml_json *report)
{
    lml_builder *to = &proved->news;
    if (!all_passed(report)) {
        lml_builder_add_format(to, "%s\n", recipe->name);
        return;
    }
    put_text(to, recipe);
    lml_builder_add_format(to, " lemel %s\n", lml_version());
    size_t from = to->length;
    const lml_json *proof = lml_json_first(lml_json_member(report, "proofs"));
    for (; proof; proof = lml_json_next(proof)) {
        const lml_json *w = lml_json_first(lml_json_member(proof, "worked"));
        for (; w && to->status == LML_OK; w = lml_json_next(w)) {
            const lml_kit_text *text = text_of(kit, w);
            if (text && text != recipe)
                put_part(to, from, text);
        }
    }
}

static int order(lml_span a, lml_span b)
{
    int by_bytes = memcmp(a.at, b.at, a.length < b.length ? a.length : b.length);
    return by_bytes ? by_bytes : (a.length > b.length) - (a.length < b.length);
}

/* A bare name says that the recipe is not proved any more. */
static void put_entry(lml_builder *to, lml_span entry)
{
    lml_span words = entry;
    take_word(&words);
    if (take_word(&words).length > 0)
        lml_builder_add_span(to, entry);
}

/* The list with one entry replaced, by name. */
static void put_into(lml_builder *list, lml_span entry)
{
    lml_builder new = lml_builder_on(list->alloc, 0);
    lml_span rest = lml_builder_span(list), other;
    bool due = true;
    if (list->status != LML_OK)
        return;
    lml_builder_add_text(&new, FIRST_LINE);
    while (take_entry(&rest, &other)) {
        if (due && order(name_of(entry), name_of(other)) <= 0) {
            put_entry(&new, entry);
            due = false;
        }
        if (!lml_span_equal(name_of(entry), name_of(other)))
            lml_builder_add_span(&new, other);
    }
    if (due)
        put_entry(&new, entry);
    lml_builder_free(list);
    *list = new;
}

/* The current list, with the changes. */
static lml_status renew(lml_proved *proved, bool *is_new, lml_error *err)
{
    lml_span rest = lml_builder_span(&proved->news), entry;
    lml_status status = read_list(proved, err);
    if (status != LML_OK)
        return status;
    lml_builder before = lml_builder_on(proved->list.alloc, 0);
    lml_builder_add_span(&before, lml_builder_span(&proved->list));
    while (take_entry(&rest, &entry))
        put_into(&proved->list, entry);
    status = lml_builder_status(&before, err);
    if (status == LML_OK)
        status = lml_builder_status(&proved->list, err);
    bool none = before.length == 0 && proved->list.length == strlen(FIRST_LINE);
    *is_new = !none && !lml_span_equal(lml_builder_span(&before), lml_builder_span(&proved->list));
    lml_builder_free(&before);
    return status;
}

static lml_status write_list(lml_proved *proved, lml_error *err)
{
    bool is_new;
    lml_status status = renew(proved, &is_new, err);
    return status == LML_OK && is_new
               ? lml_store_write(proved->path, lml_builder_span(&proved->list), true, err)
               : status;
}

lml_status lml_proved_renew(lml_proved *proved, bool *is_new, lml_error *err)
{
    lml_status status = lml_builder_status(&proved->news, err);
    *is_new = false;
    return status == LML_OK && proved->news.length > 0 ? renew(proved, is_new, err) : status;
}

lml_status lml_proved_write(lml_proved *proved, lml_error *err)
{
    lml_status status = lml_builder_status(&proved->news, err);
    if (status != LML_OK || proved->news.length == 0)
        return status;
    lml_lock lock;
    status = lml_lock_take(proved->path, &lock, err);
    if (status == LML_OK)
        status = write_list(proved, err);
    lml_lock_end(&lock);
    return status;
}
