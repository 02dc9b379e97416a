#include "cli/pack_dropped.h"

#include "shelf/token.h"
#include "sheet/complain.h"

#include <string.h>

/* recipes/NAME.lua or scripts/NAME.lua of a file that goes. */
static bool goes(const lml_piece *piece, lml_put *what, char name[64])
{
    lml_pack_file file = {.path = (char *)(uintptr_t)piece->path};
    if (piece->fate != LML_FATE_GOES)
        return false;
    *what = LML_PUT_SCRIPT;
    if (lml_pack_name(&file, "scripts", name))
        return true;
    *what = LML_PUT_RECIPE;
    return lml_pack_name(&file, "recipes", name);
}

lml_status lml_pack_dropped_take_out(lml_call *call, const lml_intake *intake, lml_kit *kit,
                                     lml_error *err)
{
    lml_kit shipped = lml_kit_on(&call->alloc);
    lml_status status = lml_find_shipped(call, &shipped, err);
    for (size_t i = 0; i < intake->count && status == LML_OK; i++) {
        lml_put what;
        char name[64];
        if (!goes(&intake->pieces[i], &what, name))
            continue;
        lml_kit_take_out(kit, what, lml_span_of(name));
        const lml_kit_text *own = lml_kit_find(&shipped, what, lml_span_of(name));
        if (own)
            status = lml_kit_put(kit, what, lml_span_of(name),
                                 &(lml_kit_file){own->shown, own->shown, .from = own->from},
                                 (lml_span){own->text.at, own->text.length}, err);
    }
    lml_kit_free(&shipped);
    return status;
}

/* ---- who needs it ---- */

/* Whether the text says `require "NAME"`. */
static bool requires(const lml_kit_text *text, const char *name)
{
    lml_scanner s = lml_scanner_on((lml_span){text->text.at, text->text.length});
    lml_token before[2] = {{0}};
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        lml_token word = lml_token_is(before[1], "(") ? before[0] : before[1];
        if (t.kind == LML_TOKEN_TEXT && lml_token_is(word, "require") && t.text.length > 2 &&
            lml_span_is((lml_span){t.text.at + 1, t.text.length - 2}, name))
            return true;
        before[0] = before[1];
        before[1] = t;
    }
    return false;
}

/* One that cannot be read uses nothing. */
static lml_status uses(const lml_kit *now, const lml_kit_text *text, const char *name, bool *out,
                       lml_error *err)
{
    lml_json_document *about = NULL;
    lml_status status = lml_ask_inspect(now, text->name, &about, err);
    const lml_json *list = about ? lml_json_member(lml_json_root(about), "uses") : NULL;
    *out = false;
    for (const lml_json *u = lml_json_first(list); u && !*out; u = lml_json_next(u))
        *out = lml_span_is(lml_json_text(u), name);
    lml_json_free(about);
    return status == LML_NO_MEMORY ? status : LML_OK;
}

static lml_status refuse(lml_call *call, const lml_intake *intake, const lml_kit_text *text,
                         const lml_piece *piece, bool replace, lml_error *err)
{
    lml_error said = {.status = LML_OK};
    lml_fail(&said, LML_NO_WRITE, "%s needs %s, which %s %s no longer has", text->shown,
             piece->path, lml_pack_says(intake->pack, "name"),
             lml_pack_says(intake->pack, "version"));
    if (!replace)
        lml_error_hint(&said,
                       "save a copy of %s under another name and use that one; --replace "
                       "lets it go",
                       piece->path);
    else
        lml_complain_write(&said, &call->aside);
    if (!replace && err)
        *err = said;
    return replace ? LML_OK : LML_NO_WRITE;
}

/* Only files of the studio that stay: the pack's own are compared with their `uses` elsewhere. */
static lml_status check_one(lml_call *call, const lml_intake *intake, const lml_kit *now,
                            const lml_kit *then, const lml_piece *piece, lml_put what,
                            const char *name, bool replace, lml_error *err)
{
    lml_status status = LML_OK;
    for (size_t i = 0; i < then->count && status == LML_OK; i++) {
        const lml_kit_text *text = &then->texts[i];
        bool needs = what == LML_PUT_SCRIPT && requires(text, name);
        if (strcmp(text->from, "studio") != 0)
            continue;
        if (what != LML_PUT_SCRIPT && text->what == LML_PUT_RECIPE)
            status = uses(now, text, name, &needs, err);
        if (status == LML_OK && needs)
            status = refuse(call, intake, text, piece, replace, err);
    }
    return status;
}

lml_status lml_pack_dropped_check(lml_call *call, const lml_intake *intake, const lml_kit *now,
                                  const lml_kit *then, bool replace, lml_error *err)
{
    lml_status status = LML_OK;
    for (size_t i = 0; i < intake->count && status == LML_OK; i++) {
        lml_put what;
        char name[64];
        if (goes(&intake->pieces[i], &what, name) && !lml_kit_find(then, what, lml_span_of(name)))
            status =
                check_one(call, intake, now, then, &intake->pieces[i], what, name, replace, err);
    }
    return status;
}
