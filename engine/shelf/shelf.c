#include "shelf/shelf.h"

#include "cell/state.h"
#include "shelf/token.h"
#include "base/ascii.h"

#include <string.h>

bool lml_shelf_can_name(lml_span name)
{
    static const char letters[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-";
    size_t good = 0;
    while (good < name.length && memchr(letters, name.at[good], sizeof letters - 1))
        good++;
    return good > 0 && good == name.length && good <= LML_NAME_MOST && name.at[0] != '-';
}

static void free_text(const lml_alloc *alloc, char *text)
{
    if (text)
        lml_alloc_free(alloc, text, strlen(text) + 1);
}

static void forget_declaration(lml_item *item)
{
    if (item->recipe)
        lml_recipe_free((lml_recipe *)(uintptr_t)item->recipe);
    item->recipe = NULL;
}

static void free_item(const lml_alloc *alloc, lml_item *item)
{
    forget_declaration(item);
    free_text(alloc, item->name);
    free_text(alloc, item->shown);
    if (item->refused)
        lml_alloc_free(alloc, item->refused, sizeof *item->refused);
    if (item->text && !(item->built_in && item->text == item->built_in->text))
        lml_alloc_free(alloc, (char *)(uintptr_t)item->text, item->length + 1);
    if (item->code && !(item->built_in && item->code == item->built_in->code))
        lml_alloc_free(alloc, (char *)(uintptr_t)item->code, item->code_length);
    lml_alloc_free(alloc, item, sizeof *item);
}

void lml_shelf_free(lml_shelf *shelf)
{
    for (size_t i = 0; i < shelf->count; i++)
        free_item(shelf->alloc, shelf->items[i]);
    if (shelf->items)
        lml_alloc_free(shelf->alloc, shelf->items, shelf->room * sizeof(lml_item *));
    lml_json_free(shelf->house);
    lml_json_free(shelf->prices);
    shelf->house = shelf->prices = NULL;
    shelf->items = NULL;
    shelf->count = shelf->room = 0;
}

static int order(const lml_item *item, lml_put kind, lml_span name)
{
    if (item->kind != kind)
        return item->kind < kind ? -1 : 1;
    size_t length = strlen(item->name);
    int by_bytes = memcmp(item->name, name.at, length < name.length ? length : name.length);
    return by_bytes ? by_bytes : length < name.length ? -1 : length > name.length;
}

/* Where the item is, or would be. */
static size_t place_of(const lml_shelf *shelf, lml_put kind, lml_span name, bool *there)
{
    size_t low = 0, high = shelf->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        int o = order(shelf->items[middle], kind, name);
        if (o == 0) {
            *there = true;
            return middle;
        }
        if (o < 0)
            low = middle + 1;
        else
            high = middle;
    }
    *there = false;
    return low;
}

lml_status lml_shelf_put(lml_shelf *shelf, lml_put kind, const char *name, lml_span text,
                         const char *shown, lml_item **out, lml_error *err)
{
    const lml_alloc *alloc = shelf->alloc;
    lml_item *item = lml_alloc_get(alloc, sizeof *item);
    if (!item)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", shown);
    memset(item, 0, sizeof *item);
    item->kind = kind;
    item->length = text.length;
    item->name = lml_span_copy(alloc, lml_span_of(name));
    item->shown = lml_span_copy(alloc, lml_span_of(shown));
    item->built_in = lml_built_in_find(kind, name, text);
    item->text = item->built_in ? item->built_in->text : lml_span_copy(alloc, text);
    if (shelf->count == shelf->room && item->name && item->shown && item->text) {
        size_t room = shelf->room ? shelf->room * 2 : 32;
        lml_item **items = lml_alloc_resize(alloc, shelf->items, shelf->room * sizeof *items,
                                            room * sizeof *items);
        if (items) {
            shelf->items = items;
            shelf->room = room;
        }
    }
    if (!item->name || !item->shown || !item->text || shelf->count == shelf->room) {
        free_item(alloc, item);
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", shown);
    }
    bool there;
    size_t at = place_of(shelf, kind, lml_span_of(name), &there);
    if (there) {
        free_item(alloc, shelf->items[at]);
    } else {
        memmove(shelf->items + at + 1, shelf->items + at,
                (shelf->count - at) * sizeof *shelf->items);
        shelf->count++;
    }
    shelf->items[at] = item;
    for (size_t i = 0; i < shelf->count && kind == LML_PUT_SCRIPT; i++)
        forget_declaration(shelf->items[i]); /* a recipe may declare what the script holds */
    if (out)
        *out = item;
    return LML_OK;
}

lml_status lml_shelf_put_refused(lml_shelf *shelf, lml_put kind, const char *name,
                                 const char *shown, const lml_error *why, lml_error *err)
{
    lml_item *item;
    lml_error *kept = lml_alloc_get(shelf->alloc, sizeof *kept);
    if (!kept)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for %s", shown);
    *kept = *why;
    lml_status status = lml_shelf_put(shelf, kind, name, lml_span_of(""), shown, &item, err);
    if (status)
        lml_alloc_free(shelf->alloc, kept, sizeof *kept);
    else
        item->refused = kept;
    return status;
}

lml_item *lml_shelf_find(const lml_shelf *shelf, lml_put kind, lml_span name)
{
    bool there;
    size_t at = place_of(shelf, kind, name, &there);
    return there ? shelf->items[at] : NULL;
}

const lml_json *lml_shelf_house(const lml_shelf *shelf)
{
    return shelf->house ? lml_json_root(shelf->house) : NULL;
}

const lml_json *lml_shelf_prices(const lml_shelf *shelf)
{
    return shelf->prices ? lml_json_member(lml_json_root(shelf->prices), "prices") : NULL;
}

bool lml_shelf_has_script(const lml_shelf *shelf, const char *name)
{
    return lml_shelf_find(shelf, LML_PUT_SCRIPT, lml_span_of(name)) != NULL;
}

const lml_json *lml_shelf_house_in(lua_State *L)
{
    const lml_box *box = lml_box_of(L);
    return box->shelf && !box->proof ? lml_shelf_house(box->shelf) : NULL;
}

bool lml_item_take_code(lml_item *item)
{
    const lml_built_in *b = item->built_in;
    if (!b || strcmp(b->shown, item->shown) != 0 || !lml_built_in_is_for_this_lua())
        return false;
    item->code = b->code;
    item->code_length = b->code_length;
    return true;
}

bool lml_shelf_is_as_built(const lml_shelf *shelf, const lml_item *recipe)
{
    size_t scripts = 0;
    for (size_t i = 0; i < shelf->count && recipe->built_in; i++)
        scripts += shelf->items[i]->kind == LML_PUT_SCRIPT && shelf->items[i]->built_in;
    return recipe->built_in && scripts == lml_built_in_scripts;
}

const lml_recipe *lml_shelf_declared(const lml_shelf *shelf, lml_item *recipe)
{
    if (!recipe->recipe && lml_shelf_is_as_built(shelf, recipe))
        recipe->recipe = lml_built_in_declaration(recipe->built_in, shelf->alloc);
    return recipe->recipe;
}

const char *lml_item_digest(lml_item *item)
{
    if (item->built_in)
        return item->built_in->digest;
    if (!item->digest[0]) /* most items of a shelf never take part */
        lml_digest_of((lml_span){item->text, item->length}, item->digest);
    return item->digest;
}

lml_status lml_shelf_need(const lml_shelf *shelf, lml_put kind, lml_span name, lml_item **out,
                          lml_error *err)
{
    *out = lml_shelf_find(shelf, kind, name);
    if (*out && (*out)->refused && err)
        *err = *(*out)->refused;
    if (*out)
        return (*out)->refused ? (*out)->refused->status : LML_OK;
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < shelf->count; i++)
        if (shelf->items[i]->kind == kind)
            lml_nearest_offer(&nearest, lml_span_of(shelf->items[i]->name));
    lml_fail(err, LML_NOT_FOUND, "no %s is called '%.*s'",
             kind == LML_PUT_SCRIPT ? "script" : "recipe", (int)name.length, name.at);
    if (lml_nearest_found(&nearest))
        lml_error_hint(err, "did you mean '%.*s'?", (int)nearest.best.length, nearest.best.at);
    else if (kind == LML_PUT_RECIPE)
        lml_error_hint(err, "lemel recipes lists the available ones");
    return LML_NOT_FOUND;
}

size_t lml_shelf_length(const lml_shelf *shelf, const char *shown)
{
    for (size_t i = 0; i < shelf->count; i++)
        if (strcmp(shelf->items[i]->shown, shown) == 0)
            return shelf->items[i]->length;
    return 0;
}

lml_span lml_shelf_line(const lml_shelf *shelf, const char *shown, int line)
{
    for (size_t i = 0; i < shelf->count; i++) {
        const lml_item *item = shelf->items[i];
        if (strcmp(item->shown, shown) != 0)
            continue;
        const char *at = item->text, *stop = item->text + item->length;
        while (--line > 0 && at) {
            at = memchr(at, '\n', (size_t)(stop - at));
            at = at ? at + 1 : NULL;
        }
        if (!at)
            break;
        const char *end = memchr(at, '\n', (size_t)(stop - at));
        return lml_span_between(at, end ? end : stop);
    }
    return (lml_span){"", 0};
}

bool lml_shelf_is_lemels(const lml_shelf *shelf, const char *shown)
{
    bool all = true, any = false;
    for (size_t i = 0; i < shelf->count; i++)
        if (strcmp(shelf->items[i]->shown, shown) == 0) {
            any = true;
            all = all && shelf->items[i]->built_in != NULL;
        }
    return any && all;
}

/* The place in the word of the letter that is rarest in recipes: it is looked for first. */
static size_t rarest_in(lml_span word)
{
    static const char by_rarity[] = "zqjxyv_kbwfpgmudhclrinsaote"; /* others are rarer still */
    size_t best = 0, rank = sizeof by_rarity;
    for (size_t i = 0; i < word.length; i++) {
        const char *place = memchr(by_rarity, word.at[i], sizeof by_rarity - 1);
        size_t its = place ? (size_t)(place - by_rarity) : 0;
        if (its < rank) {
            rank = its;
            best = i;
        }
    }
    return best;
}

static bool is_allowed(const lml_shelf *shelf, lml_span word)
{
    bool is = false;
    for (size_t i = 0; i < shelf->count && !is; i++) {
        const lml_item *item = shelf->items[i];
        if (item->kind != LML_PUT_RECIPE)
            continue;
        if (item->recipe)
            is = lml_shape_field_named(&item->recipe->allowances, word);
        else if (lml_shelf_is_as_built(shelf, item))
            is = lml_built_in_allows(item->built_in, word);
    }
    return is;
}

bool lml_shelf_has_word(const lml_shelf *shelf, lml_span word)
{
    if (is_allowed(shelf, word)) /* mostly, and found without looking through all texts */
        return true;
    size_t rarest = rarest_in(word);
    for (size_t i = 0; i < shelf->count; i++) {
        const lml_item *item = shelf->items[i];
        if (item->kind == LML_PUT_RECIPE && item->refused)
            return true;
        if (item->kind != LML_PUT_RECIPE || word.length == 0 || item->length < word.length)
            continue;
        const char *last =
            item->text + item->length - word.length; /* where the word may start at the latest */
        for (const char *at = item->text; at <= last; at++) {
            at = memchr(at + rarest, word.at[rarest], (size_t)(last - at) + 1);
            if (!at)
                break;
            at -= rarest;
            bool starts = at == item->text || !lml_ascii_is_name(at[-1]);
            if (starts && memcmp(at, word.at, word.length) == 0 &&
                !lml_ascii_is_name(at[word.length]))
                return true;
        }
    }
    return false;
}
