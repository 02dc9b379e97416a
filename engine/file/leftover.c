#include "file/leftover.h"

#include <stddef.h>
#include <string.h>

static const struct {
    const char *name;
    lml_leftover is;
} rows[] = {{"button", LML_LEFTOVER_BUTTON}, {"button and sprues", LML_LEFTOVER_BUTTON},
            {"sprues", LML_LEFTOVER_BUTTON}, {"filings", LML_LEFTOVER_FILINGS},
            {"lemel", LML_LEFTOVER_FILINGS}, {"saw lemel", LML_LEFTOVER_FILINGS}};

lml_leftover lml_leftover_of(lml_span what)
{
    const char *comma = what.length > 0 ? memchr(what.at, ',', what.length) : NULL;
    if (comma)
        what.length = (size_t)(comma - what.at);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (lml_span_is(what, rows[i].name))
            return rows[i].is;
    return LML_LEFTOVER_NONE;
}

const char *lml_leftover_name(lml_leftover leftover)
{
    static const char *const names[] = {NULL, "button", "filings"};
    return names[leftover];
}
