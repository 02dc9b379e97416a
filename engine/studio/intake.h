/* Intake: what happens to each file of a studio when a pack is adopted.
 *
 * Of each file there may be three texts: what the pack had when it was adopted last (the base, kept
 * under recipes/.packs/NAME/), what is in the studio (ours), and what comes. Files that the studio
 * left unchanged follow the pack. Files that the studio changed stay if the pack did not change
 * them; where both did, a person decides which to keep, or to merge them.
 */
#ifndef LML_STUDIO_INTAKE_H
#define LML_STUDIO_INTAKE_H

#include "studio/change.h"
#include "studio/find.h"
#include "studio/pack.h"

/* id, words */
#define LML_FATE_MAP(X)                                                                            \
    X(NEW, "new here")                                                                             \
    X(SAME, "the same")                                                                            \
    X(NEWER, "newer")                                                                              \
    X(OURS, "changed here, and stays so")                                                          \
    X(MERGED, "changed here, and merged")                                                          \
    X(REPLACED, "replaces the one here")                                                           \
    X(GOES, "no longer part of the pack: it goes")                                                 \
    X(LEFT, "no longer part of the pack, changed here: it stays")                                  \
    X(OTHERS, "no longer part of the pack, but of another one here: it stays")
typedef enum lml_fate {
#define X(id, words) LML_FATE_##id,
    LML_FATE_MAP(X)
#undef X
} lml_fate;

typedef struct lml_piece {
    char path[120];            /* recipes/NAME.lua or scripts/NAME.lua */
    const lml_pack_file *file; /* NULL of one that the pack no longer has */
    bool has_base, has_ours;
    lml_builder base, ours;
    lml_builder text; /* what will stand there */
    lml_fate fate;
} lml_piece;

typedef struct lml_intake {
    const lml_alloc *alloc;
    const char *studio;
    const lml_pack *pack;
    lml_json_document *former; /* the page of the pack as it was adopted last; NULL for none */
    char former_digest[LML_DIGEST_TEXT];
    char former_signer[200]; /* who signed that, where it was checked */
    lml_piece *pieces;
    size_t count, room;
} lml_intake;

/* `out` is to be closed in any case. LML_NO_FILE, LML_NO_MEMORY. */
lml_status lml_intake_open(const lml_alloc *alloc, const char *studio, const lml_pack *pack,
                           lml_intake *out, lml_error *err);
void lml_intake_close(lml_intake *intake);
/* What happens to each file. LML_NO_WRITE for the first that a person has to decide: an older
 * version, a file that did not come with this pack, one that was changed here; with `merge`, where
 * the two clash, which `clashes` then shows. */
lml_status lml_intake_decide(lml_intake *intake, bool replace, bool merge, lml_builder *clashes,
                             lml_error *err);
/* LML_NO_WRITE when a file is not as it was when it was read. */
lml_status lml_intake_look_again(const lml_intake *intake, lml_error *err);
/* All that changes: the files, the copy of the pack that is kept, what stood in a file's place
 * before, and `origin`, a JSON text. */
lml_status lml_intake_put(const lml_intake *intake, lml_span origin, lml_change *change,
                          lml_error *err);
/* Where something that is kept of the pack is in the studio. */
void lml_intake_kept(char out[LML_PATH], const char *pack, const char *path);
/* Where what stood in the place of a file before is kept; and where the pack came from. */
void lml_intake_before(char out[LML_PATH], const char *pack, const char *path);
void lml_intake_origin(char out[LML_PATH], const char *pack);
const char *lml_fate_words(lml_fate fate);

#endif
