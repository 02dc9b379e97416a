/* The JSON Schema of a job for one recipe, and of the house.
 */
#ifndef LML_REPORT_SCHEMA_H
#define LML_REPORT_SCHEMA_H

#include "run/run.h"

/* Without a recipe that of house.json, with what the recipes on the shelf allow; one that cannot be
 * read is left out. LML_NOT_FOUND, LML_BAD_RECIPE. */
lml_status lml_schema_write(lml_run *run, const char *recipe, lml_builder *b, lml_error *err);

#endif
