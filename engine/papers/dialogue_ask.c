/* An answer taken, and the next question asked. */
#include "base/locale.h"
#include "face/engine.h"
#include "papers/dialogue_answer.h"
#include "papers/paper.h"
#include "papers/question.h"
#include "papers/typed.h"

#include <stdio.h>
#include <string.h>

/* What is empty on the way to that path, as in a file to fill in: left out is not empty. */
static bool find_empty(const lml_dialogue *d, const char *path, lml_patch_path *read)
{
    size_t steps = lml_patch_read_path(lml_span_of(path), read, NULL) == LML_OK ? read->steps : 0;
    for (read->steps = 1; read->steps <= steps; read->steps++)
        if (lml_walk_is_empty(lml_patch_find(lml_dialogue_job(d), read)))
            return true;
    return false;
}

/* Of the questions that are left without an answer. */
static lml_status remove_empty(lml_dialogue *d, size_t from, size_t to, lml_builder *after,
                               lml_error *err)
{
    lml_status status = LML_OK;
    lml_patch_path path;
    for (size_t i = from; i < to && status == LML_OK; i++) {
        if (!find_empty(d, d->walk.step[i].path, &path))
            continue;
        after->length = 0;
        status = lml_dialogue_remove(d, path, after, err);
        if (status == LML_OK)
            status = lml_dialogue_read_job(d, lml_builder_span(after), err);
    }
    return status;
}

/* Answered or not, the questions that were passed leave nothing empty in the file. */
static lml_status pass(lml_dialogue *d, size_t from, lml_builder *after, lml_dialogue_answer *o,
                       lml_error *err)
{
    return o->left && after->length == 0 ? remove_empty(d, from, o->index, after, err) : LML_OK;
}

/* Forward, as many questions are still to come as before; back, as many are passed. */
static lml_status leave(lml_dialogue *d, lml_dialogue_answer *o, size_t from, lml_error *err)
{
    size_t rest = d->walk.count - o->index;
    bool forward = o->index > from;
    snprintf(d->at, sizeof d->at, "%s", forward && rest > 0 ? d->walk.step[o->index].path : "");
    lml_status status = lml_dialogue_walk(d, err);
    if (status == LML_OK && forward)
        o->index = d->walk.count - rest;
    return status;
}

/* The walk of the job as it is now, and where it goes on there. */
static lml_status go_on(lml_dialogue *d, const lml_builder *after, lml_dialogue_answer *o,
                        size_t from, lml_error *err)
{
    lml_status status = LML_OK;
    if (after->length > 0)
        status = lml_dialogue_read_job(d, (lml_span){after->at, after->length}, err);
    if (status == LML_OK && o->left && (d->walk.begun || after->length > 0))
        return leave(d, o, from, err);
    if (status != LML_OK || !o->next[0])
        return status;
    status = lml_dialogue_walk(d, err);
    if (o->into)
        o->index = lml_walk_within(&d->walk, o->next);
    else
        o->index = lml_walk_find(&d->walk, o->next) + 1;
    return status;
}

static lml_status check(const lml_dialogue *d, const lml_step *step, const char *text,
                        lml_json_document **out)
{
    static const char GIVEN[] = "given.";
    size_t skip = strncmp(step->path, GIVEN, strlen(GIVEN)) == 0 ? strlen(GIVEN) : 0;
    lml_text read = {.text = NULL};
    lml_status status = lml_engine_check_value(d->engine, lml_dialogue_recipe(d).at,
                                               step->path + skip, text, &read, NULL);
    if (status == LML_OK)
        status = lml_dialogue_read(d, &read, out, NULL);
    lml_text_free(d->engine, &read);
    return status;
}

/* The bound in the house's unit; as the recipe says it where the house's figure, which is rounded,
 * lies beyond. */
static void show_bound(const lml_dialogue *d, const lml_step *step, const char *name,
                       lml_builder *out)
{
    lml_span bound = lml_json_text(lml_json_member(lml_step_shape(step), name));
    lml_json_document *in_house = NULL, *ignored = NULL;
    if (bound.length > 0 && check(d, step, bound.at, &in_house) == LML_OK) {
        lml_span shown = lml_json_text(lml_json_member(lml_json_root(in_house), "text"));
        if (shown.length > 0 && check(d, step, shown.at, &ignored) == LML_OK)
            bound = shown;
    }
    lml_builder_add_span(out, bound);
    lml_json_free(in_house);
    lml_json_free(ignored);
}

static lml_status write_next(const lml_dialogue *d, const lml_dialogue_answer *o,
                             lml_builder *question, lml_error *err)
{
    lml_builder from = lml_builder_on(d->alloc, 0), to = lml_builder_on(d->alloc, 0);
    if (o->more && o->index < d->walk.count) {
        show_bound(d, &d->walk.step[o->index], "from", &from);
        show_bound(d, &d->walk.step[o->index], "to", &to);
    }
    lml_json_writer w = lml_json_writer_on(question, false);
    const lml_question_after told = {o->is_fault ? &o->fault : NULL, lml_builder_span(&o->told),
                                     o->more, lml_builder_span(&from), lml_builder_span(&to)};
    lml_question_write(&d->walk, o->index, lml_dialogue_job(d), &told, &w);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        status = lml_builder_status(&from, err);
    if (status == LML_OK)
        status = lml_builder_status(&to, err);
    lml_builder_free(&from);
    lml_builder_free(&to);
    return status;
}

/* Whether it asks for one more of the list whose entry was asked last. */
static bool goes_on(const lml_step *step, const char *last)
{
    char list[LML_JSON_PATH];
    lml_walk_parent(step->path, list);
    while (strchr(list, '['))
        lml_walk_parent(list, list);
    return step->opens && lml_walk_is_in(last, list);
}

/* Of a house, what it has is not asked again on the way forward. */
static void pass_said(const lml_dialogue *d, lml_dialogue_answer *o)
{
    lml_typed_key key = lml_typed_read_key(lml_span_trim(lml_span_of(d->said->typed)));
    bool forward = key == LML_TYPED_NOTHING || key == LML_TYPED_PAST || key == LML_TYPED_ANSWER;
    while (d->walk.passes_said && forward && !o->is_fault && o->index < d->walk.count &&
           lml_step_is_said(&d->walk.step[o->index]) &&
           !goes_on(&d->walk.step[o->index], d->said->at))
        o->index++;
}

static lml_status ask(lml_dialogue *d, lml_builder *after, lml_builder *question, lml_error *err)
{
    lml_dialogue_answer o = {.told = lml_builder_on(d->alloc, 0)};
    lml_status status = LML_OK;
    o.index = d->said->at ? lml_walk_find(&d->walk, d->said->at) : d->walk.count;
    size_t from = o.index;
    if (o.index == d->walk.count) /* it begins, or that question is no more */
        status = lml_dialogue_begin(d, &o.index, err);
    else if (d->said->typed)
        status = lml_dialogue_answer_take(d, after, &o, err);
    if (status == LML_OK)
        status = pass(d, from, after, &o, err);
    if (status == LML_OK)
        status = go_on(d, after, &o, from, err);
    if (status == LML_OK && d->said->typed && d->said->at)
        pass_said(d, &o);
    if (status == LML_OK && d->said->typed && d->said->at)
        lml_dialogue_answer_check_entry(d, d->said->at, &o);
    if (status == LML_OK)
        status = write_next(d, &o, question, err);
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
    lml_dialogue d = {.engine = engine, .alloc = alloc, .said = said, .shown = shown};
    lml_builder text = lml_builder_on(alloc, 0), next = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    d.walk.alloc = alloc;
    lml_status status = lml_dialogue_open(&d, (lml_span){job, length}, err);
    if (status == LML_OK)
        status = ask(&d, &text, &next, err);
    lml_dialogue_close(&d);
    lml_locale_leave(entered);
    return lml_paper_take_both(&text, after, &next, question, status, err);
}
