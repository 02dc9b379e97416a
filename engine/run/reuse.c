#include "run/reuse.h"

#include "base/ascii.h"
#include "cell/datum.h"
#include "cell/key.h"
#include "run/engine.h"
#include "run/load.h"
#include "run/part.h"

#include <string.h>

enum { NOT_WITHIN = -1 };

/* Before what was told and what came back. */
typedef struct head {
    size_t told, gave;
    uint64_t spent, price; /* steps that it took; the price of a step afterwards */
    lua_Integer said;      /* remarks */
} head;

lml_reuse lml_reuse_on(const lml_alloc *alloc, const char *changed)
{
    return (lml_reuse){.alloc = alloc,
                       .changed = changed,
                       .answers = lml_builder_on(alloc, 0),
                       .bare = lml_builder_on(alloc, 0),
                       .parts = lml_builder_on(alloc, 0)};
}

void lml_reuse_free(lml_reuse *reuse)
{
    lml_builder_free(&reuse->answers);
    lml_builder_free(&reuse->bare);
    lml_builder_free(&reuse->parts);
}

void lml_reuse_forget(lml_reuse *reuse)
{
    reuse->answers.length = reuse->whole = 0;
}

void lml_reuse_begin(lml_reuse *reuse, const lml_shelf *shelf, bool takes)
{
    reuse->takes = takes;
    reuse->reached = reuse->looked = reuse->sure = false;
    reuse->next = 0;
    reuse->missed = 0;
    reuse->within = NOT_WITHIN;
    reuse->seen_count = 0;
    reuse->fits = true;
    for (size_t i = 0; i < shelf->count; i++)
        if (shelf->items[i]->kind == LML_PUT_SCRIPT && !shelf->items[i]->built_in)
            reuse->fits = false;
}

void lml_reuse_again(lml_reuse *reuse)
{
    reuse->takes = true;
    reuse->sure = false;
    reuse->next = 0;
    reuse->missed = 0;
}

/* ---- which recipes -----------------------------------------------------------------------------
 */

/* Whether one of the fields is called by a word that is in the text. */
static bool is_one_of(const lml_shape *record, const char *text)
{
    for (size_t i = 0; i < record->field_count; i++) {
        const char *name = record->fields[i].name;
        for (const char *at = text; (at = strstr(at, name)); at++)
            if ((at == text || !lml_ascii_is_name(at[-1])) && !lml_ascii_is_name(at[strlen(name)]))
                return true;
    }
    return false;
}

/* Whether it reads of the job, or of the house, what is another each time. */
static bool reads_varied(const lml_reuse *reuse, const lml_recipe *r)
{
    return reuse->varied &&
           (is_one_of(&r->allowances, reuse->varied) || is_one_of(&r->own, reuse->varied));
}

/* Whether nothing that the recipe does can be another, or leave something behind, as far as it does
 * that itself. */
static bool fits_itself(const lml_reuse *reuse, const lml_item *item, const lml_recipe *r)
{
    bool changed = reuse->changed && strcmp(item->name, reuse->changed) == 0;
    return !changed && item->built_in && !item->is_own && !reads_varied(reuse, r);
}

/* The same of the recipe and all that it uses; they do not use each other in a circle, which was
 * looked for before the run. */
static bool fits(lua_State *L, lml_reuse *reuse, const char *recipe)
{
    for (int i = 0; i < reuse->seen_count; i++)
        if (strcmp(reuse->seen[i].recipe, recipe) == 0)
            return reuse->seen[i].fits;
    const int place = reuse->seen_count;
    if (place == LML_PARTS_MOST)
        return false;
    const lml_item *item = lml_load_need_item(L, LML_PUT_RECIPE, recipe);
    const lml_recipe *r = item->recipe ? item->recipe : lml_load_recipe(L, recipe);
    bool all = fits_itself(reuse, item, r);
    reuse->seen[place].recipe = item->name;
    reuse->seen[place].fits = all;
    reuse->seen_count++;
    for (size_t i = 0; i < r->use_count && all; i++)
        all = fits(L, reuse, r->uses[i]);
    reuse->seen[place].fits = all;
    return all;
}

void lml_reuse_reach(lua_State *L, lml_reuse *reuse, const char *recipe)
{
    lml_parts all;
    if (reuse->varied || reuse->takes)
        return;
    lml_parts_gather(L, recipe, &all);
    for (int i = 0; i < all.count; i++) {
        if (reuse->changed) {
            reuse->reached = reuse->reached || strcmp(all.recipe[i]->name, reuse->changed) == 0;
        } else {
            lml_builder_add_text(&reuse->parts, all.recipe[i]->name);
            lml_builder_add_char(&reuse->parts, '\n');
        }
    }
}

/* ---- its inputs --------------------------------------------------------------------------- */

/* The bill is for what recipes do: what is done here is not on it. */
typedef struct bill {
    uint64_t spent, price;
} bill;

static bill read_bill(const lml_run *run)
{
    return (bill){run->box.spent, run->box.price};
}

static void put_back(lml_run *run, bill b)
{
    run->box.spent = b.spent;
    lml_box_set_price(&run->box, b.price);
}

/* Behind the head, which is still to come: the recipe, how deep it is asked, and the table. */
static bool add_told(lua_State *L, lml_reuse *reuse, const char *recipe, int arguments)
{
    lml_run *run = lml_run_of(L);
    bill b = read_bill(run);
    lml_builder *to = &reuse->answers;
    head nothing;
    memset(&nothing, 0, sizeof nothing);
    to->length = reuse->whole;
    lml_builder_add(to, (const char *)&nothing, sizeof nothing);
    lml_builder_add(to, recipe, strlen(recipe) + 1);
    lml_builder_add_char(to, (char)run->depth);
    bool known = lml_datum_add(L, arguments, to);
    put_back(run, b);
    return known;
}

/* ---- taking ------------------------------------------------------------------------------------
 */

static void read_head(const lml_reuse *reuse, size_t at, head *out)
{
    memcpy(out, reuse->answers.at + at, sizeof *out);
}

/* What a recipe is called with. */
typedef struct asked {
    const char *recipe;
    size_t length; /* of the name, with its NUL */
    int depth, table;
} asked;

/* Whether the answer is to that recipe, asked as deep; what that was told is set then. */
static bool is_of(const lml_reuse *reuse, size_t at, const head *h, const asked *a, lml_span *told)
{
    const char *said = reuse->answers.at + at + sizeof *h;
    if (h->told <= a->length || said[a->length] != (char)a->depth ||
        memcmp(said, a->recipe, a->length) != 0)
        return false;
    *told = (lml_span){said + a->length + 1, h->told - a->length - 1};
    return true;
}

/* Of many answers of one recipe few are looked at, from a little before the place in the order in
 * which they were asked for; a choice of ours. */
enum { LOOKED_AT = 8, BEFORE = 4 };

/* The place of the answer to what was asked; false when there is none. */
static bool find(lua_State *L, lml_reuse *reuse, const asked *a, size_t *out)
{
    size_t start = reuse->next < reuse->whole ? reuse->next : 0, at = start, first = start;
    int looked = 0;
    head h;
    lml_span told;
    while (reuse->whole - at >= sizeof h && looked < LOOKED_AT) {
        read_head(reuse, at, &h);
        size_t left = reuse->whole - at - sizeof h;
        if (h.told > left || h.gave > left - h.told)
            break; /* no answers at all */
        size_t after = at + sizeof h + h.told + h.gave;
        if (is_of(reuse, at, &h, a, &told)) {
            if (lml_datum_is(L, a->table, &told) && told.length == 0) {
                *out = at;
                reuse->next = after;
                reuse->missed = 0;
                return true;
            }
            if (looked++ == 0)
                first = after;
        }
        at = after < reuse->whole ? after : 0;
        if (at == start)
            break;
    }
    if (looked > 0 && ++reuse->missed > BEFORE)
        reuse->next = first;
    return false;
}

static bool take_size(lml_span *from, uint32_t *out)
{
    if (from->length < sizeof *out)
        return false;
    memcpy(out, from->at, sizeof *out);
    *from = (lml_span){from->at + sizeof *out, from->length - sizeof *out};
    return true;
}

/* A part with the stops of the recipe and of those that it used; nil where there were none. */
static bool push_stops(lua_State *L, const char *recipe, lml_span *from, uint32_t *count)
{
    if (!take_size(from, count))
        return false;
    if (*count == 0) {
        lua_pushnil(L);
        return true;
    }
    lml_part_push_bare(L, recipe);
    int part = lua_gettop(L);
    lua_getfield(L, part, "remarks");
    for (uint32_t i = 1; i <= *count; i++) {
        lua_createtable(L, 0, 2);
        if (!lml_datum_push(L, from))
            return false;
        lua_setfield(L, -2, "level");
        if (!lml_datum_push(L, from))
            return false;
        lua_setfield(L, -2, "code");
        lua_rawseti(L, -2, (lua_Integer)i);
    }
    lua_settop(L, part);
    return true;
}

/* Push results and part of the answer that is at `at`. */
static bool push_answer(lua_State *L, lml_reuse *reuse, size_t at, const char *recipe, int parent)
{
    lml_run *run = lml_run_of(L);
    head h;
    read_head(reuse, at, &h);
    lml_span gave = {reuse->answers.at + at + sizeof h + h.told, h.gave};
    int top = lua_gettop(L);
    uint32_t stops;
    lml_box_need_stack(L, 12);
    if (!lml_datum_push(L, &gave) || !push_stops(L, recipe, &gave, &stops)) {
        lua_settop(L, top);
        return false;
    }
    if (stops > 0)
        lml_part_enclose(L, parent, top + 2);
    if (h.said > 0)
        lml_part_count_remarks(L, parent, h.said);
    run->box.spent += h.spent;
    if (h.price > run->box.price)
        lml_box_set_price(&run->box, h.price);
    return true;
}

bool lml_reuse_take(lua_State *L, const char *recipe, int arguments, int parent,
                    lml_reuse_mark *mark)
{
    lml_run *run = lml_run_of(L);
    lml_reuse *reuse = run->engine->reuse;
    *mark = (lml_reuse_mark){.keeps = false};
    bool within = reuse->within != NOT_WITHIN && run->depth > reuse->within;
    if (!reuse->fits || within || run->box.proof || !fits(L, reuse, recipe))
        return false;
    size_t at;
    const asked a = {recipe, strlen(recipe) + 1, run->depth, arguments};
    if (reuse->takes)
        return find(L, reuse, &a, &at) && push_answer(L, reuse, at, recipe, parent);
    if (!reuse->varied)
        reuse->within = run->depth;
    *mark = (lml_reuse_mark){
        .keeps = true, .spent = run->box.spent, .said = lml_part_count_remarks(L, parent, 0)};
    return false;
}

/* ---- keeping -----------------------------------------------------------------------------------
 */

/* The stops of the part and of those in it, level and code of each; how many. */
static uint32_t add_stops(lua_State *L, lml_builder *to, int part)
{
    uint32_t count = 0;
    lml_box_need_stack(L, 12);
    lua_getfield(L, part, "remarks");
    int remarks = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, remarks); i++) {
        lua_rawgeti(L, remarks, i);
        lua_getfield(L, -1, "level");
        lua_getfield(L, -2, "code");
        const char *level = lua_tostring(L, -2);
        if (strcmp(level, "stop") == 0 || strcmp(level, "confirm") == 0) {
            lml_datum_add(L, -2, to);
            lml_datum_add(L, -1, to);
            count++;
        }
        lua_settop(L, remarks);
    }
    lua_getfield(L, part, "within");
    const int within = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, within); i++) {
        lua_rawgeti(L, within, i);
        count += add_stops(L, to, within + 1);
        lua_settop(L, within);
    }
    lua_settop(L, remarks - 1);
    return count;
}

void lml_reuse_keep(lua_State *L, const char *recipe, int arguments, int parent,
                    const lml_reuse_mark *mark)
{
    lml_run *run = lml_run_of(L);
    lml_reuse *reuse = run->engine->reuse;
    if (!mark->keeps)
        return;
    reuse->within = NOT_WITHIN;
    lml_builder *to = &reuse->answers;
    bill b = read_bill(run);
    int part = lua_gettop(L);
    if (reuse->looked || !add_told(L, reuse, recipe, arguments) || to->status != LML_OK)
        return;
    head h = {.told = to->length - reuse->whole - sizeof h,
              .spent = b.spent - mark->spent,
              .price = b.price,
              .said = lml_part_count_remarks(L, parent, 0) - mark->said};
    bool known = lml_datum_add(L, part - 1, to);
    size_t place = to->length;
    uint32_t stops = 0;
    lml_builder_add(to, (const char *)&stops, sizeof stops);
    stops = add_stops(L, to, part);
    put_back(run, b);
    if (!known || to->status != LML_OK)
        return;
    memcpy(to->at + place, &stops, sizeof stops);
    h.gave = to->length - reuse->whole - sizeof h - h.told;
    memcpy(to->at + reuse->whole, &h, sizeof h);
    reuse->whole = to->length;
}
