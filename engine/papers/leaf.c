#include "papers/leaf.h"

#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"

#include <stdio.h>

static lml_span member_text(const lml_json *datum, const char *name)
{
    return lml_json_text(lml_json_member(datum, name));
}

bool lml_leaf_read(const lml_json *datum, lml_value *out)
{
    char text[LML_VALUE_TEXT];
    const lml_json *value = lml_json_member(datum, "value");
    lml_span amount =
        lml_json_kind_of(value) == LML_JSON_NUMBER ? lml_json_raw(value) : lml_json_text(value);
    lml_span unit = member_text(datum, "unit"), kind = member_text(datum, "kind");
    lml_wanted wanted = lml_wanted_by_name(kind);
    if (lml_span_is(kind, "text") || lml_span_is(kind, "alloy") || lml_span_is(kind, "assay"))
        return false; /* though it may read like one */
    size_t length = amount.length + 1 + unit.length;
    if (length >= sizeof text)
        return false;
    memcpy(text, amount.at ? amount.at : "", amount.length);
    text[amount.length] = ' ';
    memcpy(text + amount.length + 1, unit.at ? unit.at : "", unit.length);
    /* "40 mL/(100 g)" is a ratio only where one is needed. */
    wanted = wanted == LML_WANT_RATIO ? wanted : LML_WANT_ANYTHING;
    return lml_read_value(lml_span_trim((lml_span){text, length}), wanted, LML_NO_METAL, out,
                          NULL) == LML_OK;
}

/* ---- by name ---- */

static lml_span cut(lml_span *rest, size_t length)
{
    lml_span taken = {rest->at, length};
    *rest = (lml_span){rest->at + length, rest->length - length};
    return taken;
}

/* The item that "[2]", at the front of *rest, counts off; NULL where there is none. */
static const lml_json *item(const lml_json *list, lml_span *rest)
{
    size_t index = 0, at = 1;
    for (; lml_span_digit_at(*rest, at) && index < 1000000; at++)
        index = index * 10 + (size_t)(rest->at[at] - '0');
    if (at == 1 || at >= rest->length || rest->at[at] != ']')
        return NULL;
    cut(rest, at + 1);
    const lml_json *node = lml_json_first(list);
    while (node && index-- > 0)
        node = lml_json_next(node);
    return node;
}

static const lml_json *member_named(const lml_json *record, lml_span name)
{
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m))
        if (lml_span_equal(lml_json_name(m), name))
            return m;
    return NULL;
}

const lml_json *lml_leaf_find(const lml_json *results, lml_span name)
{
    const lml_json *inside = results, *datum = NULL;
    while (name.length > 0) {
        if (name.at[0] == '[') {
            datum = lml_json_kind_of(inside) == LML_JSON_LIST ? item(inside, &name) : NULL;
        } else {
            if (datum && name.at[0] == '.')
                cut(&name, 1);
            size_t length = 0;
            while (length < name.length && name.at[length] != '.' && name.at[length] != '[')
                length++;
            datum = lml_json_kind_of(inside) == LML_JSON_RECORD
                        ? member_named(inside, cut(&name, length))
                        : NULL;
        }
        if (!datum)
            return NULL;
        inside = lml_json_member(datum, "value");
    }
    return datum;
}

/* ---- all of them ---- */

typedef struct walk {
    lml_status (*visit)(void *self, const char *name, const lml_json *datum, lml_error *err);
    void *self;
} walk;

static lml_status walk_data(const walk *to, const char *name, const lml_json *inside,
                            lml_error *err)
{
    char path[LML_LEAF_NAME];
    bool record = lml_json_kind_of(inside) == LML_JSON_RECORD;
    lml_status status = LML_OK;
    size_t index = 0;
    for (const lml_json *m = lml_json_first(inside); m && status == LML_OK; m = lml_json_next(m)) {
        if (record)
            lml_text_join(path, sizeof path, name, name[0] ? "." : "", lml_json_name(m).at);
        else
            snprintf(path, sizeof path, "%s[%zu]", name, index++);
        const lml_json *value = lml_json_member(m, "value");
        lml_json_kind kind = lml_json_kind_of(value);
        status = kind == LML_JSON_RECORD || kind == LML_JSON_LIST
                     ? walk_data(to, path, value, err)
                     : to->visit(to->self, path, m, err);
    }
    return status;
}

lml_status lml_leaf_each(const lml_json *results,
                         lml_status (*visit)(void *self, const char *name, const lml_json *datum,
                                             lml_error *err),
                         void *self, lml_error *err)
{
    return walk_data(&(walk){visit, self}, "", results, err);
}
