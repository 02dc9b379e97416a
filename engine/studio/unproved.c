#include "studio/unproved.h"
#include "sheet/complain.h"
#include "worker/member.h"

#include <string.h>

void lml_unproved_open(lml_unproved *u, lml_call *call, const char *studio)
{
    *u = (lml_unproved){.call = call, .studio = studio};
    u->proved = (lml_proved){.list = lml_builder_on(&call->alloc, 0),
                             .news = lml_builder_on(&call->alloc, 0)};
}

void lml_unproved_close(lml_unproved *u)
{
    lml_proved_free(&u->proved);
    lml_alloc_free(&u->call->alloc, u->met, u->room * sizeof *u->met);
}

static bool was_met(const lml_unproved *u, const lml_kit_text *text)
{
    for (size_t i = 0; i < u->count; i++)
        if (u->met[i] == text)
            return true;
    return false;
}

/* Two kits may hold the same file. */
static bool was_told(const lml_unproved *u, const lml_kit_text *text)
{
    for (size_t i = 0; i < u->count; i++)
        if (strcmp(u->met[i]->shown, text->shown) == 0)
            return true;
    return false;
}

/* lemel's own, which it keeps beside the rule that takes its place: nobody adopts that. */
static bool is_original(const lml_kit_text *text)
{
    return strstr(text->shown, ".base/") != NULL;
}

static void tell(lml_unproved *u, const lml_kit *kit, const lml_kit_text *text)
{
    lml_builder *aside = &u->call->aside;
    lml_proved_gap gap;
    if (is_original(text))
        return;
    if (!u->listed) {
        lml_error error = {.status = LML_OK};
        u->listed = true;
        if (lml_proved_read(&u->call->alloc, u->studio, &u->proved, &error) != LML_OK)
            lml_complain_write(&error, aside);
    }
    if (text->replaces)
        lml_builder_add_format(aside, "%s is used in place of lemel's own %s\n", text->shown,
                               text->name);
    if (lml_proved_holds(&u->proved, kit, text, &gap))
        return;
    bool own = strcmp(text->from, "studio") == 0;
    if (gap.name.length > 0) {
        lml_builder_add_format(aside, "%s was proved with another %.*s %.*s: ", text->shown,
                               (int)gap.kind.length, gap.kind.at, (int)gap.name.length,
                               gap.name.at);
    } else {
        lml_builder_add_format(aside, "%s is not proved %s: ", text->shown,
                               own ? "as it is" : "here");
    }
    /* the name of the file: `lemel compare` works it under another */
    lml_span name = own ? lml_find_recipe(text->shown).recipe : lml_span_of(text->shown);
    lml_builder_add_format(aside, "lemel %s %.*s\n", own ? "prove" : "adopt", (int)name.length,
                           name.at);
}

static lml_status meet(lml_unproved *u, const lml_kit *kit, const lml_kit_text *text,
                       lml_error *err)
{
    if (was_met(u, text))
        return LML_OK;
    if (u->count == u->room) {
        size_t room = u->room ? 2 * u->room : 8;
        const lml_kit_text **moved = lml_alloc_resize(
            &u->call->alloc, u->met, u->room * sizeof *moved, room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY,
                            "out of memory for the recipes that are not proved");
        u->met = moved;
        u->room = room;
    }
    if (!was_told(u, text))
        tell(u, kit, text);
    u->met[u->count++] = text;
    return LML_OK;
}

/* A recipe's entry starts with its name, which holds no quote (see find.h); in a text the quotes
 * would have backslashes before them. */
static bool take_recipe(lml_span *rest, lml_span *name)
{
    static const char start[] = "{\"recipe\":\"";
    const char *end = rest->at + rest->length;
    for (const char *at = rest->at; (at = memchr(at, '{', (size_t)(end - at))); at++) {
        if (!lml_span_starts(lml_span_between(at, end), start))
            continue;
        at += sizeof start - 1;
        const char *quote = memchr(at, '"', (size_t)(end - at));
        if (!quote)
            break;
        *name = lml_span_between(at, quote);
        *rest = lml_span_between(quote, end);
        return true;
    }
    return false;
}

lml_status lml_unproved_see(lml_unproved *u, const lml_kit *kit, lml_span result, lml_error *err)
{
    lml_span rest = lml_member(result, "worked"), name;
    lml_status status = LML_OK;
    while (status == LML_OK && !lml_call_quiet(u->call) && take_recipe(&rest, &name)) {
        const lml_kit_text *text = lml_kit_find(kit, LML_PUT_RECIPE, name);
        if (text && !text->ours)
            status = meet(u, kit, text, err);
    }
    return status;
}

lml_status lml_unproved_tell(lml_call *call, const char *studio, const lml_kit *kit,
                             lml_span result, lml_error *err)
{
    lml_unproved u;
    lml_unproved_open(&u, call, studio);
    lml_status status = lml_unproved_see(&u, kit, result, err);
    lml_unproved_close(&u);
    return status;
}
