/* A book as JSON. */
#include "papers/book.h"

#include <stdio.h>
#include <string.h>

static void put_fine(lml_json_writer *w, const char *name, int64_t fine, lml_metal metal)
{
    char grams[LML_BOOK_GRAMS], text[LML_BOOK_GRAMS + 8];
    snprintf(text, sizeof text, "%s g %s", lml_book_grams(fine, grams), lml_metal_symbol(metal));
    lml_json_write_member(w, name, text);
}

void lml_book_write_mass(lml_json_writer *w, const char *name, int64_t mass)
{
    char grams[LML_BOOK_GRAMS], text[LML_BOOK_GRAMS + 8];
    snprintf(text, sizeof text, "%s g", lml_book_grams(mass, grams));
    lml_json_write_member(w, name, text);
}

/* ---- accounts ---- */

static void add(lml_book_cell *sum, const lml_book_cell *c)
{
    sum->in += c->in;
    sum->added += c->added;
    sum->from_others += c->from_others;
    sum->piece += c->piece;
    sum->returned += c->returned;
    sum->to_others += c->to_others;
    sum->settled += c->settled;
    sum->moved += c->moved;
    sum->here += c->here;
    sum->as_brought += c->as_brought;
    sum->sent += c->sent;
}

/* What nobody weighed since, job by job, and what was weighed there last. */
static void put_unweighed(const lml_book *book, lml_json_writer *w, size_t first, size_t end)
{
    lml_json_write_name(w, lml_span_of("not_weighed_in"));
    lml_json_write_open_list(w);
    for (size_t i = first; i < end; i++) {
        const lml_book_cell *c = &book->cell[i];
        const lml_book_job *home = &book->job[c->home];
        if (lml_book_cell_unweighed(c) == 0)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "job", home->name);
        put_fine(w, "fine", lml_book_cell_unweighed(c), c->metal);
        lml_json_write_member(w, "last", home->last_what);
        lml_json_write_member(w, "at", home->last_at);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static bool of_one(const lml_book_cell *a, const lml_book_cell *b)
{
    return a->metal == b->metal && strcmp(a->owner, b->owner) == 0;
}

static void put_account(const lml_book *book, lml_json_writer *w, size_t first, size_t end)
{
    lml_book_cell sum = book->cell[first];
    for (size_t i = first + 1; i < end; i++)
        add(&sum, &book->cell[i]);
    lml_metal metal = sum.metal;
    lml_json_write_open_record(w);
    lml_json_write_member(w, "owner", sum.owner);
    lml_json_write_member(w, "metal", lml_metal_symbol(metal));
    put_fine(w, "in", sum.in, metal);
    put_fine(w, "added", sum.added, metal);
    put_fine(w, "from_others", sum.from_others, metal);
    put_fine(w, "piece", sum.piece, metal);
    put_fine(w, "returned", sum.returned, metal);
    put_fine(w, "to_others", sum.to_others, metal);
    put_fine(w, "settled", sum.settled, metal);
    put_fine(w, "balance", lml_book_cell_balance(&sum), metal);
    put_fine(w, "held", sum.here + sum.sent + sum.as_brought, metal);
    put_fine(w, "here", sum.here, metal);
    put_fine(w, "as_brought", sum.as_brought, metal);
    put_fine(w, "sent", sum.sent, metal);
    put_fine(w, "not_weighed", lml_book_cell_unweighed(&sum), metal);
    put_unweighed(book, w, first, end);
    lml_json_write_close(w);
}

static void put_accounts(const lml_book *book, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("accounts"));
    lml_json_write_open_list(w);
    for (size_t first = 0, end; first < book->cells.count; first = end) {
        for (end = first + 1;
             end < book->cells.count && of_one(&book->cell[first], &book->cell[end]);)
            end++;
        put_account(book, w, first, end);
    }
    lml_json_write_close(w);
}

/* ---- lots and parcels ---- */

static void put_lots(const lml_book *book, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("lots"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < book->lots.count; i++) {
        const lml_book_move *m = &book->move[book->lot[i]];
        if ((m->way == LML_BOOK_IN && !m->as_brought) || m->left == 0)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "owner", book->cell[m->cell].owner);
        lml_json_write_member(w, "metal", lml_metal_symbol(m->metal));
        lml_json_write_member(w, "job", book->job[book->job[m->job].home].name);
        lml_json_write_member(w, "what", m->what);
        lml_json_write_member(w, "at", m->at);
        lml_book_write_mass(w, "mass", m->left);
        lml_json_write_member(w, "fineness", m->fineness);
        put_fine(w, "fine", m->left_fine, m->metal);
        if (m->as_brought) {
            lml_json_write_name(w, lml_span_of("as_brought"));
            lml_json_write_yes_no(w, true);
        }
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_parcels(const lml_book *book, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("parcels"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < book->parcels.count; i++) {
        const lml_book_parcel *p = &book->parcel[i];
        lml_json_write_open_record(w);
        lml_json_write_member(w, "name", p->name);
        lml_json_write_member(w, "metal", lml_metal_symbol(p->metal));
        put_fine(w, "fine", p->fine, p->metal);
        lml_json_write_member(w, "sent", p->last->at);
        if (p->settled) {
            lml_json_write_member(w, "settled", p->settled->at);
            lml_json_write_member(w, "found", p->settled->found);
        }
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

void lml_book_write(const lml_book *book, lml_json_writer *w)
{
    size_t counted = 0;
    for (size_t i = 0; i < book->moves.count; i++)
        counted += !book->move[i].twice;
    lml_json_write_open_record(w);
    if (book->at)
        lml_json_write_member(w, "at", book->at);
    lml_json_write_name(w, lml_span_of("jobs"));
    lml_json_write_whole(w, (int64_t)book->jobs.count);
    lml_json_write_name(w, lml_span_of("weighings"));
    lml_json_write_whole(w, (int64_t)counted);
    put_accounts(book, w);
    put_lots(book, w);
    put_parcels(book, w);
    lml_json_write_name(w, lml_span_of("remarks"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < book->remarks.count; i++) {
        const lml_book_remark *r = &book->remark[i];
        lml_json_write_open_record(w);
        lml_json_write_member(w, "level", r->level);
        lml_json_write_member(w, "code", r->code);
        lml_json_write_member(w, "text", r->text);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
    lml_json_write_close(w);
}
