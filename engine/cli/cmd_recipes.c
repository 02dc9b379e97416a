#include "base/letter.h"
#include "cli/ask.h"
#include "cli/cmd.h"
#include "print/about.h"
#include "sheet/complain.h"
#include "sheet/layout.h"

#include <string.h>

typedef struct listing {
    lml_call *call;
    const lml_kit *kit;
    lml_json_writer json;
    size_t name; /* columns */
} listing;

static void put_row(listing *l, const lml_kit_text *text, lml_span version, lml_span title)
{
    if (lml_call_wants_json(l->call)) {
        lml_json_write_open_record(&l->json);
        lml_json_write_member(&l->json, "name", text->name);
        lml_json_write_name(&l->json, lml_span_of("version"));
        lml_json_write_text(&l->json, version);
        lml_json_write_name(&l->json, lml_span_of("title"));
        lml_json_write_text(&l->json, title);
        if (lml_kit_rule_point(text->name))
            lml_json_write_member(&l->json, "rule", lml_kit_rule_point(text->name));
        lml_json_write_member(&l->json, "from", text->from);
        lml_json_write_member(&l->json, "file", text->shown);
        lml_json_write_close(&l->json);
        return;
    }
    lml_layout layout = {.out = &l->call->out, .width = l->call->width};
    enum { FROM = 10 };
    size_t after_name = l->name + 2, after_version = after_name + 8;
    size_t from = layout.width - FROM;
    lml_cell cells[] = {{lml_span_of(text->name), 0, l->name, false},
                        {version, after_name, 7, false},
                        {title, after_version, from - after_version - 1, false},
                        {lml_span_of(text->from), from, FROM, false}};
    lml_layout_row(&layout, cells, 4);
}

static lml_status put_recipe(listing *l, const lml_kit_text *text)
{
    lml_error error;
    lml_json_document *about = NULL;
    lml_status status = lml_ask_inspect(l->kit, text->name, &about, &error);
    if (status == LML_OK) {
        const lml_json *root = lml_json_root(about);
        put_row(l, text, lml_json_text(lml_json_member(root, "version")),
                lml_json_text(lml_json_member(root, "title")));
    } else {
        put_row(l, text, lml_span_of("-"), lml_span_of("cannot be read"));
        lml_complain_write(&error, &l->call->aside);
    }
    lml_json_free(about);
    return status;
}

/* The recipes, or else the rules. */
static lml_status put_all(listing *l, bool rules)
{
    lml_status first = LML_OK;
    for (size_t i = 0; i < l->kit->count; i++) {
        const lml_kit_text *text = &l->kit->texts[i];
        if (text->what != LML_PUT_RECIPE || (lml_kit_rule_point(text->name) != NULL) != rules)
            continue;
        lml_status status = put_recipe(l, text);
        first = first == LML_OK ? status : first;
    }
    return first;
}

static lml_status list(listing *l, lml_error *err)
{
    bool json = lml_call_wants_json(l->call);
    for (size_t i = 0; i < l->kit->count; i++) {
        size_t columns = lml_letter_columns_of(lml_span_of(l->kit->texts[i].name));
        if (l->kit->texts[i].what == LML_PUT_RECIPE && columns > l->name)
            l->name = columns < 20 ? columns : 20;
    }
    if (json)
        lml_json_write_open_list(&l->json);
    lml_status first = put_all(l, false);
    if (!json)
        lml_builder_add_text(&l->call->out, "\nHouse rules that recipes ask for (lemel recipes "
                                            "--rules shows what each is given and answers):\n");
    lml_status rules = put_all(l, true);
    first = first == LML_OK ? rules : first;
    if (!json)
        return first;
    lml_json_write_close(&l->json);
    lml_status status = lml_call_end_json(&l->json, err);
    return first == LML_OK ? status : first;
}

/* ---- the rule points ----------------------------------------------------------------------------
 */

/* `shipped` has the point as lemel answers it, without what the house's own rule asks besides. */
static lml_status put_point(listing *l, const lml_kit *shipped, const char *recipe, lml_error *err)
{
    lml_json_document *about = NULL;
    const lml_kit_text *ours = lml_kit_find(l->kit, LML_PUT_RECIPE, lml_span_of(recipe));
    lml_status status = lml_ask_inspect(shipped, recipe, &about, err);
    if (status == LML_OK && lml_call_wants_json(l->call)) {
        lml_json_copy(&l->json, lml_json_root(about));
    } else if (status == LML_OK) {
        lml_layout layout = {.out = &l->call->out, .width = l->call->width, .bold = l->call->bold};
        lml_about_point(&layout, lml_json_root(about), ours && !ours->ours ? ours->shown : NULL);
    }
    lml_json_free(about);
    return status;
}

static bool is_asked(const lml_arguments *a, const char *point)
{
    bool asked = a->words == 0;
    for (size_t i = 0; i < a->words; i++)
        asked = asked || strcmp(a->word[i], point) == 0;
    return asked;
}

static lml_status check_words(const lml_arguments *a, const lml_kit *shipped, lml_error *err)
{
    for (size_t i = 0; i < a->words; i++) {
        bool known = false;
        lml_nearest near = lml_nearest_to(lml_span_of(a->word[i]));
        for (size_t k = 0; k < shipped->count; k++) {
            const char *point = shipped->texts[k].what == LML_PUT_RECIPE
                                    ? lml_kit_rule_point(shipped->texts[k].name)
                                    : NULL;
            if (point)
                lml_nearest_offer(&near, lml_span_of(point));
            known = known || (point && strcmp(point, a->word[i]) == 0);
        }
        if (known)
            continue;
        lml_fail(err, LML_USAGE, "there is no rule point \"%s\"", a->word[i]);
        if (lml_nearest_found(&near))
            lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        else
            lml_error_hint(err, "lemel recipes --rules lists them all");
        return LML_USAGE;
    }
    return LML_OK;
}

static lml_status list_points(listing *l, lml_error *err)
{
    const lml_arguments *a = &l->call->arguments;
    lml_kit shipped = lml_kit_on(&l->call->alloc);
    lml_status status = lml_find_shipped(l->call, &shipped, err);
    if (status == LML_OK)
        status = check_words(a, &shipped, err);
    bool json = lml_call_wants_json(l->call);
    if (json)
        lml_json_write_open_list(&l->json);
    for (size_t i = 0; i < shipped.count && status == LML_OK; i++) {
        const lml_kit_text *text = &shipped.texts[i];
        const char *point = text->what == LML_PUT_RECIPE ? lml_kit_rule_point(text->name) : NULL;
        if (point && is_asked(a, point))
            status = put_point(l, &shipped, text->name, err);
    }
    if (json && status == LML_OK) {
        lml_json_write_close(&l->json);
        status = lml_call_end_json(&l->json, err);
    }
    lml_kit_free(&shipped);
    return status;
}

lml_status lml_cmd_recipes(lml_call *call, lml_error *err)
{
    bool points = call->arguments.given[LML_OPTION_RULES];
    if (call->arguments.words > 0 && !points)
        return lml_fail(err, LML_USAGE,
                        "lemel recipes takes no arguments, but \"%s\" was given: lemel inspect "
                        "shows one recipe",
                        call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    listing l = {.call = call, .kit = &kit, .json = lml_json_writer_on(&call->out, true)};
    lml_status status = lml_find_kit(call, NULL, &kit, err);
    if (status == LML_OK)
        status = points ? list_points(&l, err) : list(&l, err);
    lml_kit_free(&kit);
    return status;
}
