#include "file/patch.h"

#include "base/builder.h"
#include "file/json_write.h"

#include <string.h>

/* ---- the path ---- */

static lml_status refuse_path(lml_span text, lml_error *err)
{
    lml_fail(err, LML_USAGE, "\"%.*s\" is not a path in a file", LML_SPAN_SHOWN(text));
    lml_error_hint(err, "write it like given.wax or given.pieces[0].name");
    return LML_USAGE;
}

static bool is_plain(char c)
{
    return c != '.' && c != '[' && c != ']' && c != '"';
}

/* One step from *at on; false where none can be read. */
static bool read_step(const char **at, const char *end, lml_patch_path *path)
{
    const char *from = *at, *to = from;
    lml_span *name = &path->step[path->steps].name;
    size_t *place = &path->step[path->steps].place;
    *name = (lml_span){NULL, 0};
    *place = 0;
    if (*from == '[') {
        for (to = from + 1; to < end && lml_ascii_is_digit(*to) && *place < 1000000; to++)
            *place = *place * 10 + (size_t)(*to - '0');
        if (to == from + 1 || to == end || *to != ']')
            return false;
        *at = to + 1;
    } else if (*from == '"') {
        for (to = from + 1; to < end && *to != '"';)
            to++;
        if (to == end)
            return false;
        *name = lml_span_between(from + 1, to);
        *at = to + 1;
    } else {
        while (to < end && is_plain(*to))
            to++;
        if (to == from)
            return false;
        *name = lml_span_between(from, to);
        *at = to;
    }
    path->steps++;
    return true;
}

lml_status lml_patch_read_path(lml_span text, lml_patch_path *out, lml_error *err)
{
    const char *at = text.at, *end = text.at + text.length;
    out->steps = 0;
    while (at < end) {
        if (out->steps > 0 && *at == '.')
            at++;
        else if (out->steps > 0 && *at != '[')
            return refuse_path(text, err);
        if (at == end || out->steps == LML_PATCH_STEPS || !read_step(&at, end, out))
            return refuse_path(text, err);
    }
    return out->steps > 0 ? LML_OK : refuse_path(text, err);
}

static const lml_json *step_into(const lml_json *node, const lml_patch_path *path, size_t i)
{
    const lml_json *n = lml_json_first(node);
    bool member = path->step[i].name.at != NULL;
    if (member != (lml_json_kind_of(node) == LML_JSON_RECORD))
        return NULL;
    for (size_t place = 0; n; n = lml_json_next(n), place++)
        if (member ? lml_span_equal(lml_json_name(n), path->step[i].name)
                   : place == path->step[i].place)
            return n;
    return NULL;
}

const lml_json *lml_patch_find(const lml_json *root, const lml_patch_path *path)
{
    for (size_t i = 0; root && i < path->steps; i++)
        root = step_into(root, path, i);
    return root;
}

/* ---- the text ---- */

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static const char *end_of(const lml_json *node)
{
    lml_span raw = lml_json_raw(node);
    return raw.at + raw.length;
}

/* The blanks behind the bracket or comma before the last member or item. */
static lml_span lead_of(const lml_json *parent, const lml_json **last)
{
    const char *from = lml_json_raw(parent).at + 1;
    *last = lml_json_first(parent);
    for (const lml_json *n = lml_json_next(*last); n; n = lml_json_next(n)) {
        from = strchr(end_of(*last), ',') + 1;
        *last = n;
    }
    const char *to = from;
    while (is_blank(*to))
        to++;
    return lml_span_between(from, to);
}

/* The blanks that the line of a byte begins with. */
static lml_span indent_of(lml_span text, const char *at)
{
    while (at > text.at && at[-1] != '\n')
        at--;
    const char *to = at;
    while (*to == ' ' || *to == '\t')
        to++;
    return lml_span_between(at, to);
}

static void add_named(lml_builder *out, lml_span name, lml_span value)
{
    if (name.at) {
        lml_json_writer w = lml_json_writer_on(out, false);
        lml_json_write_text(&w, name);
        lml_builder_add_text(out, ": ");
    }
    lml_builder_add_span(out, value);
}

/* Another member or item: after the last one, or on a line of its own if there is none. */
static void add_to(const lml_json_document *doc, const lml_json *parent, lml_span name,
                   lml_span value, lml_builder *out)
{
    lml_span text = lml_json_source_text(doc), raw = lml_json_raw(parent);
    const char *rest = text.at + text.length;
    const lml_json *last;
    if (lml_json_first(parent)) {
        lml_span lead = lead_of(parent, &last);
        lml_builder_add_span(out, lml_span_between(text.at, end_of(last)));
        lml_builder_add_char(out, ',');
        lml_builder_add_span(out, lead);
        add_named(out, name, value);
        lml_builder_add_span(out, lml_span_between(end_of(last), rest));
        return;
    }
    lml_span indent = indent_of(text, raw.at);
    lml_builder_add_span(out, lml_span_between(text.at, raw.at + 1));
    lml_builder_add_char(out, '\n');
    lml_builder_add_span(out, indent);
    lml_builder_add_text(out, "  ");
    add_named(out, name, value);
    lml_builder_add_char(out, '\n');
    lml_builder_add_span(out, indent);
    lml_builder_add_span(out, lml_span_between(raw.at + raw.length - 1, rest));
}

static lml_status refuse_parent(const lml_json *node, const lml_patch_path *path, size_t i,
                                lml_error *err)
{
    lml_json_kind kind = lml_json_kind_of(node);
    if (path->step[i].name.at)
        return lml_json_fail(node, err, LML_BAD_DATA, "%.*s cannot be put in it: it is %s",
                             LML_SPAN_SHOWN(path->step[i].name), lml_json_kind_words(kind));
    return lml_json_fail(node, err, LML_BAD_DATA, "item %zu cannot be put in it: it has %zu",
                         path->step[i].place, lml_json_count(node));
}

/* "" where a record or a list is to be filled in. */
static bool is_to_fill(const lml_json *node)
{
    return lml_json_kind_of(node) == LML_JSON_TEXT && lml_json_text(node).length == 0;
}

static void replace(const lml_json_document *doc, const lml_json *node, lml_span value,
                    lml_builder *out)
{
    lml_span text = lml_json_source_text(doc);
    lml_builder_add_span(out, lml_span_between(text.at, lml_json_raw(node).at));
    lml_builder_add_span(out, value);
    lml_builder_add_span(out, lml_span_between(end_of(node), text.at + text.length));
}

static bool can_take(const lml_json *node, const lml_patch_path *path, size_t i)
{
    if (path->step[i].name.at)
        return lml_json_kind_of(node) == LML_JSON_RECORD;
    return lml_json_kind_of(node) == LML_JSON_LIST && lml_json_count(node) == path->step[i].place;
}

/* The text with one more step of the path in it; *whole when that was the last. */
static lml_status put_step(const lml_json_document *doc, const lml_patch_path *path, lml_span value,
                           lml_builder *out, bool *whole, lml_error *err)
{
    const lml_json *node = lml_json_root(doc), *next = NULL;
    size_t i = 0;
    while (i < path->steps && (next = step_into(node, path, i)) != NULL) {
        node = next;
        i++;
    }
    *whole = i + 1 >= path->steps;
    if (i == path->steps) {
        replace(doc, node, value, out);
        return lml_builder_status(out, err);
    }
    if (i > 0 && is_to_fill(node)) {
        *whole = false;
        replace(doc, node, lml_span_of(path->step[i].name.at ? "{}" : "[]"), out);
        return lml_builder_status(out, err);
    }
    if (!can_take(node, path, i))
        return refuse_parent(node, path, i, err);
    lml_span empty = *whole                      ? value
                     : path->step[i + 1].name.at ? lml_span_of("{}")
                                                 : lml_span_of("[]");
    add_to(doc, node, path->step[i].name, empty, out);
    return lml_builder_status(out, err);
}

lml_status lml_patch_value(lml_span text, const char *source, const lml_patch_path *path,
                           lml_span value, lml_builder *out, lml_error *err)
{
    lml_builder before = lml_builder_on(out->alloc, 0);
    lml_status status = LML_OK;
    lml_builder_add_span(&before, text);
    for (bool whole = false; status == LML_OK && !whole;) {
        lml_json_document *doc = NULL;
        lml_builder after = lml_builder_on(out->alloc, 0);
        status = lml_builder_status(&before, err);
        if (status == LML_OK)
            status = lml_json_read(out->alloc, (lml_span){before.at, before.length}, NULL, source,
                                   &doc, err);
        if (status == LML_OK)
            status = put_step(doc, path, value, &after, &whole, err);
        lml_json_free(doc);
        lml_builder_free(&before);
        before = after;
    }
    if (status == LML_OK) {
        lml_builder_add(out, before.at, before.length);
        status = lml_builder_status(out, err);
    }
    lml_builder_free(&before);
    return status;
}

/* ---- taken out ---- */

/* Where a member begins, or an item: behind the bracket or the comma before it, and the blanks. */
static const char *start_of(const lml_json *parent, const lml_json *node)
{
    const char *from = lml_json_raw(parent).at + 1;
    for (const lml_json *n = lml_json_first(parent); n && n != node; n = lml_json_next(n))
        from = strchr(end_of(n), ',') + 1;
    while (is_blank(*from))
        from++;
    return from;
}

/* What goes: with one behind it up to that, with one before it from there, else all within. */
static lml_span span_of(const lml_json *parent, const lml_json *node)
{
    const lml_json *before = NULL;
    for (const lml_json *n = lml_json_first(parent); n != node; n = lml_json_next(n))
        before = n;
    if (lml_json_next(node))
        return lml_span_between(start_of(parent, node), start_of(parent, lml_json_next(node)));
    if (before)
        return lml_span_between(end_of(before), end_of(node));
    return lml_span_between(lml_json_raw(parent).at + 1, end_of(parent) - 1);
}

lml_status lml_patch_remove(lml_span text, const char *source, const lml_patch_path *path,
                            lml_builder *out, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_patch_path above = *path;
    lml_status status = lml_json_read(out->alloc, text, NULL, source, &doc, err);
    if (status != LML_OK)
        return status;
    above.steps--;
    const lml_json *parent = lml_patch_find(lml_json_root(doc), &above),
                   *node = parent ? step_into(parent, path, above.steps) : NULL;
    if (node) {
        lml_span whole = lml_json_source_text(doc), gone = span_of(parent, node);
        lml_builder_add_span(out, lml_span_between(whole.at, gone.at));
        lml_builder_add_span(out, lml_span_between(gone.at + gone.length, whole.at + whole.length));
        status = lml_builder_status(out, err);
    } else {
        status = lml_fail(err, LML_NOT_FOUND, "%s has nothing at that place", source);
    }
    lml_json_free(doc);
    return status;
}
