#include "papers/question.h"

#include "file/faults.h"
#include "file/json_copy.h"
#include "file/patch.h"
#include "file/shapes.h"

#include <stdio.h>

static void put_number(lml_json_writer *w, const char *name, size_t n)
{
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_whole(w, (int64_t)n);
}

static void put_yes(lml_json_writer *w, const char *name, bool yes)
{
    if (!yes)
        return;
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_yes_no(w, true);
}

static void put_copy(lml_json_writer *w, const char *name, const lml_json *node)
{
    if (!node)
        return;
    lml_json_write_name(w, lml_span_of(name));
    lml_json_copy(w, node);
}

static void put_span(lml_json_writer *w, const char *name, lml_span text)
{
    if (text.length == 0)
        return;
    lml_json_write_name(w, lml_span_of(name));
    lml_json_write_text(w, text);
}

/* The name that an entry of a list or a set goes by; empty if it has none. */
static lml_span name_of(const lml_json *job, const lml_patch_path *path)
{
    lml_span name = path->step[path->steps - 1].name;
    return name.at ? name : lml_json_text(lml_json_member(lml_patch_find(job, path), "name"));
}

/* "Stones 2": of an entry that has no name. "ring A, Tests 1": of one within another. */
static void put_counted(lml_json_writer *w, const lml_step *step, const lml_json *job,
                        lml_patch_path path)
{
    lml_builder text = lml_builder_on(w->to->alloc, 0);
    size_t place = path.step[path.steps - 1].place;
    if (path.steps > 4) { /* given, the list, its entry, the list in that */
        path.steps -= 2;
        lml_builder_add_span(&text, name_of(job, &path));
        lml_builder_add_text(&text, text.length > 0 ? ", " : "");
    }
    lml_builder_add_span(&text, lml_json_text(lml_json_member(step->within, "title")));
    lml_builder_add_format(&text, " %zu", place + 1);
    if (lml_builder_status(&text, NULL) != LML_OK)
        w->to->status = text.status;
    put_span(w, "entry", lml_span_trim(lml_builder_span(&text)));
    lml_builder_free(&text);
}

/* Which entry of a list or a set it belongs to, in its own words or counted. */
static void put_entry(lml_json_writer *w, const lml_step *step, const lml_json *job)
{
    char part[LML_JSON_PATH];
    lml_patch_path path;
    if (step->opens)
        return;
    if (!step->entry)
        lml_walk_parent(step->path, part);
    if (lml_patch_read_path(lml_span_of(step->entry ? step->path : part), &path, NULL) != LML_OK ||
        path.steps < 3)
        return; /* it is an ask, or a field of a record that is one */
    lml_span name = name_of(job, &path);
    if (name.length > 0)
        put_span(w, "entry", name);
    else
        put_counted(w, step, job, path);
}

/* With all that is asked under it as the job is now: of entries too. */
static void put_heading(lml_json_writer *w, const lml_walk *walk, const lml_step *step)
{
    size_t questions = 0, due = 0;
    if (!step->heading)
        return;
    for (size_t i = 0; i < walk->count; i++) {
        bool counts = walk->step[i].heading == step->heading &&
                      !(walk->passes_said && lml_step_is_said(&walk->step[i]));
        questions += counts;
        due += counts && lml_step_is_due(&walk->step[i]) && !walk->step[i].said;
    }
    lml_json_write_name(w, lml_span_of("heading"));
    lml_json_write_open_record(w);
    put_span(w, "title", lml_json_text(lml_json_member(step->heading, "heading")));
    put_number(w, "questions", questions);
    put_number(w, "due", due);
    lml_json_write_close(w);
}

/* Seldom asks of the same fold that are asked now: before this question, or after it. */
static void put_unfolded(lml_json_writer *w, const lml_walk *walk, size_t index, bool before)
{
    char fold[LML_JSON_PATH], own[LML_JSON_PATH];
    lml_walk_fold(&walk->step[index], fold);
    lml_json_write_name(w, lml_span_of(before ? "unfolded_before" : "unfolded"));
    lml_json_write_open_list(w);
    for (size_t i = before ? 0 : index + 1; i < (before ? index : walk->count); i++) {
        const lml_step *step = &walk->step[i];
        lml_walk_fold(step, own);
        if (strcmp(own, fold) == 0 && !step->said &&
            lml_json_yes(lml_json_member(step->ask, "seldom")))
            lml_json_write_text(w, lml_json_text(lml_json_member(step->ask, "title")));
    }
    lml_json_write_close(w);
}

/* Of an alloy: the names in the house's stock. */
static void put_stock(lml_json_writer *w, const lml_json *shape, const lml_json *job)
{
    lml_span kind = lml_json_text(lml_json_member(shape, "kind"));
    const lml_json *metal = lml_json_first(lml_json_member(lml_json_house(job), "stock"));
    if (!lml_span_is(kind, lml_wanted_name(LML_WANT_ALLOY)) &&
        !lml_span_is(kind, lml_wanted_name(LML_WANT_ASSAY)))
        return;
    lml_json_write_name(w, lml_span_of("stock"));
    lml_json_write_open_list(w);
    for (; metal; metal = lml_json_next(metal))
        lml_json_write_text(w, lml_json_name(metal));
    lml_json_write_close(w);
}

/* What "?" tells, and the asks that it unfolds. */
static void put_more(lml_json_writer *w, const lml_walk *walk, size_t index, const lml_json *job,
                     const lml_question_after *after)
{
    static const char *const names[] = {"title", "note", "default", "source"};
    const lml_json *shape = lml_step_shape(&walk->step[index]);
    lml_json_write_name(w, lml_span_of("more"));
    lml_json_write_open_record(w);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        put_copy(w, names[i], lml_json_member(shape, names[i]));
    put_span(w, "from", after->from);
    put_span(w, "to", after->to);
    put_stock(w, shape, job);
    put_unfolded(w, walk, index, true);
    put_unfolded(w, walk, index, false);
    lml_json_write_close(w);
}

void lml_question_example(const lml_step *step, const lml_json *job, char out[LML_EXAMPLE_TEXT])
{
    static const char DIFFERENCE[] = "Δ"; /* no keyboard has it, and a rate is read without */
    const lml_json *shape = lml_step_shape(step);
    lml_span text = lml_json_text(lml_json_member(shape, "example"));
    bool says_nothing = lml_span_is(text, lml_wanted_example(LML_WANT_TEXT));
    snprintf(out, LML_EXAMPLE_TEXT, "%.*s", says_nothing ? 0 : (int)text.length, text.at);
    if (strcmp(step->path, "house.currency") == 0)
        snprintf(out, LML_EXAMPLE_TEXT, "%s",
                 lml_shapes_currency_of(lml_json_member(job, "house")));
    lml_shape_example_in(lml_json_house(job), NULL, out, LML_EXAMPLE_TEXT);
    char *sign = strstr(out, DIFFERENCE);
    if (sign &&
        lml_span_is(lml_json_text(lml_json_member(shape, "kind")), lml_wanted_name(LML_WANT_RATE)))
        memmove(sign, sign + strlen(DIFFERENCE), strlen(sign + strlen(DIFFERENCE)) + 1);
}

static void put_step(lml_json_writer *w, const lml_walk *walk, const lml_step *step,
                     const lml_json *job)
{
    static const char *const takes[] = {"value", "yes", "name"};
    static const char *const of_the_ask[] = {"options", "from", "to"};
    char example[LML_EXAMPLE_TEXT];
    const lml_json *shape = lml_step_shape(step);
    bool names_one = step->entry && !step->opens && lml_json_member(shape, "title");
    size_t depth = 0;
    for (const char *c = step->path; *c; c++)
        depth += *c == '.' || *c == '[';
    lml_json_write_member(w, "at", step->path);
    put_copy(w, "title", lml_json_member(names_one ? shape : step->ask, "title"));
    put_copy(w, "kind", lml_json_member(shape, "kind"));
    lml_json_write_member(w, "takes", takes[step->kind]);
    put_entry(w, step, job);
    put_number(w, "depth", depth > 0 ? depth - 1 : 0);
    put_yes(w, "due", lml_step_is_due(step));
    put_yes(w, "opens", step->opens);
    put_yes(w, "first", step->first);
    put_copy(w, "list", lml_json_member(step->list, "title"));
    put_copy(w, "said", step->said);
    if (!step->entry && !step->opens)
        put_copy(w, "default", lml_json_member(step->ask, "default"));
    if (step->kind == LML_STEP_VALUE) {
        lml_question_example(step, job, example);
        put_span(w, "example", lml_span_of(example));
    }
    for (size_t i = 0; i < sizeof of_the_ask / sizeof *of_the_ask; i++)
        put_copy(w, of_the_ask[i], lml_json_member(shape, of_the_ask[i]));
    put_heading(w, walk, step);
}

static void put_fault(lml_json_writer *w, const lml_error *fault)
{
    lml_builder list = lml_builder_on(w->to->alloc, 0);
    lml_faults faults = lml_faults_on(&list);
    lml_faults_note(&faults, NULL, fault);
    if (lml_faults_end(&faults, NULL) == LML_OK) {
        lml_json_write_name(w, lml_span_of("faults"));
        lml_json_write_raw(w, (lml_span){list.at, list.length});
    } else {
        w->to->status = LML_NO_MEMORY;
    }
    lml_builder_free(&list);
}

void lml_question_write(const lml_walk *walk, size_t index, const lml_json *job,
                        const lml_question_after *after, lml_json_writer *w)
{
    lml_json_write_open_record(w);
    if (index < walk->count)
        put_step(w, walk, &walk->step[index], job);
    else
        put_yes(w, "end", true);
    if (walk->unfolded)
        lml_json_write_member(w, "unfolded", walk->unfolded);
    put_span(w, "told", after->told);
    if (after->fault)
        put_fault(w, after->fault);
    if (after->more && index < walk->count)
        put_more(w, walk, index, job, after);
    lml_json_write_close(w);
}
