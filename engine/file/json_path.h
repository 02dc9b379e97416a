/* Where a node is, and refusals that say so; only json*.c include this.
 */
#ifndef LML_FILE_JSON_PATH_H
#define LML_FILE_JSON_PATH_H

#include "file/json_scan.h"

/* lml_json_fail for a line other than the node's first. */
lml_status lml_json_path_fail(const lml_json *node, unsigned line, lml_error *err,
                              lml_status status, const char *format, va_list arguments);

#endif
