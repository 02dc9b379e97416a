/* The tree of a text that was scanned; only json*.c include this.
 */
#ifndef LML_FILE_JSON_TREE_H
#define LML_FILE_JSON_TREE_H

#include "file/json_scan.h"

/* Create the item of each node of a scanned text. LML_NO_MEMORY. */
lml_status lml_json_tree(lml_json_document *doc, lml_error *err);

#endif
