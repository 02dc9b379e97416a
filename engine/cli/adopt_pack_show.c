#include "cli/adopt_pack_show.h"
#include "print/about.h"

#include <stdio.h>
#include <string.h>

static lml_layout layout_of(lml_call *call)
{
    return (lml_layout){.out = &call->out, .width = call->width, .bold = call->bold};
}

static void put(lml_layout *layout, size_t at, const char *format, ...) LML_PRINTF(3, 4);
static void put(lml_layout *layout, size_t at, const char *format, ...)
{
    char text[600];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    lml_layout_text(layout, at, lml_span_of(text));
}

static const char *says(const lml_json_document *doc, const char *member)
{
    return doc ? lml_json_text(lml_json_member(lml_json_root(doc), member)).at : "";
}

void lml_adopt_pack_show_head(lml_call *call, const lml_intake *intake, const char *who)
{
    lml_layout layout = layout_of(call);
    const lml_pack *pack = intake->pack;
    const char *title = lml_pack_says(pack, "title"), *was = says(intake->former, "version");
    put(&layout, 0, "pack %s %s%s%s", lml_pack_says(pack, "name"), lml_pack_says(pack, "version"),
        title[0] ? ": " : "", title);
    put(&layout, 0, "%s, licence %s", pack->folder, lml_pack_says(pack, "licence"));
    put(&layout, 0, "%s", pack->digest);
    if (who)
        put(&layout, 0, "signed by %s", who);
    else
        put(&layout, 0, "%s",
            pack->is_signed ? "signed, but the signature was not checked"
                            : "not signed: maker unknown");
    if (was[0])
        put(&layout, 0, "this studio has %s %s", lml_pack_says(pack, "name"), was);
}

static const lml_pack_recipe *recipe_of(const lml_pack_proofs *proofs, const lml_piece *piece)
{
    for (size_t i = 0; i < proofs->count; i++)
        if (proofs->recipes[i].piece == piece)
            return &proofs->recipes[i];
    return NULL;
}

static void put_file(lml_layout *layout, const lml_piece *piece, const lml_pack_recipe *r)
{
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, piece->path);
    if (r)
        lml_builder_add_format(&line, " %s", says(r->about, "version"));
    bool moved = r && r->before && !r->before_is_ours &&
                 strcmp(says(r->about, "version"), says(r->before, "version")) != 0;
    if (moved)
        lml_builder_add_format(&line, ", was %s", says(r->before, "version"));
    lml_builder_add_format(&line, ": %s", lml_fate_words(piece->fate));
    if (r && r->before_is_ours && piece->fate != LML_FATE_SAME)
        lml_builder_add_format(&line, "; replaces lemel's own %s%s", r->name,
                               lml_kit_rule_point(r->name) ? "" : " in every recipe that uses it");
    lml_layout_text(layout, 0, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
}

void lml_adopt_pack_show_files(lml_call *call, const lml_intake *intake,
                               const lml_pack_proofs *proofs)
{
    lml_layout layout = layout_of(call);
    lml_layout_gap(&layout);
    for (size_t i = 0; i < intake->count; i++)
        put_file(&layout, &intake->pieces[i], recipe_of(proofs, &intake->pieces[i]));
    for (size_t i = 0; i < proofs->count; i++) {
        const lml_pack_recipe *r = &proofs->recipes[proofs->order[i]];
        if (!r->before || r->before_is_ours || r->piece->fate == LML_FATE_SAME ||
            r->piece->fate == LML_FATE_OURS)
            continue;
        lml_layout_gap(&layout);
        put(&layout, 0, "%s %s, beside %s", r->name, says(r->about, "version"),
            says(r->before, "version"));
        lml_about_beside(&layout, lml_json_root(r->about), lml_json_root(r->before));
    }
    lml_layout_gap(&layout);
}

void lml_adopt_pack_show_failures(lml_call *call, const lml_pack_proofs *proofs)
{
    lml_layout layout = layout_of(call);
    for (size_t i = 0; i < proofs->count; i++) {
        const lml_json_document *doc = proofs->recipes[i].proofs;
        const lml_json *proof =
            doc ? lml_json_first(lml_json_member(lml_json_root(doc), "proofs")) : NULL;
        for (; proof; proof = lml_json_next(proof)) {
            if (lml_json_yes(lml_json_member(proof, "passed")))
                continue;
            put(&layout, 0, "FAILED: %s, %s", proofs->recipes[i].name,
                lml_json_text(lml_json_member(proof, "name")).at);
            const lml_json *failure = lml_json_first(lml_json_member(proof, "failures"));
            for (; failure; failure = lml_json_next(failure))
                lml_layout_text(&layout, 3, lml_json_text(failure));
        }
    }
}

void lml_adopt_pack_show_compare(lml_call *call, const lml_intake *intake,
                                 const lml_pack_proofs *proofs)
{
    lml_layout layout = layout_of(call);
    char kept[LML_PATH];
    bool first = true;
    for (size_t i = 0; i < proofs->count; i++) {
        const lml_pack_recipe *r = &proofs->recipes[i];
        if (!r->before || r->piece->fate == LML_FATE_SAME || r->piece->fate == LML_FATE_OURS)
            continue;
        if (first)
            put(&layout, 0, "what each changes in past jobs:");
        first = false;
        if (r->before_is_ours)
            (void)!snprintf(kept, sizeof kept, "recipes/.base/%s.lua", r->name);
        else
            lml_intake_before(kept, lml_pack_says(intake->pack, "name"), r->piece->path);
        put(&layout, 3, "lemel compare %s %s jobs", kept, r->name);
    }
}
