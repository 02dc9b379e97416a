/* Tokens: the text of a recipe cut into Lua tokens, to examine it without running it.
 *
 *     lml_scanner s = lml_scanner_on(source);
 *     for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) ...
 */
#ifndef LML_SHELF_TOKEN_H
#define LML_SHELF_TOKEN_H

#include "base/text.h"

typedef enum lml_token_kind {
    LML_TOKEN_END,
    LML_TOKEN_NAME, /* and the reserved words */
    LML_TOKEN_NUMBER,
    LML_TOKEN_TEXT, /* with its quotes or brackets */
    LML_TOKEN_SIGN
} lml_token_kind;

typedef struct lml_token {
    lml_token_kind kind;
    lml_span text;
    int line;
} lml_token;

typedef struct lml_scanner {
    const char *at, *stop;
    int line;
} lml_scanner;

/* `source` must be Lua that compiles. */
lml_scanner lml_scanner_on(lml_span source);
/* Comments are passed over. */
lml_token lml_token_next(lml_scanner *s);
/* Whether it is that name, number or sign. */
static inline bool lml_token_is(lml_token t, const char *text)
{
    return t.kind != LML_TOKEN_TEXT && lml_span_is(t.text, text);
}
bool lml_token_is_arithmetic(lml_token t);

#endif
