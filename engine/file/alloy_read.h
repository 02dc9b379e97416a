/* Alloys and assays as files give them.
 *
 * An alloy is a name (a text, looked up by whoever has the stock) or a record:
 *
 *     { "composition": { "Au": "585 ‰", "Ag": "125 ‰", "Cu": "290 ‰" }, "density": "13.3 g/cm3",
 *       "solidus": "850 °C", "liquidus": "890 °C" }
 *
 * An assay is a name, a fineness ("579 ‰ Au ± 5 ‰") or a record of metal and fineness:
 * { "Au": "579 ‰ ± 5 ‰", "Ag": "90 ‰" }. A text that reads whole as a value is none of a name;
 * "14K" is a fineness, "14K yellow" a name.
 */
#ifndef LML_FILE_ALLOY_READ_H
#define LML_FILE_ALLOY_READ_H

#include "file/shape.h"
#include "value/alloy.h"

extern const lml_shape lml_alloy_shape; /* the record of an alloy */
extern const lml_shape lml_assay_shape; /* the record of an assay */

/* Whether the node of an ALLOY, the text of an ASSAY, is a name to look up. */
bool lml_alloy_read_is_name(const lml_json *node);
bool lml_assay_is_name(lml_span text);
/* From the record. `name` of the result is the member's own name, or empty. LML_BAD_DATA,
 * LML_BAD_VALUE. */
lml_status lml_alloy_read(const lml_json *node, lml_alloy *out, lml_error *err);
/* From a record or a fineness; `metal` is the one a bare fineness is of. */
lml_status lml_assay_read(const lml_json *node, lml_metal metal, lml_assay *out, lml_error *err);

#endif
