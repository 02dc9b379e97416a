/* book: the metal of many jobs, added up from their records. */
#include "cli/ask.h"
#include "cli/cmd.h"
#include "print/book.h"
#include "studio/jobs.h"
#include "terminal/clock.h"

#include <string.h>

/* The texts of all jobs at once: metal goes from one to another. */
typedef struct texts {
    lml_builder *text;
    lml_source *source;
    size_t count;
} texts;

static void free_texts(const lml_call *call, texts *t)
{
    for (size_t i = 0; i < t->count && t->text; i++)
        lml_builder_free(&t->text[i]);
    lml_alloc_free(&call->alloc, t->text, t->count * sizeof *t->text);
    lml_alloc_free(&call->alloc, t->source, t->count * sizeof *t->source);
}

static lml_status read_texts(const lml_call *call, const lml_jobs *jobs, texts *out, lml_error *err)
{
    lml_status status = LML_OK;
    out->count = jobs->count;
    out->text = lml_alloc_get(&call->alloc, jobs->count * sizeof *out->text);
    out->source = lml_alloc_get(&call->alloc, jobs->count * sizeof *out->source);
    for (size_t i = 0; i < jobs->count && out->text; i++)
        out->text[i] = lml_builder_on(&call->alloc, 0);
    if (!out->text || !out->source)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the jobs of the book");
    for (size_t i = 0; i < jobs->count && status == LML_OK; i++) {
        const lml_builder *text = &out->text[i];
        status = lml_jobs_read(call, jobs, i, &out->text[i], err);
        out->source[i] = (lml_source){text->at ? text->at : "", text->length, jobs->path[i]};
    }
    return status;
}

/* What cannot be is said behind the book, whatever its format. */
static void tell(lml_call *call, const lml_json *book)
{
    const lml_json *r = lml_json_first(lml_json_member(book, "remarks"));
    for (; r; r = lml_json_next(r)) {
        bool stop = lml_span_is(lml_json_text(lml_json_member(r, "level")), "stop");
        lml_layout layout = {.out = &call->aside, .width = call->width};
        lml_span text = lml_json_text(lml_json_member(r, "text"));
        lml_cell cells[] = {{lml_span_of(stop ? "STOP" : "NOTE"), 0, 4, false},
                            {text, 6, layout.width - 6, false}};
        lml_layout_row(&layout, cells, 2);
    }
}

static lml_status print(lml_call *call, const lml_text *book, lml_error *err)
{
    lml_json_document *doc;
    lml_status status = lml_ask_parse_span(call, (lml_span){book->text, book->length}, &doc, err);
    if (status != LML_OK)
        return status;
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_copy(&w, lml_json_root(doc));
        status = lml_call_end_json(&w, err);
    } else {
        lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
        lml_book_print(lml_json_root(doc), &layout);
        tell(call, lml_json_root(doc));
        status = lml_builder_status(&call->out, err);
    }
    lml_json_free(doc);
    return status;
}

static lml_status add_up(lml_call *call, const lml_jobs *jobs, const char *at, lml_error *err)
{
    texts all = {.count = 0};
    lml_engine *engine = NULL;
    lml_text book = {.text = NULL};
    lml_status status = read_texts(call, jobs, &all, err);
    if (status == LML_OK)
        status = lml_ask_engine(call, &engine, err);
    if (status == LML_OK)
        status = lml_engine_book(engine, all.source, all.count, at, &book, err);
    if (status == LML_OK)
        status = print(call, &book, err);
    if (status == LML_OK && book.stopped)
        status = LML_STOPPED;
    if (engine)
        lml_text_free(engine, &book);
    lml_engine_free(engine);
    free_texts(call, &all);
    return status;
}

lml_status lml_cmd_book(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *at = a->value[LML_OPTION_AT];
    char now[LML_CLOCK_TEXT];
    lml_jobs jobs;
    lml_status status = LML_OK;
    if (a->words == 0) {
        lml_fail(err, LML_USAGE, "lemel book needs the jobs whose metal is added up");
        lml_error_hint(err, "lemel book jobs");
        return LML_USAGE;
    }
    if (at && strcmp(at, "now") == 0) {
        status = lml_clock_now(now, err);
        at = now;
    }
    if (status == LML_OK)
        status = lml_jobs_find(call, 0, &jobs, err);
    if (status != LML_OK)
        return status;
    status = add_up(call, &jobs, at, err);
    lml_jobs_free(&jobs);
    return status;
}
