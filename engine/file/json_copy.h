/* JSON copy: writes a value as it was read. */
#ifndef LML_FILE_JSON_COPY_H
#define LML_FILE_JSON_COPY_H

#include "file/json.h"
#include "file/json_write.h"

/* Numbers keep their digits; texts are re-encoded. */
void lml_json_copy(lml_json_writer *w, const lml_json *node);

#endif
