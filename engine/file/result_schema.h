/* The JSON Schema (2020-12) of a result, which is written in engine/report/result.c and read by
 * engine/sheet.
 *
 * It is written by hand because no shape describes a result; a test checks real results against it.
 */
#ifndef LML_FILE_RESULT_SCHEMA_H
#define LML_FILE_RESULT_SCHEMA_H

#include "base/text.h"

void lml_result_schema(lml_builder *out);

#endif
