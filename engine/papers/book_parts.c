/* What the parts of a book share: its lists, its remarks, its sums. */
#include "papers/book.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_ROOM = 64 };

void *lml_book_more(lml_book *book, void *items, lml_book_list *list, size_t size)
{
    if (book->status != LML_OK)
        return NULL;
    if (list->count == list->room) {
        size_t room = list->room ? 2 * list->room : FIRST_ROOM;
        items = lml_alloc_resize(&book->memory, items, list->room * size, room * size);
        if (!items) {
            book->status = LML_NO_MEMORY;
            return NULL;
        }
        list->room = room;
    }
    list->count++;
    return items;
}

const char *lml_book_copy(lml_book *book, lml_span text)
{
    const char *copy = lml_span_copy(&book->memory, text);
    if (!copy)
        book->status = LML_NO_MEMORY;
    return copy ? copy : "";
}

void lml_book_remark_on(lml_book *book, const char *level, const char *code, const char *format,
                        ...)
{
    va_list words, again;
    va_start(words, format);
    va_copy(again, words);
    int length = vsnprintf(NULL, 0, format, words);
    char *text = lml_alloc_get(&book->memory, (size_t)length + 1);
    lml_book_remark *list =
        text ? lml_book_more(book, book->remark, &book->remarks, sizeof *list) : NULL;
    if (list) {
        vsnprintf(text, (size_t)length + 1, format, again);
        book->remark = list;
        list[book->remarks.count - 1] =
            (lml_book_remark){.level = level, .code = code, .text = text};
        book->stopped = book->stopped || strcmp(level, "stop") == 0;
    } else {
        book->status = LML_NO_MEMORY;
    }
    va_end(again);
    va_end(words);
}

const char *lml_book_way_name(lml_book_way way)
{
    static const char *const names[] = {
#define X(id, name) name,
        LML_BOOK_WAY_MAP(X)
#undef X
    };
    return names[way];
}

bool lml_book_to_studio(lml_book_way way)
{
    return way == LML_BOOK_KEPT || way == LML_BOOK_SETTLED;
}

bool lml_book_is_studio(const char *owner)
{
    return owner && strcmp(owner, LML_BOOK_STUDIO) == 0;
}

int lml_book_find(const lml_book *book, lml_span name)
{
    size_t low = 0, high = book->jobs.count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const char *at = book->job[middle].name;
        int order = strncmp(at, name.at, name.length);
        order = order ? order : at[name.length] != '\0';
        if (order == 0)
            return (int)middle;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return LML_BOOK_NONE;
}

void lml_book_add(lml_book *book, int64_t *sum, int64_t nanograms)
{
    if (__builtin_add_overflow(*sum, nanograms, sum))
        book->beyond = true;
}

int64_t lml_book_cell_balance(const lml_book_cell *c)
{
    return c->in + c->added + c->from_others + c->moved - c->piece - c->returned - c->to_others -
           c->settled;
}

int64_t lml_book_cell_unweighed(const lml_book_cell *c)
{
    return lml_book_cell_balance(c) - c->here - c->sent - c->as_brought;
}

static const int64_t GRAM = 1000000000;

const char *lml_book_grams(int64_t nanograms, char out[LML_BOOK_GRAMS])
{
    uint64_t size = nanograms < 0 ? -(uint64_t)nanograms : (uint64_t)nanograms;
    int length = snprintf(out, LML_BOOK_GRAMS, "%s%" PRIu64 ".%09" PRIu64, nanograms < 0 ? "-" : "",
                          size / (uint64_t)GRAM, size % (uint64_t)GRAM);
    while (out[length - 1] == '0')
        length--;
    out[out[length - 1] == '.' ? length - 1 : length] = '\0';
    return out;
}
