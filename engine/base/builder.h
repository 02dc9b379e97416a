/* A builder: a growing text. It owns its bytes, keeps a NUL after them, and its status is sticky:
 * after the first failure (no memory, or more than `most`) appending does nothing, so a writer
 * checks once at the end.
 *
 *     lml_builder b = lml_builder_on(&alloc, 1 << 20);
 *     lml_builder_add_format(&b, "%d g", 12);
 *     lml_status s = lml_builder_status(&b, err);
 *     lml_builder_free(&b);
 */
#ifndef LML_BASE_BUILDER_H
#define LML_BASE_BUILDER_H

#include "base/span.h"
#include "base/status.h"

typedef struct lml_builder {
    const lml_alloc *alloc;
    char *at;                      /* NUL-ended once something was appended, else NULL */
    size_t length, capacity, most; /* capacity: at most `most` and the NUL */
    lml_status status;
} lml_builder;

lml_builder lml_builder_on(const lml_alloc *alloc, size_t most); /* most 0: no bound */
void lml_builder_free(lml_builder *b);
/* Grows the block so that `more` bytes and the NUL fit; false, and the status is set, if it
 * cannot. */
bool lml_builder_grow(lml_builder *b, size_t more);
static inline bool lml_builder_room(lml_builder *b, size_t more)
{
    return (more < b->capacity - b->length && b->status == LML_OK) || lml_builder_grow(b, more);
}

static inline void lml_builder_add(lml_builder *b, const char *at, size_t length)
{
    if (length == 0 || !lml_builder_room(b, length))
        return;
    memcpy(b->at + b->length, at, length);
    b->length += length;
    b->at[b->length] = '\0';
}

static inline void lml_builder_add_char(lml_builder *b, char c)
{
    if (!lml_builder_room(b, 1))
        return;
    b->at[b->length++] = c;
    b->at[b->length] = '\0';
}

static inline void lml_builder_add_text(lml_builder *b, const char *text)
{
    lml_builder_add(b, text, strlen(text));
}

/* What it holds so far, NUL-ended; it moves when more is added. */
static inline lml_span lml_builder_span(const lml_builder *b)
{
    return (lml_span){b->at ? b->at : "", b->length};
}

static inline void lml_builder_add_span(lml_builder *b, lml_span span)
{
    lml_builder_add(b, span.at, span.length);
}

void lml_builder_add_format(lml_builder *b, const char *format, ...) LML_PRINTF(2, 3);
void lml_builder_add_repeat(lml_builder *b, char c, size_t times);
/* LML_OK; LML_NO_MEMORY; LML_LIMIT if the text is longer than `most`. */
lml_status lml_builder_status(const lml_builder *b, lml_error *err);

#endif
