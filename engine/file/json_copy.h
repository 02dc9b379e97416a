/* JSON copy: a value that was read, written as it is. */
#ifndef LML_FILE_JSON_COPY_H
#define LML_FILE_JSON_COPY_H

#include "file/json.h"
#include "file/json_write.h"

/* Numbers keep their digits; texts are written anew. */
void lml_json_copy(lml_json_writer *w, const lml_json *node);

#endif
