#include "papers/given.h"
#include "file/json.h"
#include "file/json_write.h"

#include <string.h>

enum { STEPS = 16 }; /* how deep a dotted name may reach */

typedef struct path {
    lml_span step[STEPS];
    size_t steps;
} path;

lml_status lml_given_start(lml_builder *job, lml_span recipe, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(job, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("recipe"));
    lml_json_write_text(&w, recipe);
    lml_json_write_close(&w);
    return lml_json_writer_end(&w, err);
}

static lml_status add_step(path *out, lml_span step, lml_span name, lml_error *err)
{
    if (step.length == 0)
        return lml_fail(err, LML_USAGE,
                        "\"%.*s\" is not a name: write one like wax or lots[0].price",
                        LML_SPAN_SHOWN(name));
    if (out->steps == STEPS)
        return lml_fail(err, LML_USAGE, "\"%.*s\" has too many levels", LML_SPAN_SHOWN(name));
    out->step[out->steps++] = step;
    return LML_OK;
}

/* "lots[0].price" is the steps "lots", "[0]" and "price". */
static lml_status add_steps(path *out, lml_span name, lml_error *err)
{
    const char *start = name.at, *end = name.at + name.length;
    lml_status status = LML_OK;
    for (const char *at = start; status == LML_OK; at++) {
        if (at < end && *at != '.' && (*at != '[' || at == start))
            continue;
        status = add_step(out, lml_span_between(start, at), name, err);
        if (at == end)
            break;
        start = *at == '.' ? at + 1 : at;
    }
    return status;
}

static lml_status cut_path(lml_span name, bool closing, path *out, lml_error *err)
{
    out->steps = 0;
    if (closing)
        out->step[out->steps++] = lml_span_of("closing");
    out->step[out->steps++] = lml_span_of("given");
    return add_steps(out, name, err);
}

/* The item of a list that "[2]" counts off; NULL when it has none, or the step is not written so.
 */
static const lml_json *item(const lml_json *list, lml_span step)
{
    size_t index = 0, at = 1;
    for (; lml_span_digit_at(step, at) && index < 1000000; at++)
        index = index * 10 + (size_t)(step.at[at] - '0');
    if (step.at[0] != '[' || at == 1 || at + 1 != step.length || step.at[at] != ']')
        return NULL;
    const lml_json *node = lml_json_first(list);
    while (node && index-- > 0)
        node = lml_json_next(node);
    return node;
}

static const lml_json *member(const lml_json *record, lml_span name)
{
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m))
        if (lml_span_equal(lml_json_name(m), name))
            return m;
    return NULL;
}

/* "a": {"b": VALUE} for the steps that are still missing. */
static void write_missing(lml_json_writer *w, const path *p, size_t from, lml_span value)
{
    for (size_t i = from; i < p->steps; i++) {
        lml_json_write_name(w, p->step[i]);
        if (i + 1 < p->steps)
            lml_json_write_open_record(w);
    }
    lml_json_write_raw(w, value);
    for (size_t i = from; i + 1 < p->steps; i++)
        lml_json_write_close(w);
}

/* Replace `length` bytes of the job at `offset`. */
static lml_status splice(lml_builder *job, size_t offset, size_t length, lml_span new,
                         lml_error *err)
{
    lml_builder text = lml_builder_on(job->alloc, job->most);
    lml_builder_add(&text, job->at, offset);
    lml_builder_add_span(&text, new);
    lml_builder_add(&text, job->at + offset + length, job->length - offset - length);
    lml_status status = lml_builder_status(&text, err);
    if (status == LML_OK) {
        lml_builder_free(job);
        *job = text;
    } else {
        lml_builder_free(&text);
    }
    return status;
}

/* Add the missing members just before the brace that ends `record`. */
static lml_status add(lml_builder *job, size_t offset, const lml_json *record, const path *p,
                      size_t from, lml_span value, lml_error *err)
{
    lml_builder text = lml_builder_on(job->alloc, 0);
    lml_json_writer w = lml_json_writer_on(&text, false);
    lml_json_write_open_record(&w);
    write_missing(&w, p, from, value);
    lml_json_write_close(&w);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK) {
        text.at[0] = lml_json_count(record) > 0 ? ',' : ' ';
        lml_span members = {text.at, text.length - 1};
        status = splice(job, offset + lml_json_raw(record).length - 1, 0, members, err);
    }
    lml_builder_free(&text);
    return status;
}

static lml_status refuse_item(const lml_json *list, lml_span step, lml_error *err)
{
    const size_t count = lml_json_count(list);
    lml_json_fail(list, err, LML_USAGE, "there is no %.*s in it: it has %zu entr%s",
                  LML_SPAN_SHOWN(step), count, count == 1 ? "y" : "ies");
    lml_error_hint(err, count > 0 ? "the first one is [0]" : "write its entries in the file");
    return LML_USAGE;
}

/* Set the value at a path of the job, as raw JSON. */
static lml_status set(lml_builder *job, const path *p, lml_span value, const char *shown,
                      lml_error *err)
{
    lml_json_document *doc;
    lml_status status =
        lml_json_read(job->alloc, (lml_span){job->at, job->length}, NULL, shown, &doc, err);
    if (status != LML_OK)
        return status;
    const char *base = lml_json_source_text(doc).at;
    const lml_json *node = lml_json_root(doc);
    size_t i = 0;
    while (true) {
        size_t offset = (size_t)(lml_json_raw(node).at - base);
        if (i == p->steps) {
            status = splice(job, offset, lml_json_raw(node).length, value, err);
            break;
        }
        const lml_json *counted =
            lml_json_kind_of(node) == LML_JSON_LIST ? item(node, p->step[i]) : NULL;
        if (counted) {
            node = counted;
            i++;
            continue;
        }
        if (lml_json_kind_of(node) == LML_JSON_LIST && lml_span_starts(p->step[i], "[")) {
            status = refuse_item(node, p->step[i], err);
            break;
        }
        if (lml_json_kind_of(node) != LML_JSON_RECORD) {
            status = lml_json_fail(
                node, err, LML_USAGE, "%.*s cannot be set in it, because it is %s, not a record",
                (int)p->step[i].length, p->step[i].at, lml_json_kind_words(lml_json_kind_of(node)));
            break;
        }
        const lml_json *next = member(node, p->step[i]);
        if (!next) {
            status = add(job, offset, node, p, i, value, err);
            break;
        }
        node = next;
        i++;
    }
    lml_json_free(doc);
    return status;
}

/* The value as JSON, appended to `out`. */
static lml_status write_value(lml_span value, lml_span name, lml_builder *out, lml_error *err)
{
    if (lml_span_starts(value, "[") || lml_span_starts(value, "{")) {
        char shown[80];
        int length = (int)(name.length < 70 ? name.length : 70);
        memcpy(shown, name.at, (size_t)length);
        shown[length] = '\0';
        lml_json_document *doc;
        lml_status status = lml_json_read(out->alloc, value, NULL, shown, &doc, err);
        if (status == LML_OK)
            lml_json_free(doc);
        else if (status == LML_BAD_DATA)
            status = LML_USAGE; /* it is the word that is bad, and not the job */
        if (status != LML_OK && err)
            err->status = status;
        /* The lines of the job keep their numbers when the value has none of its own. */
        for (size_t i = 0; status == LML_OK && i < value.length; i++)
            lml_builder_add_char(out,
                                 value.at[i] == '\n' || value.at[i] == '\r' ? ' ' : value.at[i]);
        return status != LML_OK ? status : lml_builder_status(out, err);
    }
    lml_json_writer w = lml_json_writer_on(out, false);
    if (lml_span_is(value, "true") || lml_span_is(value, "false"))
        lml_json_write_raw(&w, value);
    else
        lml_json_write_text(&w, value);
    return lml_json_writer_end(&w, err);
}

static lml_status put(lml_builder *job, const char *word, bool closing, const char *shown,
                      lml_error *err)
{
    const char *equals = strchr(word, '=');
    if (!equals) {
        lml_fail(err, LML_USAGE, "\"%s\" has no value", word);
        lml_error_hint(err, "write NAME=VALUE, such as wax=\"2.85 g\"");
        return LML_USAGE;
    }
    lml_span name = lml_span_between(word, equals);
    path p, loose = {.step = {lml_span_of("loose")}, .steps = 1};
    lml_builder value = lml_builder_on(job->alloc, 0);
    lml_status status = cut_path(name, closing, &p, err);
    if (status == LML_OK)
        status = write_value(lml_span_of(equals + 1), name, &value, err);
    if (status == LML_OK)
        status = set(job, &p, (lml_span){value.at, value.length}, shown, err);
    if (status == LML_OK)
        status = set(job, &loose, lml_span_of("true"), shown, err);
    lml_builder_free(&value);
    return status;
}

lml_status lml_given_put(lml_builder *job, const char *word, const char *shown, lml_error *err)
{
    return put(job, word, false, shown, err);
}

lml_status lml_given_put_closing(lml_builder *job, const char *word, const char *shown,
                                 lml_error *err)
{
    return put(job, word, true, shown, err);
}

lml_status lml_given_put_raw(lml_builder *job, const lml_span *step, size_t steps, lml_span value,
                             const char *shown, lml_error *err)
{
    path p = {.steps = 0};
    for (size_t i = 0; i < steps && i < STEPS; i++)
        p.step[p.steps++] = step[i];
    return set(job, &p, value, shown, err);
}

lml_status lml_given_put_house(lml_builder *job, bool closing, lml_span setting, const char *rest,
                               const char *value, const char *shown, lml_error *err)
{
    path p = {.steps = 0};
    if (closing)
        p.step[p.steps++] = lml_span_of("closing");
    p.step[p.steps++] = lml_span_of("house");
    p.step[p.steps++] = setting;
    lml_builder json = lml_builder_on(job->alloc, 0);
    lml_status status = LML_OK;
    if (rest[0])
        status = add_steps(&p, lml_span_of(rest + (rest[0] == '.')), err);
    if (status == LML_OK)
        status = write_value(lml_span_of(value), setting, &json, err);
    if (status == LML_OK)
        status = set(job, &p, (lml_span){json.at, json.length}, shown, err);
    lml_builder_free(&json);
    return status;
}
