/* Pack: a folder of recipes, rules and scripts from elsewhere, read whole and compared with its
 * page.
 *
 *     pack.json        what it is, and the SHA-256 of every other file
 *     pack.json.sig    whoever signed that page; may be missing
 *     recipes/NAME.lua, scripts/NAME.lua, and files beside them, which nothing reads
 *
 * It may come from a stranger. Only plain files are accepted, each read once, without following a
 * link, and those bytes are checked and kept. A page that lists a missing file, an unlisted file, a
 * wrong checksum: each is refused, naming the file.
 */
#ifndef LML_STUDIO_PACK_H
#define LML_STUDIO_PACK_H

#include "base/text.h"
#include "file/digest.h"
#include "file/json.h"

#define LML_PACK_PAGE "pack.json"
#define LML_PACK_SIGNATURE "pack.json.sig"
enum { LML_PACK_FILES = 500, LML_PACK_FILE_SIZE = 1 << 20, LML_PACK_SIZE = 16 << 20 };

typedef struct lml_pack_file {
    char *path; /* within the pack: "recipes/rule_hours.lua" */
    lml_builder bytes;
    char digest[LML_DIGEST_TEXT];
} lml_pack_file;

typedef struct lml_pack {
    const lml_alloc *alloc;
    const char *folder;
    lml_pack_file *files; /* by path; without the page and its signature */
    size_t count, room, size;
    lml_builder page;
    bool has_page, is_signed;
    char digest[LML_DIGEST_TEXT]; /* of the page, and with it of all */
    lml_json_document *doc;       /* the page */
} lml_pack;

/* All files of the folder, the page unread. LML_NO_FILE, LML_BAD_DATA for what no pack holds,
 * LML_LIMIT. `out` is to be freed in any case. */
lml_status lml_pack_gather(const lml_alloc *alloc, const char *folder, lml_pack *out,
                           lml_error *err);
/* The page too, and all compared with it. LML_BAD_DATA. */
lml_status lml_pack_read(const lml_alloc *alloc, const char *folder, lml_pack *out, lml_error *err);
void lml_pack_free(lml_pack *pack);
/* Of the page: "name", "version", "licence", "title"; "" when it says none. NUL-ended. */
const char *lml_pack_says(const lml_pack *pack, const char *member);
const lml_pack_file *lml_pack_find(const lml_pack *pack, const char *path);
/* Whether the file is recipes/NAME.lua or scripts/NAME.lua (`folder` is "recipes" or "scripts").
 * The name is written; it can be one of a recipe. */
bool lml_pack_name(const lml_pack_file *file, const char *folder, char name[64]);
/* -1, 0 or 1. */
int lml_pack_order(const char *version, const char *other);

#endif
