/* What a book holds of the lots that a job's charge counts on, written into the job's text. */
#include "papers/book.h"
#include "papers/given.h"

#include <stdio.h>
#include <string.h>

/* An owner's metal is called by the name that the lot calls its owner, where they are one. */
static void put_lots(lml_book *book, const lml_book_source *s, lml_json_writer *w)
{
    const char *account = lml_book_account(book, book->asker, s->owner);
    const lml_book_move *lot;
    size_t i = s->first;
    lml_json_write_name(w, lml_span_of("lots"));
    lml_json_write_open_list(w);
    while ((lot = lml_book_lots_next(book, s, &i))) {
        const char *owner = book->cell[lot->cell].owner;
        lml_json_write_open_record(w);
        lml_book_write_mass(w, "mass", lot->left > 0 ? lot->left : 0);
        lml_json_write_member(w, "fineness", lot->fineness);
        lml_json_write_member(w, "owner", strcmp(owner, account) == 0 ? s->owner : owner);
        lml_json_write_member(w, "at", lot->at);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

/* What other jobs count on and have not taken yet. */
static void put_others(lml_book *book, const lml_book_source *s, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("others"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < book->plans.count; i++) {
        const lml_book_plan *p = &book->plan[i];
        lml_book_source other = {.from = p->from, .job = book->job[p->job].name, .name = p->name};
        if (book->job[p->job].home == book->job[book->asker].home || lml_book_is_taken(book, p) ||
            !lml_book_lots_find(book, p->job, &other) || other.first != s->first)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "job", other.job);
        lml_book_write_mass(w, "mass", p->mass);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static lml_status write_held(lml_book *book, const lml_json *lot, lml_builder *out, lml_error *err)
{
    const lml_json *owner = lml_json_member(lot, "owner");
    lml_json_writer w = lml_json_writer_on(out, false);
    lml_book_source s = {.from = lml_book_copy(book, lml_json_text(lml_json_member(lot, "from"))),
                         .owner =
                             owner ? lml_book_copy(book, lml_json_text(owner)) : LML_BOOK_STUDIO,
                         .job = book->job[book->asker].name,
                         .name = lml_book_copy(book, lml_json_text(lml_json_member(lot, "name")))};
    lml_json_write_open_record(&w);
    if (book->at)
        lml_json_write_member(&w, "at", book->at);
    if (lml_book_lots_find(book, book->asker, &s)) {
        put_lots(book, &s, &w);
        put_others(book, &s, &w);
    } else if (book->status == LML_OK) {
        lml_json_write_member(&w, "why", book->remark[book->remarks.count - 1].text);
    }
    lml_json_write_close(&w);
    if (book->status != LML_OK)
        return lml_fail(err, book->status, "out of memory for the book");
    return lml_json_writer_end(&w, err);
}

static lml_status put_held(lml_book *book, const lml_json *lot, size_t index, lml_builder *out,
                           lml_error *err)
{
    char nth[32];
    snprintf(nth, sizeof nth, "[%zu]", index);
    lml_span steps[] = {lml_span_of("given"), lml_span_of("lots"), lml_span_of(nth),
                        lml_span_of("held")};
    lml_builder held = lml_builder_on(book->alloc, 0);
    lml_status status = write_held(book, lot, &held, err);
    if (status == LML_OK)
        status = lml_given_put_raw(out, steps, 4, (lml_span){held.at, held.length},
                                   book->job[book->asker].source->shown, err);
    lml_builder_free(&held);
    return status;
}

lml_status lml_book_held_put(lml_book *book, lml_builder *out, lml_error *err)
{
    const lml_source *source = book->job[book->asker].source;
    lml_json_document *doc = NULL;
    size_t index = 0;
    lml_builder_add(out, source->text, source->length);
    lml_status status = lml_builder_status(out, err);
    if (status == LML_OK)
        status = lml_json_read(book->alloc, (lml_span){source->text, source->length}, NULL,
                               source->shown, &doc, err);
    const lml_json *given = doc ? lml_json_member(lml_json_root(doc), "given") : NULL;
    const lml_json *lot = lml_json_first(lml_json_member(given, "lots"));
    for (; lot && status == LML_OK; lot = lml_json_next(lot), index++)
        if (lml_json_text(lml_json_member(lot, "from")).length > 0)
            status = put_held(book, lot, index, out, err);
    lml_json_free(doc);
    return status;
}
