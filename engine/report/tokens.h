/* Tokens: those of a whole text, with what is looked up among them: where a line begins, which
 * bracket a token is in, where a name is set, whether a number is written. All of it is sorted
 * once, so that a long recipe costs no more for each of its steps than a short one.
 *
 *     lml_tokens all;
 *     if (lml_tokens_read(text, &alloc, &all)) ...      the alloc outlives it
 */
#ifndef LML_REPORT_TOKENS_H
#define LML_REPORT_TOKENS_H

#include "base/alloc.h"
#include "shelf/token.h"

#include <stdint.h>

/* Of a line, a call or a list of constants no more is read: a longer one is a table that a program
 * printed. And brackets within others. Choices of ours. */
enum { LML_TOKENS_MOST = 600, LML_TOKENS_DEPTH = 60 };

typedef struct lml_tokens {
    const lml_token *at;
    size_t count;          /* the last is LML_TOKEN_END */
    const uint32_t *inner; /* of each the place of the innermost bracket or block that is open
                              there, itself where it opens one; counted from 1, 0: none */
    const lml_token **set; /* names that are bound or set, by name, then in their order */
    size_t sets;
    const double *number; /* that are written, in ascending order */
    size_t numbers;
    bool too_deep; /* what a name is cannot be said */
} lml_tokens;

/* False without memory. */
bool lml_tokens_read(lml_span text, const lml_alloc *alloc, lml_tokens *out);
/* The first token of the line, or what is behind it. */
size_t lml_tokens_line(const lml_tokens *t, unsigned line);
/* The first among `set` that has the name, or what is behind it. */
size_t lml_tokens_set(const lml_tokens *t, lml_span name);
/* Whether the name is bound here: a local, what a `for` counts, a parameter; or set again. */
bool lml_tokens_is_bound(const lml_tokens *t, size_t i);
/* Whether names and commas lead from here to a '='. */
bool lml_tokens_is_assigned(const lml_tokens *t, size_t i);
/* A name, and no word of Lua's. */
bool lml_tokens_is_name(const lml_tokens *t, size_t i);
/* Whether there is a token at the place that is that name, number or sign; or one of those. */
bool lml_tokens_is(const lml_tokens *t, size_t i, const char *text);
bool lml_tokens_is_any(const lml_tokens *t, size_t i, const char *const *texts, size_t count);
#define LML_TOKENS_IS_ANY(t, i, ...)                                                               \
    lml_tokens_is_any(t, i, (const char *const[]){__VA_ARGS__},                                    \
                      sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))
/* Whether the number is written anywhere. */
bool lml_tokens_have(const lml_tokens *t, double number);

#endif
