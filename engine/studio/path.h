/* Paths of the file system: put together, taken apart, and what is there.
 *
 *     char file[LML_PATH];
 *     lml_path_join(file, "studio", "house.json", err);      studio/house.json
 */
#ifndef LML_STUDIO_PATH_H
#define LML_STUDIO_PATH_H

#include "base/error.h"

#include <sys/types.h>

enum { LML_PATH = 1024 };

/* LML_NO_FILE when it is too long. */
lml_status lml_path_join(char out[LML_PATH], const char *folder, const char *name, lml_error *err);
bool lml_path_ends_in(const char *text, const char *end);
/* What the system refused, in words. */
const char *lml_path_reason(int code);
/* Whether the path leads to something, be it a link that leads nowhere. What the system does not
 * let us see counts as there: reading it gives the error, and no default silently replaces it. */
bool lml_path_is_there(const char *path);
/* The same of a name in a folder. */
bool lml_path_names(const char *folder, const char *name);
/* The same, and what is there is of that kind (S_IFDIR ...). */
bool lml_path_holds(const char *folder, const char *name, mode_t kind);
/* What a folder lists must be a plain file: skipping it would silently let another file of that
 * name, or a default, replace it. LML_NO_FILE. */
lml_status lml_path_need_plain(const char *path, const char *shown, lml_error *err);
/* The folder of a path, "." for a bare name. Cut when too long, and then not found. */
void lml_path_folder_of(char out[LML_PATH], const char *path);
/* The folder that a folder is in. */
void lml_path_above(char out[LML_PATH], const char *folder);
bool lml_path_same_folder(const char *a, const char *b);

#endif
