#include "cli/member.h"

/* Past the closing quote of the text that starts at `at`, or at the end. */
static const char *skip_text(const char *at, const char *end)
{
    for (at++; at < end && *at != '"'; at++)
        if (*at == '\\')
            at++;
    return at < end ? at + 1 : end;
}

/* Past the value that starts at `at`: to the comma or bracket after it, or the end. */
static const char *skip_value(const char *at, const char *end)
{
    int depth = 0;
    while (at < end) {
        if (depth == 0 && (*at == ',' || *at == '}' || *at == ']'))
            return at;
        if (*at == '"') {
            at = skip_text(at, end);
            continue;
        }
        depth += *at == '{' || *at == '[';
        depth -= *at == '}' || *at == ']';
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
