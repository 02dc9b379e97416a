#include "papers/moved.h"
#include "papers/leaf.h"
#include "value/arithmetic.h"
#include "read/read.h"
#include "value/show.h"
#include "value/wanted.h"
#include "value/write.h"
#include "value/compare.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_ROOM = 64, NAME_MOST = 256 };

/* ---- figures ---- */

static lml_span member_text(const lml_json *datum, const char *name)
{
    return lml_json_text(lml_json_member(datum, name));
}

static double size_of(const lml_value *v)
{
    return v->kind == LML_MONEY ? (double)v->exact : v->amount;
}

static bool has_size(const lml_value *v)
{
    return v->kind <= LML_MONEY;
}

lml_status lml_within_read(const char *text, lml_within *out, lml_error *err)
{
    lml_value v;
    lml_status status = lml_read_value(lml_span_of(text), LML_WANT_ANYTHING, LML_NO_METAL, &v, err);
    if (status == LML_OK && (v.kind == LML_NUMBER || !has_size(&v) || size_of(&v) < 0)) {
        lml_fail(err, LML_USAGE,
                 "--within needs how far a figure may move, but \"%s\" does not say "
                 "that",
                 text);
        lml_error_hint(err, "a part of each figure, --within \"0.1 %%\", or so much of its kind, "
                            "--within \"0.5 g\"");
        return LML_USAGE;
    }
    if (status != LML_OK) {
        if (err)
            err->status = LML_USAGE;
        return LML_USAGE;
    }
    *out = (lml_within){true, v};
    return LML_OK;
}

/* What the last digits of two doubles can do to their difference: 33 g - 30 g is not 3 g to the
 * last bit. */
static double noise_of(const lml_value values[2])
{
    return 8 * DBL_EPSILON * fmax(fabs(size_of(&values[0])), fabs(size_of(&values[1])));
}

static bool is_within(const lml_within *within, const lml_value values[2],
                      const lml_value *difference)
{
    if (!within->given)
        return false;
    bool measured = has_size(&values[0]), exact = values[0].kind == LML_MONEY;
    if (lml_wanted_check(LML_WANT_RATIO, &within->measure, NULL) == LML_OK) {
        double most = within->measure.amount * fabs(size_of(&values[0]));
        return measured && fabs(size_of(difference)) <= most + noise_of(values);
    }
    int order;
    lml_value most;
    if (lml_arithmetic_absolute(difference, &most, NULL) != LML_OK ||
        !lml_compare_alike(&most, &within->measure) ||
        lml_compare(&most, &within->measure, &order, NULL) != LML_OK)
        return false;
    return order <= 0 ||
           (measured && !exact && size_of(&most) <= size_of(&within->measure) + noise_of(values));
}

/* ---- lists ---- */

lml_moved lml_moved_on(const lml_alloc *alloc, const lml_within *within)
{
    return (lml_moved){.alloc = alloc, .within = *within};
}

lml_moved lml_moved_of_jobs(const lml_alloc *alloc, const lml_within *within)
{
    return (lml_moved){.alloc = alloc, .within = *within, .adds = true};
}

void lml_moved_free(lml_moved *moved)
{
    for (size_t i = 0; i < moved->count; i++)
        lml_alloc_free(moved->alloc, moved->movement[i].name, moved->movement[i].size);
    for (size_t i = 0; i < moved->totals; i++)
        lml_alloc_free(moved->alloc, moved->total[i].name, strlen(moved->total[i].name) + 1);
    lml_alloc_free(moved->alloc, moved->movement, moved->room * sizeof *moved->movement);
    lml_alloc_free(moved->alloc, moved->total, moved->totals_room * sizeof *moved->total);
    *moved = (lml_moved){.alloc = moved->alloc};
}

/* Room for one more item of `size` bytes; the list, or NULL. */
static void *grow(const lml_alloc *alloc, void *list, size_t count, size_t *room, size_t size)
{
    if (count < *room)
        return list;
    size_t more = *room ? 2 * *room : FIRST_ROOM;
    void *moved = lml_alloc_resize(alloc, list, *room * size, more * size);
    if (moved)
        *room = more;
    return moved;
}

static lml_status no_memory(lml_error *err)
{
    return lml_fail(err, LML_NO_MEMORY, "out of memory for the differences");
}

static char *keep(char **at, lml_span text)
{
    char *copy = *at;
    if (text.length > 0)
        memcpy(copy, text.at, text.length);
    copy[text.length] = '\0';
    *at += text.length + 1;
    return copy;
}

static lml_status add_movement(lml_moved *moved, lml_movement new, lml_span text[4], lml_error *err)
{
    void *list =
        grow(moved->alloc, moved->movement, moved->count, &moved->room, sizeof *moved->movement);
    if (!list)
        return no_memory(err);
    moved->movement = list;
    for (int i = 0; i < 4; i++)
        new.size += text[i].length + 1;
    char *at = lml_alloc_get(moved->alloc, new.size);
    if (!at)
        return no_memory(err);
    new.name = keep(&at, text[0]);
    new.before = keep(&at, text[1]);
    new.after = keep(&at, text[2]);
    new.difference = keep(&at, text[3]);
    moved->movement[moved->count++] = new;
    moved->beyond += !new.within;
    return LML_OK;
}

/* ---- totals ---- */

/* What is more the more there is of it. */
static bool adds_up(const lml_value *v)
{
    static const lml_wanted kinds[] = {LML_WANT_MASS,   LML_WANT_VOLUME, LML_WANT_AREA,
                                       LML_WANT_LENGTH, LML_WANT_TIME,   LML_WANT_ENERGY};
    if (v->kind == LML_MONEY || v->kind == LML_FINE_MASS)
        return true;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (lml_wanted_check(kinds[i], v, NULL) == LML_OK)
            return true;
    return false;
}

static lml_total *total_named(lml_moved *moved, const char *name)
{
    for (size_t i = 0; i < moved->totals; i++)
        if (strcmp(moved->total[i].name, name) == 0)
            return &moved->total[i];
    void *list =
        grow(moved->alloc, moved->total, moved->totals, &moved->totals_room, sizeof *moved->total);
    if (!list)
        return NULL;
    moved->total = list;
    size_t size = strlen(name) + 1;
    char *copy = lml_alloc_get(moved->alloc, size);
    if (!copy)
        return NULL;
    memcpy(copy, name, size);
    moved->total[moved->totals] = (lml_total){.name = copy, .sums = true};
    return &moved->total[moved->totals++];
}

static lml_status add_total(lml_moved *moved, const char *name, const lml_value values[2],
                            bool differs, const lml_json *const datum[2], lml_error *err)
{
    const lml_value *before = &values[0], *after = &values[1];
    if (!moved->adds || strchr(name, '[') || !adds_up(before) || !adds_up(after))
        return LML_OK; /* an item of a list is another thing in each job */
    lml_total *t = total_named(moved, name);
    if (!t)
        return no_memory(err);
    if (t->jobs++ == 0) {
        t->before = *before;
        t->after = *after;
        t->datum[0] = datum[0];
        t->datum[1] = datum[1];
    } else if (t->sums) {
        t->sums = lml_arithmetic_add(&t->before, before, &t->before, NULL) == LML_OK &&
                  lml_arithmetic_add(&t->after, after, &t->after, NULL) == LML_OK;
    }
    t->moved += differs;
    return LML_OK;
}

/* Most figures are byte for byte the same on both sides. */
static lml_status add_same(lml_moved *moved, const char *name, const lml_json *before,
                           const lml_json *after, lml_error *err)
{
    lml_value values[2];
    if (!moved->adds || strchr(name, '[') || !lml_leaf_read(before, &values[0]))
        return LML_OK;
    values[1] = values[0];
    return add_total(moved, name, values, false, (const lml_json *const[]){before, after}, err);
}

/* ---- comparing ---- */

static lml_span shown(const lml_json *datum)
{
    lml_span text = member_text(datum, "text");
    if (text.length > 0)
        return text;
    const lml_json *value = lml_json_member(datum, "value");
    text = lml_json_text(value);
    return text.length > 0 ? text : lml_json_raw(value);
}

/* 58.1 g - 57.9 g is 0.2 g, whatever a double makes of it. */
void lml_moved_show(const lml_value *v, char out[LML_VALUE_TEXT])
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder text = lml_builder_on(&heap, LML_VALUE_TEXT - 1);
    lml_show_value(v, &text);
    size_t length = text.at ? text.length : 0;
    const char *point = length > 0 ? memchr(text.at, '.', length) : NULL;
    size_t end = point ? (size_t)(point - text.at) + 1 + strspn(point + 1, "0123456789") : 0;
    size_t kept = end;
    while (v->kind != LML_MONEY && kept > 0 &&
           (text.at[kept - 1] == '0' || text.at[kept - 1] == '.'))
        if (text.at[--kept] == '.')
            break;
    snprintf(out, LML_VALUE_TEXT, "%.*s%s", (int)kept, length > 0 ? text.at : "",
             length > 0 ? text.at + end : "");
    lml_builder_free(&text);
}

static lml_status compare_values(lml_moved *moved, const char *job, const char *name,
                                 const lml_json *before, const lml_json *after,
                                 const lml_value values[2], lml_error *err)
{
    lml_value difference;
    char text[LML_VALUE_TEXT] = "";
    if (lml_arithmetic_sub(&values[1], &values[0], &difference, NULL) != LML_OK)
        return LML_MISMATCH;
    bool differs = !lml_compare_is_zero(&difference);
    lml_status status =
        add_total(moved, name, values, differs, (const lml_json *const[]){before, after}, err);
    if (status != LML_OK || !differs)
        return status;
    lml_moved_show(&difference, text);
    lml_movement m = {.job = job, .measured = has_size(&values[0])};
    double whole = m.measured ? fabs(size_of(&values[0])) : 0;
    if (m.measured)
        m.relative = size_of(&difference) / whole; /* from nothing: infinite */
    m.within = is_within(&moved->within, values, &difference);
    return add_movement(
        moved, m, (lml_span[]){lml_span_of(name), shown(before), shown(after), lml_span_of(text)},
        err);
}

static lml_status compare_data(lml_moved *moved, const char *job, const char *name,
                               const lml_json *before, const lml_json *after, lml_error *err);

static lml_status compare_members(lml_moved *moved, const char *job, const char *name,
                                  const lml_json *before, const lml_json *after, lml_error *err)
{
    char path[NAME_MOST];
    const char *dot = name[0] ? "." : "";
    lml_status status = LML_OK;
    for (const lml_json *m = lml_json_first(before); m && status == LML_OK; m = lml_json_next(m)) {
        lml_text_join(path, sizeof path, name, dot, lml_json_name(m).at);
        status =
            compare_data(moved, job, path, m, lml_json_member(after, lml_json_name(m).at), err);
    }
    for (const lml_json *m = lml_json_first(after); m && status == LML_OK; m = lml_json_next(m)) {
        if (lml_json_member(before, lml_json_name(m).at))
            continue;
        lml_text_join(path, sizeof path, name, dot, lml_json_name(m).at);
        status = compare_data(moved, job, path, NULL, m, err);
    }
    return status;
}

static lml_status compare_items(lml_moved *moved, const char *job, const char *name,
                                const lml_json *before, const lml_json *after, lml_error *err)
{
    char path[NAME_MOST];
    const lml_json *b = lml_json_first(before), *a = lml_json_first(after);
    lml_status status = LML_OK;
    for (size_t i = 0; (a || b) && status == LML_OK; i++) {
        snprintf(path, sizeof path, "%s[%zu]", name, i);
        status = compare_data(moved, job, path, b, a, err);
        a = a ? lml_json_next(a) : NULL;
        b = b ? lml_json_next(b) : NULL;
    }
    return status;
}

/* One datum of each result; NULL where a result has none. */
static lml_status compare_data(lml_moved *moved, const char *job, const char *name,
                               const lml_json *before, const lml_json *after, lml_error *err)
{
    const lml_json *b = lml_json_member(before, "value"), *a = lml_json_member(after, "value");
    lml_json_kind kind = lml_json_kind_of(b ? b : a);
    bool alike = !a || !b || lml_json_kind_of(a) == lml_json_kind_of(b);
    if (alike && kind == LML_JSON_RECORD)
        return compare_members(moved, job, name, b, a, err);
    if (alike && kind == LML_JSON_LIST)
        return compare_items(moved, job, name, b, a, err);
    moved->figures++;
    lml_value values[2];
    if (a && b && lml_span_equal(lml_json_raw(before), lml_json_raw(after)))
        return add_same(moved, name, before, after, err);
    if (a && b && lml_leaf_read(before, &values[0]) && lml_leaf_read(after, &values[1])) {
        lml_status status = compare_values(moved, job, name, before, after, values, err);
        if (status != LML_MISMATCH)
            return status;
    }
    return add_movement(
        moved, (lml_movement){.job = job},
        (lml_span[]){lml_span_of(name), shown(before), shown(after), lml_span_of(NULL)}, err);
}

lml_status lml_moved_add(lml_moved *moved, const char *job, const lml_json *before,
                         const lml_json *after, lml_error *err)
{
    return compare_members(moved, job, "", before, after, err);
}

static int by_size(const void *x, const void *y)
{
    const lml_movement *a = x, *b = y;
    if (a->measured != b->measured)
        return a->measured ? -1 : 1;
    double p = fabs(a->relative), q = fabs(b->relative);
    if (a->measured && p != q)
        return p > q ? -1 : 1;
    int order = strcmp(a->job, b->job);
    return order != 0 ? order : strcmp(a->name, b->name);
}

void lml_moved_sort(lml_moved *moved)
{
    if (moved->count > 1)
        qsort(moved->movement, moved->count, sizeof *moved->movement, by_size);
}

/* ---- as JSON ---- */

static void put_members(lml_json_writer *w, const lml_movement *m)
{
    if (m->job[0])
        lml_json_write_member(w, "job", m->job);
    lml_json_write_member(w, "name", m->name);
    if (m->before[0])
        lml_json_write_member(w, "before", m->before);
    if (m->after[0])
        lml_json_write_member(w, "after", m->after);
    if (m->difference[0])
        lml_json_write_member(w, "difference", m->difference);
    if (m->measured && isfinite(m->relative)) {
        lml_json_write_name(w, lml_span_of("relative"));
        lml_json_write_number(w, m->relative);
    }
    lml_json_write_name(w, lml_span_of("within"));
    lml_json_write_yes_no(w, m->within);
}

void lml_moved_put(lml_json_writer *w, const lml_movement *m)
{
    lml_json_write_open_record(w);
    put_members(w, m);
    lml_json_write_close(w);
}

/* ---- from one process to another ---- */

static void put_yes(lml_json_writer *w, const char *name)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_yes_no(w, true);
}

static void put_datum(lml_json_writer *w, const char *name, const lml_json *datum)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_raw(w, lml_json_raw(datum));
}

void lml_moved_write(const lml_moved *of_one, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("figures"));
    lml_json_write_whole(w, (int64_t)of_one->figures);
    lml_json_write_name(w, lml_span_of("movements"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < of_one->count; i++) {
        const lml_movement *m = &of_one->movement[i];
        lml_json_write_open_record(w);
        put_members(w, m);
        if (m->measured)
            put_yes(w, "measured");
        if (m->relative < 0)
            put_yes(w, "down");
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
    lml_json_write_name(w, lml_span_of("totals"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < of_one->totals; i++) {
        const lml_total *t = &of_one->total[i];
        lml_json_write_open_record(w);
        lml_json_write_member(w, "name", t->name);
        put_datum(w, "before", t->datum[0]);
        if (!lml_span_equal(lml_json_raw(t->datum[0]), lml_json_raw(t->datum[1])))
            put_datum(w, "after", t->datum[1]);
        if (t->moved)
            put_yes(w, "moved");
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static lml_status merge_movement(lml_moved *moved, const char *job, const lml_json *record,
                                 lml_error *err)
{
    static const char *const names[] = {"name", "before", "after", "difference"};
    const lml_json *relative = lml_json_member(record, "relative");
    lml_movement m = {.job = job,
                      .measured = lml_json_yes(lml_json_member(record, "measured")),
                      .within = lml_json_yes(lml_json_member(record, "within"))};
    lml_span text[4];
    for (int i = 0; i < 4; i++)
        text[i] = member_text(record, names[i]);
    if (m.measured && !relative) /* from nothing */
        m.relative = lml_json_yes(lml_json_member(record, "down")) ? -INFINITY : INFINITY;
    else
        m.relative = lml_json_number(relative);
    return add_movement(moved, m, text, err);
}

static lml_status merge_total(lml_moved *moved, const lml_json *record, lml_error *err)
{
    lml_value values[2];
    const lml_json *before = lml_json_member(record, "before"),
                   *after = lml_json_member(record, "after");
    const char *name = member_text(record, "name").at;
    if (!lml_leaf_read(before, &values[0]) || !lml_leaf_read(after ? after : before, &values[1]))
        return lml_fail(err, LML_BAD_DATA, "a total of figures cannot be read");
    return add_total(moved, name, values, lml_json_yes(lml_json_member(record, "moved")),
                     (const lml_json *const[]){NULL, NULL}, err);
}

lml_status lml_moved_merge(lml_moved *moved, const char *job, const lml_json *record,
                           lml_error *err)
{
    const lml_json *m = lml_json_first(lml_json_member(record, "movements")),
                   *t = lml_json_first(lml_json_member(record, "totals"));
    double figures = lml_json_number(lml_json_member(record, "figures"));
    lml_status status = LML_OK;
    if (!(figures >= 0 && figures <= LML_MOVED_FIGURES))
        return lml_fail(err, LML_BAD_DATA, "the figures of a job cannot be so many");
    moved->figures += (size_t)figures;
    for (; m && status == LML_OK; m = lml_json_next(m))
        status = merge_movement(moved, job, m, err);
    for (; t && status == LML_OK; t = lml_json_next(t))
        status = merge_total(moved, t, err);
    return status;
}
