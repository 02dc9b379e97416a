#include "report/result_datum.h"

#include "base/letter.h"
#include "words/bind.h"
#include "cell/class.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/view.h"
#include "cell/what.h"
#include "run/engine.h"
#include "run/part.h"
#include "value/show.h"
#include "value/wanted.h"
#include "value/write.h"

#include <math.h>
#include <string.h>

void lml_result_datum_put_text(lua_State *L, lml_json_writer *w, int index)
{
    size_t length;
    const char *at = lua_tolstring(L, index, &length);
    lml_box_charge(L, length / 16);
    lml_json_write_text(w, (lml_span){at, length});
}

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_word(w, text);
}

/* Into a fixed buffer: all that is written of one value is short. */
typedef struct short_text {
    char text[480];
    size_t length;
} short_text;

static void *in_short(void *self, void *block, size_t old_size, size_t new_size)
{
    (void)block;
    (void)old_size;
    return new_size <= sizeof((short_text *)0)->text ? self : NULL;
}

static void write_short(void (*f)(const lml_value *, lml_builder *), const lml_value *v,
                        short_text *out)
{
    lml_alloc alloc = {in_short, out->text};
    lml_builder b = lml_builder_on(&alloc, sizeof out->text - 1);
    f(v, &b);
    out->length = b.status ? 0 : b.length;
}

static void put_short(lml_json_writer *w, const char *member,
                      void (*f)(const lml_value *, lml_builder *), const lml_value *v)
{
    short_text t;
    write_short(f, v, &t);
    name(w, member);
    lml_json_write_text(w, (lml_span){t.text, t.length});
}

/* The kind as an ask would name it: what this value could be given back as. */
static const char *kind_of(const lml_value *v)
{
    switch ((lml_kind)v->kind) {
    case LML_FINE_MASS:
        return "fine_mass";
    case LML_FINENESS_DIFFERENCE:
        return "fineness_difference";
    case LML_TIME_OF_DAY:
        return "time_of_day";
    case LML_QUANTITY:
        if (v->mode == LML_VACUUM)
            return "vacuum";
        for (int k = LML_WANT_MASS; k < LML_WANT_NUMBER; k++)
            if (lml_wanted_check((lml_wanted)k, v, NULL) == LML_OK)
                return lml_wanted_name((lml_wanted)k);
        return "quantity";
    default:
        return lml_kind_name((lml_kind)v->kind);
    }
}

static double in_unit(const lml_value *v, double amount)
{
    lml_value other = *v;
    other.amount = amount;
    return lml_write_in_unit(&other);
}

/* What a figure is calculated with again. */
static void put_amount(lml_json_writer *w, const lml_value *v)
{
    lml_json_write_member(w, "kind", kind_of(v));
    if (v->kind == LML_MONEY || v->kind > LML_MONEY) {
        put_short(w, "value", v->kind == LML_MONEY ? lml_write_amount : lml_write_value, v);
    } else if (isfinite(v->amount)) {
        char number[LML_VALUE_TEXT];
        name(w, "value");
        lml_json_write_raw(w, (lml_span){number, lml_write_number(v, number)});
    } else {
        name(w, "value");
        lml_json_write_number(w, v->amount); /* refuses it */
    }
    if (v->kind <= LML_MONEY && v->kind != LML_NUMBER)
        put_short(w, "unit", lml_write_unit, v);
}

static void put_value(lml_json_writer *w, const lml_value *v, const lml_value *shown)
{
    put_amount(w, v);
    put_short(w, "text", lml_show_value, shown);
    if (v->metal)
        lml_json_write_member(w, "metal", lml_metal_symbol((lml_metal)v->metal));
    if (v->spread == LML_DEVIATION) {
        name(w, "sd");
        lml_json_write_number(w, v->kind == LML_TEMPERATURE
                                     ? in_unit(v, v->amount + v->low) - in_unit(v, v->amount)
                                     : in_unit(v, v->low));
    } else if (v->spread == LML_BETWEEN) {
        name(w, "low");
        lml_json_write_number(w, in_unit(v, v->low));
        name(w, "high");
        lml_json_write_number(w, in_unit(v, v->high));
    }
    if (v->origin)
        lml_json_write_member(w, "origin", lml_origin_name((lml_origin)v->origin));
}

void lml_result_figures_begin(lml_result_figures *all, const lml_builder *to)
{
    all->to = to;
    for (int i = 0; i < LML_RESULT_FIGURES; i++)
        all->figure[i].length = 0;
    for (int i = 0; i < LML_RESULT_REMARKS; i++)
        all->remark[i].entry = NULL;
}

static size_t row_of(const lml_value *v)
{
    const uint64_t odd = 0x9E3779B97F4A7C15; /* 2^64 over the golden ratio: spreads the high bits */
    return (size_t)(((uint64_t)v->exact * odd) >> 32) % LML_RESULT_FIGURES;
}

/* A value, or a copy of its members if they were written before. */
static void put_figure(lua_State *L, lml_json_writer *w, const lml_value *v, const lml_value *shown)
{
    const lml_run *run = lml_run_of(L);
    lml_result_figures *all = run->figures;
    if (!all || all->to != w->to) {
        put_value(w, v, shown);
        return;
    }
    if (run->engine->wanted && run->engine->no_sheets) { /* a try reads the amount alone */
        put_amount(w, v);
        return;
    }
    size_t row = row_of(shown), place = lml_json_write_place(w);
    if (all->figure[row].length > 0 && memcmp(&all->figure[row].value, v, sizeof *v) == 0 &&
        memcmp(&all->figure[row].shown, shown, sizeof *shown) == 0) {
        lml_json_write_again(w, all->figure[row].place, all->figure[row].length);
        return;
    }
    put_value(w, v, shown);
    if (w->status || w->to->status)
        return;
    all->figure[row].value = *v;
    all->figure[row].shown = *shown;
    all->figure[row].place = place;
    all->figure[row].length = w->to->length - place;
}

static void put_alloy(lml_json_writer *w, const lml_alloy *a, const char *kind)
{
    lml_json_write_member(w, "kind", kind);
    lml_json_write_member(w, "value", a->name);
    lml_json_write_member(w, "text", a->name[0] ? a->name : "an alloy given by its composition");
    name(w, "composition");
    lml_json_write_open_record(w);
    for (int m = 1; m < LML_METALS; m++) {
        if (a->composition.part[m] > 0) {
            name(w, lml_metal_symbol((lml_metal)m));
            lml_json_write_number(w, a->composition.part[m] * 1000);
        }
    }
    lml_json_write_close(w);
    name(w, "density");
    lml_json_write_number(w, a->density / 1000);
}

static void put_datum(lua_State *L, lml_json_writer *w, int index, const lml_value *shown,
                      int depth);

/* A result is read again, and a name with invisible characters would not be accepted. */
static void check_name(lua_State *L, lml_span at)
{
    uint32_t code = 0;
    lml_box_charge(L, at.length / 16);
    if (lml_letter_find_hidden(at, "", &code) < at.length)
        lml_raise_text(L, LML_BAD_RECIPE, "a name in a result contains %s (U+%04X): remove it",
                       lml_letter_fault(code), (unsigned)code);
}

static void put_table(lua_State *L, lml_json_writer *w, int index, int depth)
{
    bool list = lml_class_test(L, index, LML_CLASS_LIST);
    if (!list &&
        !lml_class_test(L, index, LML_CLASS_RECORD)) /* a plain table: a list when it has items */
        list = lua_istable(L, index) && lua_rawlen(L, index) > 0;
    lml_view_push_content(L, index, "a result");
    int content = lua_gettop(L);
    lml_json_write_member(w, "kind", list ? "list" : "record");
    name(w, "value");
    lua_Integer count =
        list ? (lua_Integer)lua_rawlen(L, content) : lml_key_push_sorted(L, content);
    if (list)
        lml_json_write_open_list(w);
    else
        lml_json_write_open_record(w);
    for (lua_Integer i = 1; i <= count; i++) {
        if (list) {
            lua_rawgeti(L, content, i);
        } else {
            lua_rawgeti(L, content + 1, i);
            lml_what_push_text(L, -1);
            size_t length;
            const char *at = lua_tolstring(L, -1, &length);
            check_name(L, (lml_span){at, length});
            lml_json_write_name(w, (lml_span){at, length});
            lua_pop(L, 1);
            lua_rawget(L, content);
        }
        lml_json_write_open_record(w);
        put_datum(L, w, -1, NULL, depth + 1);
        lml_json_write_close(w);
        lua_pop(L, 1);
    }
    lml_json_write_close(w);
    lua_settop(L, content - 1);
}

/* The members of a datum; the record is open. `shown` is the value in the unit of a sheet, or NULL.
 */
static void put_datum(lua_State *L, lml_json_writer *w, int index, const lml_value *shown,
                      int depth)
{
    index = lua_absindex(L, index);
    lml_box_need_stack(L, 12);
    lml_box_charge(L, 10);
    if (depth > LML_PART_DEEP)
        lml_raise_text(L, LML_BAD_RECIPE, "a result is nested deeper than %d", LML_PART_DEEP);
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    const lml_assay *assay = lml_class_test(L, index, LML_CLASS_ASSAY);
    if (v) {
        put_figure(L, w, v, shown ? shown : v);
    } else if (alloy) {
        put_alloy(w, alloy, "alloy");
    } else if (assay) {
        lml_alloy as_alloy;
        memset(&as_alloy, 0, sizeof as_alloy);
        as_alloy.composition = assay->found;
        put_alloy(w, &as_alloy, "assay");
    } else if (lua_type(L, index) == LUA_TNUMBER) {
        lml_value n = lml_value_number(lua_tonumber(L, index));
        put_figure(L, w, &n, &n);
    } else if (lua_isboolean(L, index)) {
        lml_json_write_member(w, "kind", "yes_no");
        name(w, "value");
        lml_json_write_yes_no(w, lua_toboolean(L, index));
        lml_json_write_member(w, "text", lua_toboolean(L, index) ? "yes" : "no");
    } else if (lua_type(L, index) == LUA_TSTRING) {
        lml_json_write_member(w, "kind", "text");
        name(w, "value");
        lml_result_datum_put_text(L, w, index);
    } else {
        put_table(L, w, index, depth);
    }
}

void lml_result_datum_put(lua_State *L, lml_json_writer *w, int index, const lml_value *shown)
{
    put_datum(L, w, index, shown, 0);
}

bool lml_result_datum_put_field(lua_State *L, lml_json_writer *w, int table, const char *field)
{
    bool there = lua_getfield(L, table, field) == LUA_TSTRING;
    if (there) {
        name(w, field);
        lml_result_datum_put_text(L, w, -1);
    }
    lua_pop(L, 1);
    return there;
}
