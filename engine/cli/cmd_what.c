#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "sheet/layout.h"
#include "studio/find.h"
#include "trial/what.h"

#include <string.h>

enum { INDENT = 3 };

/* ---- the words ---- */

static lml_status refuse_words(lml_error *err)
{
    lml_fail(err, LML_USAGE,
             "lemel what needs a job, a figure, the word by, and an input with its range");
    lml_error_hint(err,
                   "lemel what jobs/NAME.json price by markup=\"10..30 %%\", or for what is "
                   "wished: lemel what jobs/NAME.json price=\"1200 USD\" by markup=\"10..30 %%\"");
    return LML_USAGE;
}

/* Cut NAME=VALUE at its '='; the value is NULL where there is none. A label may have one in it: in
 * quotes of its own it is a name to the last of them. */
static lml_status cut(const lml_call *call, const char *word, char **name, const char **value,
                      lml_error *err)
{
    const char *quote = word[0] == '"' ? strrchr(word + 1, '"') : NULL;
    const char *equals = strchr(quote ? quote : word, '=');
    lml_span left = equals ? lml_span_between(word, equals) : lml_span_of(word);
    *name = lml_span_copy(&call->alloc, left);
    *value = equals ? equals + 1 : NULL;
    return *name ? LML_OK : lml_fail(err, LML_NO_MEMORY, "out of memory for a word");
}

typedef struct words {
    char *figure, *input;
    const char *wish, *range;
} words;

static void free_words(const lml_call *call, words *w)
{
    if (w->figure)
        lml_alloc_free(&call->alloc, w->figure, strlen(w->figure) + 1);
    if (w->input)
        lml_alloc_free(&call->alloc, w->input, strlen(w->input) + 1);
}

static lml_status read_words(const lml_call *call, words *out, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words < 4 || strcmp(a->word[2], "by") != 0)
        return refuse_words(err);
    if (a->words > 4 && strcmp(a->word[4], "by") == 0) {
        lml_fail(err, LML_USAGE, "lemel what changes one input, and here is a second 'by'");
        lml_error_hint(err,
                       "run it for each; another figure of the job is fixed as wax=\"2.85 g\"");
        return LML_USAGE;
    }
    lml_status status = cut(call, a->word[1], &out->figure, &out->wish, err);
    if (status == LML_OK && out->wish && !out->wish[0]) {
        status =
            lml_fail(err, LML_USAGE, "what should %s be? Nothing is behind the '='", out->figure);
        lml_error_hint(err, "write the wish there, as price=\"1200 USD\", or leave out the '='");
    }
    if (status == LML_OK)
        status = cut(call, a->word[3], &out->input, &out->range, err);
    if (status != LML_OK || out->range)
        return status;
    lml_fail(err, LML_USAGE, "between what should %s lie?", out->input);
    lml_error_hint(err, "write its range behind it, as %s=\"50..90 USD/h\"", out->input);
    return LML_USAGE;
}

/* ---- in the worker ---- */

typedef struct request {
    lml_span job;
    const char *shown;
    lml_asked_what asked;
} request;

static lml_status ask(lml_engine *engine, const void *asked, lml_text *out, lml_error *err)
{
    const request *r = asked;
    return lml_engine_what(engine, r->job.at, r->job.length, r->shown, &r->asked, out, err);
}

/* ---- the report ---- */

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static void put_row(lml_layout *layout, lml_span left, const lml_json *row)
{
    lml_span is = text_of(row, "is"), stops = text_of(row, "stops"), error = text_of(row, "error");
    lml_builder line = lml_layout_scratch(layout);
    if (is.length > 0)
        lml_builder_add_span(&line, is);
    else if (error.length > 0)
        lml_builder_add_format(&line, "fails: %.*s", LML_SPAN_SHOWN(error));
    else if (stops.length > 0)
        lml_builder_add_format(&line, "withheld%s: %.*s",
                               lml_json_yes(lml_json_member(row, "one_of")) ? " by one of these"
                                                                            : "",
                               LML_SPAN_SHOWN(stops));
    else
        lml_builder_add_text(&line, "not shown: the job has no such line then");
    lml_cell cells[] = {{left, INDENT, 22, false},
                        {{line.at ? line.at : "", line.length}, 26, layout->width - 26, false}};
    lml_layout_row(layout, cells, 2);
    lml_layout_scrap(layout, &line);
}

static void put_answer(lml_layout *layout, const lml_json *answer)
{
    lml_builder line = lml_layout_scratch(layout);
    lml_span from = text_of(answer, "from"), to = text_of(answer, "to"),
             before = text_of(answer, "before"), after = text_of(answer, "after");
    if (from.length > 0 && lml_span_equal(from, to))
        lml_builder_add_format(&line, "at %.*s", LML_SPAN_SHOWN(from));
    else if (from.length > 0)
        lml_builder_add_format(&line, "from %.*s to %.*s", LML_SPAN_SHOWN(from),
                               LML_SPAN_SHOWN(to));
    else
        lml_builder_add_format(&line, "between %.*s, where it is %.*s, and %.*s, where it is %.*s",
                               LML_SPAN_SHOWN(before), LML_SPAN_SHOWN(text_of(answer, "is")),
                               LML_SPAN_SHOWN(after), LML_SPAN_SHOWN(text_of(answer, "then")));
    lml_layout_text(layout, INDENT, (lml_span){line.at ? line.at : "", line.length});
    lml_layout_scrap(layout, &line);
}

static void put_answers(lml_layout *layout, const lml_json *report)
{
    const lml_json *answer = lml_json_first(lml_json_member(report, "answers"));
    double withheld = lml_json_number(lml_json_member(report, "withheld"));
    lml_span low = text_of(report, "low"), high = text_of(report, "high");
    lml_builder line = lml_layout_scratch(layout);
    if (!answer && low.length > 0 && lml_span_equal(low, high))
        lml_builder_add_format(&line, "nowhere in that range: it is %.*s in all of it",
                               LML_SPAN_SHOWN(low));
    else if (!answer && low.length > 0)
        lml_builder_add_format(&line, "nowhere in that range: it lies between %.*s and %.*s",
                               LML_SPAN_SHOWN(low), LML_SPAN_SHOWN(high));
    else if (!answer)
        lml_builder_add_text(&line, "nowhere in that range: it is withheld in all of it");
    if (line.length > 0)
        lml_layout_text(layout, INDENT, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
    for (; answer; answer = lml_json_next(answer))
        put_answer(layout, answer);
    if (withheld > 0 && low.length > 0) {
        lml_builder said = lml_layout_scratch(layout);
        lml_builder_add_format(
            &said, "withheld, or not to be had, in %.0f of the runs over the range", withheld);
        lml_layout_text(layout, INDENT, (lml_span){said.at ? said.at : "", said.length});
        lml_layout_scrap(layout, &said);
    }
}

/* Whether all rows show the same. */
static bool is_constant(const lml_json *rows)
{
    const lml_json *first = lml_json_first(rows), *row = first;
    const lml_span is = text_of(first, "is");
    while (row && is.length > 0 && lml_span_equal(text_of(row, "is"), is))
        row = lml_json_next(row);
    return first && !row;
}

static void put_rows(lml_layout *layout, const lml_json *report)
{
    const lml_json *rows = lml_json_member(report, "rows"), *row = lml_json_first(rows);
    lml_builder line = lml_layout_scratch(layout);
    for (; row; row = lml_json_next(row))
        put_row(layout, text_of(row, "input"), row);
    if (is_constant(rows)) {
        lml_builder_add_format(&line, "%.*s makes no difference to it in that range",
                               LML_SPAN_SHOWN(text_of(report, "input")));
        lml_layout_text(layout, INDENT, (lml_span){line.at ? line.at : "", line.length});
    }
    lml_layout_scrap(layout, &line);
}

static lml_status print_text(lml_call *call, const lml_json *report, lml_error *err)
{
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    lml_builder line = lml_layout_scratch(&layout);
    lml_span wish = text_of(report, "wish");
    lml_builder_add_format(&line, "%.*s is %.*s in this job; ",
                           LML_SPAN_SHOWN(text_of(report, "figure")),
                           LML_SPAN_SHOWN(text_of(report, "is")));
    if (wish.length > 0)
        lml_builder_add_format(&line, "it is %.*s with %.*s", LML_SPAN_SHOWN(wish),
                               LML_SPAN_SHOWN(text_of(report, "input")));
    else
        lml_builder_add_format(&line, "by %.*s:", LML_SPAN_SHOWN(text_of(report, "input")));
    lml_layout_text(&layout, 0, (lml_span){line.at ? line.at : "", line.length});
    lml_layout_scrap(&layout, &line);
    put_rows(&layout, report);
    if (wish.length > 0)
        put_answers(&layout, report);
    return lml_builder_status(&call->out, err);
}

static lml_status print(lml_call *call, const lml_builder *answer, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status = lml_ask_parse(call, answer, &doc, err);
    if (status != LML_OK)
        return status;
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_copy(&w, lml_json_root(doc));
        status = lml_call_end_json(&w, err);
    } else {
        status = print_text(call, lml_json_root(doc), err);
    }
    lml_json_free(doc);
    return status;
}

/* ---- the command ---- */

/* The time limit is for one job, and this runs it up to LML_WHAT_RUNS times, mostly far from it. */
static lml_worker_limits limits_of_all(lml_worker_limits one)
{
    enum { TIMES = LML_WHAT_RUNS / 10 };
    one.processor *= TIMES;
    one.patience *= TIMES;
    return one;
}

static lml_status work(lml_call *call, const lml_target *target, const words *said, lml_error *err)
{
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_job_text job = {.text = lml_builder_on(&call->alloc, 0)};
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_find_kit(call, target, &kit, err);
    if (status == LML_OK)
        status = lml_job_text_read(call, target, &job, err);
    job.closing = call->arguments.given[LML_OPTION_CLOSING];
    if (status == LML_OK)
        status = lml_held_put(call, 4, &job, err);
    if (status == LML_OK)
        status = lml_ask_gather(&kit, &job, err);
    if (status == LML_OK) {
        request r = {.job = {job.text.at, job.text.length},
                     .shown = job.shown,
                     .asked = {.figure = said->figure,
                               .input = said->input,
                               .range = said->range,
                               .wish = said->wish,
                               .closing = job.closing}};
        lml_task task = {
            .kit = {&kit}, .work = ask, .request = &r, .limits = limits_of_all(kit.limits)};
        status = lml_process_run(&task, &answer, err);
    }
    if (status == LML_OK)
        status = print(call, &answer, err);
    if (status != LML_OK) /* the input, too, is set in the job's text */
        lml_job_text_blame(call, 3, &job, err);
    lml_builder_free(&answer);
    lml_builder_free(&job.text);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_what(lml_call *call, lml_error *err)
{
    words said = {.figure = NULL};
    lml_status status = read_words(call, &said, err);
    if (status == LML_OK) {
        lml_target target = lml_find_target(call->arguments.word[0]);
        status = work(call, &target, &said, err);
    }
    free_words(call, &said);
    return status;
}
