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

static void put_due(lml_json_writer *w, const lml_json *asks)
{
    lml_json_write_open_record(w);
    for (const lml_json *s = lml_json_first(asks); s; s = lml_json_next(s))
        if (is_due(s) && !is_of_the_job(s)) {
            lml_json_write_name(w, member_text(s, "name"));
            lml_json_write_text(w, lml_span_of(""));
        }
    lml_json_write_close(w);
}

/* Names of what may be left out, from *shape to the next heading. */
static void add_names(lml_builder *out, const lml_json **shape)
{
    lml_span heading = member_text(*shape, "heading");
    size_t count = 0;
    do {
        if (!is_due(*shape) && !is_of_the_job(*shape)) {
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
    put_due(w, asks);
    put_notes(w, asks);
    lml_json_write_close(w);
}

/* ---- a studio ---- */

/* In the order of the work. */
static const char *const recipes[] = {"old_metal", "charge", "flask", "melt", "day", "quote", NULL};
static const char *const members[] = {"name", "place", "currency", "altitude"};
/* Recipes can do without them, but the first charge and the first price cannot. */
static const char *const settings[] = {"button", "markup"};
static const char *const printed[] = {"mass", "length", "temperature", "vacuum"};

const char *lml_skeleton_recipe(size_t index)
{
    return recipes[index];
}

static void note(lml_builder *written, lml_span name)
{
    lml_builder_add_char(written, '\n');
    lml_builder_add_span(written, name);
    lml_builder_add_char(written, '=');
}

static bool holds(const lml_builder *written, lml_span name)
{
    lml_builder line = lml_builder_on(written->alloc, 0);
    note(&line, name);
    bool found = written->at && line.at && strstr(written->at, line.at);
    lml_builder_free(&line);
    return found;
}

bool lml_skeleton_has(const lml_builder *written, const char *word)
{
    return holds(written, (lml_span){word, strcspn(word, "=")});
}

/* Lists and records are typed as JSON, all else as a text. */
static void put_value(lml_json_writer *w, lml_span name, const lml_skeleton_words *words)
{
    lml_json_write_name(w, name);
    for (size_t i = 0; words && i < words->count; i++) {
        const char *word = words->word[i], *value = word + strcspn(word, "=");
        if (!lml_span_equal(lml_span_between(word, value), name) || value[0] == '\0')
            continue;
        if (value[1] == '[' || value[1] == '{')
            lml_json_write_raw(w, lml_span_of(value + 1));
        else
            lml_json_write_text(w, lml_span_of(value + 1));
        return;
    }
    lml_json_write_text(w, lml_span_of(""));
}

void lml_skeleton_house(lml_json_writer *w, const lml_skeleton_words *words, lml_builder *written)
{
    put_version(w);
    for (size_t i = 0; i < sizeof members / sizeof *members; i++) {
        put_value(w, lml_span_of(members[i]), words);
        note(written, lml_span_of(members[i]));
    }
    lml_json_write_name(w, lml_span_of("units"));
    lml_json_write_open_record(w);
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++) {
        put_value(w, lml_span_of(printed[i]), words);
        note(written, lml_span_of(printed[i]));
    }
    lml_json_write_close(w);
    for (size_t i = 0; i < sizeof settings / sizeof *settings; i++) {
        put_value(w, lml_span_of(settings[i]), words);
        note(written, lml_span_of(settings[i]));
    }
}

void lml_skeleton_settings(lml_json_writer *w, const lml_json *about,
                           const lml_skeleton_words *words, lml_builder *written)
{
    const lml_json *s = lml_json_first(lml_json_member(about, "allowances"));
    for (; s; s = lml_json_next(s)) {
        lml_span name = member_text(s, "name");
        if (!is_due(s) || lml_span_is(name, "prices") || holds(written, name))
            continue;
        put_value(w, name, words);
        note(written, name);
    }
}
