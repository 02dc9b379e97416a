/* Merge: combines the changes of two people to one text, line by line.
 *
 * `base` is the common text, `ours` this studio's version, `theirs` the one from elsewhere. Where
 * one of them left the base unchanged, the other's lines are kept; where both made the same change,
 * that is kept. Changes to the same or adjacent lines clash: only a person can decide, and there is
 * no merged text.
 *
 *     lml_merge m;
 *     lml_merge_texts(&alloc, base, ours, theirs, &m, err);
 *     if (m.clashes == 0) ... m.text
 *     lml_merge_free(&m);
 */
#ifndef LML_FILE_MERGE_H
#define LML_FILE_MERGE_H

#include "file/lines.h"

enum { LML_MERGE_CLASHES = 20 };

/* Lines [from, to) of each, counted from 0. */
typedef struct lml_merge_clash {
    size_t base, base_end, ours, ours_end, theirs, theirs_end;
} lml_merge_clash;

typedef struct lml_merge {
    lml_lines base, ours, theirs;
    lml_builder text; /* of use only without a clash */
    size_t above;     /* lines of ours above what was merged: they count in what is shown */
    size_t clashes;   /* also those that are not kept */
    lml_merge_clash clash[LML_MERGE_CLASHES];
} lml_merge;

/* Statuses as for lml_lines_pair. The texts must outlive `out`; free `out` in any case. */
lml_status lml_merge_texts(const lml_alloc *alloc, lml_span base, lml_span ours, lml_span theirs,
                           lml_merge *out, lml_error *err);
void lml_merge_free(lml_merge *merge);
/* The clashes for a reader: the lines of the base (=), of this studio (-), from elsewhere (+).
 * `file` is the name of this studio's text. */
void lml_merge_show(const lml_merge *merge, const char *file, lml_builder *out);

#endif
