#include "cli/work.h"
#include "sheet/complain.h"
#include "sheet/layout.h"
#include "base/letter.h"

typedef struct listing {
    lml_call *call;
    const lml_kit *kit;
    lml_json_writer json;
    size_t name; /* columns */
} listing;

static void put_row(listing *l, const lml_kit_text *text, lml_span version, lml_span title)
{
    if (lml_call_wants_json(l->call)) {
        lml_json_open_record(&l->json);
        lml_json_put_member(&l->json, "name", text->name);
        lml_json_put_name(&l->json, lml_span_of("version"));
        lml_json_put_text(&l->json, version);
        lml_json_put_name(&l->json, lml_span_of("title"));
        lml_json_put_text(&l->json, title);
        lml_json_put_member(&l->json, "from", text->from);
        lml_json_put_member(&l->json, "file", text->shown);
        lml_json_close(&l->json);
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
    lml_builder answer = lml_builder_on(&l->call->alloc, 0);
    lml_json_document *about = NULL;
    lml_status status = lml_work_inspect(l->kit, text->name, &answer, &error);
    if (status == LML_OK)
        status = lml_work_parse(l->call, &answer, &about, &error);
    if (status == LML_OK) {
        const lml_json *root = lml_json_root(about);
        put_row(l, text, lml_json_text(lml_json_member(root, "version")),
                lml_json_text(lml_json_member(root, "title")));
    } else {
        put_row(l, text, lml_span_of("-"), lml_span_of("cannot be read"));
        lml_complain_write(&error, &l->call->aside);
    }
    lml_json_free(about);
    lml_builder_free(&answer);
    return status;
}

static lml_status list(listing *l, lml_error *err)
{
    lml_status first = LML_OK;
    bool json = lml_call_wants_json(l->call);
    for (size_t i = 0; i < l->kit->count; i++) {
        size_t columns = lml_letter_columns_of(lml_span_of(l->kit->texts[i].name));
        if (l->kit->texts[i].what == LML_PUT_RECIPE && columns > l->name)
            l->name = columns < 20 ? columns : 20;
    }
    if (json)
        lml_json_open_list(&l->json);
    for (size_t i = 0; i < l->kit->count; i++) {
        if (l->kit->texts[i].what != LML_PUT_RECIPE)
            continue;
        lml_status status = put_recipe(l, &l->kit->texts[i]);
        first = first == LML_OK ? status : first;
    }
    if (!json)
        return first;
    lml_json_close(&l->json);
    lml_status status = lml_work_end(&l->json, err);
    return first == LML_OK ? status : first;
}

lml_status lml_cmd_recipes(lml_call *call, lml_error *err)
{
    if (call->arguments.words > 0)
        return lml_fail(err, LML_USAGE, "lemel recipes takes no words, and \"%s\" was given",
                        call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    listing l = {.call = call, .kit = &kit, .json = lml_json_writer_on(&call->out, true)};
    lml_status status = lml_find_kit(call, NULL, &kit, err);
    if (status == LML_OK)
        status = list(&l, err);
    lml_kit_free(&kit);
    return status;
}
