/* Alloys in files.
 *
 * An alloy is a name (a text, looked up by the caller, who has the stock) or a record:
 *
 *     { "composition": { "Au": "585 ‰", "Ag": "125 ‰", "Cu": "290 ‰" }, "density": "13.3 g/cm3",
 *       "solidus": "850 °C", "liquidus": "890 °C" }
 */
#ifndef LML_FILE_ALLOY_READ_H
#define LML_FILE_ALLOY_READ_H

#include "file/shape.h"
#include "value/alloy.h"

extern const lml_shape lml_alloy_read_shape; /* the record of an alloy */
/* A fineness of the metal that is its key; only the check of the whole record knows that. */
extern const lml_shape lml_alloy_read_part;

/* Whether the node of an ALLOY is a name to be looked up. */
bool lml_alloy_read_is_name(const lml_json *node);
/* Read the record. `name` of the result is its own name, or empty. LML_BAD_DATA, LML_BAD_VALUE. */
lml_status lml_alloy_read(const lml_json *node, lml_alloy *out, lml_error *err);
/* Read the finenesses of a record by metal, and their spreads. */
lml_status lml_alloy_read_parts(const lml_json *record, lml_composition *parts,
                                lml_composition *deviation, lml_error *err);

#endif
