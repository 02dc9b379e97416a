#include "trial/run.h"

#include "base/nearest.h"
#include "face/engine.h"
#include "face/tries.h"
#include "papers/leaf.h"
#include "papers/paper.h"

#include <stdio.h>
#include <string.h>

lml_status lml_run_trial(lml_engine *engine, lml_span job, const char *shown,
                         lml_json_document **result, lml_error *err)
{
    lml_text text = {.text = NULL};
    *result = NULL;
    lml_status status = lml_tries_work(engine, job, shown, &text, err);
    if (status == LML_OK)
        status = lml_paper_result(lml_engine_alloc(engine), &text, result, err);
    if (status != LML_OK)
        *result = NULL;
    lml_text_free(engine, &text);
    return status;
}

static lml_status offer_name(void *self, const char *name, const lml_json *datum, lml_error *err)
{
    (void)err;
    if (!strpbrk(name, ".[")) /* its own name in the result outlives this call */
        lml_nearest_offer(self, lml_json_name(datum));
    return LML_OK;
}

static bool is_withheld(const lml_json *result, const char *name)
{
    lml_span top = {name, strcspn(name, ".[")};
    const lml_json *w = lml_json_first(lml_json_member(result, "withheld"));
    while (w && !lml_span_equal(lml_json_text(w), top))
        w = lml_json_next(w);
    return w != NULL;
}

/* The code of the remark that withholds the figure, of whatever recipe; empty where it only comes
 * from one that is withheld, and in a bare result. */
static lml_span code_of(const lml_json *result, const char *name)
{
    const lml_span top = {name, strcspn(name, ".[")};
    for (const lml_json *r = lml_json_first(lml_json_member(result, "remarks")); r;
         r = lml_json_next(r))
        for (const lml_json *w = lml_json_first(lml_json_member(r, "withholds")); w;
             w = lml_json_next(w)) {
            lml_span of = lml_json_text(w);
            const char *dot = memchr(of.at, '.', of.length);
            if (dot && lml_span_equal(lml_span_between(dot + 1, of.at + of.length), top))
                return lml_json_text(lml_json_member(r, "code"));
        }
    return (lml_span){"", 0};
}

lml_status lml_run_refuse_figure(const lml_json *result, const char *name, lml_error *err)
{
    if (is_withheld(result, name)) {
        lml_span code = code_of(result, name);
        if (code.length > 0)
            lml_fail(err, LML_NOT_FOUND, "%s is withheld by %.*s", name, LML_SPAN_SHOWN(code));
        else
            lml_fail(err, LML_NOT_FOUND,
                     "%s is withheld by a stop or a point that is not confirmed", name);
        lml_error_hint(err, "lemel run says which it is, and what to do about it");
        return LML_NOT_FOUND;
    }
    lml_nearest near = lml_nearest_to(lml_span_of(name));
    lml_leaf_each(lml_json_member(result, "results"), offer_name, &near, NULL);
    lml_fail(err, LML_NOT_FOUND, "the job has no figure '%s'", name);
    if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean '%.*s'?", LML_SPAN_SHOWN(near.best));
    else
        lml_error_hint(err, "lemel run JOB --format json lists them under \"results\"");
    return LML_NOT_FOUND;
}

void lml_run_hint_figure(const lml_json *datum, lml_error *err)
{
    lml_span kind = lml_json_text(lml_json_member(datum, "kind"));
    if (lml_span_is(kind, "list") || lml_span_is(kind, "record") || lml_span_is(kind, "by_name"))
        lml_error_hint(err, "name a figure in it, as \"weigh[0].mass\"");
    else
        lml_error_hint(err, "lemel why shows what its recipe gives with it; lemel run JOB --format "
                            "json lists the figures under \"results\"");
}

lml_status lml_run_names_open(lml_run_names *out, const lml_alloc *alloc, const char *const *figure,
                              size_t count, lml_error *err)
{
    *out = (lml_run_names){.alloc = alloc, .count = count};
    out->text = lml_alloc_get(alloc, (count + 1) * sizeof *out->text);
    out->figure = lml_alloc_get(alloc, (count + 1) * sizeof *out->figure);
    if (!out->text || !out->figure)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the names of figures");
    for (size_t i = 0; i < count; i++) {
        snprintf(out->text[i], LML_LEAF_NAME, "%s", figure[i]);
        out->figure[i] = out->text[i];
    }
    return LML_OK;
}

void lml_run_names_free(lml_run_names *names)
{
    if (names->text)
        lml_alloc_free(names->alloc, names->text, (names->count + 1) * sizeof *names->text);
    if (names->figure)
        lml_alloc_free(names->alloc, names->figure, (names->count + 1) * sizeof *names->figure);
}

bool lml_run_knows(const lml_json *result, const char *name)
{
    return is_withheld(result, name) ||
           lml_leaf_find(lml_json_member(result, "results"), lml_span_of(name));
}

/* Steps that are looked at, as many as a result has, and how far a give may be: choices of ours. */
enum { STEPS = 50000, WAY = 60 };

typedef struct marked {
    unsigned char bits[STEPS / 8 + 1];
} marked;

static bool has_mark(const marked *m, double at)
{
    const size_t i = at >= 0 && at < STEPS ? (size_t)at : STEPS;
    return i < STEPS && m->bits[i / 8] >> i % 8 & 1;
}

static void set_mark(marked *m, size_t i)
{
    m->bits[i / 8] = (unsigned char)(m->bits[i / 8] | 1u << i % 8);
}

static bool is_same_step(const lml_json *a, const lml_json *b)
{
    static const char *const members[] = {"is", "how", "what", "member", "file", "line"};
    bool same = true;
    for (size_t i = 0; i < sizeof members / sizeof *members && same; i++)
        same = lml_span_equal(lml_json_raw(lml_json_member(a, members[i])),
                              lml_json_raw(lml_json_member(b, members[i])));
    return same;
}

/* Mark every step that took a marked one; false where there is none. */
static bool mark_takers(const lml_json *steps, marked *m)
{
    const marked before = *m;
    bool more = false;
    size_t at = 0;
    for (const lml_json *s = lml_json_first(steps); s && at < STEPS; s = lml_json_next(s), at++)
        for (const lml_json *i = lml_json_first(lml_json_member(s, "of")); i; i = lml_json_next(i))
            if (has_mark(&before, lml_json_number(i)) && !has_mark(m, (double)at)) {
                set_mark(m, at);
                more = true;
            }
    return more;
}

/* What the job gives by itself and calculates from the figure, the nearest; empty for nothing. */
static lml_span find_give_of(const lml_json *result, const lml_json *figure)
{
    const lml_json *why = lml_json_member(result, "why"), *steps = lml_json_member(why, "steps"),
                   *root = lml_json_first(lml_json_member(figure, "steps"));
    marked m = {.bits = {0}};
    size_t at = 0;
    for (const lml_json *s = root ? lml_json_first(steps) : NULL; s && at < STEPS;
         s = lml_json_next(s), at++)
        if (is_same_step(s, root))
            set_mark(&m, at);
    bool more = true;
    for (int n = 0; more && n < WAY; n++, more = mark_takers(steps, &m))
        for (const lml_json *f = lml_json_first(lml_json_member(why, "figures")); f;
             f = lml_json_next(f))
            if (has_mark(&m, lml_json_number(f)) && !strpbrk(lml_json_name(f).at, ".["))
                return lml_json_name(f);
    return (lml_span){"", 0};
}

static void hint_give(const lml_json *result, const lml_json *why, lml_error *err)
{
    const lml_span give = find_give_of(result, why);
    if (give.length > 0)
        lml_error_hint(err,
                       "each draw works only what the job gives: ask for %.*s, which is calculated "
                       "from it; lemel why has the steps",
                       LML_SPAN_SHOWN(give));
    else
        lml_error_hint(err, "each draw works only what the job gives: lemel run JOB --format json "
                            "lists that under \"results\"; lemel why has the steps");
}

lml_status lml_run_take_name(const lml_json *result, const lml_json *why, char out[LML_LEAF_NAME],
                             lml_error *err)
{
    lml_span figure = lml_json_text(lml_json_member(why, "figure"));
    snprintf(out, LML_LEAF_NAME, "%.*s", LML_SPAN_SHOWN(figure));
    const bool is_line = lml_json_yes(lml_json_member(why, "line"));
    if (!is_line && lml_run_knows(result, out))
        return LML_OK;
    if (is_line)
        lml_fail(err, LML_NOT_FOUND, "the line '%s' shows what no recipe gives", out);
    else
        lml_fail(err, LML_NOT_FOUND, "the job itself does not give %s: a recipe that it uses does",
                 out);
    hint_give(result, why, err);
    return LML_NOT_FOUND;
}

/* Only a run that keeps its steps tells what is calculated from a line. */
static lml_status take_name_again(lml_engine *engine, lml_span job, const char *shown,
                                  const lml_json *why, char out[LML_LEAF_NAME], lml_error *err)
{
    lml_text text = {.text = NULL};
    lml_json_document *doc = NULL;
    lml_error none;
    lml_status status = lml_engine_run_why(engine, job.at, job.length, shown, &text, &none);
    if (status == LML_OK)
        status = lml_paper_result(lml_engine_alloc(engine), &text, &doc, &none);
    if (status == LML_OK)
        lml_run_take_name(lml_json_root(doc), why, out, err);
    lml_json_free(doc);
    lml_text_free(engine, &text);
    return LML_NOT_FOUND;
}

lml_status lml_run_find_name(lml_engine *engine, lml_span job, const char *shown,
                             const lml_asked_why *asked, const lml_json *result,
                             char out[LML_LEAF_NAME], lml_error *err)
{
    lml_text answer = {.text = NULL};
    lml_json_document *why = NULL;
    snprintf(out, LML_LEAF_NAME, "%s", asked->figure);
    if (lml_run_knows(result, asked->figure))
        return LML_OK;
    lml_status status = lml_engine_why(engine, job.at, job.length, shown, asked, &answer, err);
    if (status == LML_OK)
        status = lml_paper_result(lml_engine_alloc(engine), &answer, &why, err);
    if (status == LML_OK)
        status = lml_run_take_name(result, lml_json_root(why), out, err);
    if (status == LML_NOT_FOUND && why && !asked->closing && !lml_json_member(result, "why"))
        status = take_name_again(engine, job, shown, lml_json_root(why), out, err);
    lml_json_free(why);
    lml_text_free(engine, &answer);
    return status;
}
