#include "trial/uncertain.h"

#include "trial/readings.h"

#include "base/decimal.h"
#include "base/real.h"
#include "craft/chance.h"
#include "file/digest.h"
#include "papers/given.h"
#include "read/read.h"
#include "value/wanted.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char PLUS_MINUS[] = "\302\261";

lml_uncertain lml_uncertain_on(const lml_alloc *alloc)
{
    return (lml_uncertain){.alloc = alloc};
}

void lml_uncertain_free(lml_uncertain *u)
{
    lml_alloc_free(u->alloc, u->item, u->room * sizeof *u->item);
    lml_json_free(u->job);
    *u = lml_uncertain_on(u->alloc);
}

/* ---- reading ---- */

static const char *find(lml_span text, const char *what)
{
    size_t length = strlen(what);
    for (size_t i = 0; i + length <= text.length; i++)
        if (memcmp(text.at + i, what, length) == 0)
            return text.at + i;
    return NULL;
}

/* "562 ‰" is a fineness, which has an end at 1000 ‰, and not a ratio, which has none. */
static bool read_as(bool fineness, lml_span text, lml_value *out)
{
    return lml_read_value(text, fineness ? LML_WANT_FINENESS : LML_WANT_ANYTHING,
                          fineness ? LML_Au : LML_NO_METAL, out, NULL) == LML_OK;
}

/* Where the unit of "2 1/2 dwt" begins: at the first letter that is none of an exponent. */
static const char *unit_of(lml_span text)
{
    size_t i = 0;
    while (i < text.length) {
        char c = text.at[i];
        bool number = lml_ascii_is_digit(c) || strchr("+-./ ", c);
        bool exponent = (c == 'e' || c == 'E') && i > 0 && lml_ascii_is_digit(text.at[i - 1]) &&
                        i + 1 < text.length &&
                        (lml_ascii_is_digit(text.at[i + 1]) || strchr("+-", text.at[i + 1]));
        if (!number && !exponent)
            break;
        i++;
    }
    return text.at + i;
}

static double in_unit(const lml_value *v)
{
    return v->kind == LML_MONEY ? (double)v->exact / 1e6 : lml_write_in_unit(v);
}

static bool is_positive(const lml_value *v)
{
    for (int w = 0; w < LML_WANTED_COUNT; w++)
        if (lml_wanted_nothing((lml_wanted)w) && lml_wanted_check((lml_wanted)w, v, NULL) == LML_OK)
            return true;
    return false;
}

/* Cut a text with a spread into its parts; false for any other. */
static bool cut(lml_span text, lml_uncertain_item *out)
{
    const char *end = text.at + text.length, *mark = find(text, PLUS_MINUS);
    lml_value v, middle;
    double low = 0, high = 0;
    if (!mark)
        mark = find(text, "+-");
    if (!mark && !find(text, ".."))
        return false;
    out->fineness = find(text, "\342\200\260") && read_as(true, text, &v);
    if ((!out->fineness && !read_as(false, text, &v)) || v.spread == LML_NO_SPREAD)
        return false;
    out->between = v.spread == LML_BETWEEN;
    out->positive = is_positive(&v);
    lml_write_spread_in_unit(&v, &low, &high);
    if (out->between) {
        out->middle = low + (high - low) / 2;
        out->deviation = (high - low) / sqrt(12);
        out->unit = lml_span_between(unit_of(text), end);
        out->spread = (lml_span){"", 0};
        return high > low;
    }
    lml_span before = lml_span_trim(lml_span_between(text.at, mark));
    if (!read_as(out->fineness, before, &middle))
        middle = v; /* a currency that comes after the spread alone */
    out->middle = in_unit(&middle);
    out->deviation = low;
    out->unit = lml_span_between(unit_of(before), before.at + before.length);
    out->spread = lml_span_between(mark, end);
    return low > 0;
}

/* The same of a text without a spread. */
static bool cut_plain(lml_span text, lml_uncertain_item *out)
{
    lml_value v;
    out->fineness = find(text, "\342\200\260") && read_as(true, text, &v);
    if ((!out->fineness && !read_as(false, text, &v)) || v.spread != LML_NO_SPREAD)
        return false;
    out->positive = is_positive(&v);
    out->middle = in_unit(&v);
    out->unit = lml_span_between(unit_of(text), text.at + text.length);
    out->spread = (lml_span){"", 0};
    return true;
}

static lml_status add_item(lml_uncertain *u, const lml_uncertain_item *new, lml_error *err)
{
    if (u->count == LML_UNCERTAIN_MOST) {
        lml_fail(err, LML_LIMIT, "the job has more than %d figures with a spread",
                 LML_UNCERTAIN_MOST);
        lml_error_hint(err, "leave the spread out where it is small, or split the job");
        return LML_LIMIT;
    }
    if (u->count == u->room) {
        size_t room = u->room ? 2 * u->room : 16;
        lml_uncertain_item *moved =
            lml_alloc_resize(u->alloc, u->item, u->room * sizeof *moved, room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY, "out of memory for what is uncertain");
        u->item = moved;
        u->room = room;
    }
    u->item[u->count++] = *new;
    return LML_OK;
}

/* Where the walk is: the setting of the house, the nearest name, the assay of the record. */
typedef struct place {
    const lml_json *of_house;
    lml_span name, assay;
    const lml_json *within; /* the record that it is a member of */
    size_t whole;           /* which adds up to the whole: counted from 1; else 0 */
    const char *path;
} place;

/* That of another item of the assay, or a new one. */
static size_t source_of(lml_uncertain *u, lml_span assay)
{
    for (size_t i = 0; i < u->count && assay.length > 0; i++)
        if (lml_span_equal(u->item[i].assay, assay))
            return u->item[i].source;
    return u->sources++;
}

/* A median whose record says how wide its logarithm spreads: what past jobs taught. */
static bool cut_learned(const place *at, const lml_json *node, lml_uncertain_item *out)
{
    lml_value spread;
    lml_span text = lml_json_text(lml_json_member(at->within, "spread"));
    if (!lml_span_is(lml_json_name(node), "median") || text.length == 0 ||
        !cut_plain(lml_json_text(node), out) || !read_as(false, text, &spread))
        return false;
    out->logarithm = true;
    out->deviation = spread.amount;
    return spread.kind == LML_QUANTITY && lml_dimension_none(spread.dimension) && spread.amount > 0;
}

static lml_status look_at(lml_uncertain *u, const lml_json *node, const place *at, lml_error *err)
{
    lml_uncertain_item item = {.node = node, .of_house = at->of_house, .name = at->name};
    item.counted = at->of_house ? NULL : lml_readings_of(lml_json_root(u->job), at->path);
    bool has_readings = lml_json_kind_of(item.counted) == LML_JSON_LIST;
    bool has_spread = cut(lml_json_text(node), &item) || cut_learned(at, node, &item) ||
                      (has_readings && cut_plain(lml_json_text(node), &item));
    item.whole = at->whole;
    item.follows = !has_spread;
    if (!has_spread && !(at->whole && cut_plain(lml_json_text(node), &item)))
        return LML_OK;
    snprintf(item.path, sizeof item.path, "%s", at->path);
    if (lml_span_is(lml_json_name(node), "fineness"))
        item.assay = at->assay;
    item.source = item.follows ? SIZE_MAX : source_of(u, item.assay);
    return add_item(u, &item, err);
}

static const double WHOLE = 1000; /* in the unit in which a composition is drawn */

static bool is_per_mille(const lml_uncertain_item *item)
{
    return item->fineness && lml_span_is(lml_span_trim(item->unit), "\342\200\260");
}

/* ‰ by which parts that are written to whole per mille may miss the whole: half of one. What misses
 * it by more has another part, which nobody named. */
static const double WRITTEN_WHOLE = 0.5;

/* Whether the members are the parts of a composition in ‰ that adds up to the whole, and one has a
 * spread. */
static bool is_whole(const lml_json *record)
{
    double sum = 0;
    bool any = false;
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m)) {
        lml_uncertain_item part = {.node = m};
        bool spread = cut(lml_json_text(m), &part);
        if ((!spread && !cut_plain(lml_json_text(m), &part)) || !is_per_mille(&part))
            return false;
        any = any || spread;
        sum += part.middle;
    }
    return any && fabs(sum - WHOLE) <= WRITTEN_WHOLE;
}

static lml_status walk(lml_uncertain *u, const lml_json *node, const place *from, lml_error *err)
{
    lml_json_kind kind = lml_json_kind_of(node);
    if (kind == LML_JSON_TEXT)
        return look_at(u, node, from, err);
    if (kind != LML_JSON_RECORD && kind != LML_JSON_LIST)
        return LML_OK;
    char path[LML_UNCERTAIN_PATH];
    place inside = *from;
    inside.path = path;
    if (kind == LML_JSON_RECORD) {
        lml_span name = lml_json_text(lml_json_member(node, "name"));
        inside.name = name.length > 0 ? name : from->name;
        inside.assay = lml_json_text(lml_json_member(node, "assay"));
        inside.within = node;
        inside.whole = is_whole(node) ? ++u->wholes : 0;
    }
    lml_status status = LML_OK;
    size_t index = 0;
    for (const lml_json *m = lml_json_first(node); m && status == LML_OK; m = lml_json_next(m)) {
        if (kind == LML_JSON_RECORD)
            snprintf(path, sizeof path, "%s%s%s", from->path, from->path[0] ? "." : "",
                     lml_json_name(m).at);
        else
            snprintf(path, sizeof path, "%s[%zu]", from->path, index++);
        status = walk(u, m, &inside, err);
    }
    return status;
}

static lml_status walk_house(lml_uncertain *u, const lml_json *house, lml_error *err)
{
    char path[LML_UNCERTAIN_PATH];
    const lml_json *job = lml_json_root(u->job);
    const lml_json *of_job =
        lml_json_member(u->closing ? lml_json_member(job, "closing") : job, "house");
    lml_status status = LML_OK;
    for (const lml_json *m = lml_json_first(house); m && status == LML_OK; m = lml_json_next(m)) {
        if (lml_json_member(of_job, lml_json_name(m).at))
            continue; /* the job says otherwise */
        snprintf(path, sizeof path, "house.json: %s", lml_json_name(m).at);
        place at = {.of_house = m, .path = path};
        status = walk(u, m, &at, err);
    }
    return status;
}

/* What the draws depend on. */
static void take_seed(lml_uncertain *u)
{
    lml_digest d = lml_digest_start();
    unsigned char bytes[LML_DIGEST_BYTES];
    for (size_t i = 0; i < u->count; i++) {
        if (u->item[i].follows)
            continue;
        lml_digest_add(&d, lml_span_of(u->item[i].path));
        lml_digest_add(&d, lml_span_of("\n"));
        lml_digest_add(&d, lml_json_text(u->item[i].node));
        lml_digest_add(&d, lml_span_of("\n"));
        if (u->item[i].counted)
            lml_digest_add(&d, lml_json_raw(u->item[i].counted));
    }
    lml_digest_finish(&d, bytes);
    for (int s = 0; s < 2; s++) {
        u->seed[s] = 0;
        for (int i = 0; i < 8; i++)
            u->seed[s] = u->seed[s] << 8 | bytes[8 * s + i];
    }
}

lml_status lml_uncertain_find(lml_uncertain *u, lml_span job, const char *shown,
                              const lml_json *house, lml_error *err)
{
    static const char *const parts[] = {"given", "house", "record", "closing"};
    const size_t count = sizeof parts / sizeof parts[0] - !u->closing;
    lml_status status = lml_json_read(u->alloc, job, NULL, shown, &u->job, err);
    if (status != LML_OK) {
        u->job = NULL;
        return status;
    }
    u->text = lml_json_source_text(u->job);
    for (const lml_json *m = lml_json_first(lml_json_root(u->job)); m && status == LML_OK;
         m = lml_json_next(m))
        for (size_t p = 0; p < count && status == LML_OK; p++)
            if (lml_span_is(lml_json_name(m), parts[p])) {
                place at = {.path = p == 0 ? "" : parts[p]};
                status = walk(u, m, &at, err);
            }
    if (status == LML_OK && house)
        status = walk_house(u, house, err);
    if (status == LML_OK)
        status = lml_readings_join(u, err);
    take_seed(u);
    return status;
}

/* Without gaps, in the order of the items. */
static void number_sources(lml_uncertain *u)
{
    size_t was[LML_UNCERTAIN_MOST], known = 0;
    for (size_t i = 0; i < u->count; i++) {
        size_t s = 0;
        if (u->item[i].follows)
            continue;
        while (s < known && was[s] != u->item[i].source)
            s++;
        if (s == known)
            was[known++] = u->item[i].source;
        u->item[i].source = s;
        if (u->item[i].set)
            u->set[u->item[i].set - 1].source[u->item[i].row] = s;
    }
    u->sources = known;
}

void lml_uncertain_keep(lml_uncertain *u, bool (*reads)(const void *self, lml_span setting),
                        const void *self)
{
    size_t kept = 0;
    for (size_t i = 0; i < u->count; i++) {
        lml_uncertain_item *item = &u->item[i];
        if (item->of_house && !reads(self, lml_json_name(item->of_house)))
            continue;
        u->item[kept++] = *item;
    }
    u->count = kept;
    number_sources(u);
    take_seed(u);
}

/* ---- chance ---- */

/* The last step of splitmix64 (Steele, Lea, Flood 2014): every bit of x moves every bit of the
 * answer. From memory, unverified; that the numbers are even and independent is tested. */
static uint64_t mix(uint64_t x)
{
    x = (x ^ x >> 30) * 0xBF58476D1CE4E5B9u;
    x = (x ^ x >> 27) * 0x94D049BB133111EBu;
    return x ^ x >> 31;
}

/* Even between 0 and 1, neither of them. */
static double even(const lml_uncertain *u, uint64_t draw, uint64_t source, uint64_t again)
{
    const uint64_t step = 0x9E3779B97F4A7C15u; /* 2^64 over the golden ratio */
    uint64_t x = mix(u->seed[0] + (draw + 1) * step);
    x = mix(x ^ (u->seed[1] + (source + 1) * step));
    x = mix(x + (again + 1) * step);
    return ((double)(x >> 11) + 0.5) / 9007199254740992.0;
}

static void write_amount(const lml_uncertain_item *item, double amount, lml_builder *out)
{
    char number[LML_NUMBER_TEXT];
    lml_decimal_write_double(amount, number);
    lml_builder_add_text(out, number);
    if (item->unit.length > 0)
        lml_builder_add_char(out, ' ');
    lml_builder_add_span(out, item->unit);
    if (item->between || item->spread.length > 0)
        lml_builder_add_char(out, ' ');
    if (item->between) {
        lml_decimal_write_double(item->deviation, number);
        lml_builder_add_format(out, "%s %s ", PLUS_MINUS, number);
        lml_builder_add_span(out, item->unit);
    } else {
        lml_builder_add_span(out, item->spread);
    }
}

/* Whether so much can be. Where memory is short, which `room` remembers, that is not known, and
 * nothing else is tried. */
static bool can_be(const lml_uncertain_item *item, double amount, lml_builder *room)
{
    lml_value v;
    if (item->positive && item->middle > 0 && amount < 0)
        return false;
    room->length = 0;
    write_amount(item, amount, room);
    return room->status != LML_OK || read_as(item->fineness, lml_builder_span(room), &v);
}

/* Normal, by the polar method (Marsaglia and Bray 1964; Knuth, The Art of Computer Programming,
 * 3.4.1, algorithm P): two even numbers within a circle. `again` has room for many tries. */
static double normal(const lml_uncertain *u, uint64_t draw, uint64_t source, uint64_t again)
{
    for (uint64_t try = again << 20;; try += 2) {
        double a = 2 * even(u, draw, source, try) - 1, b = 2 * even(u, draw, source, try + 1) - 1;
        double square = a * a + b * b;
        if (square > 0 && square < 1)
            return a * sqrt(-2 * lml_real_log(square) / square);
    }
}

/* Where an item lies, in its standard deviations from the middle. `z` has where each source lies of
 * a normal distribution. */
static double off(const lml_uncertain *u, const lml_uncertain_item *item, const double *z)
{
    if (!item->set)
        return item->between ? sqrt(12) * (lml_chance_normal(z[item->source]) - 0.5)
                             : z[item->source];
    const lml_uncertain_set *set = &u->set[item->set - 1];
    double sum = 0;
    for (size_t k = 0; k <= item->row; k++)
        sum += set->load[item->row][k] * z[set->source[k]];
    return sum;
}

static double amount_at(const lml_uncertain_item *item, double by)
{
    if (item->logarithm)
        return item->middle * lml_real_exp(item->deviation * by);
    return item->middle + item->deviation * by;
}

/* Of a set, or of the source that stands alone. */
static bool all_can_be(const lml_uncertain *u, size_t set, size_t source, const double *z,
                       lml_builder *room)
{
    for (size_t i = 0; i < u->count; i++) {
        const lml_uncertain_item *item = &u->item[i];
        bool is_asked = set ? item->set == set : item->source == source;
        if (is_asked && !can_be(item, amount_at(item, off(u, item, z)), room))
            return false;
    }
    return true;
}

/* In the middle where nothing else can be, ever again. */
static void place_source(const lml_uncertain *u, uint64_t draw, size_t source, double *z,
                         lml_builder *room)
{
    for (uint64_t again = 0; again < LML_UNCERTAIN_AGAIN; again++) {
        z[source] = normal(u, draw, source, again);
        if (all_can_be(u, 0, source, z, room))
            return;
    }
    z[source] = 0;
}

/* The sum of so many squares of normal numbers: of two, twice the logarithm of an even number. */
static double sum_of_squares(const lml_uncertain *u, uint64_t draw, size_t source, uint64_t again,
                             unsigned count)
{
    const uint64_t first = (again << 20) + (1 << 19); /* beyond those of the numbers themselves */
    double sum = 0;
    for (unsigned i = 0; i + 1 < count; i += 2)
        sum -= 2 * lml_real_log(even(u, draw, source, first + i));
    if (count % 2 == 1) {
        double z = normal(u, draw, source, again + LML_UNCERTAIN_AGAIN);
        sum += z * z;
    }
    return sum;
}

/* Student's: normal numbers, over how far off the deviation is that was found. */
static void place_set(const lml_uncertain *u, uint64_t draw, size_t number, double *z,
                      lml_builder *room)
{
    const lml_uncertain_set *set = &u->set[number - 1];
    for (uint64_t again = 0; again < LML_UNCERTAIN_AGAIN; again++) {
        double squares = sum_of_squares(u, draw, set->source[0], again, set->freedom);
        for (size_t k = 0; k < set->size; k++)
            z[set->source[k]] =
                normal(u, draw, set->source[k], again) / sqrt(squares / set->freedom);
        if (all_can_be(u, number, 0, z, room))
            return;
    }
    for (size_t k = 0; k < set->size; k++)
        z[set->source[k]] = 0;
}

static void place_all(const lml_uncertain *u, uint64_t draw, double *z, lml_builder *room)
{
    for (size_t i = 0; i < u->count; i++) {
        const lml_uncertain_item *item = &u->item[i];
        if (item->follows)
            continue;
        if (!item->set)
            place_source(u, draw, item->source, z, room);
        else if (item->row == 0)
            place_set(u, draw, item->set, z, room);
    }
}

/* ---- the job ---- */

/* The text of a node, which is the job's or the house's, with the items in it at other amounts.
 * `amount` has one for each item. */
static void write_edited(const lml_uncertain *u, lml_span text, const lml_json *of_house,
                         const double *amount, lml_builder *out)
{
    const char *at = text.at;
    for (size_t i = 0; i < u->count; i++) {
        if (u->item[i].of_house != of_house)
            continue;
        lml_span raw = lml_json_raw(u->item[i].node);
        lml_builder_add(out, at, (size_t)(raw.at - at));
        lml_builder_add_char(out, '"');
        write_amount(&u->item[i], amount[i], out);
        lml_builder_add_char(out, '"');
        at = raw.at + raw.length;
    }
    lml_builder_add(out, at, (size_t)(text.at + text.length - at));
}

/* A setting of the house goes into the job, which has the last word. */
static lml_status write_settings(const lml_uncertain *u, const double *amount, lml_builder *out,
                                 lml_error *err)
{
    lml_status status = LML_OK;
    const lml_json *done = NULL;
    for (size_t i = 0; i < u->count && status == LML_OK; i++) {
        const lml_json *setting = u->item[i].of_house;
        if (!setting || setting == done)
            continue;
        done = setting;
        const lml_span path[] = {lml_span_of("closing"), lml_span_of("house"),
                                 lml_json_name(setting)};
        lml_builder value = lml_builder_on(u->alloc, 0);
        write_edited(u, lml_json_raw(setting), setting, amount, &value);
        status = lml_builder_status(&value, err);
        if (status == LML_OK)
            status =
                lml_given_put_raw(out, path + !u->closing, 2 + u->closing,
                                  (lml_span){value.at, value.length}, lml_json_source(u->job), err);
        lml_builder_free(&value);
    }
    return status;
}

/* The parts that follow take up what the others leave of the whole; where none does, all are
 * brought to it. */
static void close_wholes(const lml_uncertain *u, double *amount)
{
    for (size_t whole = 1; whole <= u->wholes; whole++) {
        double own = 0, rest = 0;
        for (size_t i = 0; i < u->count; i++)
            if (u->item[i].whole == whole)
                *(u->item[i].follows ? &rest : &own) += amount[i];
        const double factor = rest > 0 ? fmax(0, WHOLE - own) / rest : WHOLE / own;
        for (size_t i = 0; i < u->count; i++)
            if (u->item[i].whole == whole && (u->item[i].follows || rest == 0))
                amount[i] *= factor;
    }
}

static lml_status write_job(const lml_uncertain *u, const double *amount, lml_builder *out,
                            lml_error *err)
{
    write_edited(u, u->text, NULL, amount, out);
    lml_status status = lml_builder_status(out, err);
    return status == LML_OK ? write_settings(u, amount, out, err) : status;
}

lml_status lml_uncertain_draw(const lml_uncertain *u, uint64_t draw, float *at, lml_builder *out,
                              lml_error *err)
{
    double amount[LML_UNCERTAIN_MOST], z[LML_UNCERTAIN_MOST];
    lml_builder room = lml_builder_on(u->alloc, 0);
    place_all(u, draw, z, &room);
    lml_status status = lml_builder_status(&room, err);
    lml_builder_free(&room);
    if (status != LML_OK)
        return status;
    for (size_t i = 0; i < u->count; i++) {
        const lml_uncertain_item *item = &u->item[i];
        double by = item->follows ? 0 : off(u, item, z);
        if (!item->follows)
            at[item->source] = (float)(item->set ? z[item->source] : by);
        amount[i] = amount_at(item, by);
    }
    close_wholes(u, amount);
    return write_job(u, amount, out, err);
}

lml_status lml_uncertain_shift(const lml_uncertain *u, size_t source, double by, lml_builder *out,
                               lml_error *err)
{
    double amount[LML_UNCERTAIN_MOST], z[LML_UNCERTAIN_MOST];
    memset(z, 0, sizeof z);
    z[source] = by;
    for (size_t i = 0; i < u->count; i++) {
        const lml_uncertain_item *item = &u->item[i];
        double at = item->follows ? 0 : item->set ? off(u, item, z) : z[item->source];
        amount[i] = amount_at(item, at);
    }
    close_wholes(u, amount);
    return write_job(u, amount, out, err);
}
