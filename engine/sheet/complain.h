/* Complain: prints an error.
 *
 *     jobs/vesna.json:14: old_metal[2].gross: "11,2 g" has a comma
 *       11,2 g
 *         ^
 *       write 11.2 g
 *       in recipes/quote.lua:41
 *
 * The message first, then the user's own words with what is wrong underlined, the fix, and where it
 * is. Without colour; control characters print as '?'.
 */
#ifndef LML_SHEET_COMPLAIN_H
#define LML_SHEET_COMPLAIN_H

#include "base/text.h"

void lml_complain_write(const lml_error *error, lml_builder *out);

#endif
