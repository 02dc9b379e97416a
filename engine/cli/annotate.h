/* Annotate: what the available recipes are told, allow and give, as an editor reads it.
 *
 * Of each recipe NAME the classes job_NAME, house_NAME and gives_NAME, and work_NAME, the kind of
 * its function: `---@type work_NAME` above `work` tells an editor what `job`, `house` and `sheet`
 * are there. A rule needs no such line, since it names its point.
 *
 *     ---@class job_polish
 *     ---@field mass value The piece
 */
#ifndef LML_CLI_ANNOTATE_H
#define LML_CLI_ANNOTATE_H

#include "base/builder.h"
#include "worker/kit.h"

/* Also what the scripts give back, for `require`. Appended to what lml_api_annotations writes. A
 * recipe that cannot be read is left out. */
lml_status lml_annotate_recipes(const lml_kit *kit, lml_builder *out, lml_error *err);

#endif
