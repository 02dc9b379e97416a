#include "file/ring_size.h"
#include "file/shape.h"
#include "base/decimal.h"
#include "base/letter.h"
#include "file/alloy_read.h"
#include "value/value.h"
#include "read/read.h"
#include "file/assay_read.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static lml_status with_hint(lml_error *err, lml_status status, const char *format, const char *a)
{
    lml_error_hint(err, format, a);
    return status;
}

/* ---- texts ---- */

static lml_status check_text(const lml_shape *s, const lml_json *node, size_t most, lml_error *err)
{
    if (lml_json_kind_of(node) != LML_JSON_TEXT)
        return lml_shape_wrong_kind(s, node, err);
    lml_span text = lml_json_text(node);
    if (text.length > most)
        return lml_json_fail(node, err, LML_BAD_VALUE,
                             "the text is longer than %zu bytes: shorten it", most);
    uint32_t c;
    if (lml_letter_find_hidden(text, "", &c) == text.length)
        return LML_OK;
    /* on a sheet it would hide or forge what is beside it */
    return lml_json_fail(node, err, LML_BAD_VALUE, "the text contains %s (U+%04X): remove it",
                         lml_letter_fault(c), (unsigned)c);
}

static lml_status refuse_choice(const lml_shape *s, const lml_json *node, lml_error *err)
{
    lml_span text = lml_json_text(node);
    if (!err)
        return LML_BAD_VALUE;
    lml_nearest nearest = lml_nearest_to(text);
    char all[200] = "";
    size_t used = 0;
    for (const char *const *c = s->choices; *c; c++) {
        lml_nearest_offer(&nearest, lml_span_of(*c));
        if (used < sizeof all)
            used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", used ? ", " : "", *c);
    }
    lml_json_fail(node, err, LML_BAD_VALUE, "\"%.*s\" is not one of the choices", (int)text.length,
                  text.at);
    if (lml_nearest_found(&nearest))
        return with_hint(err, LML_BAD_VALUE, "did you mean \"%s\"?", nearest.best.at);
    bool several = text.length > 0 && memchr(text.at, ',', text.length);
    return with_hint(err, LML_BAD_VALUE,
                     several ? "give one at a time; the choices are: %s" : "the choices are: %s",
                     all);
}

static lml_status check_choice(const lml_shape *s, const lml_json *node, lml_error *err)
{
    lml_status status = check_text(s, node, LML_TEXT_MOST, err);
    if (status)
        return status;
    lml_span text = lml_json_text(node);
    for (const char *const *c = s->choices; *c; c++)
        if (lml_span_is(text, *c))
            return LML_OK;
    return refuse_choice(s, node, err);
}

static lml_status check_ring_size(const lml_shape *s, const lml_json *node, lml_error *err)
{
    char size[LML_RING_SIZE_TEXT];
    lml_status status = check_text(s, node, 40, err);
    if (status)
        return status;
    lml_span text = lml_json_text(node);
    if (lml_ring_size_read(text, lml_json_house(node), size))
        return LML_OK;
    lml_json_fail(node, err, LML_BAD_VALUE, "\"%.*s\" is not a ring size", (int)text.length,
                  text.at);
    const char *own = lml_ring_size_example(lml_json_house(node));
    if (own)
        return with_hint(err, LML_BAD_VALUE,
                         "write it like %s; for that of another country name the system first: US "
                         "6 1/4, UK L 1/2, ISO 52.5, JP 12 or CH 12.5",
                         own);
    return with_hint(err, LML_BAD_VALUE, "%s",
                     "name the system, then the size: US 6 1/4, UK L 1/2, ISO 52.5, JP 12 or "
                     "CH 12.5; CA is as US; IE, AU and NZ are as UK; IT and ES are as CH");
}

/* ---- records and lists ---- */

const lml_shape *lml_shape_field(const lml_shape *record, const char *name)
{
    for (size_t i = 0; i < record->field_count; i++)
        if (strcmp(record->fields[i].name, name) == 0)
            return &record->fields[i];
    return NULL;
}

const lml_shape *lml_shape_field_named(const lml_shape *record, lml_span name)
{
    for (size_t i = 0; i < record->field_count; i++)
        if (lml_span_is(name, record->fields[i].name))
            return &record->fields[i];
    return NULL;
}

lml_shape_when lml_shape_when_of(lml_span text)
{
    const char *sign = text.length > 0 ? memchr(text.at, '=', text.length) : NULL;
    if (!sign)
        return (lml_shape_when){.name = lml_span_trim(text)};
    return (lml_shape_when){.name = lml_span_trim(lml_span_between(text.at, sign)),
                            .option =
                                lml_span_trim(lml_span_between(sign + 1, text.at + text.length))};
}

/* Names one after the other, until the buffer is full. */
static void list_names(const lml_shape *s, const lml_json *absent_from, char *out, size_t size)
{
    size_t used = 0;
    out[0] = 0;
    for (size_t i = 0; i < s->field_count && used < size; i++) {
        const lml_shape *f = &s->fields[i];
        if (absent_from && (lml_shape_optional(f) || lml_json_member(absent_from, f->name)))
            continue;
        used += (size_t)snprintf(out + used, size - used, "%s%s", used ? ", " : "", f->name);
    }
}

static lml_status unknown_name(const lml_shape *s, const lml_json *member, lml_error *err)
{
    char all[240];
    lml_span name = lml_json_name(member);
    if (!err)
        return LML_BAD_DATA;
    lml_nearest nearest = lml_nearest_to(name);
    for (size_t i = 0; i < s->field_count; i++)
        lml_nearest_offer(&nearest, lml_span_of(s->fields[i].name));
    lml_json_fail(member, err, LML_BAD_DATA, "this name is not used");
    if (lml_nearest_found(&nearest))
        return with_hint(err, LML_BAD_DATA,
                         nearest.distance ? "did you mean %s?" : "capitals count: write %s",
                         nearest.best.at);
    list_names(s, NULL, all, sizeof all);
    return with_hint(err, LML_BAD_DATA, "the names here are: %s", s->field_count ? all : "none");
}

/* One name that is missing, so that nothing else is reported about it. */
static lml_status missing_name(const lml_shape *f, const lml_json *node, lml_error *err)
{
    char example[LML_EXAMPLE_TEXT];
    if (!err)
        return LML_BAD_DATA;
    lml_json_fail(node, err, LML_BAD_DATA, "%s is missing%s%s", f->name, f->title ? ": " : "",
                  f->title ? f->title : "");
    lml_shape_example_json(f, lml_json_house(node), example, sizeof example);
    lml_error_hint(err, "add \"%s\": %s", f->name, example);
    return LML_BAD_DATA;
}

static lml_status missing_names(const lml_shape *s, const lml_json *node, lml_faults *faults,
                                lml_error *err)
{
    const lml_shape *first = NULL;
    size_t count = 0;
    for (size_t i = 0; i < s->field_count; i++) {
        const lml_shape *f = &s->fields[i];
        if (lml_shape_optional(f) || lml_json_member(node, f->name))
            continue;
        first = first ? first : f;
        count++;
        if (faults) {
            missing_name(f, node, err);
            lml_faults_note(faults, node, err);
        }
    }
    if (!count || faults)
        return LML_OK;
    lml_status status = missing_name(first, node, err);
    if (count > 1 && err) {
        char all[200], hint[sizeof err->hint];
        list_names(s, node, all, sizeof all);
        memcpy(hint, err->hint, sizeof hint);
        lml_json_fail(node, err, LML_BAD_DATA, "%zu names are missing: %s", count, all);
        lml_error_hint(err, "%s", hint);
    }
    return status;
}

static lml_status check(const lml_shape *s, const lml_json *node, lml_faults *faults,
                        lml_error *err);

static lml_status check_entries(const lml_shape *s, const lml_json *node, lml_faults *faults,
                                lml_error *err)
{
    lml_status status = LML_OK;
    for (const lml_json *m = lml_json_first(node); m && !status; m = lml_json_next(m)) {
        const lml_shape *entry =
            s->wanted == LML_WANT_RECORD ? lml_shape_field(s, lml_json_name(m).at) : NULL;
        if (!entry)
            entry = s->of;
        status = entry ? check(entry, m, faults, err) : unknown_name(s, m, err);
        if (status && !entry && faults) {
            lml_faults_note(faults, m, err);
            status = LML_OK;
        }
    }
    return status;
}

/* What another version than ours means by its names is not known. */
static lml_status check_version(const lml_shape *s, const lml_json *node, const lml_json **version,
                                lml_error *err)
{
    const lml_shape *first = s->field_count > 0 ? s->fields : NULL;
    *version = first && strcmp(first->name, LML_SHAPE_VERSION) == 0 && first->check
                   ? lml_json_member(node, first->name)
                   : NULL;
    return *version ? check(first, *version, NULL, err) : LML_OK;
}

static lml_status check_record(const lml_shape *s, const lml_json *node, lml_faults *faults,
                               lml_error *err)
{
    if (lml_json_kind_of(node) != LML_JSON_RECORD)
        return lml_shape_wrong_kind(s, node, err);
    const lml_json *version;
    lml_status status = check_version(s, node, &version, err);
    if (status && faults)
        lml_faults_note(faults, version, err);
    if (status)
        return faults ? LML_OK : status;
    status = check_entries(s, node, faults, err);
    return status ? status : missing_names(s, node, faults, err);
}

static lml_status check_list(const lml_shape *s, const lml_json *node, lml_faults *faults,
                             lml_error *err)
{
    if (lml_json_kind_of(node) != LML_JSON_LIST)
        return lml_shape_wrong_kind(s, node, err);
    return check_entries(s, node, faults, err);
}

/* ---- metals ---- */

static lml_status check_alloy(const lml_shape *s, const lml_json *node, lml_error *err)
{
    if (lml_json_kind_of(node) == LML_JSON_RECORD)
        return lml_shape_check(&lml_alloy_read_shape, node, err);
    return check_text(s, node, LML_OWNER_MOST, err);
}

static lml_status check_assay(const lml_shape *s, const lml_json *node, lml_error *err)
{
    lml_assay assay;
    if (lml_json_kind_of(node) == LML_JSON_RECORD)
        return lml_shape_check(&lml_assay_read_shape, node, err);
    lml_status status = check_text(s, node, LML_OWNER_MOST, err);
    return status || lml_assay_read_is_name(lml_json_text(node), lml_json_memo(node))
               ? status
               : lml_assay_read(node, s->metal, &assay, err);
}

static lml_status check_kind(const lml_shape *s, const lml_json *node, lml_faults *faults,
                             lml_error *err)
{
    lml_value value;
    switch (s->wanted) {
    case LML_WANT_ANYTHING:
        return lml_json_kind_of(node) == LML_JSON_NULL ? lml_shape_wrong_kind(s, node, err)
                                                       : LML_OK;
    case LML_WANT_TEXT:
        return check_text(s, node, LML_TEXT_MOST, err);
    case LML_WANT_OWNER:
        return check_text(s, node, LML_OWNER_MOST, err);
    case LML_WANT_CHOICE:
        return check_choice(s, node, err);
    case LML_WANT_YES_NO:
        return lml_json_kind_of(node) == LML_JSON_YES_NO ? LML_OK
                                                         : lml_shape_wrong_kind(s, node, err);
    case LML_WANT_RING_SIZE:
        return check_ring_size(s, node, err);
    case LML_WANT_ALLOY:
        return check_alloy(s, node, err);
    case LML_WANT_ASSAY:
        return check_assay(s, node, err);
    case LML_WANT_RECORD:
    case LML_WANT_BY_NAME:
        return check_record(s, node, faults, err);
    case LML_WANT_LIST:
        return check_list(s, node, faults, err);
    default:
        return lml_shape_value(s, node, &value, err);
    }
}

/* What somebody has still to fill in, whatever its kind. */
static lml_status refuse_empty(const lml_shape *s, const lml_json *node, lml_error *err)
{
    char example[LML_EXAMPLE_TEXT];
    if (!err)
        return LML_BAD_VALUE;
    lml_json_fail(node, err, LML_BAD_VALUE, "nothing is filled in%s%s", s->title ? ": " : "",
                  s->title ? s->title : "");
    lml_shape_example_json(s, lml_json_house(node), example, sizeof example);
    lml_error_hint(err, "write it like %s%s", example,
                   lml_shape_optional(s) ? ", or leave out the name" : "");
    return LML_BAD_VALUE;
}

static bool is_empty(const lml_shape *s, const lml_json *node)
{
    return lml_json_kind_of(node) == LML_JSON_TEXT && s->wanted != LML_WANT_ANYTHING &&
           lml_span_trim(lml_json_text(node)).length == 0;
}

/* With `faults` everything wrong is noted there, and LML_OK returned. */
static lml_status check(const lml_shape *s, const lml_json *node, lml_faults *faults,
                        lml_error *err)
{
    size_t before = faults ? faults->count : 0;
    lml_status status =
        is_empty(s, node) ? refuse_empty(s, node, err) : check_kind(s, node, faults, err);
    if (!status && s->check && (!faults || faults->count == before))
        status = s->check(node, err);
    if (!status || !faults)
        return status;
    lml_faults_note(faults, node, err);
    return LML_OK;
}

lml_status lml_shape_check(const lml_shape *s, const lml_json *node, lml_error *err)
{
    return check(s, node, NULL, err);
}

void lml_shape_faults(const lml_shape *s, const lml_json *node, lml_faults *faults)
{
    lml_error error;
    check(s, node, faults, &error);
}
