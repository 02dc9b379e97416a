#include "papers/walk.h"

#include "file/shapes.h"

#include <stdio.h>
#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is_yes(const lml_json *record, const char *name)
{
    return lml_json_yes(lml_json_member(record, name));
}

/* Filled in from the job itself. */
static bool is_of_the_job(const lml_json *ask)
{
    lml_span name = text_of(ask, "name");
    return lml_span_is(name, "date") || lml_span_is(name, "record") ||
           lml_span_is(name, "offered") || lml_span_is(name, LML_LISTED);
}

static bool may_be_left_out(const lml_json *ask)
{
    return is_yes(ask, "optional") || lml_json_member(ask, "default");
}

/* ---- paths ---- */

bool lml_walk_is_in(const char *path, const char *whole)
{
    size_t length = strlen(whole);
    return strncmp(path, whole, length) == 0 &&
           (path[length] == '\0' || path[length] == '.' || path[length] == '[');
}

void lml_walk_parent(const char *path, char out[LML_JSON_PATH])
{
    size_t end = strlen(path);
    bool quoted = false;
    while (end > 0 && (quoted || (path[end - 1] != '.' && path[end - 1] != '['))) {
        if (path[end - 1] == '"')
            quoted = !quoted;
        end--;
    }
    end -= end > 0;
    memmove(out, path, end);
    out[end] = '\0';
}

/* As lml_json_path writes it; "*" is not a name. */
static bool is_plain(lml_span name)
{
    for (size_t i = 0; i < name.length; i++) {
        unsigned char c = (unsigned char)name.at[i];
        if (!lml_ascii_is_name(c) && c != '-' && c < 0x80)
            return lml_span_is(name, "*");
    }
    return name.length > 0;
}

static bool put_name(char out[LML_JSON_PATH], lml_span path, lml_span name)
{
    const char *quote = is_plain(name) ? "" : "\"";
    return snprintf(out, LML_JSON_PATH, "%.*s.%s%.*s%s", LML_SPAN_SHOWN(path), quote,
                    LML_SPAN_SHOWN(name), quote) < LML_JSON_PATH;
}

lml_status lml_walk_named(const char *path, lml_span name, char out[LML_JSON_PATH])
{
    size_t behind = strlen(".*");
    return put_name(out, (lml_span){path, strlen(path) - behind}, name) ? LML_OK : LML_LIMIT;
}

static void join(lml_walk *walk, char out[LML_JSON_PATH], const char *path, lml_span name)
{
    if (!put_name(out, lml_span_of(path), name))
        walk->status = LML_LIMIT;
}

static void join_item(lml_walk *walk, char out[LML_JSON_PATH], const char *path, size_t place)
{
    if (snprintf(out, LML_JSON_PATH, "%s[%zu]", path, place) >= LML_JSON_PATH)
        walk->status = LML_LIMIT;
}

/* ---- folds ---- */

static void put_fold(const char *record, const lml_json *heading, char out[LML_JSON_PATH])
{
    lml_span of = strpbrk(record, ".[") ? (lml_span){"", 0} : text_of(heading, "heading");
    lml_text_join(out, LML_JSON_PATH, record, of.length > 0 ? "#" : "", of.at);
}

void lml_walk_fold(const lml_step *step, char out[LML_JSON_PATH])
{
    char record[LML_JSON_PATH];
    lml_walk_parent(step->path, record);
    put_fold(record, step->heading, out);
}

bool lml_walk_is_unfolded(const lml_walk *walk, const char *fold)
{
    size_t length = strlen(fold);
    const char *line = walk->unfolded;
    while (line && (strncmp(line, fold, length) != 0 || (line[length] && line[length] != '\n'))) {
        line = strchr(line, '\n');
        line += line != NULL;
    }
    return line != NULL;
}

/* ---- the questions ---- */

/* Whether the question that is asked lies within it. */
static bool is_begun(lml_walk *walk, const char *path)
{
    bool begun = walk->at && strcmp(walk->at, path) != 0 && lml_walk_is_in(walk->at, path);
    walk->begun = walk->begun || begun;
    return begun;
}

static bool is_wanted(const lml_walk *walk, const char *path)
{
    return !walk->under || lml_walk_is_in(path, walk->under);
}

bool lml_walk_is_empty(const lml_json *said)
{
    return lml_json_kind_of(said) == LML_JSON_TEXT &&
           lml_span_trim(lml_json_text(said)).length == 0;
}

static void add(lml_walk *walk, lml_step step, const char *path)
{
    if (lml_walk_is_empty(step.said))
        step.said = NULL;
    if (walk->status != LML_OK || !is_wanted(walk, path))
        return;
    if (walk->count == walk->room) {
        size_t room = walk->room > 0 ? walk->room * 2 : 64;
        lml_step *more = lml_alloc_resize(walk->alloc, walk->step, walk->room * sizeof *more,
                                          room * sizeof *more);
        if (!more) {
            walk->status = LML_NO_MEMORY;
            return;
        }
        walk->step = more;
        walk->room = room;
    }
    snprintf(step.path, sizeof step.path, "%s", path);
    step.heading = walk->heading;
    step.within = walk->within;
    walk->step[walk->count++] = step;
}

static void walk_value(lml_walk *walk, const lml_json *ask, const lml_json *said, const char *path);

static const lml_json *member_named(const lml_json *record, lml_span name)
{
    const lml_json *m = lml_json_first(record);
    while (m && !lml_span_equal(lml_json_name(m), name))
        m = lml_json_next(m);
    return m;
}

static const lml_json *field_named(const lml_json *fields, lml_span name)
{
    for (const lml_json *f = lml_json_first(fields); f; f = lml_json_next(f))
        if (lml_span_equal(text_of(f, "name"), name))
            return f;
    return NULL;
}

static bool is_empty_list(const lml_json *said)
{
    return lml_json_kind_of(said) == LML_JSON_LIST && !lml_json_first(said);
}

/* Whether what would be given in its place is given: "rings, patterns". */
static bool is_replaced(const lml_json *field, const lml_json *record)
{
    lml_span names = text_of(field, "unless");
    while (names.length > 0) {
        size_t length = 0;
        while (length < names.length && names.at[length] != ',')
            length++;
        const lml_json *other = member_named(record, (lml_span){names.at, length});
        if (other && !lml_walk_is_empty(other) && !is_empty_list(other))
            return true;
        names = (lml_span){names.at + length, names.length - length};
        while (names.length > 0 && (*names.at == ',' || *names.at == ' '))
            names = (lml_span){names.at + 1, names.length - 1};
    }
    return false;
}

static bool is_no(const lml_json *said)
{
    return lml_json_kind_of(said) == LML_JSON_YES_NO && !lml_json_yes(said);
}

/* Whether what it needs beside it is not given, "stones", or is another option, "method = density",
 * which is its default where the job does not say. */
static bool is_needless(const lml_json *fields, const lml_json *field, const lml_json *record)
{
    const lml_shape_when when = lml_shape_when_of(text_of(field, "when"));
    const lml_json *other = member_named(record, when.name);
    if (when.name.length == 0)
        return false;
    other = lml_walk_is_empty(other) ? NULL : other;
    if (when.option.length == 0)
        return !other || is_no(other) || is_empty_list(other);
    const lml_json *is = other ? other : lml_json_member(field_named(fields, when.name), "default");
    return !lml_span_equal(lml_json_text(is), when.option);
}

/* `fields`: those that it is one of. */
static void walk_field(lml_walk *walk, const lml_json *fields, const lml_json *field,
                       const lml_json *record, const char *path)
{
    char own[LML_JSON_PATH], fold[LML_JSON_PATH];
    lml_span name = text_of(field, "name");
    const lml_json *said = member_named(record, name);
    join(walk, own, path, name);
    put_fold(path, walk->heading, fold);
    bool folded = is_replaced(field, record) || is_needless(fields, field, record) ||
                  (is_yes(field, "seldom") && !lml_walk_is_unfolded(walk, fold));
    if (said || !folded || (walk->under && lml_walk_is_in(walk->under, own)))
        walk_value(walk, field, said, own);
}

/* The field that must be unique comes first. */
static void walk_fields(lml_walk *walk, const lml_json *ask, const lml_json *record,
                        const char *path)
{
    const lml_json *fields = lml_json_member(ask, "fields");
    const lml_json *apart = field_named(fields, text_of(ask, "apart"));
    if (apart)
        walk_field(walk, fields, apart, record, path);
    for (const lml_json *f = lml_json_first(fields); f; f = lml_json_next(f))
        if (f != apart)
            walk_field(walk, fields, f, record, path);
}

static void walk_entry(lml_walk *walk, const lml_json *ask, const lml_json *said, const char *path)
{
    const lml_json *outer = walk->within;
    walk->within = ask;
    if (lml_json_member(ask, "fields"))
        walk_fields(walk, ask, said, path);
    else
        add(walk, (lml_step){.ask = ask, .said = said, .entry = true}, path);
    walk->within = outer;
}

static void walk_list(lml_walk *walk, const lml_json *ask, const lml_json *said, const char *path)
{
    char own[LML_JSON_PATH], name[LML_JSON_PATH];
    bool records = lml_json_member(ask, "fields") != NULL;
    size_t count = 0;
    for (const lml_json *n = lml_json_first(said); n; n = lml_json_next(n)) {
        join_item(walk, own, path, count++);
        walk_entry(walk, ask, n, own);
    }
    const lml_json *apart = field_named(lml_json_member(ask, "fields"), text_of(ask, "apart"));
    join_item(walk, own, path, count);
    bool has_first = records && !apart && count == 0 && !may_be_left_out(ask);
    if (has_first || (records && !apart && is_begun(walk, own))) {
        walk_entry(walk, ask, NULL, own);
        if (has_first)
            return;
        count++;
    }
    lml_step one = {.ask = ask, .list = ask, .first = count == 0, .opens = true};
    join_item(walk, own, path, count);
    if (apart) {
        join(walk, name, own, text_of(apart, "name"));
        one.ask = apart;
        add(walk, one, name);
        return;
    }
    one.kind = records ? LML_STEP_ANY : LML_STEP_VALUE;
    one.entry = !records;
    add(walk, one, own);
}

/* The entry of a set that the question is of, or lies within. */
static bool find_begun(const lml_walk *walk, const char *path, char out[LML_JSON_PATH])
{
    size_t end = strlen(path) + 1;
    bool quoted = false;
    if (!walk->at || !lml_walk_is_in(walk->at, path) || walk->at[end - 1] != '.')
        return false;
    for (const char *at = walk->at; at[end] && (quoted || !strchr(".[", at[end])); end++)
        quoted = quoted != (at[end] == '"');
    snprintf(out, LML_JSON_PATH, "%.*s", (int)end, walk->at);
    return strcmp(out + strlen(path), ".*") != 0;
}

static void walk_by_name(lml_walk *walk, const lml_json *ask, const lml_json *said,
                         const char *path)
{
    char own[LML_JSON_PATH], begun[LML_JSON_PATH];
    bool is_new = find_begun(walk, path, begun);
    for (const lml_json *m = lml_json_first(said); m; m = lml_json_next(m)) {
        join(walk, own, path, lml_json_name(m));
        is_new = is_new && strcmp(own, begun) != 0;
        walk_entry(walk, ask, m, own);
    }
    if (is_new)
        walk_entry(walk, ask, NULL, begun);
    walk->begun = walk->begun || is_new;
    join(walk, own, path, lml_span_of("*"));
    add(walk,
        (lml_step){.kind = LML_STEP_NAME,
                   .ask = ask,
                   .list = ask,
                   .first = lml_json_count(said) == 0,
                   .opens = true},
        own);
}

static void walk_value(lml_walk *walk, const lml_json *ask, const lml_json *said, const char *path)
{
    lml_span kind = text_of(ask, "kind");
    said = lml_walk_is_empty(said) ? NULL : said;
    if (lml_span_is(kind, "list"))
        walk_list(walk, ask, said, path);
    else if (lml_span_is(kind, "by_name"))
        walk_by_name(walk, ask, said, path);
    else if (!lml_span_is(kind, "record") || !lml_json_member(ask, "fields"))
        add(walk, (lml_step){.ask = ask, .said = said}, path);
    else if (said || !may_be_left_out(ask) || is_begun(walk, path))
        walk_fields(walk, ask, said, path);
    else
        add(walk, (lml_step){.kind = LML_STEP_ANY, .ask = ask}, path);
}

static lml_status end_walk(lml_walk *walk, lml_error *err)
{
    if (walk->status == LML_NO_MEMORY)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the questions");
    if (walk->status == LML_LIMIT)
        return lml_fail(err, LML_LIMIT, "a name is too long to be asked for");
    return LML_OK;
}

lml_status lml_walk_job(lml_walk *walk, const lml_json *about, const lml_json *job, lml_error *err)
{
    const lml_json *given = lml_json_member(job, "given");
    const lml_json *asks = lml_json_member(about, "asks"), *f = lml_json_first(asks);
    for (; f; f = lml_json_next(f)) {
        if (lml_json_member(f, "heading"))
            walk->heading = f;
        if (!is_of_the_job(f))
            walk_field(walk, asks, f, given, "given");
    }
    return end_walk(walk, err);
}

lml_status lml_walk_setting(lml_walk *walk, const lml_json *about, const lml_json *job,
                            lml_span name, lml_error *err)
{
    const lml_json *house = lml_json_member(job, "house");
    const lml_json *all = lml_json_member(about, "allowances"), *f = lml_json_first(all);
    for (; f && walk->count == 0; f = lml_json_next(f))
        if (lml_span_equal(text_of(f, "name"), name))
            walk_field(walk, all, f, house, "house");
    return end_walk(walk, err);
}

lml_status lml_walk_house(lml_walk *walk, const lml_json *about, const lml_json *job,
                          lml_error *err)
{
    const lml_json *house = lml_json_member(job, "house");
    const lml_json *all = lml_json_member(about, "allowances"), *f = lml_json_first(all);
    for (; f; f = lml_json_next(f)) {
        if (lml_json_member(f, "heading"))
            walk->heading = f;
        walk_field(walk, all, f, house, "house");
    }
    return end_walk(walk, err);
}

void lml_walk_free(lml_walk *walk)
{
    lml_alloc_free(walk->alloc, walk->step, walk->room * sizeof *walk->step);
    walk->step = NULL;
    walk->count = walk->room = 0;
}

/* ---- finding one ---- */

size_t lml_walk_find(const lml_walk *walk, const char *path)
{
    size_t i = 0;
    while (i < walk->count && strcmp(walk->step[i].path, path) != 0)
        i++;
    return i;
}

size_t lml_walk_within(const lml_walk *walk, const char *path)
{
    size_t i = 0;
    while (i < walk->count && !lml_walk_is_in(walk->step[i].path, path))
        i++;
    return i;
}

size_t lml_walk_past(const lml_walk *walk, size_t i)
{
    const lml_step *from = &walk->step[i];
    char part[LML_JSON_PATH], outer[LML_JSON_PATH];
    if (from->opens || (from->entry && !from->said))
        return i + 1;
    lml_walk_parent(from->path, part);
    lml_walk_parent(part, outer);
    for (i++; i < walk->count; i++)
        if (outer[0] ? !lml_walk_is_in(walk->step[i].path, part)
                     : walk->step[i].heading != from->heading)
            break;
    return i;
}

const lml_json *lml_step_shape(const lml_step *step)
{
    return step->entry ? lml_json_member(step->ask, "one") : step->ask;
}

bool lml_step_is_said(const lml_step *step)
{
    return step->said || (step->opens && !step->first);
}

bool lml_step_is_due(const lml_step *step)
{
    return step->kind == LML_STEP_VALUE && !step->opens &&
           (step->entry || !may_be_left_out(step->ask));
}
