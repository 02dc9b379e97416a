#define _XOPEN_SOURCE 700 /* lstat */
/* adopt: a recipe from elsewhere, shown, proved and put into the studio. */
#include "cli/adopt_merge.h"
#include "cli/adopt_pack.h"
#include "cli/advice_list.h"
#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/foreign_money.h"
#include "file/store.h"
#include "print/about.h"
#include "studio/original.h"
#include "studio/proved.h"

#include <string.h>
#include <sys/stat.h>

/* The recipe. `before` is the available one of that name, NULL for none. */
typedef struct adoption {
    lml_call *call;
    lml_kit kit;
    lml_target target;
    char place[LML_PATH];
    lml_json_document *about, *before, *proofs;
    const char *before_from;
} adoption;

static const lml_json *of(const adoption *a, const char *member)
{
    return lml_json_member(lml_json_root(a->about), member);
}

static const lml_kit_text *own_text(const adoption *a)
{
    return lml_kit_find(&a->kit, LML_PUT_RECIPE, a->target.recipe);
}

static lml_status read_words(adoption *a, lml_error *err)
{
    const lml_arguments *words = &a->call->arguments;
    if (words->words != 1) {
        lml_fail(err, LML_USAGE, "lemel adopt needs the file of one recipe");
        lml_error_hint(err, "lemel adopt downloads/need.lua");
        return LML_USAGE;
    }
    a->target = lml_find_recipe(words->word[0]);
    if (a->target.path)
        return LML_OK;
    lml_fail(err, LML_USAGE, "%s is not a recipe file", words->word[0]);
    lml_error_hint(err, "a recipe file ends in .lua and has the name of its recipe");
    return LML_USAGE;
}

/* A recipe that this one replaces may be unsound; then there is nothing to compare with. */
static lml_status look(adoption *a, lml_error *err)
{
    lml_error ignored;
    lml_status status = lml_find_kit(a->call, NULL, &a->kit, err);
    if (status != LML_OK)
        return status;
    const lml_kit_text *stood = own_text(a);
    if (stood && lml_ask_inspect(&a->kit, stood->name, &a->before, &ignored) == LML_OK)
        a->before_from = stood->from;
    status = lml_find_into(&a->kit, &a->target, err);
    if (status == LML_OK)
        status = lml_find_place(a->call, own_text(a)->name, a->place, err);
    if (status != LML_OK)
        return status;
    status = lml_ask_inspect(&a->kit, own_text(a)->name, &a->about, err);
    if (status == LML_BAD_RECIPE)
        lml_advice_list_tell_wrong(a->call, &a->kit, own_text(a), err, NULL);
    return status;
}

/* As for a pack: only the bytes that were shown. */
static lml_status check_digest(const adoption *a, lml_error *err)
{
    const char *due = a->call->arguments.value[LML_OPTION_DIGEST];
    lml_span digest = lml_json_text(of(a, "digest"));
    if (!due || lml_span_is(digest, due))
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s does not have that digest: it has %s", a->target.path,
             digest.at);
    lml_error_hint(err, "--digest said %s", due);
    return LML_BAD_DATA;
}

static bool reaches(const adoption *a, const lml_json *name)
{
    return lml_kit_find(&a->kit, LML_PUT_RECIPE, lml_json_text(name)) != NULL;
}

/* The first recipe that it uses and that is not there; NULL when all are. */
static const char *missing(const adoption *a)
{
    for (const lml_json *name = lml_json_first(of(a, "uses")); name; name = lml_json_next(name))
        if (!reaches(a, name))
            return lml_json_text(name).at;
    return NULL;
}

/* True if it has proofs and all of them pass. Failures are reported. */
static bool prove(adoption *a, lml_error *why)
{
    if (lml_ask_prove(&a->kit, own_text(a)->name, &a->proofs, why) != LML_OK)
        return false;
    const lml_json *report = lml_json_root(a->proofs);
    size_t passed = (size_t)lml_json_number(lml_json_member(report, "passed"));
    size_t failed = (size_t)lml_json_number(lml_json_member(report, "failed"));
    if (failed > 0 && missing(a))
        lml_fail(why, LML_STOPPED, "%s uses %s, which was not found: adopt that one first",
                 a->target.path, missing(a));
    else if (passed + failed == 0)
        lml_fail(why, LML_STOPPED, "%s has no proofs", a->target.path);
    else if (failed > 0)
        lml_fail(why, LML_STOPPED, "%s: %zu of its %zu proofs failed", a->target.path, failed,
                 passed + failed);
    return passed > 0 && failed == 0;
}

/* ---- what is shown ---- */

static void put_beside(lml_layout *layout, const adoption *a)
{
    const lml_json *before = lml_json_root(a->before);
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, "beside ");
    lml_builder_add_span(&line, lml_json_text(lml_json_member(before, "recipe")));
    lml_builder_add_char(&line, ' ');
    lml_builder_add_span(&line, lml_json_text(lml_json_member(before, "version")));
    lml_builder_add_format(&line, " (%s): ", a->before_from);
    lml_builder_add_span(&line, lml_json_text(lml_json_member(before, "digest")));
    lml_layout_gap(layout);
    lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
    lml_about_beside(layout, lml_json_root(a->about), before);
}

static void put_uses(lml_layout *layout, const adoption *a)
{
    for (const lml_json *name = lml_json_first(of(a, "uses")); name; name = lml_json_next(name)) {
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_text(&line, "uses ");
        lml_builder_add_span(&line, lml_json_text(name));
        lml_builder_add_text(&line, reaches(a, name) ? ": found" : ": NOT FOUND");
        lml_layout_text(layout, 0, (lml_span){line.at, line.length});
        lml_layout_scrap(layout, &line);
    }
}

static void put_failures(lml_layout *layout, const lml_json *report)
{
    const lml_json *proof = lml_json_first(lml_json_member(report, "proofs"));
    for (; proof; proof = lml_json_next(proof)) {
        if (lml_json_yes(lml_json_member(proof, "passed")))
            continue;
        lml_builder line = lml_layout_scratch(layout);
        lml_builder_add_text(&line, "FAILED: ");
        lml_builder_add_span(&line, lml_json_text(lml_json_member(proof, "name")));
        lml_layout_text(layout, 0, (lml_span){line.at, line.length});
        const lml_json *failure = lml_json_first(lml_json_member(proof, "failures"));
        for (; failure; failure = lml_json_next(failure))
            lml_layout_text(layout, 3, lml_json_text(failure));
        lml_layout_scrap(layout, &line);
    }
}

static void show(adoption *a, bool proved)
{
    lml_layout layout = {.out = &a->call->out, .width = a->call->width, .bold = a->call->bold};
    if (a->before) {
        lml_about_head(&layout, lml_json_root(a->about), "file");
        put_beside(&layout, a);
    } else {
        lml_about_draw(&layout, lml_json_root(a->about), "file");
    }
    lml_layout_gap(&layout);
    put_uses(&layout, a);
    size_t proofs = lml_json_count(of(a, "proofs"));
    if (proved)
        lml_builder_add_format(&a->call->out, "%zu proof%s passed\n", proofs,
                               proofs == 1 ? "" : "s");
    else if (a->proofs)
        put_failures(&layout, lml_json_root(a->proofs));
}

static lml_status show_json(adoption *a, bool proved, bool adopted, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&a->call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "file", a->target.path);
    lml_json_write_name(&w, lml_span_of("adopted"));
    lml_json_write_yes_no(&w, adopted);
    lml_json_write_member(&w, "place", a->place);
    lml_json_write_name(&w, lml_span_of("proved"));
    lml_json_write_yes_no(&w, proved);
    lml_json_write_name(&w, lml_span_of("missing"));
    lml_json_write_open_list(&w);
    for (const lml_json *name = lml_json_first(of(a, "uses")); name; name = lml_json_next(name))
        if (!reaches(a, name))
            lml_json_write_text(&w, lml_json_text(name));
    lml_json_write_close(&w);
    lml_json_write_name(&w, lml_span_of("about"));
    lml_json_copy(&w, lml_json_root(a->about));
    if (a->before) {
        lml_json_write_name(&w, lml_span_of("before"));
        lml_json_copy(&w, lml_json_root(a->before));
    }
    if (a->proofs) {
        lml_json_write_name(&w, lml_span_of("proofs"));
        lml_json_copy(&w, lml_json_root(a->proofs));
    }
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}

/* ---- what is kept ---- */

static bool stands_already(const adoption *a, lml_span bytes)
{
    lml_builder there = lml_builder_on(&a->call->alloc, 0);
    bool same = lml_store_read(a->place, LML_STORE_SIZE, &there, NULL) == LML_OK &&
                lml_span_equal((lml_span){there.at, there.length}, bytes);
    lml_builder_free(&there);
    return same;
}

/* The recipe's file, the folder of recipes and the list of what was proved. */
static lml_status refuse_links(const adoption *a, lml_error *err)
{
    char folder[LML_PATH], list[LML_PATH];
    lml_status status = lml_find_in_studio(a->call, "recipes", folder, err);
    if (status == LML_OK)
        status = lml_find_refuse_link(folder, "adopting", err);
    if (status == LML_OK)
        status = lml_find_in_studio(a->call, "recipes/proved.txt", list, err);
    if (status == LML_OK)
        status = lml_find_refuse_link(list, "adopting", err);
    return status == LML_OK ? lml_find_refuse_link(a->place, "adopting", err) : status;
}

static lml_status keep(adoption *a, lml_error *err)
{
    const lml_kit_text *text = own_text(a);
    lml_span bytes = text->text;
    bool replace = a->call->arguments.given[LML_OPTION_REPLACE];
    lml_proved list;
    char studio[LML_PATH];
    lml_find_studio(a->call, NULL, studio);
    lml_status status = refuse_links(a, err);
    if (status != LML_OK)
        return status;
    status = lml_proved_read(&a->call->alloc, studio, &list, err);
    bool stands = stands_already(a, bytes);
    if (status == LML_OK && !stands)
        status = lml_find_make_folder(a->place, err);
    if (status == LML_OK && !stands)
        status = lml_store_write(a->place, bytes, replace, err);
    if (status == LML_OK) {
        lml_proved_put(&list, &a->kit, text, a->proofs ? lml_json_root(a->proofs) : NULL);
        status = lml_proved_write(&list, err);
        if (status != LML_OK)
            lml_error_hint(err, "%s is adopted all the same; run lemel prove %s to list it",
                           a->place, text->name);
    }
    lml_proved_free(&list);
    if (status == LML_OK && text->replaces) {
        status = lml_original_keep(a->call, text->name, err);
        if (status != LML_OK)
            lml_error_hint(err,
                           "%s is adopted all the same, but lemel check will not be able to show "
                           "what lemel changed",
                           a->place);
    }
    if (status == LML_OK && !stands)
        lml_text_join(a->call->done, sizeof a->call->done, a->place,
                      " is written: the recipe is adopted", "");
    if (status == LML_OK && !lml_call_wants_json(a->call) && !lml_call_quiet(a->call))
        lml_builder_add_format(
            &a->call->out, stands ? "%s is already this recipe\n" : "adopted as %s\n", a->place);
    if (status == LML_OK && a->before_from && strcmp(a->before_from, "shipped") == 0)
        lml_builder_add_format(&a->call->aside,
                               "it replaces lemel's own %s in every recipe that uses it\n",
                               text->name);
    return status;
}

static lml_status adopt(adoption *a, lml_error *err)
{
    lml_error why = {.status = LML_OK};
    bool proved = prove(a, &why), unproved = a->call->arguments.given[LML_OPTION_UNPROVED];
    bool adopted = proved || unproved, json = lml_call_wants_json(a->call);
    if (!json && !lml_call_quiet(a->call))
        show(a, proved);
    (void)lml_foreign_money_tell(a->call, &a->kit, own_text(a)->name, &a->call->aside, NULL);
    lml_status status = adopted ? keep(a, err) : LML_OK;
    if (status == LML_OK && json)
        status = show_json(a, proved, adopted, err);
    if (status != LML_OK || proved)
        return status;
    if (unproved) {
        lml_builder_add_format(&a->call->aside,
                               "%s\n  adopted unproved: nothing shows that its results are right\n",
                               why.message);
        return LML_OK;
    }
    if (why.status != LML_STOPPED)
        lml_error_context(&why, why.status, "while it was proved; nothing was adopted");
    else
        lml_error_hint(&why, "nothing was adopted; --unproved adopts it anyway");
    if (err)
        *err = why;
    return why.status;
}

static bool is_folder(const char *path)
{
    struct stat found;
    return stat(path, &found) == 0 && S_ISDIR(found.st_mode);
}

lml_status lml_cmd_adopt(lml_call *call, lml_error *err)
{
    if (call->arguments.words == 1 && is_folder(call->arguments.word[0]))
        return lml_adopt_pack(call, call->arguments.word[0], err);
    adoption a = {.call = call, .kit = lml_kit_on(&call->alloc)};
    lml_status status = read_words(&a, err);
    if (status == LML_OK && call->arguments.given[LML_OPTION_MERGE])
        return lml_adopt_merge(call, &a.target, err);
    if (status == LML_OK)
        status = look(&a, err);
    if (status == LML_OK)
        status = check_digest(&a, err);
    if (status == LML_OK)
        status = adopt(&a, err);
    lml_json_free(a.proofs);
    lml_json_free(a.before);
    lml_json_free(a.about);
    lml_kit_free(&a.kit);
    return status;
}
