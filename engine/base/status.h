/* Status and error: how everything below the command says that it failed.
 *
 * Every function that can fail returns an lml_status and takes, last, an lml_error pointer that
 * may be NULL. `out` parameters are written only on LML_OK. An lml_error owns nothing and needs
 * no freeing: it is a plain block of fixed-size text, so it can be filled when memory has run
 * out, and copied over a pipe.
 *
 * The message is in the user's words; the hint is the likely mend; the context lines are added,
 * innermost first, while the call unwinds ("in old_metal[2]", "in recipes/quote.lua:41").
 *
 *     if (!fits)
 *         return lml_fail(err, LML_BAD_VALUE, "a mass (%s) is due, and %s was given", a, b);
 *     return lml_error_context(err, inner_call(..., err), "in %s", name);
 */
#ifndef LML_BASE_STATUS_H
#define LML_BASE_STATUS_H

#include <stdarg.h>
#include <stddef.h>

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
    X(LIMIT, "a limit of the box was hit")                                                         \
    X(STOPPED, "a rule stopped the work, or a proof failed")                                       \
    X(FAULT, "a fault of our own")                                                                 \
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

typedef struct lml_error {
    lml_status status;
    char message[400];
    char hint[480];
    int labels;
    lml_label label[LML_ERROR_LABELS];
    int contexts; /* innermost first; when full, the middle is dropped, never the outermost */
    char context[LML_ERROR_CONTEXTS][120];
} lml_error;

#if defined(__GNUC__)
#define LML_PRINTF(at, first) __attribute__((format(printf, at, first)))
#else
#define LML_PRINTF(at, first)
#endif

/* The name of a status ("BAD_VALUE") and its sentence; never NULL. */
const char *lml_status_name(lml_status status);
const char *lml_status_sentence(lml_status status);

/* Start an error anew: status and message; hint, labels and context are emptied. Control
 * characters of the arguments become '?'; what does not fit is cut at a whole character and ends
 * in "...". Returns `status`, so that a refusal is one line. `err` may be NULL. */
lml_status lml_fail(lml_error *err, lml_status status, const char *format, ...) LML_PRINTF(3, 4);
/* Set the hint of an error that lml_fail has started. Returns err's status, or
 * LML_FAULT when err is NULL: a caller whose err may be NULL keeps what lml_fail returned. */
lml_status lml_error_hint(lml_error *err, const char *format, ...) LML_PRINTF(2, 3);
/* Add a labelled span; silently dropped when four are there. */
void lml_error_label(lml_error *err, const char *text, size_t text_length, size_t offset,
                     size_t length, const char *note);
/* If `status` is not LML_OK add a context line; returns `status` in either case. */
lml_status lml_error_context(lml_error *err, lml_status status, const char *format, ...)
    LML_PRINTF(3, 4);

#endif
