/* The strict scan under lml_json_read; only json*.c include this.
 *
 * One pass over the text fills the node table in document order: a node's first child is the node
 * after it, and its next sibling is at `end`. Nothing is decoded here, except numbers.
 */
#ifndef LML_FILE_JSON_SCAN_H
#define LML_FILE_JSON_SCAN_H

#include "file/json.h"

struct cJSON;

struct lml_json {
    const lml_json_document *document;
    struct cJSON *item; /* decoded text and name; set by lml_json_tree */
    double number;
    uint32_t offset, length;           /* its bytes in the text */
    uint32_t name_offset, name_length; /* between the quotes, as written; offset 0: none */
    uint32_t line, parent, end, count;
    uint32_t sorted;            /* RECORD: where its members start in `document->sorted` */
    uint8_t kind;               /* lml_json_kind */
    bool escapes, name_escapes; /* its text, its name: has what stands for other characters */
};

struct lml_json_document {
    lml_alloc alloc;
    char *text;
    size_t length;
    char *source;
    const lml_json *house; /* see lml_json_house; NULL where none was set */
    size_t source_size;
    lml_json *node;
    size_t count, capacity;
    const lml_json *
        *sorted; /* members of every record, by name, or where they are few as they come */
    size_t members;
    struct cJSON *items;   /* of the nodes, in their order */
    struct lml_memo *memo; /* or NULL */
    char *decoded; /* a copy of `text` in which texts and names are decoded, each with a NUL */
};

/* Fill doc->node from doc->text. */
lml_status lml_json_scan(lml_json_document *doc, const lml_json_limits *limits, lml_error *err);

#endif
