#include "papers/promise.h"

#include "file/digest.h"
#include "file/json_copy.h"

#include <stdio.h>

enum { VALUE_TEXT = 300 };

static const lml_json *part(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static lml_status put_figure(lml_json_writer *w, const lml_json *figure, lml_error *err);

static lml_status put_entries(lml_json_writer *w, const lml_json *value, lml_error *err)
{
    bool list = lml_json_kind_of(value) == LML_JSON_LIST;
    lml_status status = LML_OK;
    if (list)
        lml_json_write_open_list(w);
    else
        lml_json_write_open_record(w);
    for (const lml_json *m = lml_json_first(value); m && status == LML_OK; m = lml_json_next(m))
        status = lml_promise_write(w, lml_json_name(m), m, err);
    lml_json_write_close(w);
    return status;
}

/* "12.4 g ± 0.1 g", "12.3 g..12.5 g": a number in its unit, with its spread. */
static void put_number(lml_json_writer *w, const lml_json *figure, lml_span unit)
{
    char text[VALUE_TEXT];
    const lml_json *value = part(figure, "value"), *sd = part(figure, "sd"),
                   *low = part(figure, "low"), *high = part(figure, "high");
    lml_span v = lml_json_raw(low && high ? low : value);
    int used = snprintf(text, sizeof text, "%.*s %.*s", LML_SPAN_SHOWN(v), LML_SPAN_SHOWN(unit));
    if (low && high)
        used = snprintf(text, sizeof text, "%.*s..%.*s %.*s", LML_SPAN_SHOWN(v),
                        LML_SPAN_SHOWN(lml_json_raw(high)), LML_SPAN_SHOWN(unit));
    else if (sd)
        used =
            snprintf(text, sizeof text, "%.*s %.*s ± %.*s %.*s", LML_SPAN_SHOWN(v),
                     LML_SPAN_SHOWN(unit), LML_SPAN_SHOWN(lml_json_raw(sd)), LML_SPAN_SHOWN(unit));
    size_t length = used < 0 || used >= VALUE_TEXT ? 0 : (size_t)used;
    lml_json_write_text(w, (lml_span){text, length});
}

static lml_status put_figure(lml_json_writer *w, const lml_json *figure, lml_error *err)
{
    const lml_json *value = part(figure, "value");
    lml_span unit = lml_json_text(part(figure, "unit")), text = lml_json_text(value);
    char money[VALUE_TEXT];
    switch (lml_json_kind_of(value)) {
    case LML_JSON_LIST:
    case LML_JSON_RECORD:
        return put_entries(w, value, err);
    case LML_JSON_NUMBER:
        if (unit.length == 0)
            lml_json_write_raw(w, lml_json_raw(value));
        else
            put_number(w, figure, unit);
        return LML_OK;
    case LML_JSON_YES_NO:
        lml_json_write_yes_no(w, lml_json_yes(value));
        return LML_OK;
    case LML_JSON_TEXT:
        if (unit.length == 0) {
            lml_json_write_text(w, text);
            return LML_OK;
        }
        snprintf(money, sizeof money, "%.*s %.*s", LML_SPAN_SHOWN(text), LML_SPAN_SHOWN(unit));
        lml_json_write_text(w, lml_span_of(money));
        return LML_OK;
    default:
        return lml_json_fail(figure, err, LML_BAD_DATA, "this figure has no text");
    }
}

lml_status lml_promise_write(lml_json_writer *w, lml_span name, const lml_json *figure,
                             lml_error *err)
{
    if (name.length > 0)
        lml_json_write_name(w, name);
    return put_figure(w, figure, err);
}

/* ---- digests ---- */

static void put_digest(lml_json_writer *w, const char *name, const lml_builder *text)
{
    char digest[LML_DIGEST_TEXT];
    lml_digest_of((lml_span){text->at, text->length}, digest);
    lml_json_write_member(w, name, digest);
}

/* A recipe that took part several times is named once. */
static bool named_before(const lml_json *worked, const lml_json *until, lml_span recipe)
{
    for (const lml_json *m = lml_json_first(worked); m && m != until; m = lml_json_next(m))
        if (lml_span_equal(lml_json_text(part(m, "recipe")), recipe))
            return true;
    return false;
}

static void put_recipes(lml_json_writer *w, const lml_json *worked, lml_builder *scripts)
{
    lml_json_write_name(w, lml_span_of("worked"));
    lml_json_write_open_record(w);
    for (const lml_json *m = lml_json_first(worked); m; m = lml_json_next(m)) {
        lml_span recipe = lml_json_text(part(m, "recipe"));
        if (recipe.length == 0) {
            lml_builder_add_span(scripts, lml_json_raw(m));
        } else if (!named_before(worked, m, recipe)) {
            lml_json_write_name(w, recipe);
            lml_json_write_text(w, lml_json_text(part(m, "digest")));
        }
    }
    lml_json_write_close(w);
}

lml_status lml_promise_write_digests(lml_json_writer *w, const lml_json *result, lml_error *err)
{
    static const char *const inputs[] = {"job", "house", "prices"};
    lml_builder scripts = lml_builder_on(w->to->alloc, 0),
                settings = lml_builder_on(w->to->alloc, 0);
    lml_json_writer compact = lml_json_writer_on(&settings, false);
    put_recipes(w, part(result, "worked"), &scripts);
    lml_json_copy(&compact, part(result, "settings"));
    lml_status status = lml_builder_status(&scripts, err);
    if (status == LML_OK)
        status = lml_json_writer_end(&compact, err);
    if (status == LML_OK) {
        put_digest(w, "scripts", &scripts);
        put_digest(w, "settings", &settings);
    }
    lml_builder_free(&scripts);
    lml_builder_free(&settings);
    for (int i = 0; i < 3; i++) {
        const lml_json *input = part(part(result, "inputs"), inputs[i]);
        if (input) {
            lml_json_write_name(w, lml_span_of(inputs[i]));
            lml_json_write_text(w, lml_json_text(part(input, "digest")));
        }
    }
    return status;
}
