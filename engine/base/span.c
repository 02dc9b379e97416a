#include "base/span.h"

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

lml_span lml_span_trim(lml_span span)
{
    while (span.length && is_blank(span.at[0])) {
        span.at++;
        span.length--;
    }
    while (span.length && is_blank(span.at[span.length - 1]))
        span.length--;
    return span;
}

char *lml_span_copy(const lml_alloc *alloc, lml_span span)
{
    char *copy = lml_alloc_get(alloc, span.length + 1);
    if (copy) {
        if (span.length > 0)
            memcpy(copy, span.at, span.length);
        copy[span.length] = '\0';
    }
    return copy;
}

bool lml_span_is_line_of(lml_span span, lml_span text)
{
    while (text.length > 0) {
        const char *end = memchr(text.at, '\n', text.length);
        size_t length = end ? (size_t)(end - text.at) : text.length;
        if (lml_span_equal(span, (lml_span){text.at, length}))
            return true;
        size_t step = length + (end != NULL);
        text = (lml_span){text.at + step, text.length - step};
    }
    return false;
}
