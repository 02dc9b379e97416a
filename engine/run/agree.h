/* Agree: whether the lines of a part print the gives that they name.
 *
 * A line that says `of` which give it prints is withheld with that give, and read as that give. So
 * its figure must be the give's, or one in it, or one of several lines of a page that add up to it.
 *
 *     sheet.bench:line("Charge", out.charge:up_to "0.1 g", { of = "charge" })      0.1 g and less
 * is rounding sheet.bench:line("Charge", Q "3 g", { of = "charge" }) BAD_RECIPE where 29 g are
 * given
 */
#ifndef LML_RUN_AGREE_H
#define LML_RUN_AGREE_H

#include <lua.h>

/* Raises BAD_RECIPE for the first line of the part that prints something other than the give it
 * names; its recipe has ended. */
void lml_agree_check(lua_State *L, int part);

#endif
