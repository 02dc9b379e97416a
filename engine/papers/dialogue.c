/* Dialogue: an answer taken, the next question asked. All that is remembered is the job itself. */
#include "base/locale.h"
#include "face/engine.h"
#include "file/faults.h"
#include "file/patch.h"
#include "file/shapes.h"
#include "papers/paper.h"
#include "papers/question.h"
#include "papers/typed.h"

#include <stdio.h>
#include <string.h>

typedef struct dialogue {
    lml_engine *engine;
    const lml_alloc *alloc;
    const lml_answer *said;
    const char *shown;
    char under[LML_JSON_PATH], unfolded[LML_JSON_PATH];
    lml_json_document *job, *about;
    lml_walk walk;
} dialogue;

static const lml_json *job_of(const dialogue *d)
{
    return lml_json_root(d->job);
}

static lml_span recipe_of(const dialogue *d)
{
    return lml_json_text(lml_json_member(job_of(d), "recipe"));
}

/* ---- the questions ---- */

static lml_status read_answer(const dialogue *d, const lml_text *text, lml_json_document **out,
                              lml_error *err)
{
    return lml_paper_result(d->alloc, text, out, err);
}

static lml_status inspect(const dialogue *d, const char *recipe, lml_json_document **out,
                          lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_status status = lml_engine_inspect(d->engine, recipe, &text, err);
    if (status == LML_OK)
        status = read_answer(d, &text, out, err);
    lml_text_free(d->engine, &text);
    return status;
}

enum { USES_DEEPEST = 12 };

/* The allowance may be one of a recipe that is used: `about` becomes that one's. */
static lml_status walk_setting(dialogue *d, const char *recipe, lml_span name, int depth,
                               lml_error *err)
{
    lml_json_document *about = NULL;
    lml_status status = inspect(d, recipe, &about, err);
    if (status == LML_OK)
        status = lml_walk_setting(&d->walk, lml_json_root(about), job_of(d), name, err);
    const lml_json *use = lml_json_first(lml_json_member(lml_json_root(about), "uses"));
    if (status != LML_OK || d->walk.count > 0) {
        lml_json_free(d->about);
        d->about = about;
        return status;
    }
    for (; use && depth < USES_DEEPEST && status == LML_OK && d->walk.count == 0;
         use = lml_json_next(use))
        status = walk_setting(d, lml_json_text(use).at, name, depth + 1, err);
    lml_json_free(about);
    return status;
}

/* All that the recipe allows, in place of what it asks. */
static bool asks_house(const dialogue *d)
{
    return strcmp(d->under, "house") == 0;
}

static lml_status walk(dialogue *d, lml_error *err)
{
    static const char HOUSE[] = "house.";
    const char *at = d->under[0] ? d->under : d->said->at;
    lml_walk_free(&d->walk);
    d->walk = (lml_walk){.alloc = d->alloc,
                         .unfolded = d->unfolded[0] ? d->unfolded : NULL,
                         .under = d->under[0] ? d->under : NULL};
    if (at && !asks_house(d) && strncmp(at, HOUSE, strlen(HOUSE)) == 0) {
        const char *name = at + strlen(HOUSE);
        return walk_setting(d, recipe_of(d).at, (lml_span){name, strcspn(name, ".[")}, 0, err);
    }
    if (!d->about) {
        lml_status status = inspect(d, recipe_of(d).at, &d->about, err);
        if (status == LML_NOT_FOUND)
            lml_json_place(lml_json_member(job_of(d), "recipe"), status, err);
        if (status != LML_OK)
            return status;
    }
    return asks_house(d) ? lml_walk_house(&d->walk, lml_json_root(d->about), job_of(d), err)
                         : lml_walk_job(&d->walk, lml_json_root(d->about), job_of(d), err);
}

static lml_status read_job(dialogue *d, lml_span text, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status = lml_json_read(d->alloc, text, NULL, d->shown, &doc, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, lml_json_root(doc), err);
    if (status != LML_OK) {
        lml_json_free(doc);
        return status;
    }
    lml_json_free(d->job);
    d->job = doc;
    return LML_OK;
}

static lml_status open_dialogue(dialogue *d, lml_span job, lml_error *err)
{
    const lml_answer *said = d->said;
    lml_patch_path path;
    lml_status status = LML_OK;
    if (said->under) {
        bool whole = lml_walk_is_in(said->under, "given") || lml_walk_is_in(said->under, "house");
        status = lml_patch_read_path(lml_span_of(said->under), &path, err);
        snprintf(d->under, sizeof d->under, "%s%s", whole ? "" : "given.", said->under);
    }
    snprintf(d->unfolded, sizeof d->unfolded, "%s", said->unfolded ? said->unfolded : "");
    if (status == LML_OK)
        status = read_job(d, job, err);
    if (status == LML_OK)
        status = walk(d, err);
    if (status == LML_OK && d->walk.count == 0 && said->under) {
        lml_fail(err, LML_USAGE, "%.*s asks nothing at %s", LML_SPAN_SHOWN(recipe_of(d)), d->under);
        lml_error_hint(err, "lemel inspect %.*s --all lists what it asks",
                       LML_SPAN_SHOWN(recipe_of(d)));
        return LML_USAGE;
    }
    return status;
}

static void close_dialogue(dialogue *d)
{
    lml_walk_free(&d->walk);
    lml_json_free(d->job);
    lml_json_free(d->about);
}

/* ---- where to begin ---- */

/* "jobs/x.json:12: given.wax: ..." : the path that a message begins with. */
static bool is_told_at(const dialogue *d, const lml_json *fault, const char *path)
{
    lml_span message = lml_json_text(lml_json_member(fault, "message"));
    size_t skip = strlen(d->shown), length = strlen(path);
    if (!lml_span_starts(message, d->shown))
        return false;
    while (skip < message.length && (message.at[skip] == ':' || message.at[skip] == ' ' ||
                                     lml_ascii_is_digit(message.at[skip])))
        skip++;
    return message.length > skip + length && message.at[skip + length] == ':' &&
           memcmp(message.at + skip, path, length) == 0;
}

static bool is_missing(const dialogue *d, const lml_step *step, const lml_json *faults)
{
    if (lml_step_is_due(step) && !step->said)
        return true;
    for (const lml_json *f = lml_json_first(faults); f && step->said; f = lml_json_next(f))
        if (is_told_at(d, f, step->path))
            return true;
    return false;
}

/* Whatever a house does not say may be said; that a list may have one more is no question to begin
 * with. */
static size_t first_unsaid(const lml_walk *walk)
{
    size_t i = 0;
    while (i < walk->count && (walk->step[i].said || (walk->step[i].opens && !walk->step[i].first)))
        i++;
    return i;
}

/* At the first that is missing or wrong, or behind the last that was said where that comes first:
 * what was never asked is not passed over. */
static lml_status begin(const dialogue *d, size_t *index, lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_json_document *faults = NULL;
    lml_span raw = lml_json_source_text(d->job);
    const lml_source job = {raw.at, raw.length, d->shown};
    lml_status status = lml_engine_faults(d->engine, &job, NULL, NULL, &text, err);
    if (status == LML_OK)
        status = read_answer(d, &text, &faults, err);
    size_t missing = d->walk.count, behind = 0;
    bool only_missing = d->said->at && !d->said->at[0];
    for (size_t i = 0; status == LML_OK && i < d->walk.count; i++) {
        if (missing == d->walk.count && is_missing(d, &d->walk.step[i], lml_json_root(faults)))
            missing = i;
        if (d->walk.step[i].said)
            behind = i + 1;
    }
    *index = asks_house(d)                      ? first_unsaid(&d->walk)
             : d->walk.under                    ? 0
             : only_missing || missing < behind ? missing
                                                : behind;
    lml_json_free(faults);
    lml_text_free(d->engine, &text);
    return status;
}

/* ---- an answer ---- */

/* The result: where to go on, and what is said of it. */
typedef struct outcome {
    char next[LML_JSON_PATH]; /* the path whose next question comes; "": see index */
    bool into;                /* `next` itself, or what lies within it */
    size_t index;
    lml_error fault;
    bool is_fault, more;
    lml_builder told;
} outcome;

/* In the words of the question, not of a file that there is not. */
static void take_fault(outcome *o, const lml_error *error, const char *field)
{
    char place[LML_JSON_PATH + 8];
    o->fault = *error;
    o->is_fault = true;
    snprintf(place, sizeof place, "%s:1: ", field);
    size_t length = strlen(place);
    if (strncmp(o->fault.message, place, length) == 0)
        memmove(o->fault.message, o->fault.message + length, strlen(o->fault.message) - length + 1);
    o->fault.contexts = 0;
}

static lml_status put(dialogue *d, const char *path, lml_span value, lml_builder *after,
                      lml_error *err)
{
    lml_patch_path read;
    lml_status status = lml_patch_read_path(lml_span_of(path), &read, err);
    lml_span text = lml_json_source_text(d->job);
    return status == LML_OK ? lml_patch_value(text, d->shown, &read, value, after, err) : status;
}

/* Where another unit is meant than was typed; in the unit that was typed it says nothing new. */
static void tell(outcome *o, const lml_json *read)
{
    lml_span text = lml_json_text(lml_json_member(read, "text")),
             given = lml_json_text(lml_json_member(read, "given"));
    if (given.length == 0 || !(lml_span_digit_at(text, 0) || lml_span_starts(text, "-")))
        return; /* no figure */
    const char *unit = memchr(text.at, ' ', text.length);
    lml_span behind = unit ? lml_span_between(unit, text.at + text.length) : (lml_span){"", 0};
    bool same = behind.length > 0 && given.length >= behind.length &&
                memcmp(given.at + given.length - behind.length, behind.at, behind.length) == 0;
    if (!same && !lml_span_equal(text, given))
        lml_builder_add_span(&o->told, text);
}

/* A member that every house has, such as its currency, is more than the recipe's kind knows of it.
 */
static lml_status check_member(const dialogue *d, const char *path, lml_span job, lml_error *err)
{
    static const char HOUSE[] = "house.";
    char name[LML_JSON_PATH];
    if (!asks_house(d) || strncmp(path, HOUSE, strlen(HOUSE)) != 0)
        return LML_OK;
    snprintf(name, sizeof name, "%s", path + strlen(HOUSE));
    name[strcspn(name, ".[")] = '\0';
    const lml_shape *shape = lml_shape_field(&lml_shapes_house, name);
    lml_json_document *doc = NULL;
    lml_status status = shape ? lml_json_read(d->alloc, job, NULL, d->shown, &doc, err) : LML_OK;
    if (doc)
        status = lml_shape_check(
            shape, lml_json_member(lml_json_member(lml_json_root(doc), "house"), name), err);
    lml_json_free(doc);
    return status;
}

/* Puts it, unless it is refused there. */
static lml_status put_value(dialogue *d, const lml_step *step, lml_span value, lml_builder *after,
                            outcome *o, lml_error *err)
{
    lml_error error;
    lml_status status = put(d, step->path, value, after, err);
    if (status != LML_OK ||
        check_member(d, step->path, (lml_span){after->at, after->length}, &error) == LML_OK)
        return status;
    after->length = 0;
    const char *told = strstr(error.message, step->path);
    if (told) /* past file, line and path */
        memmove(error.message, told + strlen(step->path) + 2,
                strlen(told) - strlen(step->path) - 1);
    take_fault(o, &error, step->path);
    return LML_OK;
}

static lml_status take_value(dialogue *d, const lml_step *step, lml_span typed, lml_builder *after,
                             outcome *o, lml_error *err)
{
    static const char GIVEN[] = "given.";
    const char *field = step->path;
    if (strncmp(field, GIVEN, strlen(GIVEN)) == 0)
        field += strlen(GIVEN);
    lml_builder text = lml_builder_on(d->alloc, 0);
    lml_text read = {.text = NULL};
    lml_json_document *doc = NULL;
    lml_error error;
    lml_status status = lml_typed_read(step, typed, &text, &error);
    if (status == LML_OK)
        status = lml_engine_check_value(d->engine, recipe_of(d).at, field, text.at, &read, &error);
    if (status == LML_NO_MEMORY || status == LML_FAULT || status == LML_LIMIT) {
        if (err)
            *err = error;
    } else if (status != LML_OK) {
        take_fault(o, &error, field);
        status = LML_OK;
    } else {
        status = read_answer(d, &read, &doc, err);
        if (status == LML_OK) {
            const lml_json *root = lml_json_root(doc);
            tell(o, root);
            status =
                put_value(d, step, lml_json_raw(lml_json_member(root, "given")), after, o, err);
        }
        if (!o->is_fault)
            snprintf(o->next, sizeof o->next, "%s", step->path);
    }
    lml_json_free(doc);
    lml_text_free(d->engine, &read);
    lml_builder_free(&text);
    return status;
}

static lml_status take_yes(dialogue *d, const lml_step *step, lml_span typed, lml_builder *after,
                           outcome *o, lml_error *err)
{
    bool yes = false;
    lml_error error;
    if (lml_typed_read_yes(typed, &yes, &error) != LML_OK) {
        take_fault(o, &error, step->path);
        return LML_OK;
    }
    if (!yes) {
        o->index++;
        return LML_OK;
    }
    snprintf(o->next, sizeof o->next, "%s", step->path);
    o->into = true;
    return put(d, step->path, lml_span_of("{}"), after, err);
}

/* The path of a new entry: with its name in the place of the star. */
static lml_status take_name(dialogue *d, const lml_step *step, lml_span typed, lml_builder *after,
                            outcome *o, lml_error *err)
{
    lml_error error;
    int head = (int)strlen(step->path) - 1;
    if (memchr(typed.at, '"', typed.length) ||
        snprintf(o->next, sizeof o->next, "%.*s\"%.*s\"", head, step->path,
                 LML_SPAN_SHOWN(typed)) >= (int)sizeof o->next) {
        lml_fail(&error, LML_BAD_VALUE, "that cannot be a name here: it is too long or has quotes");
        take_fault(o, &error, step->path);
        o->next[0] = '\0';
        return LML_OK;
    }
    bool records = lml_json_member(step->ask, "fields") != NULL;
    lml_status status = put(d, o->next, lml_span_of(records ? "{}" : "\"\""), after, err);
    lml_patch_path path;
    if (status == LML_OK)
        status = read_job(d, (lml_span){after->at, after->length}, err);
    if (status == LML_OK)
        status = lml_patch_read_path(lml_span_of(o->next), &path, err);
    if (status == LML_OK) /* as it is written everywhere */
        (void)lml_json_path(lml_patch_find(job_of(d), &path), o->next, sizeof o->next);
    o->into = true;
    return status;
}

static void refuse_nothing(outcome *o)
{
    lml_error error;
    lml_fail(&error, LML_BAD_VALUE, "this is needed: the job cannot be run without it");
    lml_error_hint(&error, "type - to go on without it for now");
    take_fault(o, &error, "");
}

/* What was said there is taken out; at the first question of an entry of a list, the whole entry.
 */
static lml_status take_out(dialogue *d, const lml_step *step, lml_builder *after, outcome *o,
                           lml_error *err)
{
    lml_error error;
    lml_patch_path path;
    char entry[LML_JSON_PATH];
    lml_walk_parent(step->path, entry);
    size_t length = strlen(entry);
    bool whole =
        length > 0 && entry[length - 1] == ']' && lml_walk_within(&d->walk, entry) == o->index;
    snprintf(o->next, sizeof o->next, "%s", whole ? entry : step->path);
    o->into = true;
    lml_status status = lml_patch_read_path(lml_span_of(o->next), &path, err);
    if (status != LML_OK)
        return status;
    if (lml_patch_find(job_of(d), &path))
        return lml_patch_remove(lml_json_source_text(d->job), d->shown, &path, after, err);
    lml_fail(&error, LML_BAD_VALUE, "nothing is written there that could be taken out");
    lml_error_hint(&error, "-- takes out what is in [ ], and at the first question of an entry "
                           "the whole entry");
    take_fault(o, &error, "");
    o->next[0] = '\0';
    o->into = false;
    return LML_OK;
}

static lml_status take(dialogue *d, lml_builder *after, outcome *o, lml_error *err)
{
    lml_span typed = lml_span_trim(lml_span_of(d->said->typed));
    const lml_step *step = &d->walk.step[o->index];
    switch (lml_typed_read_key(typed)) {
    case LML_TYPED_NOTHING:
        if (lml_step_is_due(step) && !step->said)
            refuse_nothing(o);
        else
            o->index++;
        return LML_OK;
    case LML_TYPED_BACK:
        o->index -= o->index > 0;
        return LML_OK;
    case LML_TYPED_PAST:
        o->index = lml_walk_past(&d->walk, o->index);
        return LML_OK;
    case LML_TYPED_OUT:
        return take_out(d, step, after, o, err);
    case LML_TYPED_MORE:
        o->more = true;
        lml_walk_parent(step->path, d->unfolded);
        snprintf(o->next, sizeof o->next, "%s", step->path);
        o->into = true;
        return LML_OK;
    case LML_TYPED_ANSWER:
        break;
    }
    return step->kind == LML_STEP_VALUE ? take_value(d, step, typed, after, o, err)
           : step->kind == LML_STEP_ANY ? take_yes(d, step, typed, after, o, err)
                                        : take_name(d, step, typed, after, o, err);
}

/* The walk of the job as it is now, and where it goes on there. */
static lml_status go_on(dialogue *d, const lml_builder *after, outcome *o, lml_error *err)
{
    lml_status status = LML_OK;
    if (after->length > 0)
        status = read_job(d, (lml_span){after->at, after->length}, err);
    if (status != LML_OK || !o->next[0])
        return status;
    status = walk(d, err);
    if (o->into)
        o->index = lml_walk_within(&d->walk, o->next);
    else
        o->index = lml_walk_find(&d->walk, o->next) + 1;
    return status;
}

static lml_status ask(dialogue *d, lml_builder *after, lml_builder *question, lml_error *err)
{
    outcome o = {.told = lml_builder_on(d->alloc, 0)};
    lml_status status = LML_OK;
    o.index = d->said->at ? lml_walk_find(&d->walk, d->said->at) : d->walk.count;
    if (o.index == d->walk.count) /* it begins, or that question is no more */
        status = begin(d, &o.index, err);
    else if (d->said->typed)
        status = take(d, after, &o, err);
    if (status == LML_OK)
        status = go_on(d, after, &o, err);
    if (status == LML_OK) {
        lml_json_writer w = lml_json_writer_on(question, false);
        const lml_question_after told = {
            o.is_fault ? &o.fault : NULL, {o.told.at ? o.told.at : "", o.told.length}, o.more};
        lml_question_write(&d->walk, o.index, job_of(d), &told, &w);
        status = lml_json_writer_end(&w, err);
    }
    lml_builder_free(&o.told);
    return status;
}

lml_status lml_engine_ask(lml_engine *engine, const char *job, size_t length, const char *shown,
                          const lml_answer *said, lml_text *after, lml_text *question,
                          lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"answer", said},
                 {"after", after}, {"question", question}))
        return LML_BAD_DATA;
    const lml_alloc *alloc = lml_engine_alloc(engine);
    dialogue d = {.engine = engine, .alloc = alloc, .said = said, .shown = shown};
    lml_builder text = lml_builder_on(alloc, 0), next = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    d.walk.alloc = alloc;
    lml_status status = open_dialogue(&d, (lml_span){job, length}, err);
    if (status == LML_OK)
        status = ask(&d, &text, &next, err);
    close_dialogue(&d);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &next, question, status, err);
}
