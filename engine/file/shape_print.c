#include "file/alloy_read.h"
#include "file/shape.h"
#include "file/shape_pattern.h"
#include "value/wanted.h"
#include "file/assay_read.h"

#include <stdio.h>

static bool compound(const lml_shape *s)
{
    return s->wanted == LML_WANT_RECORD || s->wanted == LML_WANT_BY_NAME ||
           s->wanted == LML_WANT_LIST;
}

/* ---- one line ---- */

static void describe_bounds(const lml_shape *s, lml_builder *b)
{
    if (s->from && s->to)
        lml_builder_add_format(b, ", from %s to %s", s->from, s->to);
    else if (s->from)
        lml_builder_add_format(b, ", at least %s", s->from);
    else if (s->to)
        lml_builder_add_format(b, ", at most %s", s->to);
}

void lml_shape_describe(const lml_shape *s, lml_builder *b)
{
    if (s->wanted == LML_WANT_CHOICE) {
        lml_builder_add_text(b, "one of");
        for (const char *const *c = s->choices; *c; c++)
            lml_builder_add_format(b, "%s %s", c == s->choices ? ":" : ",", *c);
    } else {
        lml_builder_add_text(b, lml_wanted_words(s->wanted));
        if (s->metal != LML_NO_METAL && !s->any_metal)
            lml_builder_add_format(b, " of %s", lml_metal_name(s->metal));
    }
    if (s->of && !compound(s->of)) {
        lml_builder_add_text(b, ", each ");
        lml_shape_describe(s->of, b);
    } else if (s->wanted != LML_WANT_CHOICE && s->wanted != LML_WANT_ANYTHING && !compound(s)) {
        lml_builder_add_format(b, ", such as %s", lml_shape_example(s));
    }
    if (s->wanted == LML_WANT_LIST && s->of && s->of->apart)
        lml_builder_add_format(b, ", no two of the same %s", s->of->apart);
    describe_bounds(s, b);
    if (s->default_text)
        lml_builder_add_format(b, "; default %s", s->default_text);
    if (s->default_text && s->source)
        lml_builder_add_format(b, " (%s)", s->source);
}

/* ---- help ---- */

static void help_field(const lml_shape *s, const char *name, size_t indent, lml_builder *b)
{
    lml_builder_add_repeat(b, ' ', indent);
    lml_builder_add_text(b, name);
    if (s->optional && !s->default_text)
        lml_builder_add_text(b, " (may be left out)");
    if (s->title)
        lml_builder_add_format(b, ": %s", s->title);
    lml_builder_add_char(b, '\n');
    lml_builder_add_repeat(b, ' ', indent + 4);
    lml_shape_describe(s, b);
    lml_builder_add_char(b, '\n');
    if (s->note) {
        lml_builder_add_repeat(b, ' ', indent + 4);
        lml_builder_add_format(b, "%s\n", s->note);
    }
    if (compound(s))
        lml_shape_help(s, indent + 4, b);
}

void lml_shape_help(const lml_shape *s, size_t indent, lml_builder *b)
{
    if (!compound(s)) {
        help_field(s, s->name ? s->name : lml_wanted_name(s->wanted), indent, b);
        return;
    }
    for (size_t i = 0; i < s->field_count; i++)
        help_field(&s->fields[i], s->fields[i].name, indent, b);
    if (s->of && compound(s->of))
        help_field(s->of, s->wanted == LML_WANT_LIST ? "each" : "each name", indent, b);
}

/* ---- JSON Schema, draft 2020-12 ---- */

static void put_type(lml_json_writer *w, const char *type)
{
    lml_json_write_member(w, "type", type);
}

/* A text that could not be allocated. */
static void note_memory(lml_json_writer *w, const lml_builder *text)
{
    if (text->status && !w->status) {
        w->status = text->status;
        w->fault = "no memory left";
    }
}

static void put_schema(lml_json_writer *w, const char *name, const lml_shape *s)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_shape_schema(s, false, w);
}

static void put_bound(lml_json_writer *w, const char *name, const char *text)
{
    if (!text)
        return;
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_raw(w, lml_span_of(text));
}

static void schema_record(const lml_shape *s, lml_json_writer *w)
{
    put_type(w, "object");
    if (s->field_count) {
        lml_json_write_name(w, lml_span_of("properties"));
        lml_json_write_open_record(w);
        for (size_t i = 0; i < s->field_count; i++)
            put_schema(w, s->fields[i].name, &s->fields[i]);
        lml_json_write_close(w);
        lml_json_write_name(w, lml_span_of("required"));
        lml_json_write_open_list(w);
        for (size_t i = 0; i < s->field_count; i++)
            if (!lml_shape_optional(&s->fields[i]))
                lml_json_write_text(w, lml_span_of(s->fields[i].name));
        lml_json_write_close(w);
    }
    if (s->of) {
        put_schema(w, "additionalProperties", s->of);
    } else {
        lml_json_write_name(w, lml_span_of("additionalProperties"));
        lml_json_write_yes_no(w, false);
    }
}

/* A name, or the record in full. */
static void schema_either(const lml_shape *record, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("anyOf"));
    lml_json_write_open_list(w);
    lml_json_write_open_record(w);
    put_type(w, "string");
    lml_json_write_close(w);
    lml_json_write_open_record(w);
    schema_record(record, w);
    lml_json_write_close(w);
    lml_json_write_close(w);
}

/* Where the kind says all, what it is once among the definitions. */
static bool is_shared(const lml_shape *s)
{
    return lml_shape_pattern_has(s->wanted) && !s->metal && !s->per;
}

static void put_pattern(const lml_shape *s, lml_json_writer *w)
{
    put_type(w, "string");
    lml_builder pattern = lml_builder_on(w->to->alloc, 0);
    lml_shape_pattern_append(s, &pattern);
    lml_json_write_name(w, lml_span_of("pattern"));
    lml_json_write_text(w, (lml_span){pattern.at, pattern.length});
    note_memory(w, &pattern);
    lml_builder_free(&pattern);
}

static void schema_text(const lml_shape *s, lml_json_writer *w)
{
    if (is_shared(s)) {
        char place[60];
        snprintf(place, sizeof place, "#/$defs/%s", lml_wanted_name(s->wanted));
        lml_json_write_member(w, "$ref", place);
    } else if (lml_shape_pattern_has(s->wanted)) {
        put_pattern(s, w);
    } else {
        put_type(w, "string");
    }
    lml_json_write_name(w, lml_span_of("examples"));
    lml_json_write_open_list(w);
    lml_json_write_text(w, lml_span_of(lml_shape_example(s)));
    lml_json_write_close(w);
}

static void put_definitions(lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("$defs"));
    lml_json_write_open_record(w);
    for (int kind = 0; kind < LML_WANTED_COUNT; kind++) {
        const lml_shape shape = {.wanted = (lml_wanted)kind};
        if (!lml_shape_pattern_has(shape.wanted))
            continue;
        lml_json_write_name(w, lml_span_of(lml_wanted_name(shape.wanted)));
        lml_json_write_open_record(w);
        put_pattern(&shape, w);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void schema_body(const lml_shape *s, lml_json_writer *w)
{
    switch (s->wanted) {
    case LML_WANT_ANYTHING:
        break;
    case LML_WANT_RECORD:
    case LML_WANT_BY_NAME:
        schema_record(s, w);
        break;
    case LML_WANT_LIST:
        put_type(w, "array");
        if (s->of)
            put_schema(w, "items", s->of);
        break;
    case LML_WANT_NUMBER:
    case LML_WANT_WHOLE:
        put_type(w, s->wanted == LML_WANT_WHOLE ? "integer" : "number");
        put_bound(w, "minimum", s->from);
        put_bound(w, "maximum", s->to);
        break;
    case LML_WANT_YES_NO:
        put_type(w, "boolean");
        break;
    case LML_WANT_CHOICE:
        put_type(w, "string");
        lml_json_write_name(w, lml_span_of("enum"));
        lml_json_write_open_list(w);
        for (const char *const *c = s->choices; *c; c++)
            lml_json_write_text(w, lml_span_of(*c));
        lml_json_write_close(w);
        break;
    case LML_WANT_ALLOY:
        schema_either(&lml_alloy_read_shape, w);
        break;
    case LML_WANT_ASSAY:
        schema_either(&lml_assay_read_shape, w);
        break;
    default:
        schema_text(s, w);
        break;
    }
}

void lml_shape_schema(const lml_shape *s, bool root, lml_json_writer *w)
{
    lml_json_write_open_record(w);
    if (root)
        lml_json_write_member(w, "$schema", "https://json-schema.org/draft/2020-12/schema");
    if (s->title)
        lml_json_write_member(w, "title", s->title);
    lml_builder line = lml_builder_on(w->to->alloc, 0);
    lml_shape_describe(s, &line);
    if (s->note)
        lml_builder_add_format(&line, ". %s", s->note);
    lml_json_write_name(w, lml_span_of("description"));
    lml_json_write_text(w, (lml_span){line.at, line.length});
    note_memory(w, &line);
    lml_builder_free(&line);
    schema_body(s, w);
    if (root)
        put_definitions(w);
    lml_json_write_close(w);
}
