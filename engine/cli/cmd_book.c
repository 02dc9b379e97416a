/* book: the metal of many jobs, added up from their records. */
#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/held.h"
#include "print/book.h"
#include "terminal/clock.h"

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
    lml_job_texts all = {.count = 0};
    lml_engine *engine = NULL;
    lml_text book = {.text = NULL};
    lml_status status = lml_job_texts_read(call, jobs, &all, err);
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
    lml_job_texts_free(call, &all);
    return status;
}

lml_status lml_cmd_book(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    const char *at;
    char now[LML_CLOCK_TEXT];
    lml_jobs jobs;
    if (a->words == 0) {
        lml_fail(err, LML_USAGE, "lemel book needs the jobs whose metal is added up");
        lml_error_hint(err, "lemel book jobs");
        return LML_USAGE;
    }
    lml_status status = lml_held_moment(call, now, &at, err);
    if (status == LML_OK)
        status = lml_jobs_find(call, 0, &jobs, err);
    if (status != LML_OK)
        return status;
    status = add_up(call, &jobs, at, err);
    lml_jobs_free(&jobs);
    return status;
}
