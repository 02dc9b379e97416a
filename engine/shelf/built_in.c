#include "shelf/built_in.h"

#include <lua.h>
#include <string.h>

static const lml_built_in *row_of(lml_put kind, const char *name)
{
    size_t low = 0, high = lml_built_in_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const lml_built_in *row = &lml_built_in_rows[middle];
        int order = row->kind != kind ? (row->kind < kind ? -1 : 1) : strcmp(row->name, name);
        if (order == 0)
            return row;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

const lml_built_in *lml_built_in_find(lml_put kind, const char *name, lml_span text)
{
    const lml_built_in *row = row_of(kind, name);
    bool same = row && (text.at == row->text /* it was found before */ ||
                        lml_span_equal(text, (lml_span){row->text, row->length}));
    return same && text.length == row->length ? row : NULL;
}

/* ---- declarations ------------------------------------------------------------------------------
 */

static const char *word_at(uint32_t place)
{
    return place ? lml_built_in_words + place : NULL;
}

/* Where it goes, and which lists of shapes are there already: several fields may share one. */
enum { LISTS_SHARED = 64 };
typedef struct unpacking {
    lml_alloc alloc;
    struct {
        uint32_t place;
        const lml_shape *at;
    } list[LISTS_SHARED];
    int lists;
} unpacking;

/* The list of names at that place, with its NULL. */
static const char **names_at(uint32_t place, unpacking *u)
{
    const uint32_t *at = lml_built_in_names + place;
    size_t count = 0;
    while (at[count])
        count++;
    const char **names = lml_alloc_get(&u->alloc, (count + 1) * sizeof *names);
    for (size_t i = 0; names && i <= count; i++)
        names[i] = word_at(at[i]);
    return names;
}

static const lml_shape *shapes_at(uint32_t place, uint32_t count, unpacking *u);

static bool unpack(const lml_built_in_shape *row, unpacking *u, lml_shape *out)
{
    *out = (lml_shape){.wanted = (lml_wanted)row->wanted,
                       .metal = (lml_metal)row->metal,
                       .optional = row->optional,
                       .promised = row->promised,
                       .seldom = row->seldom,
                       .usual = row->usual,
                       .any_metal = row->any_metal,
                       .order = row->order,
                       .field_count = row->field_count,
                       .name = word_at(row->name),
                       .title = word_at(row->title),
                       .from = word_at(row->from),
                       .to = word_at(row->to),
                       .default_text = word_at(row->default_text),
                       .source = word_at(row->source),
                       .per = word_at(row->per),
                       .example = word_at(row->example),
                       .note = word_at(row->note),
                       .heading = word_at(row->heading),
                       .apart = word_at(row->apart),
                       .unless = word_at(row->unless),
                       .when = word_at(row->when)};
    if (row->choices && !(out->choices = names_at(row->choices, u)))
        return false;
    if (row->of && !(out->of = shapes_at(row->of, 1, u)))
        return false;
    return !row->fields || (out->fields = shapes_at(row->fields, row->field_count, u));
}

/* At least one, for what has fields but none of them. */
static const lml_shape *shapes_at(uint32_t place, uint32_t count, unpacking *u)
{
    for (int i = 0; i < u->lists; i++)
        if (u->list[i].place == place)
            return u->list[i].at;
    lml_shape *shapes = lml_alloc_get(&u->alloc, (count ? count : 1) * sizeof *shapes);
    bool done = shapes != NULL;
    for (uint32_t i = 0; i < count && done; i++)
        done = unpack(&lml_built_in_shapes[place + i], u, &shapes[i]);
    if (!done)
        return NULL;
    if (u->lists < LISTS_SHARED) {
        u->list[u->lists].place = place;
        u->list[u->lists++].at = shapes;
    }
    return shapes;
}

lml_recipe *lml_built_in_declaration(const lml_built_in *row, const lml_alloc *alloc)
{
    const lml_built_in_recipe *from = row->recipe;
    lml_recipe *r = lml_alloc_get(alloc, sizeof *r);
    if (!r)
        return NULL;
    *r = (lml_recipe){.name = word_at(from->name),
                      .title = word_at(from->title),
                      .version = word_at(from->version),
                      .licence = word_at(from->licence),
                      .about = word_at(from->about),
                      .heads = word_at(from->heads),
                      .rule = word_at(from->rule),
                      .use_count = from->use_count,
                      .level = (int)from->level};
    lml_pool_open(&r->pool, alloc);
    unpacking u = {.alloc = lml_pool_alloc(&r->pool), .lists = 0};
    r->uses = names_at(from->uses, &u);
    if (r->uses && unpack(&from->asks, &u, &r->asks) &&
        unpack(&from->allowances, &u, &r->allowances) && unpack(&from->gives, &u, &r->gives) &&
        unpack(&from->own, &u, &r->own) && unpack(&from->loose, &u, &r->loose))
        return r;
    lml_recipe_free(r);
    return NULL;
}

bool lml_built_in_allows(const lml_built_in *row, lml_span name)
{
    const lml_built_in_shape *allowances = &row->recipe->allowances;
    for (uint32_t i = 0; i < allowances->field_count; i++)
        if (lml_span_is(name, word_at(lml_built_in_shapes[allowances->fields + i].name)))
            return true;
    return false;
}

bool lml_built_in_is_for_this_lua(void)
{
    return strcmp(lua_ident, lml_built_in_lua) == 0;
}
