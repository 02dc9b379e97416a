/* Text: spans that own nothing, and builders that grow.
 *
 * A span is a pointer and a length, with no NUL needed. A builder owns its bytes, keeps a NUL
 * after them, and is sticky: after the first failure (no memory, or over `most`) every further
 * append does nothing, so that a writer appends freely and asks once at the end.
 *
 *     lml_builder b = lml_builder_on(&alloc, 1 << 20);
 *     lml_append_format(&b, "%d g", 12);
 *     lml_status s = lml_builder_status(&b, err);
 *     lml_builder_free(&b);
 */
#ifndef LML_BASE_TEXT_H
#define LML_BASE_TEXT_H

#include "base/alloc.h"
#include "base/ascii.h"
#include "base/status.h"
#include <stdbool.h>
#include <string.h>

typedef struct lml_span {
    const char *at;
    size_t length;
} lml_span;

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
    /* Most comparisons of a look-up differ in the first byte. */
    if (span.length == 0 || span.at[0] != text[0])
        return span.length == 0 && text[0] == '\0';
    return lml_span_equal(span, lml_span_of(text));
}

/* Whether a digit stands there. */
static inline bool lml_span_digit_at(lml_span span, size_t at)
{
    return at < span.length && lml_ascii_is_digit(span.at[at]);
}

lml_span lml_span_trim(lml_span span); /* without blanks (space, tab, CR, LF) at both ends */

/* A copy with a NUL after it, of length + 1 bytes; NULL for want of memory. */
char *lml_span_copy(const lml_alloc *alloc, lml_span span);

/* The texts one after the other in `out`, of `size` bytes: NUL-ended, cut when they do not fit. For names that are
 * put together far more often than they are shown. */
void lml_text_join(char *out, size_t size, const char *a, const char *b, const char *c);

typedef struct lml_builder {
    const lml_alloc *alloc;
    char *at; /* NUL-ended once something was appended, else NULL */
    size_t length, capacity, most; /* capacity: at most `most` and the NUL */
    lml_status status;
} lml_builder;

lml_builder lml_builder_on(const lml_alloc *alloc, size_t most); /* most 0: no bound */
void lml_builder_free(lml_builder *b);
/* Makes the block larger, so that `more` bytes and the NUL fit; false, and the builder is stuck, when it cannot. */
bool lml_builder_grow(lml_builder *b, size_t more);
static inline bool lml_builder_room(lml_builder *b, size_t more)
{
    return (more < b->capacity - b->length && b->status == LML_OK) || lml_builder_grow(b, more);
}

static inline void lml_append(lml_builder *b, const char *at, size_t length)
{
    if (length == 0 || !lml_builder_room(b, length))
        return;
    memcpy(b->at + b->length, at, length);
    b->length += length;
    b->at[b->length] = '\0';
}

static inline void lml_append_char(lml_builder *b, char c)
{
    lml_append(b, &c, 1);
}

static inline void lml_append_text(lml_builder *b, const char *text)
{
    lml_append(b, text, strlen(text));
}

static inline void lml_append_span(lml_builder *b, lml_span span)
{
    lml_append(b, span.at, span.length);
}

void lml_append_format(lml_builder *b, const char *format, ...) LML_PRINTF(2, 3);
void lml_append_repeat(lml_builder *b, char c, size_t times);
/* LML_OK; LML_NO_MEMORY; LML_LIMIT when more than `most` was asked for. */
lml_status lml_builder_status(const lml_builder *b, lml_error *err);

/* Decode the character at the start of `span` into *code; returns its bytes (1-4), or 0 when it is
 * not valid UTF-8 (overlong forms, surrogates and above U+10FFFF are not) or the span is empty. */
size_t lml_utf8_next(lml_span span, uint32_t *code);
/* LML_OK, or LML_BAD_DATA with the byte's offset in the message. */
lml_status lml_utf8_check(lml_span span, lml_error *err);
/* LML_BAD_DATA, naming `source`, for a text that starts with a byte order mark, of UTF-8 or UTF-16. */
lml_status lml_utf8_refuse_mark(lml_span text, const char *source, lml_error *err);
/* Columns a terminal shows: every character one, combining marks none, East Asian wide two,
 * a byte that is not UTF-8 one. */
size_t lml_utf8_columns(lml_span span);

/* Edit distance with neighbour swaps (Damerau-Levenshtein, restricted), case folded for ASCII;
 * `most` + 1 when it is more than `most`. Of names of more than 96 letters it only knows whether
 * they are equal. */
size_t lml_edit_distance(lml_span a, lml_span b, size_t most);

/* The nearest of many names: offer each, then ask. One with other figures is never near: 18K is no slip
 * for 14K. A name counts as near when the distance is at most 1 for words of up to 4 letters, 2 up to 8,
 * else 3. Of two as near, the one that begins alike for longer. */
typedef struct lml_nearest {
    lml_span wanted, best;
    size_t distance, alike;
} lml_nearest;
lml_nearest lml_nearest_to(lml_span wanted);
void lml_nearest_offer(lml_nearest *n, lml_span name);
bool lml_nearest_found(const lml_nearest *n);

#endif
