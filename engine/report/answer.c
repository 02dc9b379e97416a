#include "report/answer.h"

#include "cell/class.h"
#include "cell/raise.h"
#include "report/result_datum.h"
#include "report/result_figure.h"
#include "run/parts.h"
#include "run/engine.h"
#include "run/take.h"
#include "value/wanted.h"

#include <string.h>

static const char HOUSE[] = "house.";

typedef struct task {
    const char *recipe, *field;
    lml_span text;
    lml_json_writer w;
    const lml_shape *shape;
    char meant[200];           /* the alloy, where a part of its name was typed */
    lml_json_document *answer; /* what stands for it in a job */
} task;

/* ---- which question ----------------------------------------------------------------------------
 */

/* The name at the start of `rest`, in quotes where it has to be, and `rest` behind it. */
static lml_span cut_name(lml_span *rest)
{
    lml_span all = *rest, name = {all.at, 0};
    const char *quote = lml_span_starts(all, "\"") ? memchr(all.at + 1, '"', all.length - 1) : NULL;
    if (quote)
        name = lml_span_between(all.at + 1, quote);
    while (!quote && name.length < all.length && !strchr(".[", all.at[name.length]))
        name.length++;
    *rest = lml_span_between(quote ? quote + 1 : all.at + name.length, all.at + all.length);
    return name;
}

/* The length of "[12]" at the start of `rest`, or 0. */
static size_t count_of(lml_span rest)
{
    size_t digits = 0;
    while (digits + 1 < rest.length && rest.at[digits + 1] >= '0' && rest.at[digits + 1] <= '9')
        digits++;
    bool sound =
        rest.length > digits + 1 && rest.at[0] == '[' && digits > 0 && rest.at[digits + 1] == ']';
    return sound ? digits + 2 : 0;
}

static void refuse_name(lua_State *L, const task *t, lml_span name, const lml_nearest *near)
{
    lml_error e;
    lml_fail(&e, LML_NOT_FOUND, "%s has no ask called \"%s\"", t->recipe, t->field);
    if (lml_nearest_found(near))
        lml_error_hint(&e, "did you mean '%.*s' instead of '%.*s'?", (int)near->best.length,
                       near->best.at, (int)name.length, name.at);
    else
        lml_error_hint(&e, "lemel inspect %s lists what it asks", t->recipe);
    lml_raise_as_is(L, &e);
}

static void offer_fields(const lml_shape *record, lml_nearest *near)
{
    for (size_t i = 0; i < record->field_count; i++)
        lml_nearest_offer(near, lml_span_of(record->fields[i].name));
}

/* What the recipe asks, or a rule that takes part asks of the job itself. */
static const lml_shape *find_ask(const lml_parts *parts, lml_span name, lml_nearest *near)
{
    const lml_shape *found = lml_shape_field_named(&parts->recipe[0]->asks, name);
    offer_fields(&parts->recipe[0]->asks, near);
    for (int i = 0; i < parts->count && !found; i++) {
        found = lml_shape_field_named(&parts->recipe[i]->own, name);
        offer_fields(&parts->recipe[i]->own, near);
    }
    return found;
}

/* "crucible", or "charge.crucible" of one recipe alone; `rest` is behind it then. */
static const lml_shape *find_setting(const lml_parts *parts, lml_span name, lml_span *rest,
                                     lml_nearest *near)
{
    for (int i = 0; i < parts->count; i++) {
        const lml_recipe *r = parts->recipe[i];
        lml_span left = *rest;
        const lml_shape *found = lml_shape_field_named(&r->allowances, name);
        if (found)
            return found;
        offer_fields(&r->allowances, near);
        if (!lml_span_is(name, r->name) || !lml_span_starts(left, "."))
            continue;
        left = (lml_span){left.at + 1, left.length - 1};
        found = lml_shape_field_named(&r->allowances, cut_name(&left));
        if (found) {
            *rest = left;
            return found;
        }
    }
    return NULL;
}

/* From a question to what is within it: an entry of a list, a field of a record. */
static const lml_shape *step_into(lua_State *L, const task *t, const lml_shape *shape,
                                  lml_span *rest)
{
    const lml_shape *inner = NULL;
    size_t count = count_of(*rest);
    lml_span name = *rest;
    lml_nearest near = lml_nearest_to(name);
    if (count > 0 && shape->wanted == LML_WANT_LIST) {
        inner = shape->of;
        *rest = (lml_span){rest->at + count, rest->length - count};
    } else if (lml_span_starts(*rest, ".")) {
        *rest = (lml_span){rest->at + 1, rest->length - 1};
        name = cut_name(rest);
        near = lml_nearest_to(name);
        offer_fields(shape, &near);
        inner = shape->wanted == LML_WANT_RECORD ? lml_shape_field_named(shape, name) : NULL;
        if (!inner && name.length > 0 &&
            (shape->wanted == LML_WANT_RECORD || shape->wanted == LML_WANT_BY_NAME))
            inner = shape->of;
    }
    if (!inner)
        refuse_name(L, t, name, &near);
    return inner;
}

static const lml_shape *find_field(lua_State *L, const task *t)
{
    lml_parts parts;
    lml_parts_gather(L, t->recipe, &parts);
    lml_span rest = lml_span_of(t->field);
    bool of_house = lml_span_starts(rest, HOUSE);
    if (of_house)
        rest = (lml_span){rest.at + strlen(HOUSE), rest.length - strlen(HOUSE)};
    lml_span name = cut_name(&rest);
    lml_nearest near = lml_nearest_to(name);
    const lml_shape *shape =
        of_house ? find_setting(&parts, name, &rest, &near) : find_ask(&parts, name, &near);
    if (!shape)
        refuse_name(L, t, name, &near);
    while (rest.length > 0)
        shape = step_into(L, t, shape, &rest);
    return shape;
}

static int find(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    t->shape = find_field(L, t);
    bool named = t->shape->wanted == LML_WANT_ALLOY || t->shape->wanted == LML_WANT_ASSAY;
    bool letters = t->text.length > 0 && !lml_span_digit_at(t->text, 0) && t->text.at[0] != '{';
    if (named && letters && lml_take_alloy_meant(L, t->text, t->meant, sizeof t->meant))
        t->text = lml_span_of(t->meant);
    return 0;
}

/* ---- what it comes to --------------------------------------------------------------------------
 */

static int put(lua_State *L)
{
    task *t = lua_touserdata(L, 1);
    const lml_json *node = lml_json_root(t->answer);
    lml_take_node(L, t->shape, node, t->field);
    lml_json_write_open_record(&t->w);
    lml_json_write_name(&t->w, lml_span_of("given"));
    lml_json_write_raw(&t->w, lml_json_raw(node));
    lml_result_figure_put_shown(L, &t->w, -1, "bench");
    lml_json_write_close(&t->w);
    return 0;
}

static lml_status call(lml_run *run, lua_CFunction f, task *t, lml_error *err)
{
    lua_pushcfunction(run->box.L, f);
    lua_pushlightuserdata(run->box.L, t);
    return lml_box_call(&run->box, 1, 0, err);
}

lml_status lml_answer_write(lml_run *run, const char *recipe, const char *field, const char *text,
                            lml_builder *b, lml_error *err)
{
    task t = {.recipe = recipe,
              .field = field,
              .text = lml_span_of(text),
              .w = lml_json_writer_on(b, false)};
    lml_status status = call(run, find, &t, err);
    if (status == LML_OK)
        status = lml_shape_read(b->alloc, t.shape, t.text, field,
                                lml_shelf_house(&run->engine->shelf), &t.answer, err);
    if (status == LML_OK)
        status = call(run, put, &t, err);
    lml_json_free(t.answer);
    return status == LML_OK ? lml_json_writer_end(&t.w, err) : status;
}
