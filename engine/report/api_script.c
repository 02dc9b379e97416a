#include "report/api_script.h"

#include <string.h>

/* ---- lines ---- */

/* The line that begins at `at`, without its end. */
static lml_span line_at(lml_span text, size_t at)
{
    const char *from = text.at + at, *end = text.at + text.length;
    const char *stop = memchr(from, '\n', (size_t)(end - from));
    return lml_span_between(from, stop ? stop : end);
}

/* Where the line before the one at `at` begins; false at the start of the text. */
static bool line_before(lml_span text, size_t *at)
{
    if (*at == 0)
        return false;
    for (--*at; *at > 0 && text.at[*at - 1] != '\n';)
        --*at;
    return true;
}

static bool is_comment(lml_span line)
{
    return lml_span_starts(line, "--") && !lml_span_starts(line, "-- ----");
}

/* The comment lines that end right above the line at `at`. */
static lml_span comment_above(lml_span text, size_t at)
{
    size_t from = at, before = at;
    while (line_before(text, &before) && is_comment(line_at(text, before)))
        from = before;
    return lml_span_between(text.at + from, text.at + at);
}

lml_span lml_api_script_about(lml_span text)
{
    size_t end = 0;
    while (end < text.length) {
        lml_span line = line_at(text, end);
        if (!is_comment(line) || line.length <= 2)
            break;
        end += line.length + 1;
    }
    return (lml_span){text.at, end < text.length ? end : text.length};
}

/* ---- what a script gives back ---- */

static bool in_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/* The place right behind the last "return {" that begins a line; 0 where there is none. */
static size_t after_return(lml_span text)
{
    static const char word[] = "\nreturn {";
    const size_t length = sizeof word - 1;
    for (size_t at = text.length; at >= length; at--)
        if (memcmp(text.at + at - length, word, length) == 0)
            return at;
    return 0;
}

/* "local function NAME(...)" at the start of a line: where the line begins, or text.length. */
static size_t definition(lml_span text, lml_span name, lml_span *takes)
{
    static const char word[] = "local function ";
    const size_t length = sizeof word - 1;
    for (size_t at = 0; at < text.length; at += line_at(text, at).length + 1) {
        lml_span line = line_at(text, at);
        if (line.length <= length + name.length || !lml_span_starts(line, word) ||
            memcmp(line.at + length, name.at, name.length) != 0 ||
            line.at[length + name.length] != '(')
            continue;
        const char *open = line.at + length + name.length;
        const char *close = memchr(open, ')', (size_t)(line.at + line.length - open));
        if (!close)
            continue;
        *takes = lml_span_between(open, close + 1);
        return at;
    }
    return text.length;
}

/* Past blanks, commas and comments. */
static size_t skip(lml_span text, size_t at)
{
    for (;;) {
        while (at < text.length && strchr(" \t\n,", text.at[at]))
            at++;
        if (!lml_span_starts((lml_span){text.at + at, text.length - at}, "--"))
            return at;
        at += line_at(text, at).length;
    }
}

/* Past an expression, to the comma or the brace that ends it. */
static size_t skip_value(lml_span text, size_t at)
{
    for (int depth = 0; at < text.length; at++) {
        char c = text.at[at];
        if (c == '"') {
            for (at++; at < text.length && text.at[at] != '"'; at++)
                at += text.at[at] == '\\';
        } else if (c == '{' || c == '(') {
            depth++;
        } else if (depth > 0 && (c == '}' || c == ')')) {
            depth--;
        } else if (depth == 0 && (c == ',' || c == '}')) {
            break;
        }
    }
    return at;
}

static lml_span name_at(lml_span text, size_t at)
{
    size_t end = at;
    while (end < text.length && in_name(text.at[end]))
        end++;
    return (lml_span){text.at + at, end - at};
}

bool lml_api_script_next(lml_span text, size_t *at, lml_script_function *out)
{
    if (*at == 0)
        *at = after_return(text);
    if (*at == 0)
        return false;
    *at = skip(text, *at);
    lml_span member = name_at(text, *at);
    size_t equals = skip(text, *at + member.length);
    if (member.length == 0 || equals >= text.length || text.at[equals] != '=')
        return false;
    size_t value = skip(text, equals + 1);
    *at = skip_value(text, value);
    *out = (lml_script_function){.name = member};
    lml_span whole = lml_span_trim(lml_span_between(text.at + value, text.at + *at));
    size_t line = definition(text, whole, &out->takes);
    if (line < text.length)
        out->comment = comment_above(text, line);
    return true;
}

/* ---- a comment ---- */

/* A line of a comment without its dashes; whether it is an example. */
static lml_span plain(lml_span line, bool *example)
{
    line = lml_span_between(line.at + 2, line.at + line.length);
    *example = lml_span_starts(line, "     ") && line.length > 5 && line.at[5] != ' ';
    return lml_span_trim(line);
}

void lml_api_script_sentence(lml_span comment, lml_builder *out)
{
    bool any = false;
    for (size_t at = 0; at < comment.length; at += line_at(comment, at).length + 1) {
        bool example;
        lml_span line = plain(line_at(comment, at), &example);
        if (example || line.length == 0)
            continue;
        if (any)
            lml_builder_add_char(out, ' ');
        lml_builder_add_span(out, line);
        any = true;
    }
}

bool lml_api_script_example(lml_span comment, size_t *at, lml_span *example, lml_span *wanted)
{
    while (*at < comment.length) {
        bool is_example;
        lml_span line = line_at(comment, *at);
        *at += line.length + 1;
        line = plain(line, &is_example);
        if (!is_example)
            continue;
        *example = line;
        *wanted = (lml_span){0};
        for (size_t i = 0; i + 3 < line.length; i++)
            if (memcmp(line.at + i, " -- ", 4) == 0) {
                *example = lml_span_trim((lml_span){line.at, i});
                *wanted = lml_span_trim((lml_span){line.at + i + 4, line.length - i - 4});
                break;
            }
        return true;
    }
    return false;
}

/* ---- the page ---- */

/* A bar would end the cell. */
static void append_cell(lml_builder *out, lml_span text)
{
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] == '|')
            lml_builder_add_text(out, "\\|");
        else
            lml_builder_add_char(out, text.at[i]);
    }
}

static void put_function(lml_builder *out, const char *script, const lml_script_function *f)
{
    lml_builder sentence = lml_builder_on(out->alloc, 0);
    lml_builder_add_format(out, "| `%s.", script);
    lml_builder_add_span(out, f->name);
    lml_builder_add_span(out, f->takes);
    lml_builder_add_text(out, "` | ");
    lml_api_script_sentence(f->comment, &sentence);
    append_cell(out, (lml_span){sentence.at, sentence.length});
    if (sentence.status && !out->status)
        out->status = sentence.status;
    lml_builder_free(&sentence);
    lml_span example, wanted;
    for (size_t at = 0; lml_api_script_example(f->comment, &at, &example, &wanted);) {
        lml_builder_add_text(out, " `");
        append_cell(out, example);
        lml_builder_add_char(out, '`');
        if (wanted.length) {
            lml_builder_add_text(out, " gives `");
            append_cell(out, wanted);
            lml_builder_add_char(out, '`');
        }
    }
    lml_builder_add_text(out, " |\n");
}

static void put_functions(lml_builder *out, const char *script, lml_span text)
{
    lml_script_function f;
    bool any = false;
    for (size_t at = 0; lml_api_script_next(text, &at, &f);) {
        if (!f.takes.length)
            continue;
        if (!any)
            lml_builder_add_text(out, "\n| call | what it does |\n|---|---|\n");
        any = true;
        put_function(out, script, &f);
    }
}

/* What else the script holds, by name. */
static void put_data(lml_builder *out, lml_span text)
{
    lml_script_function f;
    bool any = false;
    for (size_t at = 0; lml_api_script_next(text, &at, &f);) {
        if (f.takes.length)
            continue;
        lml_builder_add_text(out, any ? ", `" : "\nIt also holds `");
        lml_builder_add_span(out, f.name);
        lml_builder_add_char(out, '`');
        any = true;
    }
    if (any)
        lml_builder_add_text(out, ".\n");
}

void lml_api_script_guide(lml_builder *out, const char *name, lml_span text)
{
    lml_builder_add_format(out, "\n### %s\n\n", name);
    lml_api_script_sentence(lml_api_script_about(text), out);
    lml_builder_add_char(out, '\n');
    put_functions(out, name, text);
    put_data(out, text);
}
