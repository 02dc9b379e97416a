#include "terminal/line.h"

#include <errno.h>
#include <unistd.h>

/* The next block; *ended at the end of the input. */
static lml_status fill(lml_line_reader *reader, bool *ended, lml_error *err)
{
    ssize_t got;
    do
        got = read(STDIN_FILENO, reader->block, sizeof reader->block);
    while (got < 0 && errno == EINTR);
    if (got < 0)
        return lml_fail(err, LML_NO_FILE, "standard input cannot be read");
    reader->at = 0;
    reader->filled = (size_t)got;
    *ended = got == 0;
    return LML_OK;
}

/* A last line without an end is one too. */
lml_status lml_line_read(lml_line_reader *reader, lml_builder *out, bool *ended, lml_error *err)
{
    out->length = 0;
    if (out->at)
        out->at[0] = '\0';
    *ended = false;
    while (true) {
        if (reader->at == reader->filled) {
            lml_status status = fill(reader, ended, err);
            if (status != LML_OK)
                return status;
            if (*ended) {
                *ended = out->length == 0;
                return lml_builder_status(out, err);
            }
        }
        char c = reader->block[reader->at++];
        if (c == '\n')
            return lml_builder_status(out, err);
        if (out->length == LML_LINE_MOST)
            return lml_fail(err, LML_LIMIT, "a line is longer than %d bytes", LML_LINE_MOST);
        lml_builder_add_char(out, c == '\0' ? '?' : c);
    }
}

bool lml_line_is_shown(void)
{
    return isatty(STDIN_FILENO);
}
