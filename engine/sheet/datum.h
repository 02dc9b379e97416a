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

/* For a reader of a page a difference is in its plain unit: "180 °C/h" for "180 Δ°C/h". What is
 * typed into a file keeps its mark. */
void lml_datum_put(const lml_json *datum, lml_builder *out);

/* Where such a mark begins a unit, behind a number and a blank or at the start of the text, how
 * long it is; else 0. */
size_t lml_datum_mark_at(lml_span text, size_t at);

#endif
