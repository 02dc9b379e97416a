/* Original: lemel's own text that a studio's recipe or rule replaced, as it was on that day.
 *
 * It is kept beside the studio's as recipes/.base/NAME.lua, where nothing reads it as a recipe.
 * When lemel's own changes, the three texts show which changes are the house's and which are
 * lemel's.
 */
#ifndef LML_STUDIO_ORIGINAL_H
#define LML_STUDIO_ORIGINAL_H

#include "file/merge.h"
#include "studio/find.h"

/* What ends the lines that `lemel new rule` writes above lemel's own. */
#define LML_ORIGINAL_BELOW "-- Below is lemel's own answer.\n"

/* Keep lemel's recipe of that name as the base of the studio's; nothing where lemel has none.
 * LML_NO_WRITE and what lml_find_shipped says. */
lml_status lml_original_keep(lml_call *call, const char *name, lml_error *err);
/* Where that is: STUDIO/recipes/.base/NAME.lua. LML_NO_FILE when the path is too long. */
lml_status lml_original_place(const char *studio, const char *name, char out[LML_PATH],
                              lml_error *err);
/* Lemel's changes and the studio's put together, below what `lemel new rule` wrote above them. As
 * lml_merge_texts. */
lml_status lml_original_merge(const lml_alloc *alloc, lml_span was, lml_span ours, lml_span now,
                              lml_merge *out, lml_error *err);
/* What lemel changed since, and whether it can be merged with what the studio changed, appended to
 * `out` as a complaint; of a copy whose base is not kept how it differs from lemel's own today.
 * `text` is the studio's, which the target found. */
lml_status lml_original_tell(lml_call *call, const lml_target *target, const lml_kit_text *text,
                             lml_builder *out, lml_error *err);
/* The same in a sentence, for who asks about something else: a job or the house. */
lml_status lml_original_mention(lml_call *call, const lml_target *target, const lml_kit_text *text,
                                lml_builder *out, lml_error *err);
/* Keep lemel's own as the base of the studio's unless one is kept already: what a studio wrote or
 * copied by hand has one from the day when it is first proved. */
lml_status lml_original_keep_first(lml_call *call, const char *studio, const lml_kit_text *own,
                                   lml_error *err);

#endif
