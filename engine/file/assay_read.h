/* Assays in files.
 *
 * An assay is a name, a fineness ("579 ‰ Au ± 5 ‰") or a record of metal and fineness: { "Au": "579
 * ‰ ± 5 ‰", "Ag": "90 ‰" }. A text that can be read as a value is not a name; "14K" is a fineness,
 * "14K yellow" a name.
 */
#ifndef LML_FILE_ASSAY_READ_H
#define LML_FILE_ASSAY_READ_H

#include "file/shape.h"
#include "value/alloy.h"

extern const lml_shape lml_assay_read_shape; /* the record of an assay */

/* Whether the text of an ASSAY is a name to look up. `memo` may be NULL. */
bool lml_assay_read_is_name(lml_span text, struct lml_memo *memo);
/* Read a record or a fineness; `metal` is that of a bare fineness. */
lml_status lml_assay_read(const lml_json *node, lml_metal metal, lml_assay *out, lml_error *err);

#endif
