/* Dialogue: an answer taken, the next question asked. All that is remembered is the job itself. */
#include "base/locale.h"
#include "face/engine.h"
#include "face/job.h"
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
    char at[LML_JSON_PATH + 1], under[LML_JSON_PATH], unfolded[LML_UNFOLDED];
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
                         .under = d->under[0] ? d->under : NULL,
                         .at = d->at[0] ? d->at : NULL};
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
    snprintf(d->at, sizeof d->at, "%s", said->at ? said->at : "");
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
    bool left; /* the question is left: what it alone had begun is not begun any more */
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

/* What was taken, where less of it was typed; and where another unit is meant than was typed: in
 * the unit that was typed it says nothing new. */
static void tell(outcome *o, const lml_json *read, lml_span typed)
{
    lml_span text = lml_json_text(lml_json_member(read, "text")),
             given = lml_json_text(lml_json_member(read, "given"));
    if (!lml_span_equal(given, typed))
        lml_builder_add_span(&o->told, given);
    if (o->told.length > 0 || given.length == 0 ||
        !(lml_span_digit_at(text, 0) || lml_span_starts(text, "-")))
        return; /* no figure */
    const char *unit = memchr(text.at, ' ', text.length);
    lml_span behind = unit ? lml_span_between(unit, text.at + text.length) : (lml_span){"", 0};
    bool same = behind.length > 0 && given.length >= behind.length &&
                memcmp(given.at + given.length - behind.length, behind.at, behind.length) == 0;
    if (!same && !lml_span_equal(text, given))
        lml_builder_add_span(&o->told, text);
}

/* A house is asked as what a job of that recipe sets in its stead. */
static bool is_of_house(const dialogue *d)
{
    return lml_span_is(recipe_of(d), "studio");
}

/* A member that every house has, such as its currency, is more than the recipe's kind knows of it.
 */
static lml_status check_member(const dialogue *d, const char *path, lml_span job, lml_error *err)
{
    static const char HOUSE[] = "house.";
    char name[LML_JSON_PATH];
    if (!is_of_house(d) || strncmp(path, HOUSE, strlen(HOUSE)) != 0)
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

static bool is_allowed(const dialogue *d, lml_span name)
{
    const lml_json *f = lml_json_first(lml_json_member(lml_json_root(d->about), "allowances"));
    while (f && !lml_span_equal(lml_json_text(lml_json_member(f, "name")), name))
        f = lml_json_next(f);
    return f != NULL;
}

/* A job of the house's own members, as far as they are filled in and the recipe reads them. */
static void write_trial(const dialogue *d, const lml_json *house, lml_builder *out)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("recipe"));
    lml_json_write_text(&w, recipe_of(d));
    lml_json_write_name(&w, lml_span_of("house"));
    lml_json_write_open_record(&w);
    for (const lml_json *m = lml_json_first(house); m; m = lml_json_next(m))
        if (is_allowed(d, lml_json_name(m)) && !lml_walk_is_empty(m)) {
            lml_json_write_name(&w, lml_json_name(m));
            lml_json_write_raw(&w, lml_json_raw(m));
        }
    lml_json_write_close(&w);
    lml_json_write_close(&w);
}

/* What the recipe refuses of a house, as a place that is none. */
static lml_status try_house(const dialogue *d, const char *path, lml_span job, lml_error *err)
{
    lml_error ignored;
    lml_json_document *list = NULL, *doc = NULL;
    lml_builder text = lml_builder_on(d->alloc, 0), trial = lml_builder_on(d->alloc, 0);
    lml_faults faults = lml_faults_on(&text);
    lml_status status = LML_OK;
    if (lml_json_read(d->alloc, job, NULL, d->shown, &doc, &ignored) == LML_OK)
        write_trial(d, lml_json_member(lml_json_root(doc), "house"), &trial);
    if (doc &&
        lml_job_try(d->engine, lml_builder_span(&trial), d->shown, &faults, &ignored) == LML_OK &&
        lml_faults_end(&faults, &ignored) == LML_OK &&
        lml_json_read(d->alloc, lml_builder_span(&text), NULL, d->shown, &list, &ignored) == LML_OK)
        for (const lml_json *f = lml_json_first(lml_json_root(list)); f; f = lml_json_next(f))
            if (status == LML_OK && is_told_at(d, f, path)) {
                lml_faults_read(f, err);
                status = LML_BAD_VALUE;
            }
    lml_json_free(list);
    lml_json_free(doc);
    lml_builder_free(&text);
    lml_builder_free(&trial);
    return status;
}

/* Past file, line and path. */
static void cut_place(lml_error *error, const char *path)
{
    const char *told = strstr(error->message, path);
    size_t behind = strlen(path) + strlen(": ");
    if (told && strlen(told) >= behind)
        memmove(error->message, told + behind, strlen(told) - behind + 1);
}

/* Puts it, unless it is refused there. */
static lml_status put_value(dialogue *d, const lml_step *step, lml_span value, lml_builder *after,
                            outcome *o, lml_error *err)
{
    lml_error error;
    lml_status status = put(d, step->path, value, after, err);
    if (status != LML_OK)
        return status;
    lml_span job = {after->at, after->length};
    if (check_member(d, step->path, job, &error) == LML_OK &&
        (!is_of_house(d) || try_house(d, step->path, job, &error) == LML_OK))
        return LML_OK;
    after->length = 0;
    cut_place(&error, step->path);
    take_fault(o, &error, step->path);
    return LML_OK;
}

/* Any name may own metal, so a slip of the pen would: one that the job does not know yet is shown.
 */
static void tell_owner(const dialogue *d, const lml_step *step, outcome *o, lml_span given)
{
    char quoted[LML_OWNER_MOST + 3];
    bool owner = lml_span_is(lml_json_text(lml_json_member(lml_step_shape(step), "kind")), "owner");
    if (!owner || lml_span_is(given, "client") || lml_span_is(given, "studio"))
        return;
    snprintf(quoted, sizeof quoted, "\"%.*s\"", LML_SPAN_SHOWN(given));
    if (strstr(lml_json_source_text(d->job).at, quoted))
        return;
    o->told.length = 0;
    lml_builder_add_format(
        &o->told, "%.*s, a new name; who brought it is written client, and you are written studio",
        LML_SPAN_SHOWN(given));
}

/* The kind's own example becomes the question's. */
static void fit_hint(const dialogue *d, const lml_step *step, lml_error *error)
{
    char example[LML_EXAMPLE_TEXT], rest[sizeof error->hint];
    lml_span kind = lml_json_text(lml_json_member(lml_step_shape(step), "kind"));
    lml_wanted wanted = lml_wanted_by_name(kind);
    char *at = wanted < LML_WANTED_COUNT ? strstr(error->hint, lml_wanted_example(wanted)) : NULL;
    lml_question_example(step, job_of(d), example);
    if (!at || !example[0])
        return;
    snprintf(rest, sizeof rest, "%s", at + strlen(lml_wanted_example(wanted)));
    lml_text_join(at, (size_t)(error->hint + sizeof error->hint - at), example, rest, "");
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
        fit_hint(d, step, &error);
        take_fault(o, &error, field);
        status = LML_OK;
    } else {
        status = read_answer(d, &read, &doc, err);
        if (status == LML_OK) {
            const lml_json *root = lml_json_root(doc);
            tell(o, root, typed);
            tell_owner(d, step, o, lml_json_text(lml_json_member(root, "given")));
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

/* Nothing is written yet: it goes in with the first answer. */
static void begin_entry(dialogue *d, const char *path, outcome *o)
{
    snprintf(o->next, sizeof o->next, "%s", path);
    snprintf(d->at, sizeof d->at, "%s.", path);
    o->into = true;
}

static lml_status take_yes(dialogue *d, const lml_step *step, lml_span typed, outcome *o)
{
    bool yes = false;
    lml_error error;
    if (lml_typed_read_yes(typed, &yes, &error) != LML_OK) {
        take_fault(o, &error, step->path);
        return LML_OK;
    }
    o->left = !yes;
    o->index += o->left;
    if (yes)
        begin_entry(d, step->path, o);
    return LML_OK;
}

/* The path of a new entry: with its name in the place of the star. */
static lml_status take_name(dialogue *d, const lml_step *step, lml_span typed, outcome *o)
{
    lml_error error;
    char path[LML_JSON_PATH];
    if (memchr(typed.at, '"', typed.length) || lml_walk_named(step->path, typed, path) != LML_OK) {
        lml_fail(&error, LML_BAD_VALUE, "that cannot be a name here: it is too long or has quotes");
        take_fault(o, &error, step->path);
        return LML_OK;
    }
    begin_entry(d, path, o);
    return LML_OK;
}

static void refuse_nothing(const dialogue *d, outcome *o)
{
    lml_error error;
    lml_fail(&error, LML_BAD_VALUE, "this is needed: %s",
             is_of_house(d) ? "the rest says too little without it"
                            : "the job cannot be run without it");
    lml_error_hint(&error, "type - to go on without it for now");
    take_fault(o, &error, "");
}

/* ---- taken out ---- */

static lml_status refuse_out(outcome *o, const char *message, const char *hint)
{
    lml_error error;
    lml_fail(&error, LML_BAD_VALUE, "%s", message);
    lml_error_hint(&error, "%s", hint);
    take_fault(o, &error, "");
    return LML_OK;
}

/* What holds it: a member of the job's given, or of its house, is held by nothing that goes. */
static const lml_json *find(const dialogue *d, const char *path, lml_patch_path *read)
{
    return lml_patch_read_path(lml_span_of(path), read, NULL) == LML_OK
               ? lml_patch_find(job_of(d), read)
               : NULL;
}

/* Without what is at that path, and without the lists and records that would be left empty. */
static lml_status remove_at(const dialogue *d, lml_patch_path path, lml_builder *after,
                            lml_error *err)
{
    enum { HOLDER = 1 }; /* "given" or "house" stays */
    while (path.steps > HOLDER + 1) {
        lml_patch_path above = path;
        above.steps--;
        if (lml_json_count(lml_patch_find(job_of(d), &above)) > 1)
            break;
        path = above;
    }
    return lml_patch_remove(lml_json_source_text(d->job), d->shown, &path, after, err);
}

/* What is empty on the way to that path, as in a file to fill in: left out is not empty. */
static bool find_empty(const dialogue *d, const char *path, lml_patch_path *read)
{
    size_t steps = lml_patch_read_path(lml_span_of(path), read, NULL) == LML_OK ? read->steps : 0;
    for (read->steps = 1; read->steps <= steps; read->steps++)
        if (lml_walk_is_empty(lml_patch_find(job_of(d), read)))
            return true;
    return false;
}

/* Of the questions that are left without an answer. */
static lml_status remove_empty(dialogue *d, size_t from, size_t to, lml_builder *after,
                               lml_error *err)
{
    lml_status status = LML_OK;
    lml_patch_path path;
    for (size_t i = from; i < to && status == LML_OK; i++) {
        if (!find_empty(d, d->walk.step[i].path, &path))
            continue;
        after->length = 0;
        status = remove_at(d, path, after, err);
        if (status == LML_OK)
            status = read_job(d, lml_builder_span(after), err);
    }
    return status;
}

/* One answer. The name of an entry goes with the rest of it alone. */
static lml_status take_out(dialogue *d, const lml_step *step, lml_builder *after, outcome *o,
                           lml_error *err)
{
    lml_patch_path path;
    char entry[LML_JSON_PATH];
    if (step->opens || !find(d, step->path, &path))
        return refuse_out(o, "nothing is written there that could be taken out",
                          "Enter leaves the question out");
    lml_walk_parent(step->path, entry);
    const lml_json *apart = lml_json_member(step->within, "apart"), *whole = find(d, entry, &path);
    if (lml_span_equal(lml_json_text(apart), lml_json_text(lml_json_member(step->ask, "name"))) &&
        lml_json_count(whole) > 1)
        return refuse_out(o, "an entry needs its name",
                          "type another one, or --- to take out the whole entry");
    o->left = step->entry;
    if (!step->entry)
        snprintf(o->next, sizeof o->next, "%s", step->path);
    o->into = true;
    (void)find(d, step->path, &path);
    return remove_at(d, path, after, err);
}

/* The entry or record that the question is of, with all that is said in it. */
static lml_status take_whole(dialogue *d, const lml_step *step, lml_builder *after, outcome *o,
                             lml_error *err)
{
    enum { A_MEMBER = 2 }; /* of the job's given, or of its house */
    lml_patch_path path;
    char whole[LML_JSON_PATH];
    if (step->entry && !step->opens)
        snprintf(whole, sizeof whole, "%s", step->path);
    else
        lml_walk_parent(step->path, whole);
    if (step->opens || !find(d, whole, &path) || path.steps < A_MEMBER)
        return refuse_out(o, "the question is of no entry that could be taken out",
                          "-- takes out one answer");
    o->index = lml_walk_within(&d->walk, whole);
    o->left = true;
    return remove_at(d, path, after, err);
}

/* ---- what was typed ---- */

static void go_back(dialogue *d, outcome *o)
{
    char entry[LML_JSON_PATH];
    lml_patch_path path;
    const lml_step *step = &d->walk.step[o->index];
    if (step->entry)
        snprintf(entry, sizeof entry, "%s", step->path);
    else
        lml_walk_parent(step->path, entry);
    bool begins =
        d->walk.begun && lml_walk_within(&d->walk, entry) == o->index && !find(d, entry, &path);
    o->left = begins; /* the question that began it comes in its place then */
    o->index -= o->index > 0 && !begins;
}

/* Where all the asks of one line do not fit, the oldest is folded again. */
static void unfold(dialogue *d, const lml_step *step)
{
    char fold[LML_JSON_PATH];
    lml_walk_fold(step, fold);
    d->walk.unfolded = d->unfolded;
    if (lml_walk_is_unfolded(&d->walk, fold))
        return;
    while (strlen(d->unfolded) + strlen(fold) + 2 > sizeof d->unfolded) {
        const char *rest = strchr(d->unfolded, '\n');
        rest = rest ? rest + 1 : "";
        memmove(d->unfolded, rest, strlen(rest) + 1);
    }
    size_t used = strlen(d->unfolded);
    snprintf(d->unfolded + used, sizeof d->unfolded - used, "%s%s", used > 0 ? "\n" : "", fold);
}

static lml_status take(dialogue *d, lml_builder *after, outcome *o, lml_error *err)
{
    lml_span typed = lml_span_trim(lml_span_of(d->said->typed));
    const lml_step *step = &d->walk.step[o->index];
    switch (lml_typed_read_key(typed)) {
    case LML_TYPED_NOTHING:
        o->left = !lml_step_is_due(step) || step->said;
        if (o->left)
            o->index++;
        else
            refuse_nothing(d, o);
        return LML_OK;
    case LML_TYPED_BACK:
        go_back(d, o);
        return LML_OK;
    case LML_TYPED_PAST:
        o->left = true;
        o->index = lml_walk_past(&d->walk, o->index);
        return LML_OK;
    case LML_TYPED_OUT:
        return take_out(d, step, after, o, err);
    case LML_TYPED_WHOLE:
        return take_whole(d, step, after, o, err);
    case LML_TYPED_MORE:
        o->more = true;
        unfold(d, step);
        snprintf(o->next, sizeof o->next, "%s", step->path);
        o->into = true;
        return LML_OK;
    case LML_TYPED_ANSWER:
        break;
    }
    return step->kind == LML_STEP_VALUE ? take_value(d, step, typed, after, o, err)
           : step->kind == LML_STEP_ANY ? take_yes(d, step, typed, o)
                                        : take_name(d, step, typed, o);
}

/* Answered or not, the questions that were passed leave nothing empty in the file. */
static lml_status pass(dialogue *d, size_t from, lml_builder *after, outcome *o, lml_error *err)
{
    return o->left && after->length == 0 ? remove_empty(d, from, o->index, after, err) : LML_OK;
}

/* Forward, as many questions are still to come as before; back, as many are passed. */
static lml_status leave(dialogue *d, outcome *o, size_t from, lml_error *err)
{
    size_t rest = d->walk.count - o->index;
    bool forward = o->index > from;
    snprintf(d->at, sizeof d->at, "%s", forward && rest > 0 ? d->walk.step[o->index].path : "");
    lml_status status = walk(d, err);
    if (status == LML_OK && forward)
        o->index = d->walk.count - rest;
    return status;
}

/* The walk of the job as it is now, and where it goes on there. */
static lml_status go_on(dialogue *d, const lml_builder *after, outcome *o, size_t from,
                        lml_error *err)
{
    lml_status status = LML_OK;
    if (after->length > 0)
        status = read_job(d, (lml_span){after->at, after->length}, err);
    if (status == LML_OK && o->left && (d->walk.begun || after->length > 0))
        return leave(d, o, from, err);
    if (status != LML_OK || !o->next[0])
        return status;
    status = walk(d, err);
    if (o->into)
        o->index = lml_walk_within(&d->walk, o->next);
    else
        o->index = lml_walk_find(&d->walk, o->next) + 1;
    return status;
}

/* What the recipe refuses of a list of the house, once an entry of it is answered. */
static void look_at_entry(const dialogue *d, const char *last, outcome *o)
{
    lml_error error;
    char list[LML_JSON_PATH];
    const lml_step *now = o->index < d->walk.count ? &d->walk.step[o->index] : NULL;
    if (!is_of_house(d) || !now || !now->opens || now->first || o->is_fault)
        return;
    lml_walk_parent(now->path, list);
    while (strchr(list, '['))
        lml_walk_parent(list, list);
    if (lml_walk_is_in(last, list) &&
        try_house(d, list, lml_json_source_text(d->job), &error) != LML_OK) {
        cut_place(&error, list);
        take_fault(o, &error, list);
    }
}

static lml_status ask(dialogue *d, lml_builder *after, lml_builder *question, lml_error *err)
{
    outcome o = {.told = lml_builder_on(d->alloc, 0)};
    lml_status status = LML_OK;
    o.index = d->said->at ? lml_walk_find(&d->walk, d->said->at) : d->walk.count;
    size_t from = o.index;
    if (o.index == d->walk.count) /* it begins, or that question is no more */
        status = begin(d, &o.index, err);
    else if (d->said->typed)
        status = take(d, after, &o, err);
    if (status == LML_OK)
        status = pass(d, from, after, &o, err);
    if (status == LML_OK)
        status = go_on(d, after, &o, from, err);
    if (status == LML_OK && d->said->typed && d->said->at)
        look_at_entry(d, d->said->at, &o);
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
