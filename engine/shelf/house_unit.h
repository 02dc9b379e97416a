/* The unit in which a house prints a kind of figure: what its "units" say, and for a kind that they
 * do not name what follows from them. Fine metal is printed in the unit of mass, a difference of
 * temperatures in that of the thermometer.
 *
 *     lml_house_unit(house, LML_WANT_FINE_MASS, room);   "dwt", where mass is in dwt
 */
#ifndef LML_SHELF_HOUSE_UNIT_H
#define LML_SHELF_HOUSE_UNIT_H

#include "file/json.h"
#include "value/wanted.h"

/* Empty where the house says none. `house` may be NULL. */
lml_span lml_house_unit(const lml_json *house, lml_wanted kind, char room[LML_UNIT_TEXT]);

/* For a sentence: a figure that was rounded in g, mm, °C or Δ°C in the house's unit; any other as
 * it is, such as one that somebody wrote, a weight in carats, or what the recipe put into its unit
 * after it was rounded. */
lml_value lml_house_unit_said(const lml_json *house, const lml_value *v);

#endif
