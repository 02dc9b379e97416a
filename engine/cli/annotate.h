/* Annotate: what the available recipes ask, allow and give, for an editor.
 *
 * For each recipe NAME the classes job_NAME, house_NAME and gives_NAME, and work_NAME, the type of
 * its function: `---@type work_NAME` above `work` tells an editor what `job`, `house` and `sheet`
 * are. A rule needs no such line, since it names its point.
 *
 *     ---@class job_polish
 *     ---@field mass value The piece
 */
#ifndef LML_CLI_ANNOTATE_H
#define LML_CLI_ANNOTATE_H

#include "base/builder.h"
#include "worker/kit.h"

/* Also what the scripts return, for `require`. Appended to what lml_api_annotations writes. A
 * recipe that cannot be read is left out. */
lml_status lml_annotate_recipes(const lml_kit *kit, lml_builder *out, lml_error *err);

#endif
