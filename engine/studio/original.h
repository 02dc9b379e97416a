/* Original: lemel's own text that a studio's recipe or rule took the place of, as it was on the day
 * when it did.
 *
 * It is kept beside the studio's as recipes/.base/NAME.lua, where nothing reads it as a recipe.
 * Once lemel's own is another, the three texts say what is the house's change and what is lemel's.
 */
#ifndef LML_STUDIO_ORIGINAL_H
#define LML_STUDIO_ORIGINAL_H

#include "studio/find.h"

/* Keep lemel's recipe of that name as the base of the studio's; nothing where lemel has none.
 * LML_NO_WRITE and what lml_find_shipped says. */
lml_status lml_original_keep(lml_call *call, const char *name, lml_error *err);
/* Where that is: STUDIO/recipes/.base/NAME.lua. LML_NO_FILE when the path is too long. */
lml_status lml_original_place(const char *studio, const char *name, char out[LML_PATH],
                              lml_error *err);
/* What lemel changed since, and whether it can be merged with what the studio changed, appended to
 * `out` as a complaint; nothing where no base is kept or nothing changed. `text` is the studio's,
 * which the target found. */
lml_status lml_original_tell(lml_call *call, const lml_target *target, const lml_kit_text *text,
                             lml_builder *out, lml_error *err);

#endif
