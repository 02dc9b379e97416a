/* What the bindings of craft.* share: named arguments in, quantities and records out.
 *
 *     double mass, time = 0;
 *     const lml_argument due[] = {{"mass", LML_WANT_MASS, &mass}, {"time", LML_WANT_TIME, &time,
 * true}}; lml_bind_craft_take_arguments(L, 1, "craft.heat_needed", due, 2);
 */
#ifndef LML_WORDS_BIND_CRAFT_H
#define LML_WORDS_BIND_CRAFT_H

#include "words/bind.h"

extern const lml_dimension lml_bind_craft_density, lml_bind_craft_heat_capacity,
    lml_bind_craft_heat, lml_bind_craft_diffusivity;

/* One of `out`, `text` and `flag` says where it goes; an argument with none is read by the caller.
 */
typedef struct lml_argument {
    const char *name;
    lml_wanted wanted; /* LML_WANT_ANYTHING: a quantity of `dimension` */
    double *out;       /* in SI */
    const char **text; /* valid as long as the table holds it */
    bool *flag;        /* true or false */
    bool optional;     /* where it goes is left alone when it is not given */
    const lml_dimension *dimension;
    double *deviation; /* one standard deviation, set when the value has one; may be NULL */
    const char *example;
} lml_argument;

/* Read the members of the table at index. A member that is not listed is refused with the nearest
 * name, one that is needed and missing by its name. Raises. */
void lml_bind_craft_take_arguments(lua_State *L, int index, const char *who,
                                   const lml_argument *list, size_t count);
/* The amount of the quantity at index, which must be of this dimension. Raises naming `argument`.
 */
double lml_bind_craft_check_quantity(lua_State *L, int index, lml_dimension dimension,
                                     const char *argument, const char *example);

/* Push an amount in the dimension's usual unit; with its deviation when that is above 0. */
void lml_bind_craft_push_quantity(lua_State *L, double amount, lml_dimension dimension);
void lml_bind_craft_push_spread(lua_State *L, double amount, double deviation,
                                lml_dimension dimension);
void lml_bind_craft_push_ratio(lua_State *L, double ratio);
void lml_bind_craft_push_celsius(lua_State *L, double kelvin, double deviation);
/* lua_setfield of such a value in the table on top. */
void lml_bind_craft_set_quantity(lua_State *L, const char *name, double amount,
                                 lml_dimension dimension);

#endif
