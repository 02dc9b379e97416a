#include "base/builder.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

lml_builder lml_builder_on(const lml_alloc *alloc, size_t most)
{
    return (lml_builder){.alloc = alloc, .most = most};
}

void lml_builder_free(lml_builder *b)
{
    lml_alloc_free(b->alloc, b->at, b->capacity);
    *b = lml_builder_on(b->alloc, b->most);
}

bool lml_builder_grow(lml_builder *b, size_t more)
{
    if (b->status != LML_OK)
        return false;
    size_t most = b->most && b->most < SIZE_MAX ? b->most : SIZE_MAX - 1;
    if (more > most - b->length) {
        b->status = LML_LIMIT;
        return false;
    }
    size_t needed = b->length + more + 1;
    size_t capacity = b->capacity <= most / 2 ? b->capacity * 2 : most + 1;
    if (capacity < 64)
        capacity = most < 63 ? most + 1 : 64;
    if (capacity < needed)
        capacity = needed;
    char *at = lml_alloc_resize(b->alloc, b->at, b->capacity, capacity);
    if (!at) {
        b->status = LML_NO_MEMORY;
        return false;
    }
    b->at = at;
    b->capacity = capacity;
    return true;
}

void lml_builder_add_repeat(lml_builder *b, char c, size_t times)
{
    if (times == 0 || !lml_builder_room(b, times))
        return;
    memset(b->at + b->length, c, times);
    b->length += times;
    b->at[b->length] = '\0';
}

void lml_builder_add_format(lml_builder *b, const char *format, ...)
{
    if (b->status != LML_OK)
        return;
    char small[256];
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int length = vsnprintf(small, sizeof small, format, args);
    if (length < 0) {
        b->status = LML_FAULT;
    } else if ((size_t)length < sizeof small) {
        lml_builder_add(b, small, (size_t)length);
    } else if (lml_builder_room(b, (size_t)length)) {
        vsnprintf(b->at + b->length, (size_t)length + 1, format, again);
        b->length += (size_t)length;
    }
    va_end(again);
    va_end(args);
}

lml_status lml_builder_status(const lml_builder *b, lml_error *err)
{
    switch (b->status) {
    case LML_OK:
        return LML_OK;
    case LML_NO_MEMORY:
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a text of %zu bytes", b->length);
    case LML_LIMIT:
        return lml_fail(err, LML_LIMIT, "a text grew beyond its limit of %zu bytes", b->most);
    default:
        return lml_fail(err, b->status, "a text could not be formatted");
    }
}
