#include "worker/kit.h"
#include "file/store.h"
#include "shelf/built_in.h"

#include <stdlib.h>
#include <string.h>

enum { FIRST_ROOM = 32 };

lml_kit lml_kit_on(const lml_alloc *alloc)
{
    return (lml_kit){.alloc = alloc};
}

static void free_text(lml_kit *kit, lml_kit_text *text)
{
    if (text->name)
        lml_alloc_free(kit->alloc, text->name, strlen(text->name) + 1);
    if (text->shown)
        lml_alloc_free(kit->alloc, text->shown, strlen(text->shown) + 1);
    lml_builder_free(&text->held);
}

void lml_kit_free(lml_kit *kit)
{
    for (size_t i = 0; i < kit->count; i++)
        free_text(kit, &kit->texts[i]);
    lml_alloc_free(kit->alloc, kit->texts, kit->room * sizeof *kit->texts);
    *kit = lml_kit_on(kit->alloc);
}

const char *lml_kit_rule_point(const char *recipe)
{
    static const char start[] = "rule_";
    return strncmp(recipe, start, sizeof start - 1) == 0 ? recipe + sizeof start - 1 : NULL;
}

const lml_kit_text *lml_kit_find(const lml_kit *kit, lml_put what, lml_span name)
{
    for (size_t i = 0; i < kit->count; i++)
        if (kit->texts[i].what == what && lml_span_is(name, kit->texts[i].name))
            return &kit->texts[i];
    return NULL;
}

static int by_name(const void *a, const void *b)
{
    const lml_kit_text *x = a, *y = b;
    return x->what != y->what ? (x->what > y->what) - (x->what < y->what)
                              : strcmp(x->name, y->name);
}

void lml_kit_sort(lml_kit *kit)
{
    if (kit->count > 1)
        qsort(kit->texts, kit->count, sizeof *kit->texts, by_name);
}

/* The place of the text that is replaced, or a new one at the end. */
static lml_kit_text *slot(lml_kit *kit, lml_put what, lml_span name)
{
    for (size_t i = 0; i < kit->count; i++)
        if (kit->texts[i].what == what && lml_span_is(name, kit->texts[i].name)) {
            free_text(kit, &kit->texts[i]);
            return &kit->texts[i];
        }
    if (kit->count == kit->room) {
        size_t room = kit->room ? kit->room * 2 : FIRST_ROOM;
        lml_kit_text *moved = lml_alloc_resize(kit->alloc, kit->texts, kit->room * sizeof *moved,
                                               room * sizeof *moved);
        if (!moved)
            return NULL;
        kit->texts = moved;
        kit->room = room;
    }
    return &kit->texts[kit->count++];
}

/* Take over `new`, whose text was read with `status`. */
static lml_status put(lml_kit *kit, lml_kit_text *new, lml_status status, lml_error *err)
{
    lml_kit_text *to = NULL;
    if (status == LML_OK && new->name &&new->shown)
        to = slot(kit, new->what, lml_span_of(new->name));
    if (to) {
        *to = *new;
        return LML_OK;
    }
    if (status == LML_OK)
        status = lml_fail(err, LML_NO_MEMORY, "out of memory for the recipes");
    free_text(kit, new);
    return status;
}

static lml_status read_text(lml_put what, const lml_kit_file *file, lml_builder *out,
                            lml_error *err)
{
    if (file->named)
        return lml_store_read_named(file->path, LML_STORE_SIZE, out, err);
    lml_status status = file->plain ? lml_store_read_plain(file->path, LML_STORE_SIZE, out, err)
                                    : lml_store_read(file->path, LML_STORE_SIZE, out, err);
    return status == LML_LIMIT && what == LML_PUT_RECIPE ? lml_builder_status(out, err) : status;
}

static lml_kit_text text_of(const lml_kit *kit, lml_put what, lml_span name,
                            const lml_kit_file *file)
{
    return (lml_kit_text){.what = what,
                          .name = lml_span_copy(kit->alloc, name),
                          .shown = lml_span_copy(kit->alloc, lml_span_of(file->shown)),
                          .text = {"", 0},
                          .held = lml_builder_on(kit->alloc, 0),
                          .from = file->from,
                          .ours = strcmp(file->from, "shipped") == 0};
}

/* What was read is its text; it is not held twice where it was built in. */
static void use_held(lml_kit_text *new)
{
    const lml_span read = lml_builder_span(&new->held);
    const lml_built_in *same = new->name ? lml_built_in_find(new->what, new->name, read) : NULL;
    new->text = same ? (lml_span){same->text, same->length} : read;
    if (same)
        lml_builder_free(&new->held);
}

/* Take over what was read with `status`, and see whose place it takes. */
static lml_status take(lml_kit *kit, lml_kit_text *new, lml_status status, lml_error *err)
{
    use_held(new);
    const lml_kit_text *former =
        new->name ? lml_kit_find(kit, new->what, lml_span_of(new->name)) : NULL;
    if (status == LML_OK && former) {
        bool same = lml_span_equal(former->text, new->text);
        if (same) {
            new->ours = new->ours || former->ours;
            new->from = strcmp(new->from, "file") == 0 ? former->from : new->from;
        }
        new->replaces = former->replaces || (former->ours && !same);
    }
    return put(kit, new, status, err);
}

lml_status lml_kit_read(lml_kit *kit, lml_put what, lml_span name, const lml_kit_file *file,
                        lml_error *err)
{
    lml_kit_text new = text_of(kit, what, name, file);
    return take(kit, &new, read_text(what, file, &new.held, err), err);
}

lml_status lml_kit_put(lml_kit *kit, lml_put what, lml_span name, const lml_kit_file *file,
                       lml_span bytes, lml_error *err)
{
    lml_kit_text new = text_of(kit, what, name, file);
    lml_builder_add_span(&new.held, bytes);
    return take(kit, &new, lml_builder_status(&new.held, err), err);
}

lml_status lml_kit_copy(lml_kit *kit, const lml_kit_text *from, lml_span name, lml_error *err)
{
    if (from->what == LML_PUT_RECIPE && lml_span_is(name, from->name))
        return LML_OK; /* it is that recipe */
    lml_kit_text new = {.what = LML_PUT_RECIPE,
                        .name = lml_span_copy(kit->alloc, name),
                        .shown = lml_span_copy(kit->alloc, lml_span_of(from->shown)),
                        .held = lml_builder_on(kit->alloc, 0),
                        .from = from->from,
                        .ours = from->ours};
    lml_builder_add_span(&new.held, from->text);
    use_held(&new);
    return put(kit, &new, lml_builder_status(&new.held, err), err);
}

void lml_kit_take_out(lml_kit *kit, lml_put what, lml_span name)
{
    for (size_t i = 0; i < kit->count; i++)
        if (kit->texts[i].what == what && lml_span_is(name, kit->texts[i].name)) {
            free_text(kit, &kit->texts[i]);
            memmove(&kit->texts[i], &kit->texts[i + 1], (--kit->count - i) * sizeof *kit->texts);
            return;
        }
}

const lml_kit_text *lml_kit_settings(const lml_kit *kit, lml_put what)
{
    for (size_t i = 0; i < kit->count; i++)
        if (kit->texts[i].what == what)
            return &kit->texts[i];
    return NULL;
}

lml_status lml_kit_engine(const lml_kit *kit, const lml_engine_options *options, lml_engine **out,
                          lml_error *err)
{
    lml_engine *engine = lml_engine_new(options);
    if (!engine)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for an engine");
    for (size_t i = 0; i < kit->count; i++) {
        const lml_kit_text *t = &kit->texts[i];
        if (kit->without_settings && (t->what == LML_PUT_HOUSE || t->what == LML_PUT_PRICES))
            continue;
        lml_status status = lml_engine_put(
            engine, t->what == LML_PUT_RECIPE && !t->ours ? LML_PUT_OWN_RECIPE : t->what, t->name,
            t->text.at, t->text.length, t->shown, err);
        bool harms_all = t->what != LML_PUT_RECIPE || status == LML_NO_MEMORY;
        if (status != LML_OK && harms_all) {
            lml_engine_free(engine);
            return status;
        }
    }
    *out = engine;
    return LML_OK;
}
