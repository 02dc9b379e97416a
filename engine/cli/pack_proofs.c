#include "cli/pack_proofs.h"

#include "cli/advice_list.h"
#include "cli/pack_dropped.h"
#include "sheet/complain.h"

#include <stdio.h>
#include <string.h>

/* ---- the studio as it will be ------------------------------------------------------------------
 */

static lml_status refuse_script(const lml_piece *p, lml_error *err)
{
    lml_fail(err, LML_BAD_RECIPE,
             "%s has the name of one of lemel's scripts, which cannot be replaced", p->path);
    lml_error_hint(err, "ask the maker of the pack to rename it");
    return LML_BAD_RECIPE;
}

static lml_status refuse_point(const lml_piece *p, const char *name, lml_error *err)
{
    lml_fail(err, LML_BAD_RECIPE,
             "%s: there is no rule point \"%s\", so this rule would never be used", p->path,
             lml_kit_rule_point(name));
    lml_error_hint(err, "lemel recipes --rules lists the points; a later lemel may have more");
    return LML_BAD_RECIPE;
}

static bool same_but_for_case(const char *a, const char *b)
{
    for (; *a && *b; a++, b++)
        if ((*a | 32) != (*b | 32))
            return false;
    return *a == *b;
}

/* On many disks the file would be written over the other one. */
static lml_status check_case(const lml_pack_proofs *p, lml_put what, const lml_piece *piece,
                             const char *name, lml_error *err)
{
    for (size_t i = 0; i < p->now.count; i++) {
        const lml_kit_text *t = &p->now.texts[i];
        if (t->what == what && strcmp(t->name, name) != 0 && same_but_for_case(t->name, name))
            return lml_fail(err, LML_BAD_DATA,
                            "%s and %s are the same file on a disk that ignores upper and lower "
                            "case: rename one",
                            piece->path, t->shown);
    }
    return LML_OK;
}

/* A piece is put as it will be: what was changed here stays. */
static lml_status put_piece(lml_pack_proofs *p, const lml_piece *piece, lml_error *err)
{
    char name[64];
    bool script = lml_pack_name(piece->file, "scripts", name);
    lml_put what = script ? LML_PUT_SCRIPT : LML_PUT_RECIPE;
    if (!script)
        lml_pack_name(piece->file, "recipes", name);
    const lml_kit_text *stood = lml_kit_find(&p->now, what, lml_span_of(name));
    if (script && stood && stood->ours)
        return refuse_script(piece, err);
    if (!script && !stood && lml_kit_rule_point(name))
        return refuse_point(piece, name, err);
    lml_status status = check_case(p, what, piece, name, err);
    if (status == LML_OK)
        status = lml_kit_put(&p->then, what, lml_span_of(name),
                             &(lml_kit_file){piece->path, piece->path, .from = "studio"},
                             lml_builder_span(&piece->text), err);
    if (status != LML_OK || script)
        return status;
    lml_pack_recipe *r = &p->recipes[p->count++];
    *r = (lml_pack_recipe){.piece = piece, .before_is_ours = stood && stood->ours};
    snprintf(r->name, sizeof r->name, "%s", name);
    return LML_OK;
}

/* ---- the order ---------------------------------------------------------------------------------
 */

/* The recipes on the way from the first to the current one. */
typedef struct way {
    const struct way *before;
    const char *name;
} way;

static lml_pack_recipe *of_pack(lml_pack_proofs *p, const char *name)
{
    for (size_t i = 0; i < p->count; i++)
        if (strcmp(p->recipes[i].name, name) == 0)
            return &p->recipes[i];
    return NULL;
}

static lml_status refuse_circle(const lml_pack_proofs *p, const way *w, const char *name,
                                lml_error *err)
{
    lml_builder text = lml_builder_on(&p->call->alloc, 0), before = text;
    lml_builder_add_text(&text, name);
    for (const way *at = w; at; at = at->before) {
        bool last = strcmp(at->name, name) == 0;
        lml_builder_free(&before);
        before = text;
        text = lml_builder_on(&p->call->alloc, 0);
        lml_builder_add_format(&text, "%s%s%s", at->name, last ? " uses " : ", which uses ",
                               before.at ? before.at : "");
        if (last)
            break;
    }
    const lml_pack_recipe *r = NULL;
    for (size_t i = 0; i < p->count; i++)
        for (const way *at = w; at && !r; at = at->before)
            if (strcmp(p->recipes[i].name, at->name) == 0)
                r = &p->recipes[i];
    lml_fail(err, LML_BAD_RECIPE, "%s: these recipes use each other in a circle: %s",
             r ? r->piece->path : name, text.at ? text.at : "");
    lml_builder_free(&before);
    lml_builder_free(&text);
    return LML_BAD_RECIPE;
}

static lml_status visit(lml_pack_proofs *p, const char *name, const way *before, size_t *done,
                        lml_error *err);

static lml_status visit_uses(lml_pack_proofs *p, const lml_json *about, const char *path,
                             const way *w, size_t *done, lml_error *err)
{
    lml_status status = LML_OK;
    const lml_json *used = lml_json_first(lml_json_member(about, "uses"));
    for (; used && status == LML_OK; used = lml_json_next(used)) {
        if (!lml_kit_find(&p->then, LML_PUT_RECIPE, lml_json_text(used))) {
            lml_fail(err, LML_NOT_FOUND,
                     "%s uses %s, which is neither in the pack nor in the studio", path,
                     lml_json_text(used).at);
            lml_error_hint(err, "ask the maker of the pack for it, or adopt it first");
            return LML_NOT_FOUND;
        }
        status = visit(p, lml_json_text(used).at, w, done, err);
    }
    return status;
}

/* Those that it uses before it. One of lemel's own matters only where it may use one of the pack.
 */
static lml_status visit(lml_pack_proofs *p, const char *name, const way *before, size_t *done,
                        lml_error *err)
{
    way w = {before, name};
    lml_pack_recipe *r = of_pack(p, name);
    lml_json_document *about = NULL;
    for (const way *at = before; at; at = at->before)
        if (strcmp(at->name, name) == 0)
            return refuse_circle(p, before, name, err);
    if (r && r->in_order)
        return LML_OK;
    const lml_kit_text *text = lml_kit_find(&p->then, LML_PUT_RECIPE, lml_span_of(name));
    lml_status status = r ? LML_OK : lml_ask_inspect(&p->then, name, &about, err);
    if (status == LML_OK)
        status = visit_uses(p, lml_json_root(r ? r->about : about), text->shown, &w, done, err);
    lml_json_free(about);
    if (status == LML_OK && r) {
        r->in_order = true;
        p->order[(*done)++] = (size_t)(r - p->recipes);
    }
    return status;
}

/* The recipe of that name may be unsound: then nothing is compared with it. */
static lml_status look(lml_pack_proofs *p, lml_pack_recipe *r, lml_error *err)
{
    lml_error why;
    lml_status status = LML_OK;
    if (lml_kit_find(&p->now, LML_PUT_RECIPE, lml_span_of(r->name)))
        status = lml_ask_inspect(&p->now, r->name, &r->before, &why);
    if (status == LML_BAD_RECIPE || status == LML_NOT_FOUND)
        r->before = NULL;
    else if (status != LML_OK && err)
        *err = why;
    if (status != LML_OK && status != LML_BAD_RECIPE && status != LML_NOT_FOUND)
        return status;
    status = lml_ask_inspect(&p->then, r->name, &r->about, err);
    if (status == LML_BAD_RECIPE)
        lml_advice_list_tell_wrong(p->call, &p->then,
                                   lml_kit_find(&p->then, LML_PUT_RECIPE, lml_span_of(r->name)),
                                   err, NULL);
    return status;
}

/* All of them: what is wrong in the second is told too. The first error is kept. */
static lml_status look_at_all(lml_pack_proofs *p, lml_error *err)
{
    lml_status first = LML_OK;
    for (size_t i = 0; i < p->count; i++) {
        lml_error error;
        lml_status status = look(p, &p->recipes[i], &error);
        if (status == LML_OK)
            continue;
        if (first == LML_OK && err)
            *err = error;
        else if (first != LML_OK)
            lml_complain_write(&error, &p->call->aside);
        first = first == LML_OK ? status : first;
        if (status != LML_BAD_RECIPE)
            break;
    }
    return first;
}

lml_status lml_pack_proofs_open(lml_call *call, const lml_intake *intake, lml_pack_proofs *out,
                                lml_error *err)
{
    size_t done = 0, most = intake->count ? intake->count : 1;
    *out = (lml_pack_proofs){.call = call,
                             .room = most,
                             .now = lml_kit_on(&call->alloc),
                             .then = lml_kit_on(&call->alloc)};
    out->recipes = lml_alloc_get(&call->alloc, most * sizeof *out->recipes);
    out->order = lml_alloc_get(&call->alloc, most * sizeof *out->order);
    lml_status status = LML_OK;
    if (!out->recipes || !out->order)
        status = lml_fail(err, LML_NO_MEMORY, "out of memory for the recipes of a pack");
    if (status == LML_OK)
        status = lml_find_kit(call, NULL, &out->now, err);
    if (status == LML_OK)
        status = lml_find_kit(call, NULL, &out->then, err);
    if (status == LML_OK)
        status = lml_pack_dropped_take_out(call, intake, &out->then, err);
    for (size_t i = 0; i < intake->count && status == LML_OK; i++)
        if (intake->pieces[i].file)
            status = put_piece(out, &intake->pieces[i], err);
    if (status == LML_OK)
        lml_kit_sort(&out->then);
    if (status == LML_OK)
        status = look_at_all(out, err);
    for (size_t i = 0; i < out->count && status == LML_OK; i++)
        status = visit(out, out->recipes[i].name, NULL, &done, err);
    if (status == LML_OK)
        status = lml_pack_dropped_check(call, intake, &out->now, &out->then,
                                        call->arguments.given[LML_OPTION_REPLACE], err);
    return status;
}

/* With the first thing that went wrong. */
static lml_status refuse_proofs(const lml_pack_recipe *r, size_t passed, size_t failed,
                                lml_error *err)
{
    if (failed == 0)
        return lml_fail(err, LML_STOPPED, "%s has no proofs", r->piece->path);
    lml_fail(err, LML_STOPPED, "%s: %zu of its %zu proofs failed", r->piece->path, failed,
             passed + failed);
    const lml_json *proof = lml_json_first(lml_json_member(lml_json_root(r->proofs), "proofs"));
    while (proof && lml_json_yes(lml_json_member(proof, "passed")))
        proof = lml_json_next(proof);
    lml_error_context(err, LML_STOPPED, "%s: %s", lml_json_text(lml_json_member(proof, "name")).at,
                      lml_json_text(lml_json_first(lml_json_member(proof, "failures"))).at);
    return LML_STOPPED;
}

lml_status lml_pack_proofs_run(lml_pack_proofs *proofs, lml_error *err)
{
    lml_status first = LML_OK;
    for (size_t i = 0; i < proofs->count; i++) {
        lml_pack_recipe *r = &proofs->recipes[proofs->order[i]];
        lml_status status = lml_ask_prove(&proofs->then, r->name, &r->proofs, err);
        if (status != LML_OK)
            return status;
        const lml_json *report = lml_json_root(r->proofs);
        size_t passed = (size_t)lml_json_number(lml_json_member(report, "passed"));
        size_t failed = (size_t)lml_json_number(lml_json_member(report, "failed"));
        proofs->passed += passed;
        proofs->failed += failed;
        proofs->unproved += passed + failed == 0;
        if (first == LML_OK && (failed > 0 || passed == 0))
            first = refuse_proofs(r, passed, failed, err);
    }
    return first;
}

void lml_pack_proofs_close(lml_pack_proofs *proofs)
{
    const lml_alloc *alloc = &proofs->call->alloc;
    for (size_t i = 0; i < proofs->count; i++) {
        lml_json_free(proofs->recipes[i].about);
        lml_json_free(proofs->recipes[i].before);
        lml_json_free(proofs->recipes[i].proofs);
    }
    if (proofs->recipes)
        lml_alloc_free(alloc, proofs->recipes, proofs->room * sizeof *proofs->recipes);
    if (proofs->order)
        lml_alloc_free(alloc, proofs->order, proofs->room * sizeof *proofs->order);
    lml_kit_free(&proofs->then);
    lml_kit_free(&proofs->now);
}
