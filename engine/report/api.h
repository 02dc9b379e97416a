/* The words of recipes for people and editors, from the rows that register them.
 */
#ifndef LML_REPORT_API_H
#define LML_REPORT_API_H

#include "base/text.h"

/* The page docs/api.md, up to its scripts (report/api_script.h). */
void lml_api_guide(lml_builder *out);
/* Annotations as the Lua language server reads them (LuaCATS). */
void lml_api_annotations(lml_builder *out);
/* Settings of luacheck: the words that a recipe may use, and what of its style is not judged. */
void lml_api_luacheck(lml_builder *out);

#endif
