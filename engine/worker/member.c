#include "worker/member.h"

#include <string.h>

/* Past the closing quote of the text that starts at `at`, or at the end. */
static const char *skip_text(const char *at, const char *end)
{
    const char *start = ++at;
    while ((at = at < end ? memchr(at, '"', (size_t)(end - at)) : NULL)) {
        const char *before = at;
        while (before > start && before[-1] == '\\')
            before--;
        at++;
        if ((at - before) % 2 == 1)
            return at; /* the backslashes before it belong to each other */
    }
    return end;
}

/* Past the value that starts at `at`: to the comma or bracket after it, or the end. */
static const char *skip_value(const char *at, const char *end)
{
    int depth = 0;
    while (at < end) {
        switch (*at) {
        case '"':
            at = skip_text(at, end);
            continue;
        case '{':
        case '[':
            depth++;
            break;
        case '}':
        case ']':
            if (depth-- == 0)
                return at;
            break;
        case ',':
            if (depth == 0)
                return at;
            break;
        default:
            break;
        }
        at++;
    }
    return end;
}

lml_span lml_member(lml_span record, const char *name)
{
    const char *at = record.at, *end = record.at + record.length;
    while (at < end && (*at == '{' || *at == ',')) {
        const char *name_at = at + 1;
        if (name_at >= end || *name_at != '"')
            break;
        const char *after = skip_text(name_at, end);
        const char *value = after + 1, *value_end = after < end ? skip_value(value, end) : end;
        if (after < end && lml_span_is(lml_span_between(name_at + 1, after - 1), name))
            return lml_span_between(value, value_end);
        at = value_end;
    }
    return (lml_span){"", 0};
}
