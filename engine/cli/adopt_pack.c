#define _XOPEN_SOURCE 700
#include "cli/adopt_pack.h"
#include "cli/adopt_pack_show.h"
#include "cli/fault_list.h"
#include "cli/foreign_money.h"
#include "studio/lock.h"
#include "studio/original.h"
#include "studio/proved.h"
#include "studio/signature.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/* The pack at hand. */
typedef struct adoption {
    lml_call *call;
    char studio[LML_PATH];
    lml_pack pack;
    lml_intake intake;
    lml_pack_proofs proofs;
    bool opened; /* the proofs */
    char who[200];
} adoption;

static bool given(const adoption *a, lml_option option)
{
    return a->call->arguments.given[option];
}

/* ---- whose it is -------------------------------------------------------------------------------
 */

static lml_status check_digest(const adoption *a, lml_error *err)
{
    const char *due = a->call->arguments.value[LML_OPTION_DIGEST];
    if (!due || strcmp(due, a->pack.digest) == 0)
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s does not have that digest: it has %s", a->pack.folder,
             a->pack.digest);
    lml_error_hint(err, "--digest said %s", due);
    return LML_BAD_DATA;
}

/* Signed by somebody whom the studio trusts, or known by its digest, or taken unsigned by a person
 * who said so. A signature that is over other bytes is never taken. */
static lml_status check_signature(adoption *a, lml_error *err)
{
    char signature[LML_PATH], trusted[LML_PATH];
    bool known = given(a, LML_OPTION_DIGEST), unsigned_too = given(a, LML_OPTION_UNSIGNED);
    if (!a->pack.is_signed) {
        if (known || unsigned_too)
            return LML_OK;
        lml_fail(err, LML_STOPPED, "%s is not signed, so its maker is unknown", a->pack.folder);
        lml_error_hint(err, "ask its maker to sign it, or to tell you its digest for --digest; "
                            "--unsigned accepts it as it is");
        return LML_STOPPED;
    }
    if (snprintf(signature, sizeof signature, "%s/" LML_PACK_SIGNATURE, a->pack.folder) >=
        (int)sizeof signature)
        return lml_fail(err, LML_NO_FILE, "the path of the signature is too long");
    lml_status status = lml_find_in_studio(a->call, LML_SIGNATURE_TRUSTED, trusted, err);
    if (status != LML_OK)
        return status;
    lml_error why;
    status = lml_signature_check((lml_span){a->pack.page.at, a->pack.page.length}, signature,
                                 trusted, a->who, &why);
    if (status == LML_OK || ((known || unsigned_too) && status != LML_BAD_DATA))
        return LML_OK;
    if (err)
        *err = why;
    return status;
}

/* ---- whether it may be here ----------------------------------------------------------------- */

/* A whole recipe of lemel's is another matter than an answer at a point where lemel asks. */
static lml_status check_shipped(const adoption *a, lml_error *err)
{
    for (size_t i = 0; i < a->proofs.count; i++) {
        const lml_pack_recipe *r = &a->proofs.recipes[i];
        bool new = r->piece->fate == LML_FATE_NEW;
        if (!r->before_is_ours || !new || lml_kit_rule_point(r->name) ||
            given(a, LML_OPTION_REPLACE))
            continue;
        lml_fail(err, LML_NO_WRITE, "%s would replace lemel's own %s in every recipe that uses it",
                 r->piece->path, r->name);
        lml_error_hint(err, "add --replace if you want that");
        return LML_NO_WRITE;
    }
    return LML_OK;
}

static lml_status prove(adoption *a, lml_error *err)
{
    lml_error why = {.status = LML_OK};
    lml_status status = lml_pack_proofs_run(&a->proofs, &why);
    if (status == LML_STOPPED && !lml_call_wants_json(a->call) && !lml_call_quiet(a->call))
        lml_adopt_pack_show_failures(a->call, &a->proofs);
    for (size_t i = 0; i < a->proofs.count && (status == LML_OK || status == LML_STOPPED); i++)
        (void)lml_foreign_money_tell(a->call, &a->proofs.then, a->proofs.recipes[i].name,
                                     &a->call->aside, NULL);
    if (status == LML_OK)
        return LML_OK;
    if (status == LML_STOPPED && given(a, LML_OPTION_UNPROVED)) {
        lml_builder_add_format(&a->call->aside,
                               "%s\n  adopted unproved: nothing shows that its results are right\n",
                               why.message);
        return LML_OK;
    }
    if (status == LML_STOPPED)
        lml_error_hint(&why, "nothing was adopted; --unproved adopts it anyway");
    else
        lml_error_context(&why, status, "while it was proved; nothing was adopted");
    if (err)
        *err = why;
    return status;
}

/* ---- taken in ----------------------------------------------------------------------------------
 */

static lml_status write_origin(const adoption *a, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "pack", lml_pack_says(&a->pack, "name"));
    lml_json_write_member(&w, "version", lml_pack_says(&a->pack, "version"));
    lml_json_write_member(&w, "digest", a->pack.digest);
    lml_json_write_member(&w, "from", a->pack.folder);
    if (a->who[0])
        lml_json_write_member(&w, "signed_by", a->who);
    lml_json_write_member(&w, "lemel", lml_version());
    lml_json_write_close(&w);
    lml_builder_add_char(out, '\n');
    return lml_json_writer_end(&w, err);
}

/* Lemel's own text that a recipe of the pack replaces. */
static lml_status put_bases(const adoption *a, lml_change *change, lml_error *err)
{
    lml_kit shipped = lml_kit_on(&a->call->alloc);
    lml_status status = lml_find_shipped(a->call, &shipped, err);
    for (size_t i = 0; i < a->proofs.count && status == LML_OK; i++) {
        const lml_pack_recipe *r = &a->proofs.recipes[i];
        const lml_kit_text *own = lml_kit_find(&shipped, LML_PUT_RECIPE, lml_span_of(r->name));
        char path[LML_PATH];
        bool taken = r->piece->fate != LML_FATE_SAME && r->piece->fate != LML_FATE_OURS;
        if (!own || !taken)
            continue;
        snprintf(path, sizeof path, "recipes/.base/%s.lua", r->name);
        status = lml_change_put(change, path, (lml_span){own->text.at, own->text.length}, err);
    }
    lml_kit_free(&shipped);
    return status;
}

static lml_status put_proved(const adoption *a, lml_proved *list, lml_change *change,
                             lml_error *err)
{
    bool is_new;
    for (size_t i = 0; i < a->proofs.count; i++) {
        const lml_pack_recipe *r = &a->proofs.recipes[i];
        lml_proved_put(list, &a->proofs.then,
                       lml_kit_find(&a->proofs.then, LML_PUT_RECIPE, lml_span_of(r->name)),
                       r->proofs ? lml_json_root(r->proofs) : NULL);
    }
    lml_status status = lml_proved_renew(list, &is_new, err);
    return status == LML_OK && is_new
               ? lml_change_put(change, "recipes/proved.txt",
                                (lml_span){list->list.at, list->list.length}, err)
               : status;
}

/* Both folders are held: that of the studio for the change, that of its recipes for the list. */
static lml_status take_in(adoption *a, lml_error *err)
{
    char held[LML_PATH + 16], what[160];
    lml_lock studio = {-1}, recipes = {-1};
    lml_proved list;
    lml_builder origin = lml_builder_on(&a->call->alloc, 0);
    snprintf(what, sizeof what, "%s %s", lml_pack_says(&a->pack, "name"),
             lml_pack_says(&a->pack, "version"));
    lml_change change = lml_change_on(&a->call->alloc, a->studio, what);
    snprintf(held, sizeof held, "%s/.adopting", a->studio);
    lml_status status = lml_proved_read(&a->call->alloc, a->studio, &list, err);
    if (status == LML_OK)
        status = lml_lock_take(held, &studio, err);
    if (status == LML_OK)
        status = lml_lock_take(list.path, &recipes, err);
    if (status == LML_OK)
        status = lml_intake_look_again(&a->intake, err);
    if (status == LML_OK)
        status = write_origin(a, &origin, err);
    if (status == LML_OK)
        status = lml_intake_put(&a->intake, (lml_span){origin.at, origin.length}, &change, err);
    if (status == LML_OK)
        status = put_bases(a, &change, err);
    if (status == LML_OK)
        status = put_proved(a, &list, &change, err);
    if (status == LML_OK)
        status = lml_change_make(&change, err);
    if (change.decided)
        lml_text_join(a->call->done, sizeof a->call->done, what,
                      " is in this studio: it is adopted", "");
    lml_lock_end(&recipes);
    lml_lock_end(&studio);
    lml_change_free(&change);
    lml_builder_free(&origin);
    lml_proved_free(&list);
    return status;
}

/* Nothing would be written that is not there already. */
static bool stands_already(const adoption *a)
{
    bool same = strcmp(a->intake.former_digest, a->pack.digest) == 0;
    for (size_t i = 0; i < a->intake.count && same; i++)
        same =
            a->intake.pieces[i].fate == LML_FATE_SAME || a->intake.pieces[i].fate == LML_FATE_OURS;
    return same;
}

static lml_status show_json(const adoption *a, bool adopted, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(&a->call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "pack", lml_pack_says(&a->pack, "name"));
    lml_json_write_member(&w, "version", lml_pack_says(&a->pack, "version"));
    lml_json_write_member(&w, "digest", a->pack.digest);
    if (a->who[0])
        lml_json_write_member(&w, "signed_by", a->who);
    lml_json_write_name(&w, lml_span_of("adopted"));
    lml_json_write_yes_no(&w, adopted);
    lml_json_write_name(&w, lml_span_of("files"));
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < a->intake.count; i++) {
        lml_json_write_open_record(&w);
        lml_json_write_member(&w, "path", a->intake.pieces[i].path);
        lml_json_write_member(&w, "what", lml_fate_words(a->intake.pieces[i].fate));
        lml_json_write_close(&w);
    }
    lml_json_write_close(&w);
    lml_json_write_name(&w, lml_span_of("proofs"));
    lml_json_write_open_list(&w);
    for (size_t i = 0; i < a->proofs.count; i++)
        if (a->proofs.recipes[i].proofs)
            lml_json_copy(&w, lml_json_root(a->proofs.recipes[i].proofs));
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}

/* A pack that was signed by one person and comes from another, or from nobody known. */
static void tell_signer(const adoption *a)
{
    const char *was = a->intake.former_signer;
    lml_builder *aside = &a->call->aside;
    if (!was[0] || strcmp(was, a->who) == 0)
        return;
    lml_builder_add_format(aside, "the %s that this studio has was signed by %s; ",
                           lml_pack_says(&a->pack, "name"), was);
    if (a->who[0])
        lml_builder_add_format(aside, "this one by %s\n", a->who);
    else
        lml_builder_add_format(aside, "this one is not known to be: %s\n",
                               a->pack.is_signed
                                   ? "its signature is by no trusted key, or was not checked"
                                   : "it is not signed");
    lml_builder_add_format(aside, "  ask %s whether it is theirs before a job runs with it\n", was);
}

static lml_status judge(adoption *a, lml_error *err)
{
    lml_call *call = a->call;
    bool shows = !lml_call_wants_json(call) && !lml_call_quiet(call);
    lml_builder clashes = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_intake_decide(&a->intake, given(a, LML_OPTION_REPLACE),
                                          given(a, LML_OPTION_MERGE), &clashes, err);
    if (clashes.length > 0)
        lml_builder_add(&call->aside, clashes.at, clashes.length);
    lml_builder_free(&clashes);
    if (status != LML_OK)
        return status;
    a->opened = true;
    status = lml_pack_proofs_open(call, &a->intake, &a->proofs, err);
    if (status != LML_OK)
        return status;
    if (shows)
        lml_adopt_pack_show_files(call, &a->intake, &a->proofs);
    tell_signer(a);
    status = check_shipped(a, err);
    return status == LML_OK ? prove(a, err) : status;
}

static lml_status count_faults(const adoption *a, const lml_kit *kit, lml_json_document **out,
                               size_t *count, lml_error *err)
{
    lml_status status = lml_fault_list_read(a->call, kit, LML_FAULT_LIST_HOUSE, NULL, out, err);
    *count = status == LML_OK ? lml_json_count(lml_json_root(*out)) : 0;
    return status;
}

/* A setting in house.json that nothing reads any more stops every job: it is reported by the
 * adoption, not by the next run. */
static lml_status tell_settings(const adoption *a, lml_error *err)
{
    lml_json_document *now = NULL, *then = NULL;
    size_t before = 0, after = 0;
    lml_status status = count_faults(a, &a->proofs.now, &now, &before, err);
    if (status == LML_OK)
        status = count_faults(a, &a->proofs.then, &then, &after, err);
    if (status == LML_OK && after > before) {
        lml_fault_list_tell(a->call, lml_json_root(then));
        lml_builder_add_text(&a->call->aside, "no job runs here until house.json is corrected\n");
    }
    lml_json_free(now);
    lml_json_free(then);
    return status;
}

static void say_done(const adoption *a, bool stood)
{
    lml_call *call = a->call;
    size_t proofs = a->proofs.passed;
    if (lml_call_wants_json(call) || lml_call_quiet(call))
        return;
    if (!stood)
        lml_adopt_pack_show_compare(call, &a->intake, &a->proofs);
    lml_builder_add_format(&call->out, "%zu proof%s passed\n", proofs, proofs == 1 ? "" : "s");
    lml_builder_add_format(&call->out,
                           stood ? "this studio already has %s %s\n" : "adopted: %s %s\n",
                           lml_pack_says(&a->pack, "name"), lml_pack_says(&a->pack, "version"));
}

static lml_status adopt(adoption *a, lml_error *err)
{
    lml_call *call = a->call;
    char guard[LML_PATH];
    lml_status status = lml_find_place(call, "x", guard, err); /* not among lemel's own */
    lml_find_studio(call, NULL, a->studio);
    if (status == LML_OK)
        status = lml_pack_read(&call->alloc, a->pack.folder, &a->pack, err);
    if (status == LML_OK)
        status = check_digest(a, err);
    if (status == LML_OK)
        status = check_signature(a, err);
    if (status == LML_OK) /* what an earlier command left undone is done now */
        status = lml_find_finish(call, err);
    if (status == LML_OK)
        status = lml_intake_open(&call->alloc, a->studio, &a->pack, &a->intake, err);
    if (status == LML_OK && !lml_call_wants_json(call) && !lml_call_quiet(call))
        lml_adopt_pack_show_head(call, &a->intake, a->who[0] ? a->who : NULL);
    if (status == LML_OK)
        status = judge(a, err);
    bool stood = status == LML_OK && stands_already(a);
    if (status == LML_OK && !stood)
        status = take_in(a, err);
    if (status == LML_OK && !stood)
        status = tell_settings(a, err);
    if (status == LML_OK)
        say_done(a, stood);
    if (status == LML_OK && lml_call_wants_json(call))
        status = show_json(a, true, err);
    return status;
}

lml_status lml_adopt_pack(lml_call *call, const char *folder, lml_error *err)
{
    char path[LML_PATH];
    size_t length = strlen(folder);
    while (length > 1 && folder[length - 1] == '/')
        length--;
    if (length >= sizeof path)
        return lml_fail(err, LML_NO_FILE, "the path of the pack is too long");
    snprintf(path, sizeof path, "%.*s", (int)length, folder);
    adoption a = {.call = call,
                  .pack = {.alloc = &call->alloc, .folder = path},
                  .intake = {.alloc = &call->alloc}};
    lml_status status = adopt(&a, err);
    if (a.opened)
        lml_pack_proofs_close(&a.proofs);
    lml_intake_close(&a.intake);
    lml_pack_free(&a.pack);
    return status;
}
