#include "papers/book.h"

#include "base/locale.h"
#include "face/engine.h"
#include "papers/paper.h"

/* Written sums are of many cells: none of them may be near the end of what can be counted. */
static bool is_beyond(const lml_book *book)
{
    int64_t all = 0;
    bool beyond = book->beyond;
    for (size_t i = 0; i < book->moves.count; i++)
        beyond = beyond || __builtin_add_overflow(all, book->move[i].fine, &all);
    return beyond || all > INT64_MAX / 16;
}

typedef struct request {
    const lml_source *jobs;
    size_t count;
    const lml_source *asker; /* or NULL: the whole book */
} request;

static lml_status add_up(lml_book *book, const request *asked, lml_builder *out, lml_error *err)
{
    lml_status status = lml_book_read(book, asked->jobs, asked->count, err);
    if (status == LML_OK && book->status == LML_OK && asked->asker)
        book->asker = lml_book_find(book, lml_book_name_of(asked->asker->shown));
    if (status == LML_OK && book->status == LML_OK)
        lml_book_join(book);
    if (status == LML_OK && book->status == LML_OK)
        lml_book_sum(book);
    if (status != LML_OK)
        return status;
    if (book->status != LML_OK)
        return lml_fail(err, book->status, "out of memory for the book");
    if (is_beyond(book))
        return lml_fail(err, LML_OVERFLOW, "these records hold more metal than can be counted");
    if (asked->asker)
        return lml_book_held_put(book, out, err);
    lml_book_lots_by_account(book);
    if (book->status != LML_OK)
        return lml_fail(err, book->status, "out of memory for the book");
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_book_write(book, &w);
    return lml_json_writer_end(&w, err);
}

static lml_status answer(lml_engine *engine, const request *asked, const char *at, lml_text *out,
                         lml_error *err)
{
    const lml_alloc *alloc = lml_engine_alloc(engine);
    lml_pool pool;
    lml_builder text = lml_builder_on(alloc, 0);
    lml_locale entered = lml_locale_enter();
    lml_pool_open(&pool, alloc);
    lml_book book = {
        .alloc = alloc, .memory = lml_pool_alloc(&pool), .at = at, .asker = LML_BOOK_NONE};
    lml_status status = add_up(&book, asked, &text, err);
    bool stopped = book.stopped && !asked->asker;
    lml_pool_close(&pool);
    lml_locale_leave(entered);
    status = lml_output_take(&text, status, out, err);
    if (status == LML_OK)
        out->stopped = stopped;
    return status;
}

lml_status lml_engine_book(lml_engine *engine, const lml_source *jobs, size_t count, const char *at,
                           lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"jobs", jobs}, {"out", out}))
        return LML_BAD_DATA;
    return answer(engine, &(request){.jobs = jobs, .count = count}, at, out, err);
}

lml_status lml_engine_book_held(lml_engine *engine, const lml_source *jobs, size_t count,
                                size_t job, const char *at, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"jobs", jobs}, {"out", out}))
        return LML_BAD_DATA;
    if (job >= count)
        return lml_fail(err, LML_BAD_DATA,
                        "job %zu asks the book, which has %zu jobs: they are counted from 0", job,
                        count);
    return answer(engine, &(request){.jobs = jobs, .count = count, .asker = &jobs[job]}, at, out,
                  err);
}
