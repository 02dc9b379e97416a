#include "base/shell.h"
#include "cli/adopt_merge.h"
#include "cli/ask.h"
#include "file/merge.h"
#include "file/store.h"
#include "sheet/layout.h"
#include "studio/change.h"
#include "studio/lock.h"
#include "studio/original.h"
#include "studio/proved.h"

#include <stdio.h>
#include <string.h>

/* The recipe: lemel's old text, the studio's, and lemel's new one. */
typedef struct merging {
    lml_call *call;
    char studio[LML_PATH], name[64], place[LML_PATH], base[LML_PATH];
    lml_builder was, ours;
    lml_kit shipped, kit;
    const lml_kit_text *now;
    lml_merge merge;
    lml_json_document *proofs;
} merging;

static lml_status find(merging *m, const lml_target *target, lml_error *err)
{
    char word[LML_SHELL_WORD];
    snprintf(m->name, sizeof m->name, "%.*s", (int)target->recipe.length, target->recipe.at);
    lml_find_studio(m->call, NULL, m->studio);
    lml_status status = lml_find_place(m->call, m->name, m->place, err);
    if (status == LML_OK)
        status = lml_original_place(m->studio, m->name, m->base, err);
    if (status == LML_OK && strcmp(target->path, m->place) != 0) {
        lml_fail(err, LML_USAGE,
                 "%s is not a recipe of this studio, so lemel's changes cannot be merged into it",
                 target->path);
        lml_error_hint(err, "--merge is for a pack, or for %s", m->place);
        return LML_USAGE;
    }
    if (status == LML_OK)
        status = lml_find_shipped(m->call, &m->shipped, err);
    m->now = lml_kit_find(&m->shipped, LML_PUT_RECIPE, target->recipe);
    if (status == LML_OK)
        status = lml_store_read(m->place, LML_STORE_SIZE, &m->ours, err);
    if (status != LML_OK)
        return status;
    if (m->now && lml_store_read(m->base, LML_STORE_SIZE, &m->was, NULL) == LML_OK)
        return LML_OK;
    lml_fail(err, LML_NO_FILE, "lemel's own %s as it was when %s replaced it is not on record",
             m->name, m->place);
    if (m->now)
        lml_error_hint(err, "lemel adopt %s records it as it is today, for next time",
                       lml_shell_word(lml_span_of(m->place), word));
    return LML_NO_FILE;
}

static lml_status put_together(merging *m, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_status status =
        lml_original_merge(&m->call->alloc, lml_builder_span(&m->was), lml_builder_span(&m->ours),
                           m->now->text, &m->merge, err);
    if (status != LML_OK || m->merge.clashes == 0)
        return status;
    lml_merge_show(&m->merge, m->place, &m->call->aside);
    lml_fail(err, LML_NO_WRITE, "%s: your changes and lemel's changes conflict in %zu place%s",
             m->place, m->merge.clashes, m->merge.clashes == 1 ? "" : "s");
    lml_error_hint(err, "change yours there by hand, then run lemel adopt %s to mark it as seen",
                   lml_shell_word(lml_span_of(m->place), word));
    return LML_NO_WRITE;
}

static lml_status prove(merging *m, lml_error *err)
{
    lml_status status = lml_find_kit(m->call, NULL, &m->kit, err);
    if (status == LML_OK)
        status = lml_kit_put(&m->kit, LML_PUT_RECIPE, lml_span_of(m->name),
                             &(lml_kit_file){m->place, m->place, .from = "studio"},
                             lml_builder_span(&m->merge.text), err);
    if (status == LML_OK)
        status = lml_ask_prove(&m->kit, m->name, &m->proofs, err);
    if (status != LML_OK)
        return status;
    const lml_json *report = lml_json_root(m->proofs);
    size_t failed = (size_t)lml_json_number(lml_json_member(report, "failed"));
    if (failed == 0 || m->call->arguments.given[LML_OPTION_UNPROVED])
        return LML_OK;
    lml_fail(err, LML_STOPPED, "%s: with lemel's changes merged in, %zu of its proofs failed",
             m->place, failed);
    lml_error_hint(err, "nothing was written; change yours by hand, or add --unproved");
    return LML_STOPPED;
}

static lml_status show(merging *m, lml_error *err)
{
    const lml_alloc *alloc = &m->call->alloc;
    lml_lines was = {.alloc = alloc}, is = {.alloc = alloc};
    lml_builder text = lml_builder_on(alloc, 0);
    lml_status status = lml_lines_cut(alloc, lml_builder_span(&m->ours), &was, err);
    if (status == LML_OK)
        status = lml_lines_cut(alloc, lml_builder_span(&m->merge.text), &is, err);
    if (status == LML_OK)
        status = lml_lines_changes(alloc, &was, &is, "   ", 60, &text, err);
    lml_span rest = lml_builder_span(&text);
    while (status == LML_OK && rest.length > 0) {
        lml_span line = {rest.at, strcspn(rest.at, "\n")};
        lml_layout_put(&m->call->out, line);
        lml_builder_add_char(&m->call->out, '\n');
        rest = lml_span_between(line.at + line.length + 1, rest.at + rest.length);
    }
    lml_lines_free(&is);
    lml_lines_free(&was);
    lml_builder_free(&text);
    return status;
}

static lml_status write(merging *m, lml_error *err)
{
    char held[LML_PATH + 16], path[100], base[100];
    lml_lock studio = {-1}, recipes = {-1};
    lml_builder now = lml_builder_on(&m->call->alloc, 0);
    lml_proved list;
    bool is_new = false;
    lml_change change = lml_change_on(&m->call->alloc, m->studio, m->name);
    snprintf(held, sizeof held, "%s/.adopting", m->studio);
    snprintf(path, sizeof path, "recipes/%s.lua", m->name);
    snprintf(base, sizeof base, "recipes/.base/%s.lua", m->name);
    lml_status status = lml_proved_read(&m->call->alloc, m->studio, &list, err);
    if (status == LML_OK)
        status = lml_lock_take(held, &studio, err);
    if (status == LML_OK)
        status = lml_lock_take(list.path, &recipes, err);
    if (status == LML_OK)
        status = lml_store_read(m->place, LML_STORE_SIZE, &now, err);
    if (status == LML_OK && !lml_span_equal(lml_builder_span(&now), lml_builder_span(&m->ours)))
        status =
            lml_fail(err, LML_NO_WRITE,
                     "%s was changed by someone else in the meantime, so nothing was written to it",
                     m->place);
    if (status == LML_OK)
        status = lml_change_put(&change, path, lml_builder_span(&m->merge.text), err);
    if (status == LML_OK)
        status = lml_change_put(&change, base, m->now->text, err);
    if (status == LML_OK) {
        lml_proved_put(&list, &m->kit, lml_kit_find(&m->kit, LML_PUT_RECIPE, lml_span_of(m->name)),
                       lml_json_root(m->proofs));
        status = lml_proved_renew(&list, &is_new, err);
    }
    if (status == LML_OK && is_new)
        status = lml_change_put(&change, "recipes/proved.txt", lml_builder_span(&list.list), err);
    if (status == LML_OK)
        status = lml_change_make(&change, err);
    if (change.decided)
        lml_text_join(m->call->done, sizeof m->call->done, m->place, " is written: both are in it",
                      "");
    lml_lock_end(&recipes);
    lml_lock_end(&studio);
    lml_change_free(&change);
    lml_proved_free(&list);
    lml_builder_free(&now);
    return status;
}

static lml_status work(merging *m, const lml_target *target, lml_error *err)
{
    bool quiet = lml_call_quiet(m->call);
    lml_status status = find(m, target, err);
    if (status != LML_OK)
        return status;
    if (lml_span_equal(lml_builder_span(&m->was), m->now->text)) {
        if (!quiet)
            lml_builder_add_format(
                &m->call->out, "lemel's own %s has not changed since yours replaced it\n", m->name);
        return LML_OK;
    }
    status = put_together(m, err);
    if (status == LML_OK)
        status = prove(m, err);
    if (status == LML_OK && !quiet)
        status = show(m, err);
    if (status == LML_OK)
        status = write(m, err);
    if (status == LML_OK && !quiet)
        lml_builder_add_format(&m->call->out, "merged into %s\n", m->place);
    return status;
}

lml_status lml_adopt_merge(lml_call *call, const lml_target *target, lml_error *err)
{
    const lml_alloc *alloc = &call->alloc;
    merging m = {.call = call,
                 .was = lml_builder_on(alloc, 0),
                 .ours = lml_builder_on(alloc, 0),
                 .shipped = lml_kit_on(alloc),
                 .kit = lml_kit_on(alloc),
                 .merge = {.base.alloc = alloc, .ours.alloc = alloc, .theirs.alloc = alloc}};
    m.merge.text = lml_builder_on(alloc, 0);
    lml_status status = work(&m, target, err);
    lml_json_free(m.proofs);
    lml_merge_free(&m.merge);
    lml_kit_free(&m.kit);
    lml_kit_free(&m.shipped);
    lml_builder_free(&m.ours);
    lml_builder_free(&m.was);
    return status;
}
