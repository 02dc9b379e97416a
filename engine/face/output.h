/* Output: hands a built text to the caller.
 *
 *     lml_builder b = lml_builder_on(&engine->alloc, engine->limits.result);
 *     lml_status status = write(&b, err);
 *     return lml_output_take(&b, status, out, err);
 */
#ifndef LML_FACE_OUTPUT_H
#define LML_FACE_OUTPUT_H

#include "base/text.h"
#include "lemel.h"

/* Hand the builder's text over, or free it if `status` or its own status is not LML_OK. `out` may
 * be NULL. */
lml_status lml_output_take(lml_builder *b, lml_status status, lml_text *out, lml_error *err);

#endif
