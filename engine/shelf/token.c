#include "shelf/token.h"
#include "base/ascii.h"

#include <string.h>

static char peek(const lml_scanner *s, int ahead)
{
    return s->stop - s->at > ahead ? s->at[ahead] : '\0';
}

static void step(lml_scanner *s)
{
    s->line += *s->at == '\n';
    s->at++;
}

/* At "[" or "[=": past the long bracket, if it is one. */
static bool skip_long(lml_scanner *s)
{
    int level = 1;
    while (peek(s, level) == '=')
        level++;
    if (peek(s, 0) != '[' || peek(s, level) != '[')
        return false;
    s->at += level + 1;
    for (; s->at < s->stop; step(s)) {
        if (*s->at != ']')
            continue;
        int n = 1;
        while (n <= level && peek(s, n) == '=')
            n++;
        if (n == level && peek(s, n) == ']') {
            s->at += n + 1;
            return true;
        }
    }
    return true;
}

static void skip_quoted(lml_scanner *s)
{
    char quote = *s->at++;
    const char *end = memchr(s->at, quote, (size_t)(s->stop - s->at));
    if (end &&
        !memchr(s->at, '\\', (size_t)(end - s->at))) { /* most texts; a line ends only after a \ */
        s->at = end + 1;
        return;
    }
    while (s->at < s->stop && *s->at != quote) {
        if (*s->at == '\\' && s->at + 1 < s->stop)
            step(s);
        step(s);
    }
    s->at += s->at < s->stop;
}

/* At "--". */
static void skip_comment(lml_scanner *s)
{
    s->at += 2;
    if (skip_long(s))
        return;
    const char *end = memchr(s->at, '\n', (size_t)(s->stop - s->at));
    s->at = end ? end : s->stop;
}

static void skip_blanks(lml_scanner *s)
{
    while (s->at < s->stop) {
        char c = *s->at;
        if (c == ' ' || (c >= '\t' && c <= '\r'))
            step(s);
        else if (c == '-' && peek(s, 1) == '-')
            skip_comment(s);
        else
            return;
    }
}

static void skip_number(lml_scanner *s)
{
    while (s->at < s->stop && (lml_ascii_is_name(*s->at) || *s->at == '.')) {
        bool exponent = strchr("eEpP", *s->at) && strchr("+-", peek(s, 1)) && peek(s, 1);
        s->at += exponent ? 2 : 1;
    }
}

static size_t sign_length(const lml_scanner *s)
{
    static const char *const longer[] = {
        "...", "..", "==", "~=", "<=", ">=", "//", "::", "<<", ">>"};
    char second = peek(s, 1);
    if (second == '.' || second == '=' || second == ':' || second == '<' || second == '>' ||
        second == '/')
        for (size_t i = 0; i < sizeof longer / sizeof *longer; i++)
            if (lml_span_starts(lml_span_between(s->at, s->stop), longer[i]))
                return strlen(longer[i]);
    return 1;
}

lml_scanner lml_scanner_on(lml_span source)
{
    return (lml_scanner){source.at, source.at + source.length, 1};
}

lml_token lml_token_next(lml_scanner *s)
{
    skip_blanks(s);
    lml_token t = {.kind = LML_TOKEN_END, .text = {s->at, 0}, .line = s->line};
    if (s->at == s->stop)
        return t;
    char c = *s->at;
    if (lml_ascii_is_digit(c) || (c == '.' && lml_ascii_is_digit(peek(s, 1)))) {
        t.kind = LML_TOKEN_NUMBER;
        skip_number(s);
    } else if (lml_ascii_is_name(c)) {
        t.kind = LML_TOKEN_NAME;
        while (s->at < s->stop && lml_ascii_is_name(*s->at))
            s->at++;
    } else if (c == '"' || c == '\'') {
        t.kind = LML_TOKEN_TEXT;
        skip_quoted(s);
    } else if (c == '[' && skip_long(s)) {
        t.kind = LML_TOKEN_TEXT;
    } else {
        t.kind = LML_TOKEN_SIGN;
        s->at += sign_length(s);
    }
    t.text = lml_span_between(t.text.at, s->at);
    return t;
}

bool lml_token_is_arithmetic(lml_token t)
{
    static const char *const signs[] = {"+", "-", "*", "/", "//", "%", "^", ".."};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (t.kind == LML_TOKEN_SIGN && lml_token_is(t, signs[i]))
            return true;
    return false;
}
