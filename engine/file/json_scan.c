#include "file/json_scan.h"
#include "base/ascii.h"
#include "base/decimal.h"
#include "base/letter.h"
#include "file/json_path.h"
#include <math.h>
#include <string.h>

struct scan {
    lml_json_document *doc;
    lml_json_limits limits;
    const char *text;
    size_t length, at;
    unsigned line;
    size_t line_start;
    size_t here; /* the node being read, for messages */
    lml_error *err;
};

/* Back to the line of `offset`, where the reader has passed beyond it. */
static void go_back(struct scan *s, size_t offset)
{
    while (s->line_start > offset) {
        s->line--;
        s->line_start--;
        while (s->line_start > 0 && s->text[s->line_start - 1] != '\n')
            s->line_start--;
    }
}

/* Say what is wrong at `offset`, where that is, and (unless NULL) the fix. */
LML_PRINTF(5, 6)
static lml_status refuse(struct scan *s, size_t offset, lml_status status, const char *hint,
                         const char *format, ...)
{
    go_back(s, offset);
    va_list arguments;
    va_start(arguments, format);
    lml_json_path_fail(&s->doc->node[s->here], s->line, s->err, status, format, arguments);
    va_end(arguments);
    if (hint && s->err)
        lml_error_hint(s->err, "%s", hint);
    const char *end = memchr(s->text + offset, '\n', s->length - offset);
    size_t to = end ? (size_t)(end - s->text) : s->length;
    lml_error_label(s->err, s->text + s->line_start, to - s->line_start, offset - s->line_start,
                    to > offset, "here");
    return status;
}

/* The text ends with a NUL. */
static int peek(const struct scan *s)
{
    const int c = (unsigned char)s->text[s->at];
    return c || s->at < s->length ? c : -1;
}

static void skip_blanks(struct scan *s)
{
    for (;; s->at++) {
        const char c = s->text[s->at];
        if (c == '\n') {
            s->line++;
            s->line_start = s->at + 1;
        } else if (c != ' ' && c != '\t' && c != '\r') {
            return;
        }
    }
}

static bool is_letter(int c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

enum { WORD_MOST = 80 };

/* The run of characters from here that can only be one misspelt word or number. */
static lml_span word_here(const struct scan *s)
{
    lml_span rest = {s->text + s->at, s->length - s->at};
    uint32_t code;
    size_t length = 0, bytes;
    while (length < WORD_MOST &&
           (bytes = lml_utf8_next((lml_span){rest.at + length, rest.length - length}, &code)) > 0 &&
           code > 0x20 && (code >= 0x80 || !strchr(",:[]{}\"", (int)code)))
        length += bytes;
    return (lml_span){rest.at, length};
}

/* The likely fix of a character that is where it cannot be. */
static const char *mend_of(uint32_t c)
{
    if (c < 0x80 && is_letter((int)c))
        return "names, texts and values with a unit go in double quotes; true and false are "
               "in lower case";
    if (lml_ascii_is_digit((int)c))
        return "names go in double quotes; decimals use a point: 12.5";
    if (c == '/' || c == '#')
        return "JSON has no comments; put a note in a text";
    if (c == '\'' || c == 0x2018 || c == 0x2019 || (c >= 0x201C && c <= 0x201E) || c == 0xAB ||
        c == 0xBB)
        return "texts and names go in straight double quotes: \"";
    if (c == '%' || c == 0x2030 || c == 0xB0 || c == 0xB5)
        return "put a value with a unit in quotes, such as \"12.5 g\"";
    if (c == 0xA0 || c == 0xFEFF || (c >= 0x2000 && c <= 0x200F))
        return "there is an invisible character here; remove it";
    return NULL;
}

static lml_status not_utf8(struct scan *s)
{
    return refuse(s, s->at, LML_BAD_DATA, "save the file as UTF-8",
                  "a byte (0x%02X) that is not UTF-8", (unsigned)peek(s));
}

/* Something is here that cannot be; `due` says what can. */
static lml_status unexpected(struct scan *s, const char *due)
{
    uint32_t c = 0;
    if (peek(s) < 0)
        return refuse(s, s->at, LML_BAD_DATA,
                      "the end is missing: a closing bracket, or the rest of the file",
                      "the text ends where %s is expected", due);
    size_t bytes = lml_utf8_next(lml_span_between(s->text + s->at, s->text + s->length), &c);
    if (!bytes)
        return not_utf8(s);
    if (c < 0x20 || c == 0x7F)
        return refuse(s, s->at, LML_BAD_DATA, NULL,
                      "a control character (0x%02X) where %s is expected", (unsigned)c, due);
    lml_span shown = {s->text + s->at, bytes};
    if (c < 0x80 && is_letter((int)c))
        shown = word_here(s);
    return refuse(s, s->at, LML_BAD_DATA, mend_of(c), "%.*s where %s is expected",
                  (int)shown.length, shown.at, due);
}

/* What is between two quotes, as written. */
typedef struct quoted {
    lml_span inside;
    bool escapes, beyond; /* has escapes; has characters beyond printable ASCII */
} quoted;

static lml_status add_node(struct scan *s, size_t parent, const quoted *name)
{
    lml_json_document *d = s->doc;
    if (d->count >= s->limits.nodes)
        return refuse(s, s->at, LML_LIMIT, NULL, "more than %zu values in one text",
                      s->limits.nodes);
    if (d->count == d->capacity) {
        enum { BYTES_EACH = 16 /* in a result, few */, FEW = 16 };
        size_t more = d->capacity ? d->capacity * 2 : d->length / BYTES_EACH + FEW;
        lml_json *grown =
            lml_alloc_resize(&d->alloc, d->node, d->capacity * sizeof *grown, more * sizeof *grown);
        if (!grown)
            return lml_fail(s->err, LML_NO_MEMORY, "out of memory for %s", d->source);
        d->node = grown;
        d->capacity = more;
    }
    s->here = d->count;
    d->node[d->count++] = (lml_json){
        .document = d,
        .offset = (uint32_t)s->at,
        .name_offset = name ? (uint32_t)(name->inside.at - s->text) : 0,
        .name_length = name ? (uint32_t)name->inside.length : 0,
        .name_escapes = name && name->escapes,
        .line = s->line,
        .parent = (uint32_t)parent,
    };
    return LML_OK;
}

/* Four hexadecimal digits at `at`; -1 when they are not there. */
static long hex4(const struct scan *s, size_t at)
{
    long code = 0;
    if (at + 4 > s->length)
        return -1;
    for (size_t i = at; i < at + 4; i++) {
        char c = s->text[i];
        int digit = lml_ascii_is_digit(c)    ? c - '0'
                    : (c >= 'a' && c <= 'f') ? c - 'a' + 10
                    : (c >= 'A' && c <= 'F') ? c - 'A' + 10
                                             : -1;
        if (digit < 0)
            return -1;
        code = code * 16 + digit;
    }
    return code;
}

/* After a backslash. */
static lml_status scan_escape(struct scan *s)
{
    int c = peek(s);
    if (c > 0 && strchr("\"\\/bfnrt", c)) {
        s->at++;
        return LML_OK;
    }
    if (c != 'u')
        return refuse(s, s->at, LML_BAD_DATA, "a backslash itself is written \\\\",
                      "a backslash before something that needs none");
    long code = hex4(s, s->at + 1);
    if (code < 0)
        return refuse(s, s->at, LML_BAD_DATA, NULL, "four hexadecimal digits are needed after \\u");
    if (code == 0)
        return refuse(s, s->at, LML_BAD_DATA, NULL, "\\u0000 is not allowed in a text");
    if (code >= 0xDC00 && code <= 0xDFFF)
        return refuse(s, s->at, LML_BAD_DATA, NULL,
                      "\\u%04lX is the second half of a pair without its first",
                      (unsigned long)code);
    s->at += 5;
    if (code >= 0xD800 && code <= 0xDBFF) {
        long low = -1;
        if (s->at + 2 <= s->length && s->text[s->at] == '\\' && s->text[s->at + 1] == 'u')
            low = hex4(s, s->at + 2);
        if (low < 0xDC00 || low > 0xDFFF)
            return refuse(s, s->at, LML_BAD_DATA, NULL,
                          "\\u%04lX is the first half of a pair without its second",
                          (unsigned long)code);
        s->at += 6;
    }
    return LML_OK;
}

/* By byte: whether the scan of a text stops there, at what is no printable ASCII, at a quote and at
 * a backslash. */
/* clang-format off */
#define ALL(x) x, x, x, x, x, x, x, x
static const bool stops[256] = {
    ALL(true), ALL(true), ALL(true), ALL(true),
    /* 0x20 */ false, false, true, false, false, false, false, false, ALL(false), ALL(false),
    ALL(false),
    /* 0x40 */ ALL(false), ALL(false), ALL(false), false, false, false, false, true, false, false,
    false,
    /* 0x60 */ ALL(false), ALL(false), ALL(false), false, false, false, false, false, false, false,
    true,
    /* 0x80 */ ALL(true), ALL(true), ALL(true), ALL(true), ALL(true), ALL(true), ALL(true),
    ALL(true), ALL(true), ALL(true), ALL(true), ALL(true), ALL(true), ALL(true), ALL(true),
    ALL(true)};
#undef ALL
/* clang-format on */

/* At the opening quote. */
static lml_status scan_text(struct scan *s, quoted *out)
{
    size_t open = s->at++;
    out->escapes = out->beyond = false;
    for (;;) {
        const char *end = s->text + s->at; /* the NUL behind the text ends it at the latest */
        while (!stops[(unsigned char)*end])
            end++;
        s->at = (size_t)(end - s->text);
        int c = peek(s);
        if (c < 0 || c == '\n' || c == '\r')
            return refuse(s, open, LML_BAD_DATA,
                          "close it with \"; a new line within a text is written \\n",
                          "the text that starts here is not closed on its line");
        if (c == '"')
            break;
        if (c < 0x20)
            return refuse(s, s->at, LML_BAD_DATA, "a tab is written \\t",
                          "a text contains a control character (0x%02X)", (unsigned)c);
        if (c == '\\') {
            s->at++;
            out->escapes = true;
            lml_status status = scan_escape(s);
            if (status)
                return status;
            continue;
        }
        uint32_t code;
        size_t bytes = lml_utf8_next(lml_span_between(s->text + s->at, s->text + s->length), &code);
        if (!bytes)
            return not_utf8(s);
        out->beyond = true;
        s->at += bytes;
    }
    out->inside = lml_span_between(s->text + open + 1, s->text + s->at);
    s->at++;
    return LML_OK;
}

static size_t digits_from(const struct scan *s, size_t at)
{
    size_t from = at;
    while (at < s->length && lml_ascii_is_digit(s->text[at]))
        at++;
    return at - from;
}

/* Length of the RFC 8259 number that starts here; 0 when none does. */
static size_t number_length(const struct scan *s)
{
    size_t at = s->at + (peek(s) == '-');
    size_t whole = digits_from(s, at);
    if (!whole || (whole > 1 && s->text[at] == '0'))
        return 0;
    at += whole;
    if (at < s->length && s->text[at] == '.') {
        size_t decimals = digits_from(s, at + 1);
        if (!decimals)
            return 0;
        at += 1 + decimals;
    }
    if (at < s->length && (s->text[at] == 'e' || s->text[at] == 'E')) {
        at++;
        if (at < s->length && (s->text[at] == '+' || s->text[at] == '-'))
            at++;
        size_t exponent = digits_from(s, at);
        if (!exponent)
            return 0;
        at += exponent;
    }
    return at - s->at;
}

/* Whether a number may end there. */
static bool ends_at(const struct scan *s, size_t at)
{
    return at >= s->length || (unsigned char)s->text[at] <= 0x20 ||
           (s->text[at] && strchr(",:[]{}\"", s->text[at]));
}

static lml_status scan_number(struct scan *s)
{
    size_t length = number_length(s);
    lml_span word = {s->text + s->at, length};
    if (length == 0 || length >= WORD_MOST || !ends_at(s, s->at + length))
        word = word_here(s);
    if (length > LML_JSON_NUMBER_MOST)
        return refuse(s, s->at, LML_BAD_DATA, NULL, "a number of more than %d characters",
                      LML_JSON_NUMBER_MOST);
    if (length != word.length)
        return refuse(s, s->at, LML_BAD_DATA,
                      length
                          ? "put a value with a unit in quotes, such as \"12.5 g\""
                          : "write a number like 12.5, 0.5 or -3: no plus sign, no leading zero, "
                            "digits on both sides of the point",
                      "%.*s is not a number", (int)word.length, word.at);
    lml_decimal decimal;
    double x = HUGE_VAL;
    if (lml_decimal_read(word, &decimal) == word.length)
        x = lml_decimal_scale(&decimal, (lml_rational){1, 1});
    if (!isfinite(x) || (x == 0 && decimal.digits != 0))
        return refuse(s, s->at, LML_BAD_DATA, NULL, "%.*s is too %s for a number", (int)word.length,
                      word.at, isfinite(x) ? "small" : "large");
    s->doc->node[s->here].kind = LML_JSON_NUMBER;
    s->doc->node[s->here].number = x;
    s->at += length;
    return LML_OK;
}

static lml_status scan_word(struct scan *s)
{
    lml_span word = word_here(s);
    lml_json *node = &s->doc->node[s->here];
    if (lml_span_is(word, "true") || lml_span_is(word, "false"))
        node->kind = LML_JSON_YES_NO;
    else if (lml_span_is(word, "null"))
        node->kind = LML_JSON_NULL;
    else
        return unexpected(s, "a value");
    s->at += word.length;
    return LML_OK;
}

static lml_status scan_value(struct scan *s, size_t parent, const quoted *name, size_t depth);

/* The name and colon of a member. */
static lml_status scan_name(struct scan *s, quoted *name)
{
    if (peek(s) != '"')
        return unexpected(s, "a name in quotes");
    size_t start = s->at;
    uint32_t code;
    lml_status status = scan_text(s, name);
    if (status)
        return status;
    if (name->beyond && lml_letter_find_hidden(name->inside, "", &code) < name->inside.length)
        return refuse(s, start, LML_BAD_DATA, "remove it", "the name contains %s (U+%04X)",
                      lml_letter_fault(code), (unsigned)code);
    skip_blanks(s);
    if (peek(s) != ':')
        return unexpected(s, "a colon after the name");
    s->at++;
    skip_blanks(s);
    return LML_OK;
}

/* A comma goes on, `close` ends; *more says which. */
static lml_status scan_comma(struct scan *s, char close, bool *more)
{
    skip_blanks(s);
    int c = peek(s);
    *more = c == ',';
    if (c == close)
        return LML_OK;
    if (c != ',')
        return unexpected(s, close == '}' ? "a comma or the } of this record"
                                          : "a comma or the ] of this list");
    size_t comma = s->at++;
    skip_blanks(s);
    if (peek(s) == close)
        return refuse(s, comma, LML_BAD_DATA, "remove the comma",
                      "there is a comma before the closing %c", close);
    return LML_OK;
}

/* The members of a record or the items of a list, from the opening bracket to the closing one. */
static lml_status scan_within(struct scan *s, size_t me, size_t depth)
{
    bool record = peek(s) == '{';
    char close = record ? '}' : ']';
    if (depth >= s->limits.depth)
        return refuse(s, s->at, LML_LIMIT, NULL, "lists and records are nested more than %zu deep",
                      s->limits.depth);
    s->doc->node[me].kind = record ? LML_JSON_RECORD : LML_JSON_LIST;
    s->at++;
    skip_blanks(s);
    bool more = peek(s) != close;
    while (more) {
        quoted name;
        lml_status status = record ? scan_name(s, &name) : LML_OK;
        if (!status)
            status = scan_value(s, me, record ? &name : NULL, depth + 1);
        if (status)
            return status;
        s->doc->node[me].count++;
        s->here = me;
        status = scan_comma(s, close, &more);
        if (status)
            return status;
    }
    s->doc->members += record ? s->doc->node[me].count : 0;
    s->at++;
    return LML_OK;
}

static lml_status scan_value(struct scan *s, size_t parent, const quoted *name, size_t depth)
{
    lml_status status = add_node(s, parent, name);
    if (status)
        return status;
    size_t me = s->here;
    int c = peek(s);
    if (c == '{' || c == '[') {
        status = scan_within(s, me, depth);
    } else if (c == '"') {
        quoted text;
        s->doc->node[me].kind = LML_JSON_TEXT;
        status = scan_text(s, &text);
        s->doc->node[me].escapes = text.escapes;
    } else if (lml_ascii_is_digit(c) || c == '-' || c == '+' || c == '.') {
        status = scan_number(s);
    } else {
        status = scan_word(s);
    }
    if (status)
        return status;
    lml_json *node = &s->doc->node[me];
    node->length = (uint32_t)(s->at - node->offset);
    node->end = (uint32_t)s->doc->count;
    return LML_OK;
}

lml_status lml_json_scan(lml_json_document *doc, const lml_json_limits *limits, lml_error *err)
{
    struct scan s = {.doc = doc,
                     .limits = *limits,
                     .text = doc->text,
                     .length = doc->length,
                     .line = 1,
                     .err = err};
    lml_status status = lml_text_refuse_mark((lml_span){doc->text, doc->length}, doc->source, err);
    if (status)
        return status;
    skip_blanks(&s);
    if (s.at == s.length)
        return lml_fail(err, LML_BAD_DATA, "%s: the text is empty: a file needs at least {}",
                        doc->source);
    status = scan_value(&s, 0, NULL, 0);
    if (status)
        return status;
    skip_blanks(&s);
    s.here = 0;
    if (s.at < s.length)
        return unexpected(&s, "the end of the text");
    return LML_OK;
}
