#include "trial/sure.h"

#include "face/tries.h"
#include "papers/leaf.h"
#include "report/drawn.h"
#include "trial/run.h"
#include "trial/spread.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { CODES = 100, CODE_TEXT = 120, DIED_TEXT = 400, PARTS_SHOWN = 5 };

typedef struct figure {
    char name[LML_LEAF_NAME]; /* as lml_run_name has it */
    bool shown;               /* no give of the job */
    lml_value is;             /* in the job as it is */
    lml_kind kind;            /* of what the recipe gives, which a text may not tell */
    const char *bound; /* "up" or "down" where its last step rounds it to the safe side; or NULL */
    lml_spread_blocks blocks;
    lml_spread_found found; /* of all draws, once they are taken */
} figure;

typedef struct code {
    char text[CODE_TEXT], level[12];
    size_t draws, last; /* in how many draws it was met; the last one, counted from 1 */
} code;

struct lml_sure {
    const lml_alloc *alloc;
    lml_uncertain uncertain;
    lml_builder about; /* the paths of what is uncertain and the gives, a line each */
    figure *figure;
    size_t figures, most, block;
    int digits;
    double *shift;       /* of each source by each of STEPS, a row of figures each */
    double *draw, *room; /* a row of draws for each figure; a block that is sorted */
    float *at;           /* where each source lay: a row of sources for each draw */
    size_t shifts_out, shifts_in, draws_out, draws_in, goal;
    code code[CODES];
    size_t codes, died;
    char died_of[DIED_TEXT];
    bool stable;
};

/* How far each source is shifted, in standard deviations. */
static const double STEPS[] = {1, -1, 0.5, -0.5, 0.25, -0.25};
enum { SHIFTS = sizeof STEPS / sizeof *STEPS };

static size_t shifts_of(const lml_sure *s)
{
    return SHIFTS * s->uncertain.sources;
}

/* ---- opening ---- */

static double size_of(const lml_value *v)
{
    bool exact = v->kind == LML_MONEY || v->kind == LML_MOMENT;
    return exact ? (double)v->exact : v->amount;
}

/* A time of day and a weekday go round: they have no mean. */
static bool has_mean(const lml_value *v)
{
    return v->kind <= LML_MOMENT;
}

/* How the figure came about at last. */
static const char *bound_of(const lml_json *step)
{
    static const struct {
        const char *how, *bound;
    } rounds[] = {{"up_to", "up"}, {"down_to", "down"}};
    lml_span how = lml_json_text(lml_json_member(step, "how"));
    for (size_t i = 0; i < sizeof rounds / sizeof *rounds; i++)
        if (lml_span_is(how, rounds[i].how))
            return rounds[i].bound;
    return NULL;
}

/* As a result with its steps says. */
static const lml_json *last_step(const lml_json *result, const char *name)
{
    const lml_json *why = lml_json_member(result, "why"),
                   *root = lml_json_member(lml_json_member(why, "figures"), name),
                   *step = lml_json_first(lml_json_member(why, "steps"));
    if (!root)
        return NULL;
    for (double at = lml_json_number(root); step && at > 0; at--)
        step = lml_json_next(step);
    return step;
}

/* Of a datum that is a value. */
static lml_kind kind_of(const lml_json *datum)
{
    static const struct {
        const char *name;
        lml_kind kind;
    } kinds[] = {{"number", LML_NUMBER},       {"temperature", LML_TEMPERATURE},
                 {"fineness", LML_FINENESS},   {"fineness_difference", LML_FINENESS_DIFFERENCE},
                 {"fine_mass", LML_FINE_MASS}, {"money", LML_MONEY},
                 {"moment", LML_MOMENT}};
    lml_span name = lml_json_text(lml_json_member(datum, "kind"));
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (lml_span_is(name, kinds[i].name))
            return kinds[i].kind;
    return LML_QUANTITY;
}

/* False for one that is no number. */
static bool add_figure(lml_sure *s, const char *name, const lml_json *datum, const lml_json *step)
{
    lml_value v;
    if (s->figures == LML_SURE_FIGURES || !lml_leaf_read(datum, &v) || !has_mean(&v))
        return false;
    figure *f = &s->figure[s->figures++];
    *f = (figure){.is = v, .kind = kind_of(datum), .bound = bound_of(step)};
    snprintf(f->name, sizeof f->name, "%s", name);
    return true;
}

typedef struct own {
    lml_sure *sure;
    const lml_json *result;
} own;

static lml_status add_own(void *self, const char *name, const lml_json *datum, lml_error *err)
{
    const own *o = self;
    (void)err;
    if (!strpbrk(name, ".["))
        add_figure(o->sure, name, datum, last_step(o->result, name));
    return LML_OK;
}

static lml_status add_named(lml_sure *s, const lml_json *result, const lml_run_name *name,
                            lml_error *err)
{
    const lml_json *datum = lml_run_name_datum(result, name),
                   *root = name->why ? lml_json_root(name->why) : NULL;
    if (!datum)
        return lml_run_refuse_figure(result, name->text, err);
    if (s->figures == LML_SURE_FIGURES) {
        lml_fail(err, LML_LIMIT, "more than %d figures are named", LML_SURE_FIGURES);
        lml_error_hint(err, "name fewer; without names all that the job gives by itself are shown");
        return LML_LIMIT;
    }
    if (add_figure(s, name->text, datum,
                   root ? lml_json_first(lml_json_member(root, "steps"))
                        : last_step(result, name->text))) {
        s->figure[s->figures - 1].shown = root != NULL;
        return LML_OK;
    }
    return lml_run_refuse_kind(datum, name, err);
}

static lml_status refuse_none(lml_error *err)
{
    lml_fail(err, LML_NOT_FOUND, "the job gives no figure that has a number");
    lml_error_hint(err,
                   "a recipe that the job uses may: lemel run JOB shows its lines, and lemel why "
                   "takes them");
    return LML_NOT_FOUND;
}

static lml_status add_figures(lml_sure *s, const lml_sure_orders *o, lml_error *err)
{
    lml_status status = LML_OK;
    if (o->figures == 0)
        status = lml_leaf_each(lml_json_member(o->result, "results"), add_own, &(own){s, o->result},
                               err);
    for (size_t i = 0; i < o->figures && status == LML_OK; i++)
        status = add_named(s, o->result, &o->named[i], err);
    if (status == LML_OK && s->figures == 0)
        status = refuse_none(err);
    return status;
}

/* Whether the result says that a setting of the house was read: "need.button" for "button". */
static bool reads(const void *self, lml_span setting)
{
    const lml_json *m = lml_json_first(lml_json_member(self, "settings"));
    for (; m; m = lml_json_next(m)) {
        lml_span name = lml_json_name(m);
        if (!lml_span_is(lml_json_text(lml_json_member(m, "from")), "house"))
            continue;
        if (lml_span_equal(name, setting) ||
            (name.length > setting.length && name.at[name.length - setting.length - 1] == '.' &&
             memcmp(name.at + name.length - setting.length, setting.at, setting.length) == 0))
            return true;
    }
    return false;
}

static lml_status need_spread(const lml_sure *s, lml_error *err)
{
    if (s->uncertain.count > 0)
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "nothing that this job and its house say has a spread");
    lml_error_hint(err,
                   "write what is not known exactly with its standard deviation, as \"12.4 g ± "
                   "0.1 g\", or between two ends, as \"12.3..12.5 g\"");
    return LML_BAD_VALUE;
}

static void *get_many(const lml_alloc *alloc, size_t count, size_t size)
{
    return count > 0 ? lml_alloc_get(alloc, count * size) : lml_alloc_get(alloc, size);
}

static lml_status get_rows(lml_sure *s, lml_error *err)
{
    s->shift = get_many(s->alloc, shifts_of(s) * s->figures, sizeof *s->shift);
    s->draw = get_many(s->alloc, s->most * s->figures, sizeof *s->draw);
    s->room = get_many(s->alloc, s->most, sizeof *s->room);
    s->at = get_many(s->alloc, s->most * s->uncertain.sources, sizeof *s->at);
    return s->shift && s->draw && s->room && s->at
               ? LML_OK
               : lml_fail(err, LML_NO_MEMORY, "out of memory for %zu draws", s->most);
}

static lml_status say_about(lml_sure *s, lml_error *err)
{
    if (s->uncertain.closing)
        lml_builder_add_text(&s->about, LML_TRIES_CLOSING "\n");
    for (size_t i = 0; i < s->uncertain.count; i++)
        lml_builder_add_format(&s->about, "%s\n", s->uncertain.item[i].path);
    for (size_t f = 0; f < s->figures; f++) {
        const figure *one = &s->figure[f];
        lml_builder_add_format(&s->about, "\n%s%s", one->shown ? "" : "=", one->name);
    }
    return lml_builder_status(&s->about, err);
}

static lml_status open(lml_sure *s, const lml_sure_orders *o, lml_error *err)
{
    s->alloc = o->alloc;
    s->uncertain = lml_uncertain_on(o->alloc);
    s->uncertain.closing = o->closing;
    s->about = lml_builder_on(o->alloc, 0);
    s->most = o->most ? o->most : LML_SURE_MOST;
    s->block = o->block ? o->block : LML_SURE_BLOCK;
    s->digits = o->digits ? o->digits : 1;
    s->goal = s->block < s->most ? s->block : s->most;
    s->goal = LML_SURE_FIRST < s->goal ? LML_SURE_FIRST : s->goal;
    s->figure = get_many(s->alloc, LML_SURE_FIGURES, sizeof *s->figure);
    if (!s->figure)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the figures");
    lml_status status = add_figures(s, o, err);
    if (status == LML_OK)
        status = lml_uncertain_find(&s->uncertain, o->job, o->shown, o->house, err);
    if (status == LML_OK) {
        lml_uncertain_keep(&s->uncertain, reads, o->result);
        status = need_spread(s, err);
    }
    if (status == LML_OK)
        status = say_about(s, err);
    return status == LML_OK ? get_rows(s, err) : status;
}

lml_status lml_sure_open(lml_sure **out, const lml_sure_orders *orders, lml_error *err)
{
    lml_sure *s = lml_alloc_get(orders->alloc, sizeof *s);
    if (!s)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the draws");
    memset(s, 0, sizeof *s);
    lml_status status = open(s, orders, err);
    if (status == LML_OK)
        *out = s;
    else
        lml_sure_free(s);
    return status;
}

static void let_go(const lml_sure *s, void *at, size_t count, size_t size)
{
    lml_alloc_free(s->alloc, at, at ? (count > 0 ? count : 1) * size : 0);
}

void lml_sure_free(lml_sure *s)
{
    if (!s)
        return;
    let_go(s, s->figure, LML_SURE_FIGURES, sizeof *s->figure);
    let_go(s, s->shift, shifts_of(s) * s->figures, sizeof *s->shift);
    let_go(s, s->draw, s->most * s->figures, sizeof *s->draw);
    let_go(s, s->room, s->most, sizeof *s->room);
    let_go(s, s->at, s->most * s->uncertain.sources, sizeof *s->at);
    lml_uncertain_free(&s->uncertain);
    lml_builder_free(&s->about);
    lml_alloc_free(s->alloc, s, sizeof *s);
}

/* ---- running ---- */

lml_span lml_sure_about(const lml_sure *s)
{
    return (lml_span){s->about.at, s->about.length};
}

lml_status lml_sure_next(lml_sure *s, lml_builder *text, lml_error *err)
{
    if (s->shifts_out < shifts_of(s)) {
        size_t n = s->shifts_out++;
        return lml_uncertain_shift(&s->uncertain, n / SHIFTS, STEPS[n % SHIFTS], text, err);
    }
    if (s->draws_out == s->goal)
        return LML_OK;
    size_t n = s->draws_out++;
    return lml_uncertain_draw(&s->uncertain, n, s->at + n * s->uncertain.sources, text, err);
}

/* Set every `step`th of `out` to a figure of what was drawn, taking it off; NaN for one that is not
 * there, as none is of a run that died. */
static void read_figures(const lml_sure *s, lml_span *drawn, double *out, size_t step)
{
    for (size_t f = 0; f < s->figures; f++) {
        int kind;
        double size;
        lml_drawn_take_figure(drawn, &kind, &size);
        out[f * step] = kind == (int)s->figure[f].kind && isfinite(size) ? size : NAN;
    }
}

static void count_code(lml_sure *s, lml_span text, lml_span level)
{
    size_t i = 0;
    while (i < s->codes && !(lml_span_is(text, s->code[i].text)))
        i++;
    if (i == CODES)
        return;
    code *c = &s->code[i];
    if (i == s->codes) {
        s->codes++;
        snprintf(c->text, sizeof c->text, "%.*s", LML_SPAN_SHOWN(text));
        snprintf(c->level, sizeof c->level, "%.*s", LML_SPAN_SHOWN(level));
    }
    if (c->last == s->draws_in)
        return; /* two pages of one part have it */
    c->last = s->draws_in;
    c->draws++;
}

/* Drop what is no number: a draw that a stop withheld. Returns how many are left, in `room`. */
static size_t gather(const lml_sure *s, size_t f, size_t from, size_t to, double *room)
{
    size_t count = 0;
    for (size_t d = from; d < to; d++)
        if (!isnan(s->draw[f * s->most + d]))
            room[count++] = s->draw[f * s->most + d];
    return count;
}

static lml_status sum_up(lml_sure *s, size_t f, size_t from, size_t to, lml_spread_found *out,
                         lml_error *err)
{
    double *kept = get_many(s->alloc, to - from, sizeof *kept);
    if (!kept)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for a block of draws");
    size_t count = gather(s, f, from, to, kept);
    lml_spread_of(kept, count, s->room, out);
    lml_alloc_free(s->alloc, kept, (to - from) * sizeof *kept);
    return LML_OK;
}

/* Whether a figure is moved by what is uncertain, and so by how much it is found to be. */
static bool is_stable(const figure *f, int digits)
{
    return f->found.count < 2 || f->found.deviation == 0 ||
           lml_spread_stable(&f->blocks, f->found.deviation, digits);
}

static bool is_same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

/* Whether nothing that is uncertain moves anything: every figure is the same in each of the first
 * draws and where each input is shifted, and each stop is met in all of them. */
static bool is_still(const lml_sure *s)
{
    bool still = s->died == 0;
    for (size_t f = 0; f < s->figures && still; f++) {
        const double *draw = s->draw + f * s->most;
        for (size_t d = 1; d < s->draws_in && still; d++)
            still = is_same(draw[d], draw[0]);
        for (size_t i = 0; i < s->shifts_in && still; i++)
            still = is_same(s->shift[i * s->figures + f], draw[0]);
    }
    for (size_t i = 0; i < s->codes && still; i++)
        still = s->code[i].draws == s->draws_in;
    return still;
}

static lml_status end_block(lml_sure *s, lml_error *err)
{
    const size_t block = s->block < s->most ? s->block : s->most;
    if (s->goal < block && !is_still(s)) {
        s->goal = block;
        return LML_OK;
    }
    bool whole = s->draws_in % s->block == 0;
    s->stable = true;
    for (size_t f = 0; f < s->figures; f++) {
        lml_spread_found of_block;
        lml_status status = sum_up(s, f, 0, s->draws_in, &s->figure[f].found, err);
        if (status == LML_OK && whole)
            status = sum_up(s, f, s->draws_in - s->block, s->draws_in, &of_block, err);
        if (status != LML_OK)
            return status;
        if (whole && of_block.count >= 2)
            lml_spread_add(&s->figure[f].blocks, &of_block);
        s->stable = s->stable && is_stable(&s->figure[f], s->digits);
    }
    if (!s->stable && s->goal < s->most)
        s->goal = s->most - s->goal < s->block ? s->most : s->goal + s->block;
    return LML_OK;
}

lml_status lml_sure_take(lml_sure *s, lml_span drawn, const lml_error *why, lml_error *err)
{
    const bool died = drawn.length == 0;
    lml_span level, met;
    if (died && !s->died_of[0] && why) /* told best of the first run that fails */
        snprintf(s->died_of, sizeof s->died_of, "%s", why->message);
    if (s->shifts_in < shifts_of(s)) {
        read_figures(s, &drawn, s->shift + s->shifts_in * s->figures, 1);
        s->shifts_in++;
        return LML_OK;
    }
    size_t n = s->draws_in++;
    read_figures(s, &drawn, s->draw + n, s->most);
    while (lml_drawn_take_stop(&drawn, &level, &met))
        count_code(s, met, level);
    s->died += died;
    return s->draws_in == s->goal ? end_block(s, err) : LML_OK;
}

lml_status lml_sure_sum_up(lml_sure *s, lml_error *err)
{
    lml_status status = LML_OK;
    for (size_t f = 0; f < s->figures && status == LML_OK; f++)
        status = sum_up(s, f, 0, s->draws_in, &s->figure[f].found, err);
    return status;
}

bool lml_sure_done(const lml_sure *s)
{
    return s->draws_in == s->goal && s->draws_in > 0;
}

size_t lml_sure_draws(const lml_sure *s)
{
    return s->draws_in;
}

size_t lml_sure_goal(const lml_sure *s)
{
    return s->goal;
}

/* ---- what was found ---- */

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

static void put_number(lml_json_writer *w, const char *called, double x)
{
    name(w, called);
    lml_json_write_number(w, x);
}

static void put_count(lml_json_writer *w, const char *called, size_t count)
{
    name(w, called);
    lml_json_write_whole(w, (int64_t)count);
}

static lml_value value_at(const figure *f, double size)
{
    lml_value v = lml_value_bare(&f->is);
    if (v.kind == LML_MONEY || v.kind == LML_MOMENT)
        v.exact = (int64_t)floor(size + 0.5);
    else
        v.amount = size;
    return v;
}

/* In the figure's unit; a moment as a text. */
static void put_size(lml_json_writer *w, const figure *f, double size)
{
    lml_value v = value_at(f, size);
    char text[LML_VALUE_TEXT];
    if (v.kind == LML_MOMENT) {
        lml_write_text(&v, text);
        lml_json_write_text(w, lml_span_of(text));
    } else {
        lml_json_write_number(w, v.kind == LML_MONEY ? size / 1e6 : lml_write_in_unit(&v));
    }
}

/* A difference of two such figures, in the unit, of a moment in seconds. */
static double difference(const figure *f, double size)
{
    if (f->is.kind == LML_MOMENT)
        return size;
    if (f->is.kind == LML_MONEY)
        return size / 1e6;
    lml_value one = value_at(f, size), none = value_at(f, 0);
    return lml_write_in_unit(&one) - lml_write_in_unit(&none);
}

static void put_named(lml_json_writer *w, const figure *f, const char *called, double size)
{
    name(w, called);
    put_size(w, f, size);
}

/* What the figure changes by for a standard deviation, found by the steps up and down from `step`
 * on. */
static double slope(const lml_sure *s, size_t f, size_t source, size_t step)
{
    const double *up = s->shift + (SHIFTS * source + step) * s->figures, *down = up + s->figures;
    return (up[f] - down[f]) / (STEPS[step] - STEPS[step + 1]);
}

/* Of a smooth function each difference of slopes is a quarter of the one before, and a little less
 * where it bends much: Richardson's extrapolation takes them to their limit. Out of these bounds,
 * which are a choice of ours, something else is at work. */
static double sensitivity(const lml_sure *s, size_t f, size_t source)
{
    double whole = slope(s, f, source, 0), half = slope(s, f, source, 2),
           quarter = slope(s, f, source, 4);
    double ratio = (whole - half) / (half - quarter);
    return ratio > 3 && ratio < 6 ? quarter + (quarter - half) / 3 : whole;
}

/* How far the ends may lie apart: JCGM 101, 8.1, with two digits; and no closer than the draws can
 * tell, which is four standard errors of such an end of a normal distribution. */
static double apart(const lml_spread_found *found)
{
    double error = 2.67 * found->deviation / sqrt((double)found->count);
    return fmax(lml_spread_tolerance(found->deviation, 2), 4 * error);
}

static void put_linear(lml_json_writer *w, const lml_sure *s, size_t f)
{
    const figure *of = &s->figure[f];
    double squares = 0;
    for (size_t source = 0; source < s->uncertain.sources; source++)
        squares += sensitivity(s, f, source) * sensitivity(s, f, source);
    if (isnan(squares))
        return; /* a stop withheld it, or a run died */
    double u = sqrt(squares), is = size_of(&of->is);
    double low = is - LML_SPREAD_95 * u, high = is + LML_SPREAD_95 * u;
    double tolerance = apart(&of->found);
    name(w, "linear");
    lml_json_write_open_record(w);
    put_number(w, "deviation", difference(of, u));
    put_named(w, of, "low", low);
    put_named(w, of, "high", high);
    name(w, "agrees");
    lml_json_write_yes_no(w, fabs(low - of->found.low) <= tolerance &&
                                 fabs(high - of->found.high) <= tolerance);
    lml_json_write_close(w);
}

/* The square of the correlation of a figure with where the source lay: the part of its variance
 * that goes with it. */
static double part_of(const lml_sure *s, size_t f, size_t source)
{
    double x = 0, y = 0, xx = 0, yy = 0, xy = 0, count = 0;
    const double mean = s->figure[f].found.mean;
    for (size_t d = 0; d < s->draws_in; d++) {
        double b = s->draw[f * s->most + d] - mean;
        if (isnan(b))
            continue;
        double a = (double)s->at[d * s->uncertain.sources + source];
        count++;
        x += a;
        y += b;
        xx += a * a;
        yy += b * b;
        xy += a * b;
    }
    double p = xx - x * x / count, q = yy - y * y / count, r = xy - x * y / count;
    return p > 0 && q > 0 ? r * r / (p * q) : 0;
}

static const lml_uncertain_item *item_of(const lml_sure *s, size_t source)
{
    size_t i = 0;
    while (s->uncertain.item[i].source != source)
        i++;
    return &s->uncertain.item[i];
}

/* What was read together is reported as one: the sources behind its first are added to that. */
static void join_parts(const lml_sure *s, double *part)
{
    for (size_t set = 0; set < s->uncertain.sets; set++) {
        const lml_uncertain_set *of = &s->uncertain.set[set];
        for (size_t k = 1; k < of->size; k++) {
            part[of->source[0]] += part[of->source[k]];
            part[of->source[k]] = 0;
        }
    }
}

/* Those that matter, the largest first. What chance alone would give is none. */
static void put_parts(lml_json_writer *w, const lml_sure *s, size_t f)
{
    double part[LML_UNCERTAIN_MOST];
    const double noise = 10 / (double)s->figure[f].found.count;
    for (size_t source = 0; source < s->uncertain.sources; source++)
        part[source] = part_of(s, f, source);
    join_parts(s, part);
    name(w, "from");
    lml_json_write_open_list(w);
    for (int shown = 0; shown < PARTS_SHOWN; shown++) {
        size_t best = 0;
        for (size_t source = 1; source < s->uncertain.sources; source++)
            best = part[source] > part[best] ? source : best;
        if (!(part[best] > noise))
            break;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "input", item_of(s, best)->path);
        put_number(w, "part", part[best]);
        lml_json_write_close(w);
        part[best] = -1;
    }
    lml_json_write_close(w);
}

static void put_figure(lml_json_writer *w, const lml_sure *s, size_t f)
{
    const figure *of = &s->figure[f];
    const lml_spread_found *found = &of->found;
    char text[LML_VALUE_TEXT];
    lml_json_write_open_record(w);
    name(w, "name");
    lml_json_write_text(w, lml_run_name_shown(of->name));
    lml_write_text(&of->is, text);
    lml_json_write_member(w, "is", text);
    if (of->is.kind != LML_MOMENT) {
        lml_builder unit = lml_builder_on(s->alloc, 0);
        lml_write_unit(&of->is, &unit);
        lml_json_write_member(w, "unit", unit.at ? unit.at : "");
        if (unit.status != LML_OK)
            w->to->status = unit.status;
        lml_builder_free(&unit);
    }
    if (of->bound)
        lml_json_write_member(w, "rounded", of->bound);
    put_count(w, "draws", found->count);
    if (found->count >= 2) {
        put_named(w, of, "likely", found->mean);
        put_number(w, "deviation", difference(of, found->deviation));
        put_named(w, of, "low", found->low);
        put_named(w, of, "high", found->high);
        name(w, "shortest");
        lml_json_write_open_list(w);
        put_size(w, of, found->shortest_low);
        put_size(w, of, found->shortest_high);
        lml_json_write_close(w);
        put_linear(w, s, f);
        put_parts(w, s, f);
    }
    lml_json_write_close(w);
}

static void put_inputs(lml_json_writer *w, const lml_sure *s)
{
    name(w, "inputs");
    lml_json_write_open_list(w);
    for (size_t i = 0; i < s->uncertain.count; i++) {
        const lml_uncertain_item *item = &s->uncertain.item[i];
        if (item->follows)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_member(w, "path", item->path);
        name(w, "text");
        lml_json_write_text(w, lml_json_text(item->node));
        if (item->name.length > 0) {
            name(w, "name");
            lml_json_write_text(w, item->name);
        }
        size_t source = item->set ? s->uncertain.set[item->set - 1].source[0] : item->source;
        const lml_uncertain_item *first = item_of(s, source);
        if (first != item)
            lml_json_write_member(w, "with", first->path);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

static void put_codes(lml_json_writer *w, const lml_sure *s)
{
    name(w, "stops");
    lml_json_write_open_list(w);
    for (size_t i = 0; i < s->codes; i++) {
        lml_json_write_open_record(w);
        lml_json_write_member(w, "code", s->code[i].text);
        lml_json_write_member(w, "level", s->code[i].level);
        put_count(w, "draws", s->code[i].draws);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

void lml_sure_write(const lml_sure *s, lml_json_writer *w)
{
    put_count(w, "draws", s->draws_in);
    name(w, "stable");
    lml_json_write_yes_no(w, s->stable);
    if (s->died > 0) {
        name(w, "died");
        lml_json_write_open_record(w);
        put_count(w, "draws", s->died);
        lml_json_write_member(w, "message", s->died_of);
        lml_json_write_close(w);
    }
    put_inputs(w, s);
    name(w, "figures");
    lml_json_write_open_list(w);
    for (size_t f = 0; f < s->figures; f++)
        put_figure(w, s, f);
    lml_json_write_close(w);
    put_codes(w, s);
}
