#include "cli/skeleton.h"

#include "file/shapes.h"

#include <string.h>

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is_due(const lml_json *shape)
{
    return !lml_json_yes(lml_json_member(shape, "optional")) && !lml_json_member(shape, "default");
}

/* A job's own members are filled in from there. */
static bool is_of_the_job(const lml_json *shape)
{
    lml_span name = member_text(shape, "name");
    return lml_span_is(name, "date") || lml_span_is(name, "record") ||
           lml_span_is(name, LML_LISTED);
}

/* Of a recipe that reads other jobs: their files, to be filled in. */
static void put_jobs(lml_json_writer *w, const lml_json *asks)
{
    for (const lml_json *s = lml_json_first(asks); s; s = lml_json_next(s)) {
        if (!lml_span_is(member_text(s, "name"), LML_LISTED))
            continue;
        lml_json_write_name(w, lml_span_of("jobs"));
        lml_json_write_open_list(w);
        lml_json_write_text(w, lml_span_of(""));
        lml_json_write_close(w);
    }
}

static void put_version(lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of(LML_SHAPE_VERSION));
    lml_json_write_whole(w, LML_SHAPES_VERSION);
}

/* What a file to fill in has a place for. */
static bool is_shown(const lml_json *shape)
{
    return is_due(shape) || lml_json_yes(lml_json_member(shape, "usual"));
}

static void put_empty(lml_json_writer *w, const lml_json *shape);

static void put_fields(lml_json_writer *w, const lml_json *fields)
{
    lml_json_write_open_record(w);
    for (const lml_json *f = lml_json_first(fields); f; f = lml_json_next(f))
        if (is_shown(f)) {
            lml_json_write_name(w, member_text(f, "name"));
            put_empty(w, f);
        }
    lml_json_write_close(w);
}

/* A list has a first record to fill in. */
static void put_empty(lml_json_writer *w, const lml_json *shape)
{
    const lml_json *fields = lml_json_member(shape, "fields");
    lml_span kind = member_text(shape, "kind");
    bool list = lml_span_is(kind, "list");
    if (!fields || !(list || lml_span_is(kind, "record"))) {
        lml_json_write_text(w, lml_span_of(""));
        return;
    }
    if (list)
        lml_json_write_open_list(w);
    put_fields(w, fields);
    if (list)
        lml_json_write_close(w);
}

static void put_shown(lml_json_writer *w, const lml_json *asks)
{
    lml_json_write_open_record(w);
    for (const lml_json *s = lml_json_first(asks); s; s = lml_json_next(s))
        if (is_shown(s) && !is_of_the_job(s)) {
            lml_json_write_name(w, member_text(s, "name"));
            put_empty(w, s);
        }
    lml_json_write_close(w);
}

/* Names of what may be left out, from *shape to the next heading. */
static void add_names(lml_builder *out, const lml_json **shape)
{
    lml_span heading = member_text(*shape, "heading");
    size_t count = 0;
    do {
        if (!is_shown(*shape) && !is_of_the_job(*shape)) {
            lml_builder_add_text(out, count > 0 ? ", " : " ");
            if (count++ == 0 && heading.length > 0) {
                lml_builder_add_span(out, heading);
                lml_builder_add_text(out, ": ");
            }
            lml_builder_add_span(out, member_text(*shape, "name"));
        }
        *shape = lml_json_next(*shape);
    } while (*shape && !lml_json_member(*shape, "heading"));
    if (count > 0)
        lml_builder_add_char(out, '.');
}

static void put_notes(lml_json_writer *w, const lml_json *asks)
{
    lml_builder notes = lml_builder_on(w->to->alloc, 0);
    lml_builder_add_text(&notes, "Optional, under given:");
    size_t nothing = notes.length;
    for (const lml_json *s = lml_json_first(asks); s;)
        add_names(&notes, &s);
    if (notes.length > nothing) {
        lml_json_write_name(w, lml_span_of("notes"));
        lml_json_write_text(w, (lml_span){notes.at, notes.length});
    }
    lml_builder_free(&notes);
}

void lml_skeleton_job(lml_json_writer *w, const lml_json *about, const char *title,
                      const char *date)
{
    const lml_json *asks = lml_json_member(about, "asks");
    lml_json_write_open_record(w);
    put_version(w);
    lml_json_write_name(w, lml_span_of("recipe"));
    lml_json_write_text(w, member_text(about, "recipe"));
    lml_json_write_member(w, "title", title);
    lml_json_write_member(w, "date", date);
    put_jobs(w, asks);
    lml_json_write_name(w, lml_span_of("given"));
    put_shown(w, asks);
    put_notes(w, asks);
    lml_json_write_close(w);
}

/* ---- a studio ---- */

static const char UNITS[] = "units";

/* The value of NAME=VALUE, or NULL. */
static const char *value_of(const lml_skeleton_words *words, lml_span name)
{
    for (size_t i = 0; i < words->count; i++) {
        const char *word = words->word[i], *value = word + strcspn(word, "=");
        if (lml_span_equal(lml_span_between(word, value), name) && value[0] != '\0')
            return value + 1;
    }
    return NULL;
}

/* Lists and records are typed as JSON, all else as a text. */
static void put_setting(lml_json_writer *w, const lml_json *shape, const lml_skeleton_words *words,
                        bool with_empty)
{
    lml_span name = member_text(shape, "name");
    const char *value = value_of(words, name);
    if (!value && !with_empty)
        return;
    lml_json_write_name(w, name);
    if (value && (value[0] == '[' || value[0] == '{'))
        lml_json_write_raw(w, lml_span_of(value));
    else
        lml_json_write_text(w, lml_span_of(value ? value : ""));
}

/* Units are typed by their kinds: mass=g. */
static void put_units(lml_json_writer *w, const lml_json *units, const lml_skeleton_words *words,
                      bool with_empty)
{
    lml_json_write_name(w, lml_span_of(UNITS));
    lml_json_write_open_record(w);
    for (const lml_json *f = lml_json_first(lml_json_member(units, "fields")); f;
         f = lml_json_next(f))
        put_setting(w, f, words, with_empty);
    lml_json_write_close(w);
}

static bool is_units(const lml_json *shape)
{
    return lml_span_is(member_text(shape, "name"), UNITS);
}

static void put_titles(lml_json_writer *w, const lml_json *shapes)
{
    lml_json_write_name(w, lml_span_of("notes"));
    lml_json_write_open_record(w);
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        if (lml_json_yes(lml_json_member(s, "seldom")))
            continue;
        lml_json_write_name(w, member_text(s, "name"));
        lml_json_write_text(w, member_text(s, "title"));
    }
    lml_json_write_close(w);
}

void lml_skeleton_house(lml_json_writer *w, const lml_json *about, const lml_skeleton_words *words,
                        bool with_empty)
{
    const lml_json *shapes = lml_json_member(about, "allowances");
    lml_json_write_open_record(w);
    put_version(w);
    put_titles(w, shapes);
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        if (is_units(s))
            put_units(w, s, words, with_empty);
        else
            put_setting(w, s, words, with_empty && is_shown(s));
    }
    lml_json_write_close(w);
}

bool lml_skeleton_has(const lml_json *about, const char *word)
{
    lml_span name = {word, strcspn(word, "=")};
    const lml_json *s = lml_json_first(lml_json_member(about, "allowances"));
    for (; s; s = lml_json_next(s)) {
        if (!is_units(s) && lml_span_equal(member_text(s, "name"), name))
            return true;
        const lml_json *f = is_units(s) ? lml_json_first(lml_json_member(s, "fields")) : NULL;
        for (; f; f = lml_json_next(f))
            if (lml_span_equal(member_text(f, "name"), name))
                return true;
    }
    return false;
}
