#include "papers/dialogue_answer.h"

#include "face/job.h"
#include "file/faults.h"
#include "file/shapes.h"
#include "papers/question.h"
#include "papers/typed.h"

#include <stdio.h>
#include <string.h>

/* In the words of the question, not of a file that there is not. */
static void take_fault(lml_dialogue_answer *o, const lml_error *error, const char *field)
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

/* ---- a value ---- */

static lml_status put(lml_dialogue *d, const char *path, lml_span value, lml_builder *after,
                      lml_error *err)
{
    lml_patch_path read;
    lml_status status = lml_patch_read_path(lml_span_of(path), &read, err);
    lml_span text = lml_json_source_text(d->job);
    return status == LML_OK ? lml_patch_value(text, d->shown, &read, value, after, err) : status;
}

/* What was taken, where less of it was typed; and where another unit is meant than was typed: in
 * the unit that was typed it says nothing new. */
static void tell(lml_dialogue_answer *o, const lml_json *read, lml_span typed)
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

/* A member that every house has, such as its currency, is more than the recipe's kind knows of it.
 */
static lml_status check_member(const lml_dialogue *d, const char *path, lml_span job,
                               lml_error *err)
{
    static const char HOUSE[] = "house.";
    lml_json_document *doc = NULL;
    if (!lml_dialogue_is_of_house(d) || strncmp(path, HOUSE, strlen(HOUSE)) != 0)
        return LML_OK;
    lml_status status = lml_json_read(d->alloc, job, NULL, d->shown, &doc, err);
    const lml_json *node = doc ? lml_json_member(lml_json_root(doc), "house") : NULL;
    const lml_shape *shape = &lml_shapes_house;
    /* a field alone: others of its record may still be empty */
    for (const char *at = path + strlen("house"); shape && *at == '.';) {
        char name[LML_JSON_PATH];
        snprintf(name, sizeof name, "%.*s", (int)strcspn(at + 1, ".["), at + 1);
        const lml_shape *field = lml_shape_field(shape, name);
        if (!field && shape != &lml_shapes_house)
            break;
        shape = field;
        node = lml_json_member(node, name);
        at += 1 + strlen(name);
    }
    if (status == LML_OK && shape && node)
        status = lml_shape_check(shape, node, err);
    lml_json_free(doc);
    return status;
}

static bool is_allowed(const lml_dialogue *d, lml_span name)
{
    const lml_json *f = lml_json_first(lml_json_member(lml_json_root(d->about), "allowances"));
    while (f && !lml_span_equal(lml_json_text(lml_json_member(f, "name")), name))
        f = lml_json_next(f);
    return f != NULL;
}

/* A job of the house's own members, as far as they are filled in and the recipe reads them. */
static void write_trial(const lml_dialogue *d, const lml_json *house, lml_builder *out)
{
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of("recipe"));
    lml_json_write_text(&w, lml_dialogue_recipe(d));
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
static lml_status try_house(const lml_dialogue *d, const char *path, lml_span job, lml_error *err)
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
            if (status == LML_OK && lml_dialogue_tells_at(d, f, path)) {
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
static lml_status put_value(lml_dialogue *d, const lml_step *step, lml_span value,
                            lml_builder *after, lml_dialogue_answer *o, lml_error *err)
{
    lml_error error;
    lml_status status = put(d, step->path, value, after, err);
    if (status != LML_OK)
        return status;
    lml_span job = {after->at, after->length};
    if (check_member(d, step->path, job, &error) == LML_OK &&
        (!lml_dialogue_is_of_house(d) || try_house(d, step->path, job, &error) == LML_OK))
        return LML_OK;
    after->length = 0;
    cut_place(&error, step->path);
    take_fault(o, &error, step->path);
    return LML_OK;
}

/* Any name may own metal, so a slip of the pen would: one that the job does not know yet is shown.
 */
static void tell_owner(const lml_dialogue *d, const lml_step *step, lml_dialogue_answer *o,
                       lml_span given)
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
static void fit_hint(const lml_dialogue *d, const lml_step *step, lml_error *error)
{
    char example[LML_EXAMPLE_TEXT], rest[sizeof error->hint];
    lml_span kind = lml_json_text(lml_json_member(lml_step_shape(step), "kind"));
    lml_wanted wanted = lml_wanted_by_name(kind);
    char *at = wanted < LML_WANTED_COUNT ? strstr(error->hint, lml_wanted_example(wanted)) : NULL;
    lml_question_example(step, lml_dialogue_job(d), example);
    if (!at || !example[0])
        return;
    snprintf(rest, sizeof rest, "%s", at + strlen(lml_wanted_example(wanted)));
    lml_text_join(at, (size_t)(error->hint + sizeof error->hint - at), example, rest, "");
}

static lml_status take_value(lml_dialogue *d, const lml_step *step, lml_span typed,
                             lml_builder *after, lml_dialogue_answer *o, lml_error *err)
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
        status = lml_engine_check_value(d->engine, lml_dialogue_recipe(d).at, field, text.at, &read,
                                        &error);
    if (status == LML_NO_MEMORY || status == LML_FAULT || status == LML_LIMIT) {
        if (err)
            *err = error;
    } else if (status != LML_OK) {
        fit_hint(d, step, &error);
        take_fault(o, &error, field);
        status = LML_OK;
    } else {
        status = lml_dialogue_read(d, &read, &doc, err);
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

/* ---- an entry ---- */

/* Nothing is written yet: it goes in with the first answer. */
static void begin_entry(lml_dialogue *d, const char *path, lml_dialogue_answer *o)
{
    snprintf(o->next, sizeof o->next, "%s", path);
    snprintf(d->at, sizeof d->at, "%s.", path);
    o->into = true;
}

static lml_status take_yes(lml_dialogue *d, const lml_step *step, lml_span typed,
                           lml_dialogue_answer *o)
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
static lml_status take_name(lml_dialogue *d, const lml_step *step, lml_span typed,
                            lml_dialogue_answer *o)
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

static void refuse_nothing(const lml_dialogue *d, lml_dialogue_answer *o)
{
    lml_error error;
    lml_fail(&error, LML_BAD_VALUE, "this is needed: %s",
             lml_dialogue_is_of_house(d) ? "the rest says too little without it"
                                         : "the job cannot be run without it");
    lml_error_hint(&error, "type - to go on without it for now");
    take_fault(o, &error, "");
}

/* ---- removed ---- */

static lml_status refuse_out(lml_dialogue_answer *o, const char *message, const char *hint)
{
    lml_error error;
    lml_fail(&error, LML_BAD_VALUE, "%s", message);
    lml_error_hint(&error, "%s", hint);
    take_fault(o, &error, "");
    return LML_OK;
}

/* One answer. The name of an entry goes with the rest of it alone. */
static lml_status take_out(lml_dialogue *d, const lml_step *step, lml_builder *after,
                           lml_dialogue_answer *o, lml_error *err)
{
    lml_patch_path path;
    char entry[LML_JSON_PATH];
    if (step->opens || !lml_dialogue_find(d, step->path, &path))
        return refuse_out(o, "nothing is written there that could be removed",
                          "Enter leaves the question out");
    lml_walk_parent(step->path, entry);
    const lml_json *apart = lml_json_member(step->within, "apart"),
                   *whole = lml_dialogue_find(d, entry, &path);
    if (lml_span_equal(lml_json_text(apart), lml_json_text(lml_json_member(step->ask, "name"))) &&
        lml_json_count(whole) > 1)
        return refuse_out(o, "an entry needs its name",
                          "type another one, or --- to remove the whole entry");
    o->left = step->entry;
    if (!step->entry)
        snprintf(o->next, sizeof o->next, "%s", step->path);
    o->into = true;
    (void)lml_dialogue_find(d, step->path, &path);
    return lml_dialogue_remove(d, path, after, err);
}

/* The entry or record that the question is of, with all that is said in it. */
static lml_status take_whole(lml_dialogue *d, const lml_step *step, lml_builder *after,
                             lml_dialogue_answer *o, lml_error *err)
{
    enum { A_MEMBER = 2 }; /* of the job's given, or of its house */
    lml_patch_path path;
    char whole[LML_JSON_PATH];
    if (step->entry && !step->opens)
        snprintf(whole, sizeof whole, "%s", step->path);
    else
        lml_walk_parent(step->path, whole);
    if (step->opens || !lml_dialogue_find(d, whole, &path) || path.steps < A_MEMBER)
        return refuse_out(o, "the question belongs to no entry that could be removed",
                          "-- removes one answer");
    o->index = lml_walk_within(&d->walk, whole);
    o->left = true;
    return lml_dialogue_remove(d, path, after, err);
}

/* ---- what was typed ---- */

static void go_back(lml_dialogue *d, lml_dialogue_answer *o)
{
    char entry[LML_JSON_PATH];
    lml_patch_path path;
    const lml_step *step = &d->walk.step[o->index];
    if (step->entry)
        snprintf(entry, sizeof entry, "%s", step->path);
    else
        lml_walk_parent(step->path, entry);
    bool begins = d->walk.begun && lml_walk_within(&d->walk, entry) == o->index &&
                  !lml_dialogue_find(d, entry, &path);
    o->left = begins; /* the question that began it comes in its place then */
    o->index -= o->index > 0 && !begins;
}

/* Where all the asks of one line do not fit, the oldest is folded again. */
static void unfold(lml_dialogue *d, const lml_step *step)
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

lml_status lml_dialogue_answer_take(lml_dialogue *d, lml_builder *after, lml_dialogue_answer *o,
                                    lml_error *err)
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

void lml_dialogue_answer_check_entry(const lml_dialogue *d, const char *last,
                                     lml_dialogue_answer *o)
{
    lml_error error;
    char list[LML_JSON_PATH];
    const lml_step *now = o->index < d->walk.count ? &d->walk.step[o->index] : NULL;
    if (!lml_dialogue_is_of_house(d) || !now || !now->opens || now->first || o->is_fault)
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
