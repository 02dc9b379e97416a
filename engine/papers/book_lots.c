/* Lots of a book: what is in the safe under a name, and who takes from it. */
#include "base/nearest.h"
#include "papers/book.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_TEXT = 300 };

/* qsort hands on nothing: what is sorted carries what it is sorted by. */
typedef struct key {
    int group, move;
    const char *what;
} key;

static int by_group_and_name(const void *a, const void *b)
{
    const key *one = a, *other = b;
    int order = one->group - other->group;
    order = order ? order : strcmp(one->what, other->what);
    return order ? order : one->move - other->move;
}

static bool is_lot(const lml_book_move *m)
{
    return !m->twice &&
           (m->way == LML_BOOK_HERE || m->way == LML_BOOK_IN || lml_book_to_studio(m->way));
}

/* The lots, by the job or by the account that they are of, and by name. */
static void sort_lots(lml_book *book, bool by_account)
{
    size_t count = 0, size = book->moves.count;
    key *keys = size ? lml_alloc_get(&book->memory, size * sizeof *keys) : NULL;
    if (size && !book->lot)
        book->lot = lml_alloc_get(&book->memory, size * sizeof *book->lot);
    if (!keys || !book->lot) {
        book->status = size ? LML_NO_MEMORY : book->status;
        return;
    }
    for (size_t i = 0; i < size; i++) {
        const lml_book_move *m = &book->move[i];
        if (is_lot(m))
            keys[count++] = (key){.group = by_account ? m->cell : book->job[m->job].home,
                                  .move = (int)i,
                                  .what = m->what};
    }
    qsort(keys, count, sizeof *keys, by_group_and_name);
    for (size_t i = 0; i < count; i++)
        book->lot[i] = keys[i].move;
    book->lots.count = count;
}

void lml_book_lots(lml_book *book)
{
    sort_lots(book, false);
}

void lml_book_lots_by_account(lml_book *book)
{
    sort_lots(book, true);
}

/* ---- what a name means ---- */

static const lml_book_move *lot_at(const lml_book *book, size_t i)
{
    return &book->move[book->lot[i]];
}

static int home_at(const lml_book *book, size_t i)
{
    return book->job[lot_at(book, i)->job].home;
}

/* The lots of one job of that name, as first and end; an empty name is all of the job. */
static void find_in(const lml_book *book, int home, lml_span what, size_t *first, size_t *end)
{
    size_t low = 0, high = book->lots.count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        int order = home_at(book, middle) - home;
        if (order == 0 && what.length > 0) {
            const char *at = lot_at(book, middle)->what;
            order = strncmp(at, what.at, what.length);
            order = order ? order : at[what.length] != '\0';
        }
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (*first = *end = low; *end < book->lots.count && home_at(book, *end) == home; (*end)++)
        if (what.length > 0 && !lml_span_is(what, lot_at(book, *end)->what))
            break;
}

static void say_no_job(lml_book *book, const lml_book_source *s, lml_span name)
{
    lml_nearest near = lml_nearest_to(name);
    for (size_t i = 0; i < book->jobs.count; i++)
        lml_nearest_offer(&near, lml_span_of(book->job[i].name));
    bool found = lml_nearest_found(&near);
    lml_book_remark_on(book, "stop", "no-job",
                       "%s: %s is taken from \"%s\", but no job \"%.*s\" is in the book%s%.*s%s. "
                       "%same its file too",
                       s->job, s->name, s->from, LML_SPAN_SHOWN(name),
                       found ? " (did you mean " : "", found ? (int)near.best.length : 0,
                       found ? near.best.at : "", found ? "?)" : "",
                       s->taker ? "Nothing is taken off it; n" : "N");
}

static void say_no_lot(lml_book *book, const lml_book_source *s, int home, lml_span what)
{
    size_t first, end;
    lml_nearest near = lml_nearest_to(what);
    find_in(book, home, lml_span_of(NULL), &first, &end);
    for (size_t i = first; i < end; i++)
        lml_nearest_offer(&near, lml_span_of(lot_at(book, i)->what));
    bool found = lml_nearest_found(&near);
    lml_book_remark_on(book, "stop", "no-lot",
                       "%s: %s is taken from \"%s\", but nothing of that name came into %s%s%s "
                       "or was weighed there%s%.*s%s%s",
                       s->job, s->name, s->from, book->job[home].name, book->at ? " by " : "",
                       book->at ? book->at : "", found ? " (did you mean " : "",
                       found ? (int)near.best.length : 0, found ? near.best.at : "",
                       found ? "?)" : "", s->taker ? ". Nothing is taken off" : "");
}

bool lml_book_lots_find(lml_book *book, int taker, lml_book_source *source)
{
    lml_span from = lml_span_of(source->from);
    int own = book->job[taker].home;
    source->home = own;
    find_in(book, own, from, &source->first, &source->end);
    if (source->first < source->end)
        return true;
    const char *colon = strstr(source->from, ": ");
    lml_span what = colon ? lml_span_of(colon + 2) : from;
    if (colon) {
        lml_span name = lml_span_between(source->from, colon);
        int job = lml_book_find(book, name);
        if (job == LML_BOOK_NONE) {
            say_no_job(book, source, name);
            return false;
        }
        source->home = book->job[job].home;
        find_in(book, source->home, what, &source->first, &source->end);
    }
    if (source->first == source->end)
        say_no_lot(book, source, source->home, what);
    return source->first < source->end;
}

/* ---- as it was brought ---- */

static int by_job_and_name(const void *a, const void *b)
{
    const lml_book_name *one = a, *other = b;
    int order = one->job - other->job;
    return order ? order : strcmp(one->what, other->what);
}

static bool has_name(const lml_book *book, int job, const char *before, const char *what,
                     const char *behind)
{
    char name[NAME_TEXT];
    if (snprintf(name, sizeof name, "%s%s%s", before, what, behind) >= (int)sizeof name)
        return true; /* it cannot be looked for: nothing is promised of it */
    lml_book_name wanted = {job, name};
    return book->names.count > 0 &&
           bsearch(&wanted, book->name, book->names.count, sizeof wanted, by_job_and_name) != NULL;
}

/* Nothing was weighed out of it in any file of its job, and no file has results of the work. */
static bool is_as_brought(const lml_book *book, const lml_book_move *m)
{
    static const char *const around[][2] = {
        {"weighed ", ""}, {"rest of ", ""}, {"rest of the ", ""}, {"", ""}, {"", " handed back"}};
    if (m->twice || m->way != LML_BOOK_IN || m->left <= 0 ||
        lml_span_starts(lml_span_of(m->what), "weighed "))
        return false;
    for (int j = book->job[m->job].home; j != LML_BOOK_NONE; j = book->job[j].next) {
        if (book->job[j].worked)
            return false;
        for (size_t i = 0; i < sizeof around / sizeof *around; i++)
            if (has_name(book, j, around[i][0], m->what, around[i][1]))
                return false;
    }
    return true;
}

void lml_book_lots_as_brought(lml_book *book)
{
    if (book->names.count > 0)
        qsort(book->name, book->names.count, sizeof *book->name, by_job_and_name);
    for (size_t i = 0; i < book->moves.count; i++) {
        lml_book_move *m = &book->move[i];
        m->as_brought = is_as_brought(book, m);
        if (m->as_brought)
            lml_book_add(book, &book->cell[m->cell].as_brought, m->left_fine);
    }
}

/* ---- taking ---- */

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* Of a lot's fine metal, that of a part of it; all of it when nothing of it is left. */
static int64_t fine_of(const lml_book_move *lot, int64_t left)
{
    if (left == 0 || lot->mass == 0)
        return 0;
    return (int64_t)floor((double)lot->fine * ((double)left / (double)lot->mass) + 0.5);
}

static void draw(lml_book *book, lml_book_move *lot, int64_t mass, const lml_book_source *s)
{
    int64_t was = lot->left_fine;
    lot->left -= mass;
    lot->left_fine = fine_of(lot, lot->left);
    lot->taken = s->taker;
    if (lot->way == LML_BOOK_IN)
        book->cell[lot->cell].named = s->taker;
    else
        lml_book_add(book, &book->cell[lot->cell].here, lot->left_fine - was);
}

static void say_more(lml_book *book, const lml_book_source *s, const lml_book_move *lot,
                     const lml_book_move *before, int64_t there)
{
    char mass[LML_BOOK_GRAMS], left[LML_BOOK_GRAMS], earlier[LML_BOOK_GRAMS];
    lml_book_remark_on(book, "stop", "more-than-held",
                       "%s: %s takes %s g of %s of %s, but only %s g of it is there%s%s%s%s%s%s. "
                       "Correct the mass that is wrong, or name another lot in from",
                       s->job, s->name, lml_book_grams(s->mass, mass), lot->what,
                       book->job[s->home].name, lml_book_grams(there, left), before ? ": " : "",
                       before ? book->job[before->job].name : "", before ? " took " : "",
                       before ? lml_book_grams(before->mass, earlier) : "", before ? " g on " : "",
                       before ? before->at : "");
}

/* Whether it is of this taker's metal and owner, and lies as such; `in` are lots as they came in,
 * of which only those are looked at that nothing weighed since. */
static bool fits(const lml_book *book, const lml_book_source *s, const lml_book_move *lot,
                 bool came_in)
{
    const lml_book_cell *cell = &book->cell[lot->cell];
    return lot->metal == s->metal && (lot->way == LML_BOOK_IN) == came_in &&
           (!s->owner || strcmp(cell->owner, s->owner) == 0) && lot->moment <= s->moment;
}

/* Why nothing fits. */
static void say_none(lml_book *book, const lml_book_source *s)
{
    const lml_book_move *lot = lot_at(book, s->first);
    const lml_book_cell *cell = &book->cell[lot->cell];
    const char *job = book->job[s->home].name;
    if (lot->metal != s->metal)
        lml_book_remark_on(book, "stop", "from-metal",
                           "%s: %s is entered as %s, but %s of %s as %s: name the same metal. "
                           "Nothing is taken off",
                           s->job, s->name, lml_metal_name(s->metal), lot->what, job,
                           lml_metal_name(lot->metal));
    else if (s->owner && strcmp(cell->owner, s->owner) != 0)
        lml_book_remark_on(book, "stop", "from-owner",
                           "%s: %s is entered as the metal of %s, but %s of %s belongs to %s: "
                           "correct the owner, or "
                           "name another lot in from. Nothing is taken off",
                           s->job, s->name, s->owner, lot->what, job, cell->owner);
    else
        lml_book_remark_on(book, "stop", "from-early",
                           "%s: %s was taken on %s, but %s of %s was first weighed on %s: correct "
                           "the moment that is wrong. Nothing is taken off",
                           s->job, s->name, s->taker ? s->taker->at : "", lot->what, job, lot->at);
}

const lml_book_move *lml_book_lots_next(const lml_book *book, const lml_book_source *s, size_t *i)
{
    bool weighed = false;
    for (size_t k = s->first; k < s->end; k++)
        weighed = weighed || lot_at(book, k)->way != LML_BOOK_IN;
    while (*i < s->end) {
        const lml_book_move *lot = lot_at(book, (*i)++);
        if ((lot->way != LML_BOOK_IN) == weighed)
            return lot;
    }
    return NULL;
}

int lml_book_lots_take(lml_book *book, const lml_book_source *source)
{
    int64_t wanted = source->mass;
    lml_book_move *last = NULL;
    const lml_book_move *before = NULL;
    for (int came_in = 0; came_in < 2 && !last; came_in++)
        for (size_t i = source->first; i < source->end; i++) {
            lml_book_move *lot = &book->move[book->lot[i]];
            if (!fits(book, source, lot, came_in))
                continue;
            last = lot;
            before = lot->taken ? lot->taken : before;
            int64_t part = lot->left > 0 ? least(lot->left, wanted) : 0;
            if (part > 0 && source->taker)
                draw(book, lot, part, source);
            wanted -= part;
        }
    if (!last) {
        say_none(book, source);
        return LML_BOOK_NONE;
    }
    if (wanted > 0) {
        say_more(book, source, last, before, source->mass - wanted);
        if (source->taker)
            draw(book, last, wanted, source);
    }
    return last->cell;
}
