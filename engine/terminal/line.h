/* Line: reads a line that a person types, or a line of standard input.
 *
 *     lml_line_reader reader = {0};
 *     lml_status s = lml_line_read(&reader, &line, &ended, err);
 */
#ifndef LML_TERMINAL_LINE_H
#define LML_TERMINAL_LINE_H

#include "base/builder.h"

enum { LML_LINE_BLOCK = 4096, LML_LINE_MOST = 64 * 1024 };

typedef struct lml_line_reader {
    char block[LML_LINE_BLOCK];
    size_t at, filled;
} lml_line_reader;

/* Put the next line into `out`, which is emptied first, without its end; *ended where there is
 * none. LML_NO_FILE: it cannot be read. LML_LIMIT: the line is too long. LML_NO_MEMORY. */
lml_status lml_line_read(lml_line_reader *reader, lml_builder *out, bool *ended, lml_error *err);
/* Whether a person sees what is typed. */
bool lml_line_is_shown(void);

#endif
