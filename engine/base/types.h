/* Types shared by lemel.h and the floors below it. Installed beside lemel.h; all of it is public.
 *
 * An lml_error owns nothing and needs no freeing: it is a plain block of fixed-size text, so it can
 * be filled when memory is exhausted, and sent through a pipe.
 *
 *     lml_error error;
 *     if (lml_engine_put(engine, ..., &error) != LML_OK)
 *         fputs(error.message, stderr);
 */
#ifndef LML_BASE_TYPES_H
#define LML_BASE_TYPES_H

#include <stddef.h>

#if defined(__GNUC__)
#define LML_API __attribute__((visibility("default")))
#else
#define LML_API
#endif

/* name, what it means in a sentence */
#define LML_STATUS_MAP(X)                                                                          \
    X(OK, "done")                                                                                  \
    X(USAGE, "the words of a command are wrong")                                                   \
    X(BAD_VALUE, "a value cannot be read, is out of range or is not of the kind that is due")      \
    X(MISMATCH, "two values do not mix: dimension, currency, metal or kind")                       \
    X(OVERFLOW, "a result is too large for its kind")                                              \
    X(BAD_DATA, "a file or a JSON text is not what is due")                                        \
    X(BAD_RECIPE, "a recipe is faulty")                                                            \
    X(NOT_FOUND, "a name is unknown")                                                              \
    X(NO_FILE, "a file is not there or cannot be read")                                            \
    X(NO_WRITE, "a file could not be written; what stood there still stands")                      \
    X(NO_MEMORY, "the allocator has nothing left")                                                 \
    X(LIMIT, "a limit was reached")                                                                \
    X(STOPPED, "a rule stopped the work, or a proof failed")                                       \
    X(FAULT, "an internal error")                                                                  \
    X(NO_GATES, "the gates are missing, and nothing is run without them")

typedef enum lml_status {
#define X(name, sentence) LML_##name,
    LML_STATUS_MAP(X)
#undef X
} lml_status;

enum { LML_ERROR_LABELS = 4, LML_ERROR_CONTEXTS = 8 };

/* A labelled stretch of the user's own text: `text` is a copy (cut to fit), and the stretch is
 * bytes [offset, offset + length) of it. */
typedef struct lml_label {
    char text[120];
    char note[60];
    unsigned short offset, length;
} lml_label;

/* The message is in the user's words; the hint is the likely fix; the context lines are added,
 * innermost first, while the call unwinds ("in old_metal[2]", "in recipes/quote.lua:41"). */
typedef struct lml_error {
    lml_status status;
    char message[400];
    char hint[480];
    int labels;
    lml_label label[LML_ERROR_LABELS];
    int contexts; /* innermost first; when full, the middle is dropped, never the outermost */
    char context[LML_ERROR_CONTEXTS][120];
} lml_error;

/* An allocator: one function does all. resize(self, NULL, 0, n) gets, resize(self, p, old, n)
 * changes, resize(self, p, old, 0) frees and returns NULL. It works like a Lua allocator on
 * purpose. The caller passes the true old size. Growing may return NULL; shrinking and freeing
 * never fail. */
typedef struct lml_alloc {
    void *(*resize)(void *self, void *block, size_t old_size, size_t new_size);
    void *self;
} lml_alloc;

#endif
