/* An example of every shape: what a hint shows, the same shape takes. */
#include "file/shape.h"
#include "value/value.h"
#include "unit/currency.h"
#include "value/wanted.h"
#include "read/read.h"
#include "value/compare.h"

#include <stdio.h>
#include <string.h>

/* Whether the kind's own example is on the wrong side of a bound. */
static bool beyond(const lml_shape *s, const char *bound, int side)
{
    lml_value limit, example;
    int order = 0;
    return bound &&
           lml_read_value(lml_span_of(bound), s->wanted, s->metal, &limit, NULL) == LML_OK &&
           lml_read_value(lml_span_of(lml_wanted_example(s->wanted)), s->wanted, s->metal, &example,
                          NULL) == LML_OK &&
           lml_compare(&example, &limit, &order, NULL) == LML_OK && order * side > 0;
}

const char *lml_shape_example(const lml_shape *s)
{
    if (s->example)
        return s->example;
    if (s->wanted == LML_WANT_CHOICE && s->choices && s->choices[0])
        return s->choices[0];
    if (beyond(s, s->from, -1))
        return s->from;
    return beyond(s, s->to, 1) ? s->to : lml_wanted_example(s->wanted);
}

/* A text that is cut at the end of the room; `used` counts on. */
typedef struct paper {
    char *out;
    size_t size, used;
} paper;

static void put(paper *p, const char *text)
{
    size_t length = strlen(text);
    if (p->used + length < p->size)
        memcpy(p->out + p->used, text, length + 1);
    p->used += length;
}

static void put_quoted(paper *p, const char *text)
{
    char one[3] = {0};
    put(p, "\"");
    for (; *text; text++) {
        one[0] = *text == '"' || *text == '\\' ? '\\' : *text;
        one[1] = one[0] == *text && *text != '\\' ? '\0' : *text;
        put(p, one);
    }
    put(p, "\"");
}

static void put_example(paper *p, const lml_shape *s);

static void put_member(paper *p, const char *name, const lml_shape *s, bool first)
{
    put(p, first ? "" : ", ");
    put_quoted(p, name);
    put(p, ": ");
    put_example(p, s);
}

/* What may not be left out; where all may, the first. */
static void put_record(paper *p, const lml_shape *s)
{
    size_t shown = 0;
    put(p, "{");
    for (size_t i = 0; i < s->field_count; i++)
        if (!lml_shape_optional(&s->fields[i]))
            put_member(p, s->fields[i].name, &s->fields[i], shown++ == 0);
    if (shown == 0 && s->field_count > 0)
        put_member(p, s->fields[0].name, &s->fields[0], true);
    put(p, "}");
}

static void put_example(paper *p, const lml_shape *s)
{
    switch (s->wanted) {
    case LML_WANT_LIST:
        put(p, "[");
        if (s->of)
            put_example(p, s->of);
        put(p, "]");
        break;
    case LML_WANT_BY_NAME:
        put(p, "{");
        if (s->of)
            put_member(p, s->example ? s->example : "name", s->of, true);
        put(p, "}");
        break;
    case LML_WANT_RECORD:
        if (s->example)
            put(p, s->example); /* JSON, with the fields that most need */
        else
            put_record(p, s);
        break;
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
    case LML_WANT_YES_NO:
        put(p, lml_shape_example(s));
        break;
    default:
        put_quoted(p, lml_shape_example(s));
    }
}

size_t lml_shape_example_json(const lml_shape *s, char *out, size_t size)
{
    paper p = {out, size, 0};
    put_example(&p, s);
    if (p.used >= size)
        snprintf(out, size, "%s", s->wanted == LML_WANT_LIST ? "[]" : "{}");
    return p.used;
}

size_t lml_shape_example_typed(const lml_shape *s, char *out, size_t size)
{
    bool compound =
        s->wanted == LML_WANT_LIST || s->wanted == LML_WANT_RECORD || s->wanted == LML_WANT_BY_NAME;
    if (compound)
        return lml_shape_example_json(s, out, size);
    return (size_t)snprintf(out, size, "%s", lml_shape_example(s));
}

/* All codes have three letters, so that the text keeps its length. */
void lml_shape_example_in(lml_span code, char *example)
{
    enum { LETTERS = 3 };
    if (code.length != LETTERS || !lml_currency_by_code(code))
        return;
    for (char *at = strchr(example, ' '); at; at = strchr(at + 1, ' '))
        if (strlen(at) > LETTERS && lml_currency_by_code((lml_span){at + 1, LETTERS}) &&
            !lml_ascii_is_name((unsigned char)at[1 + LETTERS]))
            memcpy(at + 1, code.at, LETTERS);
}
