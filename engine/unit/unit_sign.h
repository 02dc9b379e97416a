/* Currency signs, which are refused with the letters to write instead.
 */
#ifndef LML_UNIT_UNIT_SIGN_H
#define LML_UNIT_UNIT_SIGN_H

#include "base/text.h"

/* Refuse `word` when the sign of a currency ($, €) starts it; LML_OK when not. */
lml_status lml_unit_sign_check(lml_span whole, lml_span word, lml_error *err);

#endif
