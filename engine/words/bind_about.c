/* The methods that say what a value is: its zero, its sign, its currency, what a price is per; the
 * day, the month and the year of a moment. Of level 2. */
#include "cell/class.h"
#include "cell/figure.h"
#include "cell/raise.h"
#include "cell/state.h"
#include "cell/what.h"
#include "cell/word.h"
#include "words/bind.h"

#include "unit/currency.h"
#include "value/arithmetic.h"
#include "value/compare.h"
#include "value/moment.h"

#include <string.h>

enum { METHOD = 15 };

static const lml_value *self(lua_State *L)
{
    lml_box_charge(L, METHOD);
    const lml_value *v = lml_class_test(L, 1, LML_CLASS_VALUE);
    if (!v)
        lml_raise_hint(L, LML_BAD_RECIPE, "call it with a colon: value:sign()",
                       "a value is needed before the colon, but %s was given", lml_what_is(L, 1));
    return v;
}

/* Of a temperature, a fineness or a moment nothing is no amount of it. */
static lml_value zero_of(lua_State *L, const lml_value *v)
{
    lml_value nothing = lml_value_number(0), out;
    lml_error e;
    if (lml_arithmetic_mul(v, &nothing, &out, &e))
        lml_raise_hint(L, LML_MISMATCH,
                       "its zero does not mean nothing: compare it with a value of its kind",
                       "%s has no zero and no sign", lml_what_is(L, 1));
    if (out.kind != LML_MONEY)
        out.amount = 0; /* a negative amount makes a zero with a sign */
    return out;
}

static int value_zero(lua_State *L)
{
    lml_value out = zero_of(L, self(L));
    lml_figure_push(L, &out);
    return 1;
}

static int value_sign(lua_State *L)
{
    const lml_value *v = self(L);
    lml_value zero = zero_of(L, v);
    lml_error e;
    int order;
    if (lml_compare(v, &zero, &order, &e))
        return lml_raise(L, &e);
    lua_pushinteger(L, order);
    return 1;
}

static int value_currency(lua_State *L)
{
    const lml_value *v = self(L);
    uint16_t currency = v->dimension.currency;
    if (currency)
        lua_pushstring(L, lml_currency_at(currency)->code);
    else
        lua_pushnil(L);
    return 1;
}

/* "g" of 98.50 USD/g: the unit as it is written. */
static int value_per(lua_State *L)
{
    const lml_value *v = self(L);
    char unit[LML_UNIT_TEXT];
    if (v->kind != LML_QUANTITY || v->dimension.money != 1) {
        lua_pushnil(L);
        return 1;
    }
    lml_unit_write(v->unit, v->dimension.currency, unit);
    const char *slash = strchr(unit, '/');
    lua_pushstring(L, slash ? slash + 1 : "");
    return 1;
}

static lml_civil civil(lua_State *L)
{
    const lml_value *v = self(L);
    if (v->kind != LML_MOMENT)
        lml_raise_text(L, LML_BAD_RECIPE, "a moment is needed, but %s was given",
                       lml_what_is(L, 1));
    return lml_moment_civil(v);
}

static int moment_year(lua_State *L)
{
    lua_pushinteger(L, civil(L).year);
    return 1;
}

static int moment_month(lua_State *L)
{
    lua_pushinteger(L, civil(L).month);
    return 1;
}

static int moment_day(lua_State *L)
{
    lua_pushinteger(L, civil(L).day);
    return 1;
}

const lml_word lml_bind_about[] = {
    {"currency", value_currency, "", "string?",
     "The three letters of the currency of a money or a price; of anything else nil.",
     "Q(\"98.50 USD/g\"):currency()", "USD"},
    {"day", moment_day, "", "number", "The day of the month of a moment.",
     "Q(\"2026-11-24\"):day()", "24"},
    {"month", moment_month, "", "number", "The month of a moment, 1 to 12.",
     "Q(\"2026-11-24\"):month()", "11"},
    {"per", value_per, "", "string?", "The unit that a price is per; of anything else nil.",
     "Q(\"98.50 USD/g\"):per()", "g"},
    {"sign", value_sign, "", "number", "1 if positive, 0 if zero, -1 if negative.",
     "(Q \"2 g\" - Q \"5 g\"):sign()", "-1"},
    {"year", moment_year, "", "number", "The year of a moment.", "Q(\"2026-11-24\"):year()",
     "2026"},
    {"zero", value_zero, "", "value", "Zero of its kind, in its unit or its currency.",
     "Q(\"12.50 USD\"):zero()", "0.00 USD"},
    {NULL, NULL, NULL, NULL, NULL, NULL, NULL}};
