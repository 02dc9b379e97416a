/* What a book takes out of each job's text. */
#include "file/shapes.h"
#include "file/standing.h"
#include "papers/book.h"
#include "read/read.h"
#include "value/moment.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NANOGRAMS = 1e12;   /* in a kilogram */
static const double MOST_WEIGHED = 100; /* kg: more than that is a slip of the unit */
static const int64_t DAY = 86400;

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

/* ---- a record ---- */

static lml_status read_moment(const lml_json *node, int64_t *out, lml_error *err)
{
    lml_value v;
    lml_status status = lml_read_value(lml_json_text(node), LML_WANT_MOMENT, LML_NO_METAL, &v, err);
    *out = status == LML_OK ? v.exact : 0;
    return lml_json_place(node, status, err);
}

/* Whole nanograms, and the share of a metal where there is one. */
static lml_status read_mass(const lml_json *node, int64_t *out, lml_error *err)
{
    lml_value v;
    lml_status status = lml_read_value(lml_json_text(node), LML_WANT_MASS, LML_NO_METAL, &v, err);
    if (status != LML_OK)
        return lml_json_place(node, status, err);
    if (v.amount > MOST_WEIGHED)
        return lml_json_fail(node, err, LML_BAD_VALUE,
                             "more than 100 kg at one time cannot be right in a studio: check the "
                             "figure and its unit");
    *out = (int64_t)floor(v.amount * NANOGRAMS + 0.5);
    return LML_OK;
}

static lml_book_way way_of(lml_span name)
{
    int way = LML_BOOK_IN;
    while (way < LML_BOOK_HERE && !lml_span_is(name, lml_book_way_name((lml_book_way)way)))
        way++;
    return (lml_book_way)way;
}

/* An entry that counts and does not say of whom, or of how much, is left out, and said so; one that
 * settles, or melts again, says out of what. */
static bool is_whole(lml_book *book, int job, const lml_json *entry)
{
    static const char *const due[] = {"owner", "mass", "fineness", "from"};
    lml_span way = text_of(entry, "way");
    bool out_of = lml_span_is(way, lml_book_way_name(LML_BOOK_SETTLED)) ||
                  lml_span_is(way, lml_book_way_name(LML_BOOK_MELTED));
    for (int i = 0; i < (out_of ? 4 : 3); i++) {
        if (lml_json_member(entry, due[i]))
            continue;
        lml_span what = text_of(entry, "what"), at = text_of(entry, "at");
        lml_book_remark_on(book, "stop", "unsaid",
                           "%s: %.*s of %.*s has a way and no %s, so it is left out of the book",
                           book->job[job].name, LML_SPAN_SHOWN(what), LML_SPAN_SHOWN(at), due[i]);
        return false;
    }
    return true;
}

static lml_status add_move(lml_book *book, int job, int order, const lml_json *entry,
                           int64_t moment, lml_error *err)
{
    const lml_json *fineness = lml_json_member(entry, "fineness"),
                   *from = lml_json_member(entry, "from");
    lml_value fine;
    lml_book_move m = {.job = job, .order = order, .moment = moment};
    if (!is_whole(book, job, entry))
        return LML_OK;
    lml_status status = read_mass(lml_json_member(entry, "mass"), &m.mass, err);
    if (status == LML_OK)
        status = lml_shape_value(lml_shape_field(&lml_shapes_record_entry, "fineness"), fineness,
                                 &fine, err);
    if (status != LML_OK)
        return status;
    m.metal = (lml_metal)fine.metal;
    m.fine = (int64_t)floor((double)m.mass * fine.amount + 0.5);
    m.way = way_of(text_of(entry, "way"));
    m.at = lml_book_copy(book, text_of(entry, "at"));
    m.what = lml_book_copy(book, text_of(entry, "what"));
    m.owner = lml_book_copy(book, text_of(entry, "owner"));
    m.fineness = lml_book_copy(book, lml_json_text(fineness));
    m.from = from ? lml_book_copy(book, lml_json_text(from)) : NULL;
    m.left = m.mass;
    m.left_fine = m.fine;
    lml_book_move *list = lml_book_more(book, book->move, &book->moves, sizeof m);
    if (list) {
        book->move = list;
        list[book->moves.count - 1] = m;
    }
    return LML_OK;
}

/* What comes out of the work, or is called so on the sheets: then what was brought is no more. */
static bool is_worked(lml_span what, lml_span way)
{
    static const char *const at_the_bench[] = {"charge", "poured", "tree", "raw casting"};
    if (lml_span_is(way, "piece") || lml_span_is(way, "kept") || lml_span_is(way, "settled"))
        return true;
    if (way.length > 0)
        return lml_span_is(way, "here") && !lml_span_starts(what, "rest of ");
    for (size_t i = 0; i < sizeof at_the_bench / sizeof *at_the_bench; i++)
        if (lml_span_is(what, at_the_bench[i]))
            return true;
    return false;
}

/* An entry with a source and no way takes nothing off its source. */
static void say_no_way(lml_book *book, int job, const lml_json *entry)
{
    lml_span what = text_of(entry, "what"), at = text_of(entry, "at"),
             from = text_of(entry, "from");
    lml_book_remark_on(book, "stop", "no-way",
                       "%s: %.*s of %.*s is taken from \"%.*s\", but has no way, so nothing is "
                       "taken off. Give its way: in or added if the metal went into this job; "
                       "piece, returned, kept, settled, sent or here if it stays out of the melt",
                       book->job[job].name, LML_SPAN_SHOWN(what), LML_SPAN_SHOWN(at),
                       LML_SPAN_SHOWN(from));
}

static void read_name(lml_book *book, int job, const lml_json *entry)
{
    lml_span what = text_of(entry, "what"), way = text_of(entry, "way");
    if (lml_span_is(way, "in"))
        return;
    book->job[job].worked =
        book->job[job].worked || (is_worked(what, way) && lml_standing_is(entry));
    lml_book_name *list = lml_book_more(book, book->name, &book->names, sizeof *list);
    if (list) {
        book->name = list;
        list[book->names.count - 1] = (lml_book_name){job, lml_book_copy(book, what)};
    }
}

/* Whether a later entry, no later than the book, replaces this one. */
static bool is_corrected(const lml_book *book, const lml_json *entry)
{
    lml_span at = text_of(entry, "at"), what = text_of(entry, "what"), way = text_of(entry, "way");
    for (const lml_json *e = lml_json_next(entry); e; e = lml_json_next(e)) {
        int64_t moment;
        if (lml_span_equal(text_of(e, "corrects"), at) && at.length > 0 &&
            lml_span_equal(text_of(e, "what"), what) && lml_span_equal(text_of(e, "way"), way) &&
            read_moment(lml_json_member(e, "at"), &moment, NULL) == LML_OK && moment <= book->cut)
            return true;
    }
    return false;
}

static lml_status read_record(lml_book *book, int job, const lml_json *record, lml_error *err)
{
    int order = 0;
    lml_book_job *j = &book->job[job];
    for (const lml_json *e = lml_json_first(record); e; e = lml_json_next(e), order++) {
        int64_t moment;
        lml_status status = read_moment(lml_json_member(e, "at"), &moment, err);
        if (status == LML_OK && moment > book->cut)
            continue;
        if (status == LML_OK && lml_json_member(e, "mass") && (!j->last_at || moment >= j->last)) {
            j->last = moment;
            j->last_at = lml_book_copy(book, text_of(e, "at"));
            j->last_what = lml_book_copy(book, text_of(e, "what"));
        }
        if (status == LML_OK)
            read_name(book, job, e);
        if (status == LML_OK && lml_json_member(e, "way") && is_corrected(book, e))
            continue;
        if (status == LML_OK && lml_json_member(e, "way"))
            status = add_move(book, job, order, e, moment, err);
        else if (status == LML_OK && lml_json_member(e, "from") && lml_json_member(e, "mass"))
            say_no_way(book, job, e);
        if (status != LML_OK)
            return status;
    }
    return LML_OK;
}

/* ---- what else a job says ---- */

static void read_shares(lml_book *book, lml_book_job *job, const lml_json *shares)
{
    for (const lml_json *lot = lml_json_first(shares); lot; lot = lml_json_next(lot))
        for (const lml_json *m = lml_json_first(lot); m; m = lml_json_next(m)) {
            lml_book_share *share = lml_alloc_get(&book->memory, sizeof *share);
            if (!share) {
                book->status = LML_NO_MEMORY;
                return;
            }
            *share = (lml_book_share){.lot = lml_book_copy(book, lml_json_name(lot)),
                                      .member = lml_book_copy(book, lml_json_name(m)),
                                      .next = job->shares};
            job->shares = share;
        }
}

static lml_status read_settlements(lml_book *book, int job, const lml_json *list,
                                   const lml_json *date, lml_error *err)
{
    for (const lml_json *s = lml_json_first(list); s; s = lml_json_next(s)) {
        lml_book_settlement one = {.job = job,
                                   .parcel = lml_book_copy(book, text_of(s, "lot")),
                                   .found = lml_book_copy(book, text_of(s, "found")),
                                   .at = lml_book_copy(book, lml_json_text(date))};
        lml_status status = date ? read_moment(date, &one.moment, err) : LML_OK;
        if (status != LML_OK)
            return status;
        if (one.moment > book->cut)
            continue;
        lml_book_settlement *grown =
            lml_book_more(book, book->settlement, &book->settlements, sizeof one);
        if (grown) {
            book->settlement = grown;
            grown[book->settlements.count - 1] = one;
        }
    }
    return LML_OK;
}

static lml_status read_plans(lml_book *book, int job, const lml_json *lots, lml_error *err)
{
    for (const lml_json *l = lml_json_first(lots); l; l = lml_json_next(l)) {
        const lml_json *mass = lml_json_member(l, "mass");
        lml_span from = text_of(l, "from");
        lml_book_plan one = {.job = job};
        if (from.length == 0 || !mass)
            continue;
        lml_status status = read_mass(mass, &one.mass, err);
        if (status != LML_OK)
            return status;
        one.from = lml_book_copy(book, from);
        one.name = lml_book_copy(book, text_of(l, "name"));
        one.owner = lml_json_member(l, "owner") ? lml_book_copy(book, text_of(l, "owner"))
                                                : LML_BOOK_STUDIO;
        lml_book_plan *grown = lml_book_more(book, book->plan, &book->plans, sizeof one);
        if (grown) {
            book->plan = grown;
            grown[book->plans.count - 1] = one;
        }
    }
    return LML_OK;
}

/* The inputs of a job's recipe, or of its closing's. */
static lml_status read_given(lml_book *book, int job, const lml_json *given, const lml_json *date,
                             lml_error *err)
{
    lml_book_job *j = &book->job[job];
    read_shares(book, j, lml_json_member(given, "shares"));
    if (lml_json_member(given, "button_to")) /* the closing says what was agreed since */
        j->studio_button = lml_book_is_studio(text_of(given, "button_to").at);
    if (lml_json_member(given, "lemel_to"))
        j->studio_lemel = lml_book_is_studio(text_of(given, "lemel_to").at);
    lml_status status = read_plans(book, job, lml_json_member(given, "lots"), err);
    if (status != LML_OK)
        return status;
    return read_settlements(book, job, lml_json_member(given, "settlements"), date, err);
}

static lml_status read_job(lml_book *book, int job, lml_error *err)
{
    const lml_source *source = book->job[job].source;
    lml_json_document *doc = NULL;
    lml_status status = lml_json_read(book->alloc, (lml_span){source->text, source->length}, NULL,
                                      source->shown, &doc, err);
    const lml_json *root = doc ? lml_json_root(doc) : NULL;
    const lml_json *date = lml_json_member(root, "date"),
                   *closing = lml_json_member(root, "closing"),
                   *end = lml_json_member(closing, "date");
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, root, err);
    if (status == LML_OK) {
        book->job[job].client = lml_book_copy(book, text_of(root, "client"));
        status = read_record(book, job, lml_json_member(root, "record"), err);
    }
    if (status == LML_OK)
        status = read_given(book, job, lml_json_member(root, "given"), date, err);
    if (status == LML_OK)
        status = read_given(book, job, lml_json_member(closing, "given"), end ? end : date, err);
    lml_json_free(doc);
    return status;
}

/* ---- all of them ---- */

lml_span lml_book_name_of(const char *shown)
{
    const char *slash = strrchr(shown, '/');
    lml_span name = lml_span_of(slash ? slash + 1 : shown);
    if (name.length > 5 && strcmp(name.at + name.length - 5, ".json") == 0)
        name.length -= 5;
    return name;
}

static int by_name(const void *a, const void *b)
{
    const lml_book_job *one = a, *other = b;
    int order = strcmp(one->name, other->name);
    return order ? order : strcmp(one->source->shown, other->source->shown);
}

/* Two files of one name are one file named twice, or ambiguous. */
static lml_status drop_doubles(lml_book *book, lml_error *err)
{
    size_t kept = 0;
    for (size_t i = 0; i < book->jobs.count; i++) {
        lml_book_job *j = &book->job[i], *before = kept ? &book->job[kept - 1] : NULL;
        if (!before || strcmp(before->name, j->name) != 0) {
            book->job[kept++] = *j;
            continue;
        }
        const lml_source *a = before->source, *b = j->source;
        if (a->length == b->length && memcmp(a->text, b->text, a->length) == 0)
            continue;
        lml_fail(err, LML_BAD_DATA, "%s and %s are two jobs of one name", a->shown, b->shown);
        lml_error_hint(err, "rename one of them: a record names the job that metal was taken from "
                            "by its file's name");
        return LML_BAD_DATA;
    }
    book->jobs.count = kept;
    return LML_OK;
}

static lml_status read_cut(lml_book *book, lml_error *err)
{
    lml_value v;
    book->cut = LML_MOMENT_LAST;
    if (!book->at)
        return LML_OK;
    lml_status status =
        lml_read_value(lml_span_of(book->at), LML_WANT_MOMENT, LML_NO_METAL, &v, err);
    if (status != LML_OK)
        return lml_error_context(err, status, "in the date of the book");
    book->cut = v.exact + (v.mode == LML_DATE_ONLY ? DAY - 1 : 0);
    return LML_OK;
}

lml_status lml_book_read(lml_book *book, const lml_source *jobs, size_t count, lml_error *err)
{
    lml_status status = read_cut(book, err);
    for (size_t i = 0; i < count && status == LML_OK; i++) {
        lml_book_job *list = lml_book_more(book, book->job, &book->jobs, sizeof *list);
        if (!list)
            break;
        book->job = list;
        list[i] = (lml_book_job){.name = lml_book_copy(book, lml_book_name_of(jobs[i].shown)),
                                 .source = &jobs[i],
                                 .next = LML_BOOK_NONE};
    }
    if (status != LML_OK || book->status != LML_OK)
        return status;
    qsort(book->job, book->jobs.count, sizeof *book->job, by_name);
    status = drop_doubles(book, err);
    for (size_t i = 0; i < book->jobs.count && status == LML_OK; i++)
        status = read_job(book, (int)i, err);
    return status;
}
