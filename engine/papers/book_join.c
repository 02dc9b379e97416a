/* Which files of a book are one job, what two of them have both, and whose metal each weighing is
 * of. */
#include "file/leftover.h"
#include "papers/book.h"
#include "papers/record_far.h"

#include <stdlib.h>
#include <string.h>

static const char CLIENT[] = "client";
static const int64_t ALIKE = (int64_t)LML_RECORD_FAR_ALIKE * 1000000; /* ng */

static int by_number(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

static int by_text(const char *a, const char *b)
{
    return strcmp(a ? a : "", b ? b : "");
}

/* Two weighings that differ in nothing but the file and the place in it compare equal. */
static int by_weighing(const lml_book_move *a, const lml_book_move *b)
{
    int order = by_number(a->moment, b->moment);
    order = order ? order : by_number(a->mass, b->mass);
    order = order ? order : by_number(a->fine, b->fine);
    order = order ? order : (int)a->metal - (int)b->metal;
    order = order ? order : (int)a->way - (int)b->way;
    order = order ? order : by_text(a->what, b->what);
    order = order ? order : by_text(a->owner, b->owner);
    return order ? order : by_text(a->from, b->from);
}

static int by_weighing_and_place(const void *a, const void *b)
{
    const lml_book_move *one = a, *other = b;
    int order = by_weighing(one, other);
    order = order ? order : one->job - other->job;
    return order ? order : one->order - other->order;
}

static int by_time(const void *a, const void *b)
{
    const lml_book_move *one = a, *other = b;
    int order = by_number(one->moment, other->moment);
    order = order ? order : one->job - other->job;
    return order ? order : one->order - other->order;
}

/* ---- files of one job ---- */

static int home_of(const lml_book *book, int job)
{
    while (book->job[job].home != job)
        job = book->job[job].home;
    return job;
}

/* Jobs are sorted by name: the first represents all. */
static void unite(lml_book *book, int a, int b)
{
    int one = home_of(book, a), other = home_of(book, b);
    if (one < other)
        book->job[other].home = one;
    else
        book->job[one].home = other;
}

/* Two jobs that name two clients are two, whatever weighings they share: a button of 9 g on a day
 * without an hour is common. */
static bool may_be_one(const lml_book_job *a, const lml_book_job *b)
{
    return !*a->client || !*b->client || strcmp(a->client, b->client) == 0;
}

/* Equal weighings from `first` up to `end`: of the file that has most of them they count. */
static void see_equal(lml_book *book, size_t first, size_t end)
{
    size_t best = first, most = 0;
    for (size_t i = first, next; i < end; i = next) {
        for (next = i; next < end && book->move[next].job == book->move[i].job;)
            next++;
        if (next - i > most) {
            best = i;
            most = next - i;
        }
    }
    for (size_t i = first; i < end; i++) {
        lml_book_move *m = &book->move[i];
        lml_book_job *j = &book->job[m->job];
        int other = book->move[best].job;
        if (m->job == other)
            continue;
        m->twice = may_be_one(j, &book->job[other]);
        if (m->twice) {
            unite(book, m->job, other);
            j->doubled++;
        } else {
            j->shared++;
            j->shared_with = other;
            j->shared_hour = j->shared_hour || strchr(m->at, 'T');
        }
    }
}

static void say_doubled(lml_book *book)
{
    for (size_t i = 0; i < book->jobs.count; i++) {
        const lml_book_job *j = &book->job[i];
        if (j->doubled)
            lml_book_remark_on(book, "note", "twice",
                               "%s: %d of its weighings are in another file of %s too: the files "
                               "are taken for one job, and each weighing is counted once",
                               j->name, j->doubled, book->job[j->home].name);
        if (j->shared > 1 || j->shared_hour)
            lml_book_remark_on(book, "note", "shared",
                               "%s: %d of its weighings are in %s too, down to the moment, but %s "
                               "is for %s and %s for %s: each is counted twice. If one file is a "
                               "copy of the other, leave it out of the book or give both the same "
                               "client",
                               j->name, j->shared, book->job[j->shared_with].name, j->name,
                               j->client, book->job[j->shared_with].name,
                               book->job[j->shared_with].client);
    }
}

static void find_homes(lml_book *book)
{
    size_t count = book->moves.count;
    for (size_t i = 0; i < book->jobs.count; i++)
        book->job[i].home = (int)i;
    if (count > 0)
        qsort(book->move, count, sizeof *book->move, by_weighing_and_place);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1;
             end < count && by_weighing(&book->move[first], &book->move[end]) == 0;)
            end++;
        if (book->move[first].job != book->move[end - 1].job)
            see_equal(book, first, end);
    }
    for (size_t i = 0; i < book->jobs.count; i++)
        book->job[i].home = home_of(book, (int)i);
    for (size_t i = book->jobs.count; i-- > 0;) {
        lml_book_job *j = &book->job[i], *home = &book->job[j->home];
        if (home == j)
            continue;
        j->next = home->next;
        home->next = (int)i;
        if (j->last_at && (!home->last_at || j->last > home->last)) {
            home->last_at = j->last_at;
            home->last_what = j->last_what;
            home->last = j->last;
        }
        home->studio_button = home->studio_button || j->studio_button;
        home->studio_lemel = home->studio_lemel || j->studio_lemel;
    }
}

/* ---- whose ---- */

/* What goes to the studio by the agreement on button and filings. */
static bool is_agreed(const lml_book_job *home, const char *what)
{
    lml_leftover is = lml_leftover_of(lml_span_of(what));
    return (is == LML_LEFTOVER_BUTTON && home->studio_button) ||
           (is == LML_LEFTOVER_FILINGS && home->studio_lemel);
}

const char *lml_book_account(lml_book *book, int job, const char *owner)
{
    int home = book->job[job].home;
    for (int j = home; j != LML_BOOK_NONE; j = book->job[j].next)
        for (const lml_book_share *s = book->job[j].shares; s; s = s->next)
            if (strcmp(owner, s->member) == 0)
                return s->lot;
    if (strcmp(owner, CLIENT) != 0)
        return owner;
    lml_builder name = lml_builder_on(&book->memory, 0);
    lml_builder_add_text(&name, "client of ");
    lml_builder_add_text(&name, book->job[home].name);
    if (name.status != LML_OK)
        book->status = name.status;
    return name.at ? name.at : CLIENT;
}

/* ---- melted again ---- */

static bool lies_here(const lml_book *book, const lml_book_move *lot, const lml_book_move *m)
{
    return (lot->way == LML_BOOK_HERE || lot->way == LML_BOOK_PIECE) && !lot->twice &&
           book->job[lot->job].home == book->job[m->job].home && strcmp(lot->what, m->from) == 0;
}

static bool is_same_metal(const lml_book_move *lot, const lml_book_move *m)
{
    return lot->metal == m->metal && strcmp(lot->owner, m->owner) == 0;
}

/* `open`: what is melted of it beyond what is there; `other`: another's of that name, where there
 * is none of this owner and metal. */
static void say_not_there(lml_book *book, const lml_book_move *m, int64_t open,
                          const lml_book_move *other)
{
    char grams[LML_BOOK_GRAMS];
    if (other)
        lml_book_remark_on(book, "stop", "melted-of-another",
                           "%s: %s of %s melts %s as %s of %s, but what is there of that name is "
                           "%s of %s: correct the one that is wrong",
                           book->job[m->job].name, m->what, m->at, m->from,
                           lml_metal_symbol(m->metal), m->owner, lml_metal_symbol(other->metal),
                           other->owner);
    else
        lml_book_remark_on(book, "stop", "more-than-held",
                           "%s: %s of %s melts %s g more of %s than is there: correct the mass "
                           "that is wrong",
                           book->job[m->job].name, m->what, m->at, lml_book_grams(open, grams),
                           m->from);
}

/* What went back into the crucible is taken off what it was weighed out of: it lies there no more,
 * and comes out of the flask again. The moves are in the order of time. */
static void melt_again(lml_book *book, size_t at)
{
    const lml_book_move *m = &book->move[at], *other = NULL;
    int64_t open = m->mass;
    bool any = false;
    for (size_t i = 0; i < at && open > 0; i++) {
        lml_book_move *lot = &book->move[i];
        if (!lies_here(book, lot, m))
            continue;
        if (!is_same_metal(lot, m)) {
            other = lot;
            continue;
        }
        int64_t left = lot->mass > open ? lot->mass - open : 0;
        open -= lot->mass - left;
        any = true;
        if (left <= ALIKE)
            left = 0;
        lot->fine = left ? (int64_t)((double)lot->fine * ((double)left / (double)lot->mass)) : 0;
        lot->mass = lot->left = left;
        lot->left_fine = lot->fine;
    }
    if ((any || other) && open > ALIKE)
        say_not_there(book, m, open, any ? NULL : other);
}

void lml_book_join(lml_book *book)
{
    find_homes(book);
    say_doubled(book);
    if (book->moves.count > 0)
        qsort(book->move, book->moves.count, sizeof *book->move, by_time);
    for (size_t i = 0; i < book->moves.count; i++)
        book->move[i].owner = lml_book_account(book, book->move[i].job, book->move[i].owner);
    for (size_t i = 0; i < book->moves.count; i++)
        if (book->move[i].way == LML_BOOK_MELTED && !book->move[i].twice)
            melt_again(book, i);
    for (size_t i = 0; i < book->moves.count; i++) {
        lml_book_move *m = &book->move[i];
        const lml_book_job *home = &book->job[book->job[m->job].home];
        if (m->way == LML_BOOK_HERE && !lml_book_is_studio(m->owner) && is_agreed(home, m->what))
            m->way = LML_BOOK_KEPT;
    }
}
