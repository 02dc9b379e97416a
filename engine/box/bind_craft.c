/* craft.*: the physics of the trade for recipes. Every function takes values with units and gives values
 * with units; the sums are in engine/craft. */
#include "box/allow.h"
#include "box/bind.h"

#include "craft/mix.h"

static void push_density(lua_State *L, double density, double deviation)
{
    lml_dimension d = {.mass = 1, .length = -3};
    lml_value v = lml_quantity(density, d, lml_unit_usual(d));
    if (deviation > 0) {
        v.spread = LML_DEVIATION;
        v.low = deviation;
    }
    lml_push_value(L, &v);
}

/* craft.density(alloy): by measured excess volumes, with its spread. */
static int density(lua_State *L)
{
    lml_composition c = lml_check_composition(L, 1);
    lml_density_estimate d;
    lml_error e;
    lml_charge(L, 50);
    if (lml_mix_density(&c, &d, &e))
        return lml_raise(L, &e);
    push_density(L, d.density, d.deviation);
    return 1;
}

/* craft.plain_density(alloy): by adding the elements' volumes. */
static int plain_density(lua_State *L)
{
    lml_composition c = lml_check_composition(L, 1);
    double d;
    lml_error e;
    lml_charge(L, 50);
    if (lml_mix_plain_density(&c, &d, &e))
        return lml_raise(L, &e);
    push_density(L, d, 0);
    return 1;
}

const luaL_Reg lml_lib_craft[] = {
    {"density", density}, {"plain_density", plain_density}, {NULL, NULL}};
