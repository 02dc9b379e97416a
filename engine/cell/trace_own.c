#include "cell/trace_own.h"

#include "cell/trace_bare.h"
#include "cell/trace_known.h"

#include <string.h>

void lml_trace_own_note(lua_State *L)
{
    lml_trace *t = lml_trace_known_in(L);
    if (!t)
        return;
    lml_step step = {.is = "an error", .member = "", .own = true};
    lml_trace_known_line(L, t, &step);
    lml_trace_known_note(L, -1, lml_trace_add(t, &step));
}

bool lml_trace_own_is(lua_State *L, uint32_t step)
{
    const lml_trace *t = lml_trace_known_in(L);
    return t && t->step[step].own;
}

/* Whether the name is in the text by itself. */
static bool has_name(lml_span text, lml_span name)
{
    for (size_t i = 0; i + name.length <= text.length; i++) {
        const char *at = memchr(text.at + i, name.at[0], text.length - name.length + 1 - i);
        if (!at)
            return false;
        i = (size_t)(at - text.at);
        const size_t end = i + name.length;
        if (memcmp(at, name.at, name.length) == 0 && (i == 0 || !lml_ascii_is_name(at[-1])) &&
            (end == text.length || !lml_ascii_is_name(text.at[end])))
            return true;
    }
    return false;
}

/* What lemel calls things in the place of words of a recipe. */
static bool is_called(lml_span words)
{
    static const char *const called[] = {"nothing",
                                         "true",
                                         "false",
                                         "a table",
                                         "a function",
                                         "a text",
                                         "an alloy",
                                         "an assay",
                                         "a record",
                                         "a list",
                                         "an error",
                                         "a sheet",
                                         "a page",
                                         "a line",
                                         "a name",
                                         "a unit in quotes",
                                         "a cell of a grid",
                                         "a remark",
                                         "a place of a flow",
                                         "an option of a flow",
                                         "a curve",
                                         "the text of a remark",
                                         "the code of a remark",
                                         "the name of a give",
                                         "the name of an ask",
                                         "the name of a recipe",
                                         "the name of a rule point",
                                         "the name of an option",
                                         "the name of a place",
                                         "the text of an error",
                                         "the option 'from' of a line",
                                         "the option 'way' of a line",
                                         "where the figure came from",
                                         "a symbol",
                                         "a kind",
                                         "a default"};
    for (size_t i = 0; i < sizeof called / sizeof *called; i++)
        if (lml_span_is(words, called[i]))
            return true;
    return false;
}

/* Whether the words, which came from who knows where, have no digit and are a text or a name that
 * is in the recipe at work, or what lemel calls a thing. */
static bool has_words(lua_State *L, lml_span words)
{
    static const char TEXT[] = "the text \"";
    lml_trace *t = lml_trace_known_in(L);
    if (!t || words.length == 0)
        return false;
    if (is_called(words))
        return true;
    if (lml_span_starts(words, TEXT) && words.at[words.length - 1] == '"')
        words = lml_span_between(words.at + sizeof TEXT - 1, words.at + words.length - 1);
    bool name = words.length > 0;
    for (size_t i = 0; i < words.length; i++) {
        if ((unsigned char)words.at[i] >= 0x80 || lml_ascii_is_digit(words.at[i]))
            return false;
        name = name && lml_ascii_is_name(words.at[i]);
    }
    lua_pushlstring(L, words.at, words.length);
    bool known = t->is_written && lml_trace_bare_is_written(L, t, -1);
    lua_pop(L, 1);
    lml_step here = {.is = ""};
    if (!known && name && t->text) {
        lml_trace_known_line(L, t, &here);
        known = here.file && has_name(t->text(t->text_self, here.file), words);
    }
    return known;
}

void lml_trace_own_raised(lua_State *L, const char *format, va_list args)
{
    bool own = true;
    for (const char *at = format; own && (at = strchr(at, '%')) != NULL;) {
        if (at[1] == '%') {
            at += 2;
        } else if (at[1] == 's') {
            own = has_words(L, lml_span_of(va_arg(args, const char *)));
            at += 2;
        } else if (strncmp(at, "%.*s", 4) == 0) {
            const int length = va_arg(args, int);
            own = has_words(L, (lml_span){va_arg(args, const char *), (size_t)length});
            at += 4;
        } else {
            own = false; /* a number */
        }
    }
    if (own)
        lml_trace_own_note(L);
}
