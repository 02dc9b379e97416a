/* Datum: one value of a finished result as the text that a sheet shows.
 *
 * What has a unit already carries its text, in the house's units; nothing is computed here. A list
 * is its items with commas between, a record its names and values.
 */
#ifndef LML_SHEET_DATUM_H
#define LML_SHEET_DATUM_H

#include "file/json.h"

/* A NULL or foreign node writes nothing. */
void lml_datum_write(const lml_json *datum, lml_builder *out);

#endif
