#include "shelf/mender.h"

#include "base/nearest.h"
#include "unit/currency.h"
#include "unit/unit.h"

#include <stdio.h>
#include <string.h>

bool lml_mender_tell(lml_mender *m, int line, const char *hint, const char *format, ...)
{
    char path[160], what[300];
    snprintf(path, sizeof path, "%s", m->shown);
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    lml_fail(m->err, LML_BAD_RECIPE, "%s:%d: %s", path, line, what);
    lml_error_hint(m->err, "%s", hint);
    return true;
}

static lml_span whole_line(const lml_mender *m, int line)
{
    const char *at = m->source.at, *stop = at + m->source.length;
    for (int i = 1; i < line && at < stop; i++) {
        const char *end = memchr(at, '\n', (size_t)(stop - at));
        at = end ? end + 1 : stop;
    }
    const char *end = memchr(at, '\n', (size_t)(stop - at));
    return lml_span_between(at, end ? end : stop);
}

lml_span lml_mender_line(const lml_mender *m, int line)
{
    return lml_span_trim(whole_line(m, line));
}

int lml_mender_indent(const lml_mender *m, int line)
{
    lml_span all = whole_line(m, line);
    size_t i = 0;
    while (i < all.length && (all.at[i] == ' ' || all.at[i] == '\t'))
        i++;
    return (int)i;
}

bool lml_mender_says(const lml_mender *m, const char *part)
{
    return strstr(m->err->message, part) != NULL;
}

static bool is_near(const lml_mender *m, const char *word)
{
    return strcmp(m->near, word) == 0;
}

static bool is(const lml_mender *m, int back, const char *word)
{
    return lml_token_is(m->last[back], word);
}

static bool is_name(const lml_mender *m, int back)
{
    return m->last[back].kind == LML_TOKEN_NAME;
}

static bool touches(lml_token before, lml_token t)
{
    return before.text.at && before.text.at + before.text.length == t.text.at;
}

/* ---- signs ---- */

/* Signs that Lua lacks, by the one it stopped at and the one before or behind it. */
typedef struct habit {
    const char *before, *near, *behind; /* NULL: any */
    const char *what, *hint;
} habit;

static bool mend_signs(lml_mender *m)
{
    static const habit habits[] = {
        {NULL, "&", "&", "&& is not a Lua operator", "write and"},
        {NULL, "|", "|", "|| is not a Lua operator", "write or"},
        {NULL, "!", "=", "!= is not a Lua operator", "write ~= for not equal, and not for !"},
        {NULL, "!", NULL, "! is not a Lua operator", "write not, or ~= for not equal"},
        {"<", ">", NULL, "<> is not a Lua operator", "write ~= for not equal"},
        {"-", ">", NULL, "-> is not a Lua operator", "write a dot: job.wax"},
        {":", "=", NULL, ":= is not a Lua operator", "write local x = ... to set a name"},
        {NULL, "?", NULL,
         "Lua has no ? :", "write condition and this or that, or if ... then ... else ... end"},
        {NULL, "[", NULL, "a list is not written in square brackets", "write { 1, 2, 3 }"}};
    for (size_t i = 0; i < sizeof habits / sizeof *habits; i++) {
        const habit *h = &habits[i];
        if (is_near(m, h->near) && (!h->before || is(m, 1, h->before)) &&
            (!h->behind || lml_token_is(m->next, h->behind)))
            return lml_mender_tell(m, m->line, h->hint, "%s", h->what);
    }
    static const char *const written[][3] = {{"=>", "=", "write >= for at least"},
                                             {"=<", "=", "write <= for at most"},
                                             {"**", "*", "write ^ for a power"}};
    lml_span line = lml_mender_line(m, m->line);
    for (size_t i = 0; i < sizeof written / sizeof *written; i++)
        for (size_t k = 0; is_near(m, written[i][1]) && k + 1 < line.length; k++)
            if (memcmp(line.at + k, written[i][0], 2) == 0)
                return lml_mender_tell(m, m->line, written[i][2], "%s is not a Lua operator",
                                       written[i][0]);
    bool twice = (is_near(m, "+") || is_near(m, "-")) && lml_token_is(m->next, m->near);
    if (twice && is_name(m, 1)) {
        char hint[120];
        lml_span name = m->last[1].text;
        snprintf(hint, sizeof hint, "write %.*s = %.*s %s 1", (int)name.length, name.at,
                 (int)name.length, name.at, m->near);
        return lml_mender_tell(m, m->line, hint, "%s%s is not a Lua operator", m->near, m->near);
    }
    if (is_near(m, "==") && is_name(m, 1) && is(m, 2, "local"))
        return lml_mender_tell(m, m->line, "write local x = ...",
                               "local sets a name, with one =; == compares");
    return false;
}

/* ---- values without quotes ---- */

static bool is_unit(lml_span name)
{
    lml_unit unit;
    lml_dimension dimension;
    return lml_unit_read(name, &unit, &dimension, NULL) == LML_OK || lml_currency_by_code(name);
}

/* 5 min and 29 g, two words; 29g, one. */
static bool mend_bare_value(lml_mender *m)
{
    char hint[120];
    for (int i = 0; i < 2; i++) {
        lml_token unit = m->last[i], number = m->last[i + 1];
        if (unit.kind != LML_TOKEN_NAME || number.kind != LML_TOKEN_NUMBER ||
            unit.line != number.line || !is_unit(unit.text) || is(m, i + 2, "("))
            continue;
        snprintf(hint, sizeof hint, "write Q \"%.*s %.*s\"", (int)number.text.length,
                 number.text.at, (int)unit.text.length, unit.text.at);
        return lml_mender_tell(
            m, number.line, hint, "%.*s %.*s is a value, which is written with Q and in quotes",
            (int)number.text.length, number.text.at, (int)unit.text.length, unit.text.at);
    }
    if (!lml_mender_says(m, "malformed number"))
        return false;
    const char *unit = m->near + strspn(m->near, "0123456789.");
    if (strstr(m->near, ".."))
        return lml_mender_tell(
            m, m->line, "for i = 1, 3 do ... end counts; .. joins texts, with blanks around it",
            "%s is not a number", m->near);
    if (*unit && is_unit(lml_span_of(unit))) {
        snprintf(hint, sizeof hint, "write Q \"%.*s %s\"", (int)(unit - m->near), m->near, unit);
        return lml_mender_tell(m, m->line, hint,
                               "%s is a value, which is written with Q and in quotes", m->near);
    }
    return lml_mender_tell(m, m->line,
                           "a number has digits and at most one point; a name begins with a letter",
                           "%s is neither a number nor a name", m->near);
}

/* A currency sign, or another character that is not a letter in Lua. */
static bool mend_odd_sign(lml_mender *m)
{
    static const char *const money[][2] = {
        {"$", "USD"}, {"\u20ac", "EUR"}, {"\u00a3", "GBP"}, {"\u00a5", "JPY"}};
    lml_span line = lml_mender_line(m, m->line);
    if (m->near[0] != '<' && !is_near(m, "$"))
        return false;
    if (is_near(m, "<eof>") || is_near(m, "<name>"))
        return false;
    for (size_t i = 0; i < sizeof money / sizeof *money; i++)
        for (size_t k = 0; k + strlen(money[i][0]) <= line.length; k++)
            if (memcmp(line.at + k, money[i][0], strlen(money[i][0])) == 0) {
                char hint[80];
                snprintf(hint, sizeof hint, "write Q \"5.00 %s\"", money[i][1]);
                return lml_mender_tell(m, m->line, hint, "%s stands outside of a text",
                                       money[i][0]);
            }
    return lml_mender_tell(
        m, m->line, "write it in quotes; a name has plain letters, digits and _",
        "the line has a letter or sign outside of a text that Lua does not know");
}

/* ---- tables ---- */

/* { a: 1 } and { "a": 1 } */
static bool mend_colon(lml_mender *m)
{
    int colon = is(m, 0, ":") ? 0 : is(m, 1, ":") ? 1 : 2;
    lml_token name = m->last[colon + 1];
    bool text = colon == 0 && name.kind == LML_TOKEN_TEXT;
    bool spaced = colon > 0 && is(m, colon, ":") && name.kind == LML_TOKEN_NAME &&
                  !touches(m->last[colon], m->last[colon - 1]) &&
                  (lml_mender_says(m, "<name> expected") ||
                   lml_mender_says(m, "function arguments expected"));
    if (!text && !spaced)
        return false;
    lml_span bare = text ? (lml_span){name.text.at + 1, name.text.length - 2} : name.text;
    char hint[120];
    snprintf(hint, sizeof hint, "write %.*s = ...", (int)bare.length, bare.at);
    return lml_mender_tell(m, m->last[colon].line, hint,
                           "in a table a name is followed by =, and not by a colon");
}

/* ---- words ---- */

static bool mend_words(lml_mender *m)
{
    static const char *const words[][3] = {
        {"let", "let does not make a name", "write local x = ..."},
        {"var", "var does not make a name", "write local x = ..."},
        {"const", "const does not make a name", "write local x = ..."},
        {"def", "def does not make a function", "write local function name(a) ... end"},
        {"elif", "elif is no word of Lua", "write elseif ... then"},
        {"elsif", "elsif is no word of Lua", "write elseif ... then"},
        {"switch", "Lua has no switch", "write if ... then ... elseif ... then ... end"},
        {"case", "Lua has no case", "write if ... then ... elseif ... then ... end"},
        {"try", "Lua has no try", "write local ok, why = pcall(function () ... end)"},
        {"import", "import is no word of Lua", "write local gems = require \"gems\""}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (is(m, 1, words[i][0]) && lml_mender_says(m, "syntax error"))
            return lml_mender_tell(m, m->last[1].line, words[i][2], "%s", words[i][1]);
    if (is(m, 1, "function") && is_near(m, "("))
        return lml_mender_tell(m, m->line, "write local function name(a) ... end",
                               "a function that is not a value needs a name");
    if (is(m, 1, "for") && is_near(m, "("))
        return lml_mender_tell(
            m, m->line, "write for i = 1, 3 do ... end, or for _, lot in ipairs(list) do ... end",
            "a loop has no brackets after for");
    return false;
}

static bool mend_comments(lml_mender *m)
{
    lml_span line = lml_mender_line(m, m->line);
    if (lml_span_starts(line, "//") || lml_span_starts(line, "/*") || lml_span_starts(line, "#"))
        return lml_mender_tell(m, m->line,
                               lml_span_starts(line, "/*") ? "write -- before each line of it"
                                                           : "write -- before a comment",
                               "a comment does not begin with %s",
                               lml_span_starts(line, "//")   ? "//"
                               : lml_span_starts(line, "/*") ? "/*"
                                                             : "#");
    return false;
}

/* ---- blocks ---- */

/* if (a > b) { ... }: Lua takes the braces for arguments, and stops behind them. */
static bool mend_braces(lml_mender *m)
{
    bool then = lml_mender_says(m, "'then' expected"), loop = lml_mender_says(m, "'do' expected");
    lml_scanner s = lml_scanner_on(m->source);
    int from = 0, brace = 0;
    if (!then && !loop)
        return false;
    for (lml_token t = lml_token_next(&s);
         t.kind != LML_TOKEN_END && t.text.at < m->last[0].text.at; t = lml_token_next(&s)) {
        bool opens = then ? lml_token_is(t, "if") || lml_token_is(t, "elseif")
                          : lml_token_is(t, "while") || lml_token_is(t, "for");
        if (opens) {
            from = t.line;
            brace = 0;
        } else if (lml_token_is(t, "{") && !brace) {
            brace = t.line;
        }
    }
    if (!from || (brace != from && !is_near(m, "{")))
        return false;
    return lml_mender_tell(m, from,
                           then ? "write if ... then ... end" : "write while ... do ... end",
                           "braces do not hold the lines of %s", then ? "an if" : "a loop");
}

/* "thn" for then */
static bool mend_near_word(lml_mender *m)
{
    static const char *const words[] = {"then", "do"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        char expected[24], hint[80];
        snprintf(expected, sizeof expected, "'%s' expected", words[i]);
        lml_nearest nearest = lml_nearest_to(lml_span_of(m->near));
        lml_nearest_offer(&nearest, lml_span_of(words[i]));
        if (!lml_mender_says(m, expected) || !lml_nearest_found(&nearest))
            continue;
        snprintf(hint, sizeof hint, "did you mean %s?", words[i]);
        return lml_mender_tell(m, m->line, hint, "'%s' stands where %s has to be", m->near,
                               words[i]);
    }
    return false;
}

static bool opens_block(lml_token t)
{
    return lml_token_is(t, "function") || lml_token_is(t, "if") || lml_token_is(t, "do") ||
           lml_token_is(t, "repeat");
}

/* A block whose end stands less far in than its own line has none: the end is that of the block
 * around it. *word is what opens it; its line, or 0. */
static int unended(const lml_mender *m, lml_span *word)
{
    enum { BLOCKS_MOST = 100 };
    lml_token open[BLOCKS_MOST];
    int depth = 0;
    lml_scanner s = lml_scanner_on(m->source);
    for (lml_token t = lml_token_next(&s);
         t.kind != LML_TOKEN_END && depth < BLOCKS_MOST && t.text.at <= m->last[0].text.at;
         t = lml_token_next(&s)) {
        if (opens_block(t)) {
            open[depth++] = t;
        } else if ((lml_token_is(t, "end") || lml_token_is(t, "until")) && depth > 0) {
            lml_token block = open[--depth];
            if (block.line < t.line &&
                lml_mender_indent(m, t.line) < lml_mender_indent(m, block.line)) {
                *word = block.text;
                return block.line;
            }
        }
    }
    return 0;
}

static bool mend_ends(lml_mender *m)
{
    char hint[120];
    lml_span word = {"", 0};
    if (is(m, 1, "end") && lml_mender_says(m, "'}' expected") && m->last[0].kind == LML_TOKEN_NAME)
        return lml_mender_tell(m, m->last[1].line,
                               "remove one: each function, if, for, while and do has one end",
                               "there is an end too many before '%s'", m->near);
    int line = is(m, 1, "end") && is_near(m, ",") ? unended(m, &word) : 0;
    if (line) {
        snprintf(hint, sizeof hint, "write end where the %.*s of line %d ends", (int)word.length,
                 word.at, line);
        return lml_mender_tell(m, line, hint, "the %.*s of line %d has no end", (int)word.length,
                               word.at, line);
    }
    const char *open = strstr(m->err->message, "'end' expected (to close '");
    int from = 0;
    if (!open || sscanf(open, "'end' expected (to close '%*[a-z]' at line %d)", &from) != 1)
        open = NULL;
    bool alone = is_near(m, "else") || is_near(m, "elseif") || is_near(m, "until");
    if ((open || lml_mender_says(m, "'end' expected near")) && alone)
        return lml_mender_tell(m, m->line, "an end above may be one too many; else if is one word",
                               "'%s' belongs to no %s", m->near,
                               is_near(m, "until") ? "repeat" : "if");
    /* Lua ends a block at return: what begins a statement there comes after one. */
    bool deeper = open && from != m->line && is_name(m, 0) &&
                  lml_mender_indent(m, m->line) > lml_mender_indent(m, from);
    bool behind = lml_mender_says(m, "'end' expected near") && is_name(m, 0);
    if (deeper || behind)
        return lml_mender_tell(
            m, m->line, "move it above the return, or write if ... then return ... end",
            "'%s' comes after return, which must be the last of its block", m->near);
    return false;
}

static bool is_reserved(const lml_mender *m)
{
    static const char *const words[] = {"return", "local", "if",       "for",   "while", "end",
                                        "else",   "do",    "function", "until", "repeat"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (is_near(m, words[i]))
            return true;
    return false;
}

static bool mend_open_bracket(lml_mender *m)
{
    bool round = lml_mender_says(m, "')' expected");
    if ((!round && !lml_mender_says(m, "']' expected")) || !is_reserved(m))
        return false;
    return lml_mender_tell(m, m->last[1].line,
                           round ? "write ) where it ends" : "write ] where it ends",
                           "a %c is not closed before '%s'", round ? '(' : '[', m->near);
}

bool lml_mender_habits(lml_mender *m)
{
    return mend_comments(m) || mend_bare_value(m) || mend_signs(m) || mend_colon(m) ||
           mend_words(m) || mend_braces(m) || mend_near_word(m) || mend_ends(m) ||
           mend_open_bracket(m) || mend_odd_sign(m);
}

/* ---- what is left ---- */

static bool is_unfinished(lml_token t)
{
    static const char *const words[] = {"=", "==",  "~=", "<",   ">",      "<=", ">=", ",",
                                        "(", "and", "or", "not", "return", "..", "%",  "^"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (lml_token_is(t, words[i]))
            return true;
    return lml_token_is_arithmetic(t);
}

bool lml_mender_rest(lml_mender *m)
{
    char hint[160];
    lml_span last = m->last[1].text;
    int length = last.length > 40 ? 40 : (int)last.length;
    if (lml_mender_says(m, "unfinished string") || lml_mender_says(m, "unfinished long"))
        return lml_mender_tell(
            m, m->line, "write the same quote at its end; ' within '...' ends it: use \"...\"",
            "a text is not closed in this line");
    if (lml_mender_says(m, "unexpected symbol") && is_unfinished(m->last[1]))
        return lml_mender_tell(m, m->last[1].line, "write the value that belongs there",
                               "something is missing after '%.*s'", length, last.at);
    if (lml_mender_says(m, "unexpected symbol") &&
        (is_near(m, ")") || is_near(m, "}") || is_near(m, "]")))
        return lml_mender_tell(m, m->line, "remove it, or write what opens it",
                               "%s closes nothing that is open", m->near);
    if (lml_mender_says(m, "break outside"))
        return lml_mender_tell(m, m->line, "a function is left with return",
                               "break is not in a loop");
    if (lml_mender_says(m, "no visible label"))
        return lml_mender_tell(m, m->line, "write if ... then ... end, or a loop",
                               "goto has no such label");
    if (lml_mender_says(m, "function arguments expected") && is(m, 2, ":")) {
        lml_span whole = m->last[3].text;
        snprintf(hint, sizeof hint, "write %.*s.%.*s for a figure, or %.*s:%.*s(...)",
                 (int)whole.length, whole.at, length, last.at, (int)whole.length, whole.at, length,
                 last.at);
        return lml_mender_tell(m, m->last[1].line, hint,
                               "a colon calls, and its brackets are missing");
    }
    if (lml_mender_says(m, "syntax error") && is_near(m, ",") &&
        m->last[1].kind == LML_TOKEN_TEXT) {
        snprintf(hint, sizeof hint, "write %.*s(%.*s, ...)", (int)m->last[2].text.length,
                 m->last[2].text.at, length, last.at);
        return lml_mender_tell(m, m->line, hint, "more than one argument needs brackets");
    }
    if (lml_mender_says(m, "syntax error") && is_name(m, 1)) {
        snprintf(hint, sizeof hint, "set it (local %.*s = ...), call it, or remove it", length,
                 last.at);
        return lml_mender_tell(m, m->last[1].line, hint,
                               "'%.*s' stands alone, and nothing is done with it", length, last.at);
    }
    return false;
}
