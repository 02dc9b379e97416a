/* Lines: compares two texts line by line.
 *
 * Lines are paired by the longest common subsequence. A line without a partner is removed (-) or
 * added (+). A line keeps its line feed, so that joined lines give the text. No input or output.
 *
 *     lml_lines was, is;
 *     lml_lines_cut(&alloc, before, &was, err);
 *     lml_lines_cut(&alloc, now, &is, err);
 *     lml_lines_changes(&alloc, &was, &is, "   ", 60, &out, err);
 */
#ifndef LML_FILE_LINES_H
#define LML_FILE_LINES_H

#include "base/text.h"

enum { LML_LINES_MOST = 20000 };

typedef struct lml_lines {
    const lml_alloc *alloc;
    lml_span *line; /* they point into the text */
    size_t count;
} lml_lines;

#define LML_LINES_ALONE ((size_t)-1)

/* LML_LIMIT, LML_NO_MEMORY. Free `out` in any case. */
lml_status lml_lines_cut(const lml_alloc *alloc, lml_span text, lml_lines *out, lml_error *err);
void lml_lines_free(lml_lines *lines);
/* The line without its end. */
lml_span lml_lines_shown(const lml_lines *lines, size_t index);
/* For each line of `a` its partner in `b`, or LML_LINES_ALONE. `to` has room for a->count.
 * LML_LIMIT where too many lines differ, LML_NO_MEMORY. */
lml_status lml_lines_pair(const lml_alloc *alloc, const lml_lines *a, const lml_lines *b,
                          size_t *to, lml_error *err);
/* The removed and added lines, each after `before`, - or + and a blank, at most `most`; then how
 * many more there are. Statuses as for lml_lines_pair. */
lml_status lml_lines_changes(const lml_alloc *alloc, const lml_lines *was, const lml_lines *is,
                             const char *before, size_t most, lml_builder *out, lml_error *err);

#endif
