#include "run/refused.h"

#include "base/error.h"
#include "file/faults.h"
#include "run/engine.h"

#include <string.h>

/* The entry of a list of that name, or counted from 1. */
static const lml_json *entry(const lml_json *list, lml_span step)
{
    size_t count = 0, wanted = 0;
    for (size_t i = 0; i < step.length && lml_span_digit_at(step, i) && wanted < 1000000; i++)
        wanted = wanted * 10 + (size_t)(step.at[i] - '0');
    const lml_json *counted = NULL;
    for (const lml_json *n = lml_json_first(list); n; n = lml_json_next(n)) {
        if (lml_span_equal(lml_json_text(lml_json_member(n, "name")), step))
            return n;
        if (++count == wanted)
            counted = n;
    }
    return counted;
}

static const lml_json *step_into(const lml_json *node, lml_span step)
{
    if (lml_json_kind_of(node) == LML_JSON_LIST)
        return entry(node, step);
    if (lml_json_kind_of(node) != LML_JSON_RECORD)
        return NULL;
    const lml_json *m = lml_json_first(node);
    while (m && !lml_span_equal(lml_json_name(m), step))
        m = lml_json_next(m);
    return m;
}

/* The first of the steps, up to and without the mark; what is behind it is left. */
static lml_span take_step(lml_span *steps)
{
    const char *end = memchr(steps->at, LML_SAID_STEP, steps->length);
    size_t length = end ? (size_t)(end - steps->at) : steps->length;
    lml_span step = {steps->at, length};
    size_t gone = length + (end != NULL);
    *steps = (lml_span){steps->at + gone, steps->length - gone};
    return step;
}

static const lml_json *find(const lml_run *run, lml_span steps)
{
    const lml_json *level[] = {run->given, run->job_house, lml_json_member(run->job, "house"),
                               lml_shelf_house(&run->engine->shelf)};
    const lml_json *found = NULL;
    lml_span step = take_step(&steps);
    for (size_t i = 0; i < sizeof level / sizeof *level && !found; i++)
        found = step_into(level[i], step);
    for (const lml_json *next = found; next && steps.length > 0;) {
        step = take_step(&steps);
        if ((next = step_into(next, step)))
            found = next;
    }
    return found || run->loose ? found : run->given; /* a command line has no such lines */
}

/* The steps of the error, which it has no longer. */
static bool take_steps(lml_error *err, char out[sizeof err->context[0]], bool *is_ours)
{
    int kept = 0;
    bool any = false;
    *is_ours = false;
    for (int i = 0; i < err->contexts; i++) {
        lml_span context = lml_span_of(err->context[i]);
        *is_ours = *is_ours || lml_span_starts(context, LML_SAID_IN);
        if (!lml_span_starts(context, LML_SAID_OF)) {
            if (kept++ < i)
                memcpy(err->context[kept - 1], err->context[i], sizeof err->context[i]);
            continue;
        }
        any = true;
        memcpy(out, err->context[i], sizeof err->context[i]);
    }
    err->contexts = kept;
    return any;
}

static const lml_json *place(const lml_run *run, lml_error *err)
{
    char steps[sizeof err->context[0]];
    bool is_ours;
    bool any = take_steps(err, steps, &is_ours);
    if (!run->job)
        return NULL;
    const lml_json *node = any ? find(run, lml_span_of(steps + strlen(LML_SAID_OF))) : NULL;
    if (node)
        lml_json_place(node, err->status, err);
    else if (is_ours)
        lml_error_context(err, err->status, "in %s", lml_json_source(run->document));
    return node;
}

void lml_refused_place(const lml_run *run, lml_error *err)
{
    if (err)
        place(run, err);
}

bool lml_refused_note(lml_run *run, lml_error *err)
{
    bool is_fault = err->status == LML_BAD_RECIPE || err->status == LML_BAD_DATA ||
                    err->status == LML_BAD_VALUE || err->status == LML_MISMATCH;
    if (!run->faults || run->box.dead || !is_fault)
        return false;
    const lml_json *node = place(run, err);
    lml_faults_note(run->faults, node, err);
    return true;
}
