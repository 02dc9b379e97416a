/* A recipe's declaration as JSON, and a job checked against it, without running it.
 */
#ifndef LML_REPORT_DECLARE_H
#define LML_REPORT_DECLARE_H

#include "run/run.h"

/* Describe the recipe and all that it uses, refuse circles and unknown names, and check the names
 * under the job's "house" against their allowances. LML_NOT_FOUND, LML_BAD_RECIPE, LML_BAD_DATA. */
lml_status lml_declare_check(lml_run *run, const char *recipe, lml_error *err);
/* The last of these for one member of the job's "house". Raises. */
void lml_declare_check_setting(lua_State *L, const char *recipe, const lml_json *member);
/* Everything that inspect shows, as JSON. */
lml_status lml_declare_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err);

#endif
