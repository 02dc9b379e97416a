#include "shelf/mend.h"

#include "shelf/mender.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TOKENS_MOST = 20000, OPEN_MOST = 200 };

static void tell(lml_mender *m, int line, const char *what, const char *hint)
{
    lml_mender_tell(m, line, hint, "%s", what);
}

static bool holds(lml_span text, const char *part)
{
    size_t length = strlen(part);
    for (size_t i = 0; i + length <= text.length; i++)
        if (memcmp(text.at + i, part, length) == 0)
            return true;
    return false;
}

static bool is_near(const lml_mender *m, const char *word)
{
    return strcmp(m->near, word) == 0;
}

/* ---- letters that Lua does not have ------------------------------------------------------------
 */

static bool mend_letters(lml_mender *m)
{
    static const char *const curly[] = {"\u201c", "\u201d", "\u201e", "\u2018", "\u2019"};
    lml_span line = lml_mender_line(m, m->line);
    if (lml_span_starts(m->source, "{\\rtf")) {
        tell(m, 1, "the file is rich text from a word processor",
             "save it as plain text, or write it in a text editor");
        return true;
    }
    for (size_t i = 0; i < sizeof curly / sizeof *curly; i++)
        if (holds(line, curly[i]) && (m->near[0] == '<' || lml_mender_says(m, "unfinished"))) {
            tell(m, m->line, "this line has curly quotes, but Lua needs straight ones",
                 "write \" before and after the text");
            return true;
        }
    if (holds(line, "\u00a0") && m->near[0] == '<') {
        tell(m, m->line, "the line has a no-break space, which looks like a space but is not one",
             "delete it and type a space; it often comes with text copied from a web page");
        return true;
    }
    return false;
}

/* ---- what other languages write ----------------------------------------------------------------
 */

static bool mend_signs(lml_mender *m)
{
    if (lml_mender_says(m, "'then' expected near '='")) {
        tell(m, m->line, "= sets a name, but here two things are compared",
             "write == to ask whether they are equal");
        return true;
    }
    if (strlen(m->near) == 1 && strchr("+-*/", m->near[0]) && lml_token_is(m->next, "=")) {
        lml_span name = m->last[1].text;
        char what[80], hint[160];
        snprintf(what, sizeof what, "%s= is not a Lua operator", m->near);
        snprintf(hint, sizeof hint, "write %.*s = %.*s %s ...", (int)name.length, name.at,
                 (int)name.length, name.at, m->near);
        tell(m, m->line, what, hint);
        return true;
    }
    if (lml_token_is(m->last[1], "%") && m->last[2].kind == LML_TOKEN_NUMBER) {
        char hint[120];
        snprintf(hint, sizeof hint, "write Q \"%.*s %%\", and multiply by it",
                 (int)m->last[2].text.length, m->last[2].text.at);
        tell(m, m->last[1].line, "a bare number has no percent sign", hint);
        return true;
    }
    return false;
}

/* Q(15 min) */
static bool mend_value(lml_mender *m)
{
    if (!lml_mender_says(m, "')' expected") || m->last[1].kind != LML_TOKEN_NUMBER ||
        !lml_token_is(m->last[2], "(") || !lml_token_is(m->last[3], "Q"))
        return false;
    char hint[120];
    snprintf(hint, sizeof hint, "write Q \"%.*s %s\"", (int)m->last[1].text.length,
             m->last[1].text.at, m->near);
    tell(m, m->line, "Q needs its value in quotes", hint);
    return true;
}

/* "else if" opens a second if: its line, or 0. */
static int else_if_line(const lml_mender *m)
{
    lml_scanner s = lml_scanner_on(m->source);
    lml_token before = {.kind = LML_TOKEN_END};
    int found = 0;
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END && t.line <= m->line;
         before = t, t = lml_token_next(&s))
        if (lml_token_is(t, "if") && lml_token_is(before, "else") && before.line == t.line)
            found = t.line;
    return found;
}

static bool mend_else_if(lml_mender *m)
{
    int line = lml_mender_says(m, "then") ? 0 : else_if_line(m);
    if (!line ||
        (!lml_mender_says(m, "'end' expected") && !lml_mender_says(m, "unexpected symbol")))
        return false;
    return lml_mender_tell(m, line, "write elseif, in one word",
                           "else if opens a second if, which needs its own end");
}

static bool mend_blocks(lml_mender *m)
{
    char what[160], hint[160];
    if (lml_mender_says(m, "'then' expected")) {
        snprintf(what, sizeof what, "then is missing before '%s'", m->near);
        tell(m, m->line, what, "write if ... then ... end");
        return true;
    }
    const char *open = strstr(m->err->message, "'end' expected (to close '");
    if (open) {
        char word[20] = "";
        int from = 0;
        if (sscanf(open, "'end' expected (to close '%19[a-z]' at line %d)", word, &from) != 2)
            return false;
        snprintf(what, sizeof what, "the %s of line %d has no end before '%s'", word, from,
                 m->near);
        snprintf(hint, sizeof hint, "write end where the %s of line %d ends", word, from);
        tell(m, m->line, what, hint);
        return true;
    }
    return false;
}

/* ---- names -------------------------------------------------------------------------------------
 */

static bool is_reserved(const char *word)
{
    static const char *const words[] = {"and",   "break", "do",       "else", "elseif", "end",
                                        "false", "for",   "function", "goto", "if",     "in",
                                        "local", "nil",   "not",      "or",   "repeat", "return",
                                        "then",  "true",  "until",    "while"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcmp(words[i], word) == 0)
            return true;
    return false;
}

static bool mend_names(lml_mender *m)
{
    char what[160], hint[160];
    lml_span a = m->last[1].text, b = m->last[0].text;
    if (is_reserved(m->near) && lml_token_is(m->next, "=")) {
        snprintf(what, sizeof what, "'%s' is a Lua keyword and cannot be a name", m->near);
        snprintf(hint, sizeof hint, "use another name, such as %s_", m->near);
        tell(m, m->line, what, hint);
        return true;
    }
    if (!lml_mender_says(m, "'}' expected"))
        return false;
    if (is_near(m, "=") && lml_token_is(m->last[2], "-") && m->last[3].kind == LML_TOKEN_NAME) {
        lml_span first = m->last[3].text;
        snprintf(what, sizeof what, "a name cannot contain a dash: %.*s-%.*s", (int)first.length,
                 first.at, (int)a.length, a.at);
        snprintf(hint, sizeof hint, "write %.*s_%.*s", (int)first.length, first.at, (int)a.length,
                 a.at);
        tell(m, m->line, what, hint);
        return true;
    }
    if (m->last[1].kind == LML_TOKEN_NAME && m->last[0].kind == LML_TOKEN_NAME &&
        m->last[1].line == m->last[0].line && lml_token_is(m->next, "=") &&
        (lml_token_is(m->last[2], ",") || lml_token_is(m->last[2], "{"))) {
        snprintf(what, sizeof what, "a name is one word: %.*s %.*s", (int)a.length, a.at,
                 (int)b.length, b.at);
        snprintf(hint, sizeof hint, "write %.*s_%.*s", (int)a.length, a.at, (int)b.length, b.at);
        tell(m, m->line, what, hint);
        return true;
    }
    return false;
}

/* ---- commas and braces -------------------------------------------------------------------------
 */

/* The line of the innermost bracket that is still open at the end, or 0; *sign is what opens. */
static int open_at_end(const lml_mender *m, char *sign)
{
    struct {
        char sign;
        int line;
    } open[OPEN_MOST];
    int depth = 0;
    lml_scanner s = lml_scanner_on(m->source);
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END && depth < OPEN_MOST;
         t = lml_token_next(&s)) {
        if (t.kind != LML_TOKEN_SIGN || t.text.length != 1)
            continue;
        char c = t.text.at[0];
        if (strchr("{([", c)) {
            open[depth].sign = c;
            open[depth++].line = t.line;
        } else if (strchr("})]", c) && depth > 0) {
            depth--;
        }
    }
    if (depth == 0)
        return 0;
    *sign = open[depth - 1].sign;
    return open[depth - 1].line;
}

static bool touches(lml_token before, lml_token t)
{
    return before.text.at + before.text.length == t.text.at;
}

static bool mend_table(lml_mender *m)
{
    char what[200], hint[160], sign = '{';
    if (is_near(m, "<eof>")) {
        int line = open_at_end(m, &sign);
        if (!line)
            return false;
        snprintf(what, sizeof what, "the file ends, but the %c of line %d is not closed", sign,
                 line);
        snprintf(hint, sizeof hint, "write the closing %c",
                 sign == '{'   ? '}'
                 : sign == '(' ? ')'
                               : ']');
        tell(m, m->line, what, hint);
        return true;
    }
    if (!lml_mender_says(m, "'}' expected") && !lml_mender_says(m, "')' expected"))
        return false;
    if ((m->last[1].kind == LML_TOKEN_TEXT && touches(m->last[1], m->last[0])) ||
        lml_mender_says(m, "unfinished string")) {
        tell(m, m->line, "a quote is missing in this line: a text begins and ends with one",
             "count the \" in the line: each text has two");
        return true;
    }
    bool entry = m->last[0].kind == LML_TOKEN_NAME || m->last[0].kind == LML_TOKEN_TEXT ||
                 lml_token_is(m->last[0], "{");
    bool ended = m->last[1].kind == LML_TOKEN_TEXT || m->last[1].kind == LML_TOKEN_NUMBER ||
                 m->last[1].kind == LML_TOKEN_NAME || lml_token_is(m->last[1], "}") ||
                 lml_token_is(m->last[1], ")");
    if (!entry || !ended)
        return false;
    lml_span before = m->last[1].text;
    snprintf(what, sizeof what, "a comma is missing before '%s'", m->near);
    snprintf(hint, sizeof hint,
             "write it after %.*s: the entries of a table are separated by commas",
             before.length > 40 ? 40 : (int)before.length, before.at);
    tell(m, m->last[1].line, what, hint);
    return true;
}

/* ---- where Lua stopped -------------------------------------------------------------------------
 */

static bool read_place(lml_mender *m)
{
    const char *message = m->err->message, *near = strstr(message, " near ");
    size_t length = strlen(m->shown);
    if (strncmp(message, m->shown, length) != 0 || message[length] != ':')
        return false;
    m->line = atoi(message + length + 1);
    m->near[0] = '\0';
    if (near) {
        near += strlen(" near ");
        near += *near == '\'';
        snprintf(m->near, sizeof m->near, "%s", near);
        size_t end = strlen(m->near);
        if (end && m->near[end - 1] == '\'')
            m->near[end - 1] = '\0';
    }
    return m->line > 0;
}

/* The token that Lua stopped at: the last of its line that reads so, or the first behind it. */
static void find_tokens(lml_mender *m)
{
    lml_scanner s = lml_scanner_on(m->source);
    lml_token window[LML_MEND_BACK] = {{.kind = LML_TOKEN_END}};
    bool found = false;
    for (int i = 0; i < TOKENS_MOST; i++) {
        lml_token t = lml_token_next(&s);
        if (found && m->next.kind == LML_TOKEN_END && m->last[0].text.at == window[0].text.at)
            m->next = t;
        if (t.kind == LML_TOKEN_END || t.line > m->line)
            return;
        memmove(window + 1, window, (LML_MEND_BACK - 1) * sizeof *window);
        window[0] = t;
        if (t.line == m->line && lml_span_is(t.text, m->near) && !found) {
            found = true;
            memcpy(m->last, window, sizeof window);
            m->next = (lml_token){.kind = LML_TOKEN_END};
        }
    }
}

void lml_mend_syntax(lml_span source, const char *shown, lml_error *err)
{
    lml_mender m = {.source = source, .shown = shown, .err = err};
    if (!read_place(&m))
        return;
    find_tokens(&m);
    if (mend_letters(&m) || mend_signs(&m) || mend_value(&m) || mend_names(&m) ||
        mend_else_if(&m) || lml_mender_habits(&m) || mend_blocks(&m) || mend_table(&m))
        return;
    lml_mender_rest(&m);
}
