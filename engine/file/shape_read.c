#include "file/shape.h"
#include "value/value.h"
#include "value/wanted.h"
#include "read/read.h"
#include "value/compare.h"
#include <string.h>

/* Whether the text is JSON already for this kind; else it is the inside of a JSON text. */
static bool is_json(const lml_shape *s, lml_span text)
{
    char first = text.length ? text.at[0] : 0;
    switch (s->wanted) {
    case LML_WANT_LIST:
    case LML_WANT_RECORD:
    case LML_WANT_BY_NAME:
    case LML_WANT_ALLOY:
    case LML_WANT_ASSAY:
    case LML_WANT_ANYTHING:
        return first == '{' || first == '[';
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
        return first && strchr("+-.0123456789", first);
    case LML_WANT_YES_NO:
        return lml_span_is(text, "true") || lml_span_is(text, "false");
    default:
        return false;
    }
}

lml_status lml_shape_read(const lml_alloc *alloc, const lml_shape *s, lml_span text,
                          const char *source, const lml_json *house, lml_json_document **out,
                          lml_error *err)
{
    bool number = s->wanted == LML_WANT_WHOLE || s->wanted == LML_WANT_NUMBER;
    lml_value ignored; /* "15 mL" is refused as a value, and not as JSON */
    if (number && lml_read_value(text, s->wanted, LML_NO_METAL, &ignored, err) != LML_OK)
        return LML_BAD_VALUE;
    lml_builder json = lml_builder_on(alloc, LML_JSON_SIZE);
    lml_json_writer w = lml_json_writer_on(&json, false);
    lml_json_document *doc = NULL;
    if (is_json(s, text))
        lml_json_write_raw(&w, text);
    else
        lml_json_write_text(&w, text);
    lml_status status = lml_json_writer_end(&w, err);
    if (!status)
        status = lml_json_read(alloc, (lml_span){json.at, json.length}, NULL, source, &doc, err);
    lml_builder_free(&json);
    if (!status)
        lml_json_set_house(doc, house);
    if (!status)
        status = lml_shape_check(s, lml_json_root(doc), err);
    if (status)
        lml_json_free(doc);
    else
        *out = doc;
    return status;
}

/* ---- shapes themselves ---- */

static lml_status bounds_valid(const lml_shape *s, lml_error *err)
{
    const char *text[2] = {s->from, s->to};
    lml_value end[2];
    int order = 0;
    for (int i = 0; i < 2; i++) {
        if (!text[i])
            continue;
        lml_status status = lml_read_value(lml_span_of(text[i]), s->wanted, s->metal, &end[i], err);
        if (status)
            return lml_error_context(err, status, "in `%s` of %s", i ? "to" : "from",
                                     s->name ? s->name : "an entry");
    }
    if (s->from && s->to) {
        lml_status status = lml_compare(&end[0], &end[1], &order, err);
        if (status)
            return status;
    }
    if (order > 0) {
        lml_fail(err, LML_BAD_VALUE, "from (%s) is above to (%s)", s->from, s->to);
        lml_error_hint(err, "write the smaller one under from: from = \"%s\", to = \"%s\"", s->to,
                       s->from);
        return LML_BAD_VALUE;
    }
    return LML_OK;
}

/* Names of fields beside it, parted by ", ". */
static lml_status unless_valid(const lml_shape *record, const lml_shape *field, lml_error *err)
{
    const char *at = field->unless ? field->unless : "";
    while (*at) {
        lml_span name = {at, strcspn(at, ",")};
        const lml_shape *other = lml_shape_field_named(record, name);
        if (!other || other == field)
            return lml_fail(err, LML_BAD_VALUE, "%s is asked unless \"%.*s\" is given, %s",
                            field->name, LML_SPAN_SHOWN(name),
                            other ? "which is itself" : "which is not asked beside it");
        at += name.length;
        at += strspn(at, ", ");
    }
    return LML_OK;
}

/* "stones", or "method = density": a field beside it, and one of its options. */
static bool has_option(const lml_shape *record, const lml_shape *field)
{
    const lml_shape_when when = lml_shape_when_of(lml_span_of(field->when));
    const lml_shape *other = lml_shape_field_named(record, when.name);
    if (!other || other == field)
        return false;
    bool found = when.option.length == 0 && !strchr(field->when, '=');
    for (size_t i = 0; other->choices && other->choices[i]; i++)
        found = found || lml_span_is(when.option, other->choices[i]);
    return found;
}

static lml_status when_valid(const lml_shape *record, const lml_shape *field, lml_error *err)
{
    if (!field->when)
        return LML_OK;
    if (!lml_shape_optional(field)) {
        lml_fail(err, LML_BAD_VALUE,
                 "'%s' is asked only when \"%s\" is given, but every job needs it", field->name,
                 field->when);
        lml_error_hint(err, "add optional = true, or a default with its source");
        return LML_BAD_VALUE;
    }
    if (has_option(record, field))
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE,
             "when of '%s' is \"%s\", but no ask beside it has that name, or that option",
             field->name, field->when);
    lml_error_hint(err, "write it like when = \"stones\", or when = \"method = density\"");
    return LML_BAD_VALUE;
}

static lml_status fields_valid(const lml_alloc *alloc, const lml_shape *s, lml_error *err)
{
    for (size_t i = 0; i < s->field_count; i++) {
        const char *name = s->fields[i].name;
        if (!name || !*name)
            return lml_fail(err, LML_BAD_VALUE, "a field has no name");
        if (lml_shape_field(s, name) != &s->fields[i])
            return lml_fail(err, LML_BAD_VALUE, "two fields are called %s", name);
        lml_status status = lml_shape_valid(alloc, &s->fields[i], err);
        if (status)
            return lml_error_context(err, status, "in %s", name);
        status = unless_valid(s, &s->fields[i], err);
        if (!status)
            status = when_valid(s, &s->fields[i], err);
        if (status)
            return status;
    }
    return LML_OK;
}

static lml_status default_valid(const lml_alloc *alloc, const lml_shape *s, lml_error *err)
{
    lml_json_document *doc = NULL;
    if (!s->default_text)
        return LML_OK;
    lml_status status =
        lml_shape_read(alloc, s, lml_span_of(s->default_text), "default", NULL, &doc, err);
    lml_json_free(doc);
    return status;
}

/* Entries are distinguished by a text that each of them has. */
static lml_status apart_valid(const lml_shape *s, lml_error *err)
{
    if (!s->apart)
        return LML_OK;
    if (s->wanted != LML_WANT_RECORD)
        return lml_fail(err, LML_BAD_VALUE, "only records can have a unique name");
    const lml_shape *field = lml_shape_field(s, s->apart);
    if (!field || field->wanted != LML_WANT_TEXT || (field->optional && !field->default_text))
        return lml_fail(err, LML_BAD_VALUE,
                        "told apart by %s, which is not a text that every one of them has",
                        s->apart);
    return LML_OK;
}

lml_status lml_shape_valid(const lml_alloc *alloc, const lml_shape *s, lml_error *err)
{
    lml_wanted w = s->wanted;
    bool bounded = w > LML_WANT_ANYTHING && w <= LML_WANT_WHOLE;
    bounded = bounded || w == LML_WANT_MOMENT || w == LML_WANT_TIME_OF_DAY;
    if ((s->from || s->to) && !bounded)
        return lml_fail(err, LML_BAD_VALUE, "%s takes neither from nor to", lml_wanted_words(w));
    if (w == LML_WANT_CHOICE && (!s->choices || !s->choices[0]))
        return lml_fail(err, LML_BAD_VALUE, "a choice has no choices");
    if ((w == LML_WANT_LIST || w == LML_WANT_BY_NAME) && !s->of)
        return lml_fail(err, LML_BAD_VALUE, "%s does not say of what", lml_wanted_words(w));
    lml_status status = bounds_valid(s, err);
    if (!status && s->of)
        status = lml_shape_valid(alloc, s->of, err);
    if (!status)
        status = fields_valid(alloc, s, err);
    if (!status)
        status = apart_valid(s, err);
    return status ? status : default_valid(alloc, s, err);
}
