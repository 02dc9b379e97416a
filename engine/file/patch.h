/* Patch: puts one value at a path of a JSON text, and keeps every other byte.
 *
 * A path is written as by lml_json_path: given.old_metal[2].gross, names with other characters in
 * quotes. Missing records and lists are created, in place of an empty text that is there to be
 * filled in; a new member or item is formatted like the one before it.
 *
 *     lml_patch_path path;
 *     lml_status s = lml_patch_read_path(lml_span_of("given.wax"), &path, err);
 *     s = lml_patch_value(text, "jobs/x.json", &path, lml_span_of("\"2.85 g\""), &after, err);
 */
#ifndef LML_FILE_PATCH_H
#define LML_FILE_PATCH_H

#include "file/json.h"

enum { LML_PATCH_STEPS = 16 };
typedef struct lml_patch_path {
    struct {
        lml_span name; /* of a member; at is NULL for an item */
        size_t place;  /* of an item, counted from 0 */
    } step[LML_PATCH_STEPS];
    size_t steps;
} lml_patch_path;

/* The names point into `text`. LML_USAGE. */
lml_status lml_patch_read_path(lml_span text, lml_patch_path *out, lml_error *err);
/* NULL if there is none. */
const lml_json *lml_patch_find(const lml_json *root, const lml_patch_path *path);
/* Append the text with `value`, which is JSON, at the path. An item may be the one after the last.
 * LML_BAD_DATA if the path leads through anything other than records and lists, LML_LIMIT,
 * LML_NO_MEMORY; `out` is then as it was. */
lml_status lml_patch_value(lml_span text, const char *source, const lml_patch_path *path,
                           lml_span value, lml_builder *out, lml_error *err);
/* Append the text without the value at the path and its comma. LML_NOT_FOUND if there is none; else
 * as above. */
lml_status lml_patch_remove(lml_span text, const char *source, const lml_patch_path *path,
                            lml_builder *out, lml_error *err);

#endif
