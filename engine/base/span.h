/* A span: a pointer and a length, with no NUL needed. It owns nothing.
 *
 *     lml_span_is(lml_span_trim(lml_span_of(" 12 g ")), "12 g")      true
 */
#ifndef LML_BASE_SPAN_H
#define LML_BASE_SPAN_H

#include "base/alloc.h"
#include "base/ascii.h"

#include <string.h>

typedef struct lml_span {
    const char *at;
    size_t length;
} lml_span;

/* For "%.*s". */
#define LML_SPAN_SHOWN(span) (int)(span).length, (span).at

/* Of a NUL-ended text; NULL gives the empty span. */
static inline lml_span lml_span_of(const char *text)
{
    return text ? (lml_span){text, strlen(text)} : (lml_span){"", 0};
}

static inline lml_span lml_span_between(const char *from, const char *to)
{
    return (lml_span){from, (size_t)(to - from)};
}

static inline bool lml_span_starts(lml_span span, const char *prefix)
{
    size_t length = strlen(prefix);
    return span.length >= length && memcmp(span.at, prefix, length) == 0;
}

static inline bool lml_span_equal(lml_span a, lml_span b)
{
    return a.length == b.length && (a.length == 0 || memcmp(a.at, b.at, a.length) == 0);
}

static inline bool lml_span_is(lml_span span, const char *text)
{
    /* In a look-up most comparisons differ in the first byte. */
    if (span.length == 0 || span.at[0] != text[0])
        return span.length == 0 && text[0] == '\0';
    return lml_span_equal(span, lml_span_of(text));
}

/* Whether one of the lines of the text is the span; each line ends with a newline. */
bool lml_span_is_line_of(lml_span span, lml_span text);

/* Whether there is a digit there. */
static inline bool lml_span_digit_at(lml_span span, size_t at)
{
    return at < span.length && lml_ascii_is_digit(span.at[at]);
}

lml_span lml_span_trim(lml_span span); /* without blanks (space, tab, CR, LF) at both ends */
/* A copy with a NUL after it, of length + 1 bytes; NULL when out of memory. */
char *lml_span_copy(const lml_alloc *alloc, lml_span span);

#endif
