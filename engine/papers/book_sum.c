/* The sums of a book: each weighing in the account of its owner, what is at a refiner's, and what a
 * charge counts on. */
#include "papers/book.h"

#include <stdlib.h>
#include <string.h>

/* What weighings of 0.02 g each explain between them: common practice, no source. */
static const int64_t DOUBT = 100000000; /* ng */
static const int64_t DAY = 86400;

/* ---- cells ---- */

static int by_account(const void *a, const void *b)
{
    const lml_book_cell *one = a, *other = b;
    int order = strcmp(one->owner, other->owner);
    order = order ? order : (int)one->metal - (int)other->metal;
    return order ? order : one->home - other->home;
}

static void put_cell(lml_book *book, const char *owner, lml_metal metal, int home)
{
    lml_book_cell *list = lml_book_more(book, book->cell, &book->cells, sizeof *list);
    if (!list)
        return;
    book->cell = list;
    list[book->cells.count - 1] = (lml_book_cell){.owner = owner, .metal = metal, .home = home};
}

static int find_cell(const lml_book *book, const char *owner, lml_metal metal, int home)
{
    lml_book_cell wanted = {.owner = owner, .metal = metal, .home = home};
    const lml_book_cell *found =
        bsearch(&wanted, book->cell, book->cells.count, sizeof wanted, by_account);
    return (int)(found - book->cell);
}

/* A cell for each owner, metal and job; what goes to the studio has one of the studio's too. */
static void make_cells(lml_book *book)
{
    size_t kept = 0;
    for (size_t i = 0; i < book->moves.count; i++) {
        const lml_book_move *m = &book->move[i];
        int home = book->job[m->job].home;
        put_cell(book, m->owner, m->metal, home);
        if (lml_book_to_studio(m->way))
            put_cell(book, LML_BOOK_STUDIO, m->metal, home);
    }
    if (book->status != LML_OK || book->cells.count == 0)
        return;
    qsort(book->cell, book->cells.count, sizeof *book->cell, by_account);
    for (size_t i = 0; i < book->cells.count; i++)
        if (kept == 0 || by_account(&book->cell[kept - 1], &book->cell[i]) != 0)
            book->cell[kept++] = book->cell[i];
    book->cells.count = kept;
    for (size_t i = 0; i < book->moves.count; i++) {
        lml_book_move *m = &book->move[i];
        const char *owner = lml_book_to_studio(m->way) ? LML_BOOK_STUDIO : m->owner;
        m->cell = find_cell(book, owner, m->metal, book->job[m->job].home);
    }
}

/* ---- parcels ---- */

static const lml_book_settlement *settlement_of(lml_book *book, const char *parcel)
{
    const lml_book_settlement *found = NULL;
    for (size_t i = 0; i < book->settlements.count; i++) {
        lml_book_settlement *s = &book->settlement[i];
        if (strcmp(s->parcel, parcel) != 0)
            continue;
        s->used = true;
        if (!found) {
            found = s;
        } else if (book->job[found->job].home != book->job[s->job].home ||
                   strcmp(found->found, s->found) != 0) {
            lml_book_remark_on(book, "stop", "settled-twice",
                               "%s was settled in %s with %s, and in %s with %s: the first is "
                               "counted. Take one of them out",
                               parcel, book->job[found->job].name, found->found,
                               book->job[s->job].name, s->found);
        }
    }
    return found;
}

/* The parcel that a weighing went into; parcels are few. */
static lml_book_parcel *parcel_of(lml_book *book, const lml_book_move *m)
{
    for (size_t i = 0; i < book->parcels.count; i++)
        if (book->parcel[i].metal == m->metal && strcmp(book->parcel[i].name, m->what) == 0)
            return &book->parcel[i];
    lml_book_parcel *list = lml_book_more(book, book->parcel, &book->parcels, sizeof *list);
    if (!list)
        return NULL;
    book->parcel = list;
    list[book->parcels.count - 1] = (lml_book_parcel){
        .name = m->what, .metal = m->metal, .settled = settlement_of(book, m->what)};
    return &list[book->parcels.count - 1];
}

static void send(lml_book *book, const lml_book_move *m, lml_book_cell *cell)
{
    lml_book_parcel *p = parcel_of(book, m);
    if (!p)
        return;
    lml_book_add(book, &p->fine, m->fine);
    p->last = m;
    lml_book_add(book, p->settled ? &cell->settled : &cell->sent, m->fine);
    if (p->settled && p->settled->moment < m->moment)
        lml_book_remark_on(book, "stop", "sent-late",
                           "%s: %s was sent on %s, and a parcel of that name was settled on %s: "
                           "give each parcel a name of its own",
                           book->job[m->job].name, m->what, m->at, p->settled->at);
}

static void say_unsent(lml_book *book)
{
    for (size_t i = 0; i < book->settlements.count; i++) {
        const lml_book_settlement *s = &book->settlement[i];
        if (!s->used && s->parcel[0])
            lml_book_remark_on(book, "note", "unsent",
                               "%s: %s is settled, and no record has sent it (way sent): what it "
                               "was made of is still where it was weighed last",
                               book->job[s->job].name, s->parcel);
    }
}

/* ---- weighings ---- */

static bool goes_out(lml_book_way way)
{
    return way == LML_BOOK_RETURNED || way == LML_BOOK_KEPT || way == LML_BOOK_SENT;
}

/* Whether this way may have been taken from a lot, of its own job or of another. */
static bool may_take(lml_book *book, const lml_book_move *m, bool own)
{
    bool comes_in = m->way == LML_BOOK_IN || m->way == LML_BOOK_ADDED;
    if (goes_out(m->way) || comes_in != own)
        return true;
    lml_book_remark_on(book, "stop", "from-way",
                       own ? "%s: %s of %s has the way %s, but is taken from \"%s\" of the same "
                             "job, which already counts it. Within one job the way is piece, "
                             "returned, kept, settled, sent or here"
                           : "%s: %s of %s has the way %s, but is taken from \"%s\" of another "
                             "job. Bring that metal into this job first (in, or added), or enter "
                             "it as returned, kept or sent",
                       book->job[m->job].name, m->what, m->at, lml_book_way_name(m->way), m->from);
    return false;
}

/* The cell that the metal of a weighing is taken out of, or LML_BOOK_NONE. */
static int take(lml_book *book, const lml_book_move *m)
{
    bool added = m->way == LML_BOOK_ADDED;
    lml_book_source source = {.from = m->from,
                              .metal = m->metal,
                              .owner = added ? LML_BOOK_STUDIO : m->owner,
                              .moment = m->moment,
                              .mass = m->mass,
                              .taker = m,
                              .job = book->job[m->job].name,
                              .name = m->what};
    if (!lml_book_lots_find(book, m->job, &source))
        return LML_BOOK_NONE;
    if (!may_take(book, m, source.home == book->job[m->job].home))
        return LML_BOOK_NONE;
    return lml_book_lots_take(book, &source);
}

static void count(lml_book *book, lml_book_move *m)
{
    if (m->way == LML_BOOK_MELTED) /* it is in the work again: its lot has it no more */
        return;
    int from = m->from ? take(book, m) : LML_BOOK_NONE;
    if (m->way == LML_BOOK_SETTLED && from == LML_BOOK_NONE) { /* it would be there twice */
        m->left = m->left_fine = 0;
        return;
    }
    int home = book->job[m->job].home;
    lml_book_cell *own = &book->cell[find_cell(book, m->owner, m->metal, home)],
                  *source = from == LML_BOOK_NONE ? NULL : &book->cell[from],
                  *out = source ? source : own; /* what goes out goes out of that */
    bool of_same = source && strcmp(source->owner, own->owner) == 0;
    int64_t fine = m->fine;
    switch (m->way) {
    case LML_BOOK_IN:
    case LML_BOOK_ADDED:
        if (of_same) {
            lml_book_add(book, &source->moved, -fine);
            lml_book_add(book, &own->moved, fine);
        } else if (source) {
            lml_book_add(book, &source->to_others, fine);
            lml_book_add(book, &own->from_others, fine);
        } else {
            lml_book_add(book, m->way == LML_BOOK_IN ? &own->in : &own->added, fine);
        }
        break;
    case LML_BOOK_PIECE:
        lml_book_add(book, &out->piece, fine);
        break;
    case LML_BOOK_RETURNED:
        lml_book_add(book, &out->returned, fine);
        break;
    case LML_BOOK_SENT:
        send(book, m, out);
        break;
    case LML_BOOK_KEPT:
    case LML_BOOK_SETTLED: {
        lml_book_cell *studio = &book->cell[m->cell];
        bool already = lml_book_is_studio(out->owner);
        lml_book_add(book, already ? &out->moved : &out->to_others, already ? -fine : fine);
        lml_book_add(book, already ? &studio->moved : &studio->from_others, fine);
        lml_book_add(book, &studio->here, fine);
        break;
    }
    case LML_BOOK_HERE:
        lml_book_add(book, &own->here, fine);
        break;
    case LML_BOOK_MELTED:
        break;
    }
}

/* ---- what a charge counts on ---- */

/* A lot that its own job has taken already is planned no more. */
bool lml_book_is_taken(const lml_book *book, const lml_book_plan *p)
{
    for (size_t i = 0; i < book->moves.count; i++) {
        const lml_book_move *m = &book->move[i];
        if (m->from && book->job[m->job].home == book->job[p->job].home &&
            strcmp(m->from, p->from) == 0)
            return true;
    }
    return false;
}

static void check_plan(lml_book *book, const lml_book_plan *p)
{
    lml_book_source source = {.from = p->from,
                              .moment = book->cut,
                              .mass = p->mass,
                              .job = book->job[p->job].name,
                              .name = p->name};
    if (lml_book_is_taken(book, p) || !lml_book_lots_find(book, p->job, &source))
        return;
    source.metal = book->move[book->lot[source.first]].metal;
    lml_book_lots_take(book, &source);
}

/* A lot as it came in may have gone into the work since: nobody weighs what is left of it, so it is
 * seen at the end, by what the whole job comes to. */
static void say_overdrawn(lml_book *book)
{
    char fine[LML_BOOK_GRAMS];
    for (size_t i = 0; i < book->cells.count; i++) {
        const lml_book_cell *c = &book->cell[i];
        const lml_book_move *m = c->named;
        int64_t unweighed = lml_book_cell_unweighed(c);
        if (!m && unweighed < -DOUBT)
            lml_book_remark_on(book, "note", "appeared",
                               "%s: of %s %s g %s more was weighed there or went out than came in: "
                               "is something entered twice, or under another owner's name?",
                               book->job[c->home].name, c->owner, lml_book_grams(-unweighed, fine),
                               lml_metal_symbol(c->metal));
        if (m && unweighed < 0)
            lml_book_remark_on(book, "stop", "more-than-held",
                               "%s: with %s of %s, %s g %s more has gone out of %s than came in",
                               book->job[m->job].name, m->what, m->at,
                               lml_book_grams(-unweighed, fine), lml_metal_symbol(c->metal),
                               book->job[c->home].name);
    }
}

/* At the end of a day: what was weighed or went out on it, and had not come in by then. Within a
 * day the order of the entries says little, for a date may be without its hour. */
static void see_early(lml_book *book, size_t first, size_t end)
{
    for (size_t i = first; i < end; i++) {
        const lml_book_move *m = &book->move[i];
        lml_book_cell *c = &book->cell[find_cell(book, m->owner, m->metal, book->job[m->job].home)];
        int64_t unweighed = lml_book_cell_unweighed(c);
        if (m->way == LML_BOOK_IN || m->way == LML_BOOK_ADDED || m->twice || c->early ||
            unweighed >= -DOUBT)
            continue;
        c->early = m;
        c->short_by = -unweighed;
    }
}

/* What comes right in the end, and was not right on its day, has a wrong date. */
static void say_early(lml_book *book)
{
    char fine[LML_BOOK_GRAMS];
    for (size_t i = 0; i < book->cells.count; i++) {
        const lml_book_cell *c = &book->cell[i];
        const lml_book_move *m = c->early;
        if (m && !c->named && lml_book_cell_unweighed(c) >= -DOUBT)
            lml_book_remark_on(
                book, "stop", "early",
                "%s: on %s, %s g %s more left %s's account than had come in by "
                "then: correct the date of \"%s\", or of the entry that brought it in",
                book->job[m->job].name, m->at, lml_book_grams(c->short_by, fine),
                lml_metal_symbol(c->metal), c->owner, m->what);
    }
}

/* One thing that two owners brought into a job, or that came in twice. */
static void say_brought_twice(lml_book *book)
{
    char mass[LML_BOOK_GRAMS];
    for (size_t i = 0; i + 1 < book->lots.count; i++)
        for (size_t k = i + 1; k < book->lots.count; k++) {
            const lml_book_move *a = &book->move[book->lot[i]], *b = &book->move[book->lot[k]];
            if (book->job[a->job].home != book->job[b->job].home || strcmp(a->what, b->what) != 0)
                break;
            if (a->way != LML_BOOK_IN || b->way != LML_BOOK_IN || a->mass != b->mass ||
                a->metal != b->metal || a->from || b->from)
                continue;
            lml_book_remark_on(book, "stop", "brought-twice",
                               "%s: %s of %s g came in on %s for %s and on %s for %s, and both are "
                               "counted. If it is one thing, take one entry out; if there are two, "
                               "give each a name of its own",
                               book->job[b->job].name, b->what, lml_book_grams(a->mass, mass),
                               a->at, a->owner, b->at, b->owner);
        }
}

/* What the job that asks has taken already of what it plans is there for it. */
static bool is_its_own(const lml_book *book, const lml_book_move *m)
{
    if (book->asker == LML_BOOK_NONE || !m->from ||
        book->job[m->job].home != book->job[book->asker].home)
        return false;
    for (size_t i = 0; i < book->plans.count; i++)
        if (book->plan[i].job == book->asker && strcmp(book->plan[i].from, m->from) == 0)
            return true;
    return false;
}

void lml_book_sum(lml_book *book)
{
    make_cells(book);
    lml_book_lots(book);
    if (book->status != LML_OK)
        return;
    say_brought_twice(book);
    for (size_t i = 0, first = 0, size = book->moves.count; i < size; i++) {
        lml_book_move *m = &book->move[i];
        if (!m->twice && !is_its_own(book, m))
            count(book, m);
        if (i + 1 < size && m[1].moment / DAY == m->moment / DAY)
            continue;
        see_early(book, first, i + 1);
        first = i + 1;
    }
    for (size_t i = 0; i < book->plans.count; i++)
        check_plan(book, &book->plan[i]);
    lml_book_lots_as_brought(book);
    say_early(book);
    say_overdrawn(book);
    say_unsent(book);
}
