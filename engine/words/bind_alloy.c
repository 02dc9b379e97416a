/* Alloys and assays in Lua: made from tables, read by name, never changed. */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/key.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/trace.h"
#include "cell/word.h"
#include "words/bind.h"
#include "cell/view.h"
#include "cell/what.h"

#include "craft/melting.h"
#include "craft/mix.h"
#include "file/shape.h"
#include "read/memo.h"
#include "value/wanted.h"

#include <stdio.h>
#include <string.h>

void lml_bind_push_alloy(lua_State *L, const lml_alloy *alloy)
{
    lml_alloy *block = lml_class_new(L, LML_CLASS_ALLOY, sizeof *block, 0);
    *block = *alloy;
}

void lml_bind_push_assay(lua_State *L, const lml_assay *assay)
{
    lml_assay *block = lml_class_new(L, LML_CLASS_ASSAY, sizeof *block, 0);
    *block = *assay;
}

const lml_alloy *lml_bind_check_alloy(lua_State *L, int index)
{
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    if (!alloy)
        lml_raise_text(L, LML_BAD_RECIPE, "an alloy is needed, but %s was given",
                       lml_what_is(L, index));
    return alloy;
}

/* ---- reading a table ---------------------------------------------------------------------------
 */

/* The member `name` of the table at index as a value of the wanted kind; false when it is absent.
 */
static lml_status member(lua_State *L, int index, const char *name, lml_wanted wanted,
                         bool *present, lml_value *out, lml_error *err)
{
    lml_status status = LML_OK;
    *present = lml_view_get_member(L, index, name);
    const lml_value *v = lml_class_test(L, -1, LML_CLASS_VALUE);
    if (v) {
        status = lml_wanted_check(wanted, v, err);
        if (!status)
            *out = *v;
    } else if (lua_type(L, -1) == LUA_TSTRING) {
        status = lml_memo_read(lml_box_of(L)->memo, lml_what_need_text(L, -1, name), wanted,
                               LML_NO_METAL, out, err);
    } else if (*present) {
        status = lml_fail(err, LML_BAD_VALUE, "%s must be a text such as \"%s\"",
                          lml_wanted_words(wanted), lml_wanted_example(wanted));
    }
    lua_pop(L, 1);
    return lml_error_context(err, status, "in %s", name);
}

/* One part of a composition: "750 ‰", or a fineness of that metal, with the metal's own symbol. */
static lml_status part_at(lua_State *L, int index, lml_metal metal, lml_value *out, lml_error *err)
{
    const lml_value *v = lml_class_test(L, index, LML_CLASS_VALUE);
    if (v && v->kind == LML_FINENESS && v->metal == metal) {
        *out = *v;
        return LML_OK;
    }
    if (v || lua_type(L, index) != LUA_TSTRING)
        return lml_fail(err, LML_BAD_VALUE, "a part of %s must be a text such as \"750 ‰\"",
                        lml_metal_name(metal));
    return lml_memo_read(lml_box_of(L)->memo, lml_what_need_text(L, index, "a fineness"),
                         LML_WANT_FINENESS, metal, out, err);
}

static bool is_no_metal(lua_State *L, const void *self)
{
    (void)self;
    return !lua_islightuserdata(L, -1) && /* an absent one may have any name */
           (lua_type(L, -2) != LUA_TSTRING ||
            !lml_metal_by_symbol(lml_what_need_text(L, -2, "a symbol")));
}

static lml_status composition_at(lua_State *L, int index, lml_composition *parts,
                                 lml_composition *deviations, lml_error *err)
{
    index = lua_absindex(L, index);
    memset(parts, 0, sizeof *parts);
    memset(deviations, 0, sizeof *deviations);
    if (lml_key_find_odd(L, index, is_no_metal, NULL)) {
        lml_what_push_text(L, -1);
        lml_fail(err, LML_BAD_VALUE, "'%s' is not the symbol of a metal", lua_tostring(L, -1));
        lml_error_hint(err, "write Au, Ag, Cu, Zn, Ni, Pd, Pt ...");
        lua_pop(L, 2);
        return LML_BAD_VALUE;
    }
    for (lml_metal metal = 1; metal < LML_METALS; metal++) {
        lml_value v;
        if (lml_view_get_member(L, index, lml_metal_symbol(metal))) {
            lml_status status = part_at(L, -1, metal, &v, err);
            if (status) {
                lua_pop(L, 1);
                return status;
            }
            parts->part[metal] = v.amount;
            deviations->part[metal] = lml_value_deviation(&v);
        }
        lua_pop(L, 1);
    }
    return LML_OK;
}

static lml_known take(bool present, const lml_value *v, double *out)
{
    if (present)
        *out = v->amount;
    return present ? LML_GIVEN : LML_UNKNOWN;
}

/* The text member, fit to be printed; what does not fit is cut at a whole character. */
static void copy_text(lua_State *L, int index, const char *name, char *out, size_t size)
{
    if (lml_view_get_member(L, index, name)) {
        lml_view_push_clean(L, -1, name, LML_TEXT_MOST);
        size_t length;
        const char *text = lua_tolstring(L, -1, &length);
        if (length >= size)
            for (length = size - 1; length > 0 && ((unsigned char)text[length] & 0xc0) == 0x80;)
                length--;
        memcpy(out, text, length);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
}

lml_status lml_bind_alloy_complete(lml_alloy *alloy, lml_error *err)
{
    lml_status status = LML_OK;
    if (alloy->density_known == LML_UNKNOWN) {
        lml_density_estimate d;
        if ((status = lml_mix_density(&alloy->composition, &d, err)))
            return status;
        alloy->density = d.density;
        alloy->density_deviation = d.deviation;
        alloy->density_known = LML_CALCULATED;
    }
    if (alloy->liquid_density_known == LML_UNKNOWN) {
        status = lml_mix_plain_liquid_density(alloy->density, &alloy->liquid_density, err);
        if (!status)
            alloy->liquid_density_known = LML_CALCULATED;
    }
    return status;
}

static const lml_wanted RANGE_KIND[] = {[LML_ALLOY_POUR] = LML_WANT_TEMPERATURE,
                                        [LML_ALLOY_FLASK] = LML_WANT_TEMPERATURE,
                                        [LML_ALLOY_QUENCH] = LML_WANT_TIME,
                                        [LML_ALLOY_SUPERHEAT] = LML_WANT_TEMPERATURE_DIFFERENCE};

static lml_status ranges_at(lua_State *L, int index, lml_alloy *a, lml_error *err)
{
    for (int i = 0; i < LML_ALLOY_RANGES; i++) {
        const char *name = lml_alloy_range_name((lml_alloy_range)i);
        lml_value v;
        bool present;
        lml_status status = member(L, index, name, RANGE_KIND[i], &present, &v, err);
        if (!status && present)
            status =
                lml_error_context(err, lml_alloy_range_of(&v, &a->range[i], err), "in %s", name);
        if (status)
            return status;
    }
    return LML_OK;
}

lml_status lml_bind_alloy_from_table(lua_State *L, int index, lml_alloy *out, lml_error *err)
{
    index = lua_absindex(L, index);
    lml_alloy a;
    memset(&a, 0, sizeof a);
    copy_text(L, index, "name", a.name, sizeof a.name);
    copy_text(L, index, "source", a.source, sizeof a.source);

    lml_view_get_member(L, index, "composition");
    lml_composition deviations;
    lml_status status;
    if (lml_view_test_content(L, -1)) {
        status = composition_at(L, -1, &a.composition, &deviations, err);
        lua_pop(L, 1);
    } else {
        status = lml_fail(err, LML_BAD_VALUE, "an alloy needs its composition");
        lml_error_hint(err,
                       "write composition = { Au = \"750 ‰\", Ag = \"125 ‰\", Cu = \"125 ‰\" }");
    }
    lua_pop(L, 1);
    if (!status)
        status = lml_composition_check(&a.composition, err);
    if (status)
        return lml_error_context(err, status, "in composition");

    lml_value v = {0};
    bool present;
    if ((status = member(L, index, "density", LML_WANT_DENSITY, &present, &v, err)))
        return status;
    a.density_known = take(present, &v, &a.density);
    if (present)
        a.density_deviation = lml_value_deviation(&v);
    if ((status = member(L, index, "liquid_density", LML_WANT_DENSITY, &present, &v, err)))
        return status;
    a.liquid_density_known = take(present, &v, &a.liquid_density);
    if ((status = member(L, index, "solidus", LML_WANT_TEMPERATURE, &present, &v, err)))
        return status;
    a.solidus_known = take(present, &v, &a.solidus);
    if ((status = member(L, index, "liquidus", LML_WANT_TEMPERATURE, &present, &v, err)))
        return status;
    a.liquidus_known = take(present, &v, &a.liquidus);
    if ((status = ranges_at(L, index, &a, err)))
        return status;
    if ((status = lml_alloy_check(&a, err)) || (status = lml_bind_alloy_complete(&a, err)))
        return status;
    *out = a;
    return LML_OK;
}

lml_status lml_bind_assay_from_table(lua_State *L, int index, lml_assay *out, lml_error *err)
{
    lml_assay a;
    lml_status status = composition_at(L, index, &a.found, &a.deviation, err);
    if (!status)
        status = lml_assay_check(&a, err);
    if (!status)
        *out = a;
    return status;
}

lml_composition lml_bind_check_composition(lua_State *L, int index)
{
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    const lml_assay *assay = lml_class_test(L, index, LML_CLASS_ASSAY);
    if (alloy || assay)
        return alloy ? alloy->composition : assay->found;
    lml_composition parts, deviations;
    lml_error e;
    lml_view_push_content(L, index, "a composition");
    if (composition_at(L, -1, &parts, &deviations, &e))
        lml_raise(L, &e);
    lua_pop(L, 1);
    return parts;
}

lml_assay lml_bind_check_assay(lua_State *L, int index)
{
    const lml_alloy *alloy = lml_class_test(L, index, LML_CLASS_ALLOY);
    const lml_assay *assay = lml_class_test(L, index, LML_CLASS_ASSAY);
    if (assay)
        return *assay;
    if (alloy)
        return (lml_assay){.found = alloy->composition};
    lml_assay read;
    lml_error e;
    lml_view_push_content(L, index, "an assay");
    if (lml_bind_assay_from_table(L, -1, &read, &e))
        lml_raise(L, &e);
    lua_pop(L, 1);
    return read;
}

/* ---- makers ------------------------------------------------------------------------------------
 */

static int make_alloy(lua_State *L)
{
    lml_view_push_content(L, 1, "alloy");
    lml_alloy a;
    lml_error e;
    lml_box_charge(L, 200);
    if (lml_bind_alloy_from_table(L, -1, &a, &e)) {
        char name[sizeof a.name] = "";
        copy_text(L, -1, "name", name, sizeof name);
        if (name[0])
            lml_error_context(&e, e.status, "in the alloy '%s'", name);
        return lml_raise(L, &e);
    }
    lml_bind_push_alloy(L, &a);
    return 1;
}

static int make_assay(lua_State *L)
{
    lml_view_push_content(L, 1, "assay");
    lml_assay a;
    lml_error e;
    lml_box_charge(L, 100);
    if (lml_bind_assay_from_table(L, -1, &a, &e))
        return lml_raise(L, &e);
    lml_bind_push_assay(L, &a);
    return 1;
}

const lml_word lml_bind_alloy[] = {
    {"alloy", make_alloy, "made: table", "alloy", "An alloy from its composition.",
     "alloy { composition = { Au = \"750 ‰\", Ag = \"250 ‰\" } }:fineness \"Au\"", "750 ‰ Au"},
    {"assay", make_assay, "found: table", "assay",
     "What was found in a piece; the rest is unnamed.",
     "assay({ Au = \"585 ‰\" }).unnamed:nearest \"0.1 %\"", "41.5 %"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

/* ---- reading -----------------------------------------------------------------------------------
 */

static void push_density(lua_State *L, double density, double deviation, lml_known known)
{
    lml_dimension d = {.mass = 1, .length = -3};
    lml_value v = lml_value_quantity(density, d, lml_unit_usual(d));
    if (deviation > 0) {
        v.spread = LML_DEVIATION;
        v.low = deviation;
    }
    v.origin = known == LML_CALCULATED ? LML_ESTIMATED : LML_UNSTATED;
    lml_figure_push(L, &v);
}

static void push_melting(lua_State *L, double kelvin, lml_known known)
{
    if (known == LML_UNKNOWN) {
        lua_pushnil(L);
        return;
    }
    lml_value v = {.kind = LML_TEMPERATURE, .decimals = LML_SHORTEST};
    lml_dimension d;
    lml_unit_read(lml_span_of("°C"), &v.unit, &d, NULL);
    v.amount = kelvin;
    v.origin = known == LML_CALCULATED ? LML_ESTIMATED : LML_UNSTATED;
    lml_figure_push(L, &v);
}

/* What may be anywhere between the two ends, in the unit of the sheet; nil where no sheet says it.
 */
static void push_range(lua_State *L, const lml_range *r, lml_alloy_range which)
{
    static const lml_dimension time = {.time = 1}, difference = {.temperature = 1};
    lml_value v = {.kind =
                       RANGE_KIND[which] == LML_WANT_TEMPERATURE ? LML_TEMPERATURE : LML_QUANTITY,
                   .unit = r->unit,
                   .decimals = LML_SHORTEST};
    if (!r->given) {
        lua_pushnil(L);
        return;
    }
    if (v.kind == LML_QUANTITY)
        v.dimension = which == LML_ALLOY_QUENCH ? time : difference;
    v.amount = (r->low + r->high) / 2;
    if (r->low < r->high) {
        v.spread = LML_BETWEEN;
        v.low = r->low;
        v.high = r->high;
    }
    lml_figure_push(L, &v);
}

/* Whether the name is that of a range; which it is. */
static bool is_range(lml_span name, lml_alloy_range *which)
{
    for (int i = 0; i < LML_ALLOY_RANGES; i++)
        if (lml_span_is(name, lml_alloy_range_name((lml_alloy_range)i))) {
            *which = (lml_alloy_range)i;
            return true;
        }
    return false;
}

/* alloy:fineness "Au" */
static int composition_fineness(lua_State *L)
{
    const lml_assay *assay = lml_class_test(L, 1, LML_CLASS_ASSAY);
    lml_composition parts = lml_bind_check_composition(L, 1);
    lml_metal metal = lml_what_metal(L, 2);
    lml_value v = lml_composition_fineness(&parts, metal);
    if (assay && assay->deviation.part[metal] > 0) {
        v.spread = LML_DEVIATION;
        v.low = assay->deviation.part[metal];
    }
    lml_figure_push(L, &v);
    return 1;
}

const lml_word lml_bind_alloy_methods[] = {
    {"fineness", composition_fineness, "metal: string", "value",
     "The fineness of an alloy or an assay in that metal.",
     "alloy { composition = { Au = \"750 ‰\", Ag = \"250 ‰\" } }:fineness \"Ag\"", "250 ‰ Ag"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};

static void push_fineness(lua_State *L)
{
    lua_pushcfunction(L, composition_fineness);
    lml_trace_wrap_one(L, "fineness");
}

static void push_metals(lua_State *L, const lml_composition *c)
{
    lua_newtable(L);
    for (int m = 1; m < LML_METALS; m++) {
        if (c->part[m] > 0) {
            lml_value v = lml_composition_fineness(c, (lml_metal)m);
            lml_figure_push(L, &v);
            lua_setfield(L, -2, lml_metal_symbol((lml_metal)m));
        }
    }
}

/* The melting range if none was given, where the model applies. It takes a thousand times as long
 * as a density, so it is calculated when it is first read, and kept. */
static const lml_alloy *with_melting(lua_State *L)
{
    lml_alloy *a = lml_class_test(L, 1, LML_CLASS_ALLOY);
    lml_melting m;
    if (a->solidus_known != LML_UNKNOWN || a->liquidus_known != LML_UNKNOWN)
        return a;
    lml_box_charge(L, 20000);
    if (lml_melting_range(&a->composition, &m, NULL) == LML_OK) {
        a->solidus = m.solidus;
        a->liquidus = m.liquidus;
        a->solidus_known = a->liquidus_known = LML_CALCULATED;
    }
    return a;
}

static int alloy_index(lua_State *L)
{
    const lml_alloy *a = lml_bind_check_alloy(L, 1);
    lml_span name = lml_what_need_text(L, 2, "a name");
    lml_alloy_range which;
    if (lml_span_is(name, "name"))
        lua_pushstring(L, a->name);
    else if (lml_span_is(name, "source"))
        lua_pushstring(L, a->source);
    else if (lml_span_is(name, "density"))
        push_density(L, a->density, a->density_deviation, a->density_known);
    else if (lml_span_is(name, "liquid_density"))
        push_density(L, a->liquid_density, 0, a->liquid_density_known);
    else if (lml_span_is(name, "solidus") || lml_span_is(name, "liquidus")) {
        a = with_melting(L);
        if (lml_span_is(name, "solidus"))
            push_melting(L, a->solidus, a->solidus_known);
        else
            push_melting(L, a->liquidus, a->liquidus_known);
    } else if (lml_span_is(name, "composition"))
        push_metals(L, &a->composition);
    else if (lml_span_is(name, "fineness"))
        push_fineness(L);
    else if (is_range(name, &which))
        push_range(L, &a->range[which], which);
    else
        return lml_raise_hint(
            L, LML_BAD_RECIPE,
            "name, density, liquid_density, solidus, liquidus, composition, source, pour, flask, "
            "quench, superheat and :fineness \"Au\"",
            "an alloy has no '%.*s'", (int)name.length, name.at);
    return 1;
}

static int assay_index(lua_State *L)
{
    const lml_assay *a = lml_class_test(L, 1, LML_CLASS_ASSAY);
    lml_span name = lml_what_need_text(L, 2, "a name");
    if (a && lml_span_is(name, "composition"))
        push_metals(L, &a->found);
    else if (a && lml_span_is(name, "fineness"))
        push_fineness(L);
    else if (a && lml_span_is(name, "unnamed")) {
        lml_value v = lml_value_ratio(a->found.part[0]);
        lml_figure_push(L, &v);
    } else
        return lml_raise_hint(L, LML_BAD_RECIPE, "composition, unnamed and :fineness \"Au\"",
                              "an assay has no '%.*s'", (int)name.length, name.at);
    return 1;
}

static int refuse_write(lua_State *L)
{
    return lml_raise_text(L, LML_BAD_RECIPE, "%s cannot be changed", lml_what_is(L, 1));
}

void lml_bind_alloy_open(lua_State *L)
{
    static const lua_CFunction index[] = {alloy_index, assay_index};
    static const lml_class class[] = {LML_CLASS_ALLOY, LML_CLASS_ASSAY};
    for (int i = 0; i < 2; i++) {
        lml_class_push(L, class[i]);
        lua_pushcfunction(L, index[i]);
        lml_trace_wrap_one(L, "its");
        lua_setfield(L, -2, "__index");
        lua_pushcfunction(L, refuse_write);
        lua_setfield(L, -2, "__newindex");
        lua_pop(L, 1);
    }
}
