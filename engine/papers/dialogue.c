#include "papers/dialogue.h"

#include "face/engine.h"
#include "file/shapes.h"
#include "papers/paper.h"

#include <stdio.h>
#include <string.h>

const lml_json *lml_dialogue_job(const lml_dialogue *d)
{
    return lml_json_root(d->job);
}

lml_span lml_dialogue_recipe(const lml_dialogue *d)
{
    return lml_json_text(lml_json_member(lml_dialogue_job(d), "recipe"));
}

/* A house is asked as what a job of that recipe sets in its stead. */
bool lml_dialogue_is_of_house(const lml_dialogue *d)
{
    return lml_span_is(lml_dialogue_recipe(d), "studio");
}

/* ---- the questions ---- */

lml_status lml_dialogue_read(const lml_dialogue *d, const lml_text *text, lml_json_document **out,
                             lml_error *err)
{
    return lml_paper_result(d->alloc, text, out, err);
}

static lml_status inspect(const lml_dialogue *d, const char *recipe, lml_json_document **out,
                          lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_status status = lml_engine_inspect(d->engine, recipe, &text, err);
    if (status == LML_OK)
        status = lml_dialogue_read(d, &text, out, err);
    lml_text_free(d->engine, &text);
    return status;
}

enum { USES_DEEPEST = 12 };

/* The allowance may be one of a recipe that is used: `about` becomes that one's. */
static lml_status walk_setting(lml_dialogue *d, const char *recipe, lml_span name, int depth,
                               lml_error *err)
{
    lml_json_document *about = NULL;
    lml_status status = inspect(d, recipe, &about, err);
    if (status == LML_OK)
        status = lml_walk_setting(&d->walk, lml_json_root(about), lml_dialogue_job(d), name, err);
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

bool lml_dialogue_asks_house(const lml_dialogue *d)
{
    return strcmp(d->under, "house") == 0;
}

lml_status lml_dialogue_walk(lml_dialogue *d, lml_error *err)
{
    static const char HOUSE[] = "house.";
    const char *at = d->under[0] ? d->under : d->said->at;
    lml_walk_free(&d->walk);
    d->walk = (lml_walk){.alloc = d->alloc,
                         .unfolded = d->unfolded[0] ? d->unfolded : NULL,
                         .under = d->under[0] ? d->under : NULL,
                         .passes_said = lml_dialogue_asks_house(d),
                         .at = d->at[0] ? d->at : NULL};
    if (at && !lml_dialogue_asks_house(d) && strncmp(at, HOUSE, strlen(HOUSE)) == 0) {
        const char *name = at + strlen(HOUSE);
        return walk_setting(d, lml_dialogue_recipe(d).at, (lml_span){name, strcspn(name, ".[")}, 0,
                            err);
    }
    if (!d->about) {
        lml_status status = inspect(d, lml_dialogue_recipe(d).at, &d->about, err);
        if (status == LML_NOT_FOUND)
            lml_json_place(lml_json_member(lml_dialogue_job(d), "recipe"), status, err);
        if (status != LML_OK)
            return status;
    }
    return lml_dialogue_asks_house(d)
               ? lml_walk_house(&d->walk, lml_json_root(d->about), lml_dialogue_job(d), err)
               : lml_walk_job(&d->walk, lml_json_root(d->about), lml_dialogue_job(d), err);
}

lml_status lml_dialogue_read_job(lml_dialogue *d, lml_span text, lml_error *err)
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
    if (!lml_dialogue_is_of_house(d))
        lml_json_set_house(doc, lml_engine_house(d->engine));
    return LML_OK;
}

lml_status lml_dialogue_open(lml_dialogue *d, lml_span job, lml_error *err)
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
        status = lml_dialogue_read_job(d, job, err);
    if (status == LML_OK)
        status = lml_dialogue_walk(d, err);
    if (status == LML_OK && d->walk.count == 0 && said->under) {
        lml_fail(err, LML_USAGE, "%.*s asks nothing at %s", LML_SPAN_SHOWN(lml_dialogue_recipe(d)),
                 d->under);
        lml_error_hint(err, "lemel inspect %.*s --all lists what it asks",
                       LML_SPAN_SHOWN(lml_dialogue_recipe(d)));
        return LML_USAGE;
    }
    return status;
}

void lml_dialogue_close(lml_dialogue *d)
{
    lml_walk_free(&d->walk);
    lml_json_free(d->job);
    lml_json_free(d->about);
}

/* ---- where to begin ---- */

bool lml_dialogue_tells_at(const lml_dialogue *d, const lml_json *fault, const char *path)
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

static bool is_missing(const lml_dialogue *d, const lml_step *step, const lml_json *faults)
{
    if (lml_step_is_due(step) && !step->said)
        return true;
    for (const lml_json *f = lml_json_first(faults); f && step->said; f = lml_json_next(f))
        if (lml_dialogue_tells_at(d, f, step->path))
            return true;
    return false;
}

/* Whatever a house does not say may be said; that a list may have one more is no question to begin
 * with. */
static size_t first_unsaid(const lml_walk *walk)
{
    size_t i = 0;
    while (i < walk->count && lml_step_is_said(&walk->step[i]))
        i++;
    return i;
}

lml_status lml_dialogue_begin(const lml_dialogue *d, size_t *index, lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_json_document *faults = NULL;
    lml_span raw = lml_json_source_text(d->job);
    const lml_source job = {raw.at, raw.length, d->shown};
    lml_status status = lml_engine_faults(d->engine, &job, NULL, NULL, &text, err);
    if (status == LML_OK)
        status = lml_dialogue_read(d, &text, &faults, err);
    size_t missing = d->walk.count, behind = 0;
    bool only_missing = d->said->at && !d->said->at[0];
    for (size_t i = 0; status == LML_OK && i < d->walk.count; i++) {
        if (missing == d->walk.count && is_missing(d, &d->walk.step[i], lml_json_root(faults)))
            missing = i;
        if (d->walk.step[i].said)
            behind = i + 1;
    }
    *index = lml_dialogue_asks_house(d)         ? first_unsaid(&d->walk)
             : d->walk.under                    ? 0
             : only_missing || missing < behind ? missing
                                                : behind;
    lml_json_free(faults);
    lml_text_free(d->engine, &text);
    return status;
}

/* ---- what the job holds ---- */

const lml_json *lml_dialogue_find(const lml_dialogue *d, const char *path, lml_patch_path *read)
{
    return lml_patch_read_path(lml_span_of(path), read, NULL) == LML_OK
               ? lml_patch_find(lml_dialogue_job(d), read)
               : NULL;
}

lml_status lml_dialogue_remove(const lml_dialogue *d, lml_patch_path path, lml_builder *after,
                               lml_error *err)
{
    enum { HOLDER = 1 }; /* "given" or "house" stays */
    while (path.steps > HOLDER + 1) {
        lml_patch_path above = path;
        above.steps--;
        if (lml_json_count(lml_patch_find(lml_dialogue_job(d), &above)) > 1)
            break;
        path = above;
    }
    return lml_patch_remove(lml_json_source_text(d->job), d->shown, &path, after, err);
}
