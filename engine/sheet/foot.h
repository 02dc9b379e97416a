/* Foot: what a page says about the whole result at its head and foot: what is stopped, what was
 * assumed, and which recipes were used.
 *
 * Each writes one sentence or list without a line end, or nothing where there is nothing to say.
 */
#ifndef LML_SHEET_FOOT_H
#define LML_SHEET_FOOT_H

#include "file/json.h"

/* `words` and the codes of the remarks of that level: "Stops: flask/blind-end, need/crucible." What
 * comes between here and the stop itself, however long, cannot hide it. */
void lml_foot_write_codes(const lml_json *result, const char *level, const char *words,
                          lml_builder *out);
/* What heads a page of a result that withholds figures. A point to confirm is no stop. */
const char *lml_foot_banner(const lml_json *result, bool working);
/* "2 stops and 1 open point on this job: see above." */
void lml_foot_write_count(const lml_json *result, lml_builder *out);
/* "Assumed: need.skull 0.3 g; wax_density 0.96 g/cm3. quote.band 3 %; ...": what nobody here has
 * set, each recipe named once. */
void lml_foot_write_assumed(const lml_json *result, lml_builder *out);
/* "Changed by a recipe: quote.margin 40 % (the house says 30 %); ...": what a recipe puts in the
 * place of a figure that the job or the house says, where it uses another recipe. */
void lml_foot_write_changed(const lml_json *result, lml_builder *out);
/* Where the bench has no room for the lists: how many there are, and where. */
void lml_foot_write_short(const lml_json *result, lml_builder *out);
/* Which rules answered is printed with them. */
void lml_foot_write_house_rules(const lml_json *result, lml_builder *out);
/* "Worked by remake 1.0.0, need 1.2.0 with lemel 0.2.0". */
void lml_foot_write_worked(const lml_json *result, lml_builder *out);

#endif
