#include "trial/what.h"

#include "base/decimal.h"
#include "base/locale.h"
#include "base/real.h"
#include "face/engine.h"
#include "face/output.h"
#include "face/tries.h"
#include "file/json_copy.h"
#include "papers/given.h"
#include "papers/leaf.h"
#include "papers/paper.h"
#include "read/read.h"
#include "trial/run.h"
#include "value/compare.h"
#include "value/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { INPUT_TEXT = 80 };
/* How large the ends of a range may be, and how far they lie apart at least: at all, and of the
 * larger end. A double tells far smaller steps apart; nobody has use for them. Choices of ours. */
static const double END_MOST = 1e30, APART = 1e-30, APART_OF_END = 1e-9;

/* One run: the input and the result. */
typedef struct point {
    double at;  /* in the unit of the range */
    bool given; /* the figure was given: `value` holds it */
    lml_value value;
    char is[LML_VALUE_TEXT];
    char why[400]; /* the codes that withhold it, or the error's message */
    bool one_of;   /* of several codes it is not known which does */
    bool died;
} point;

typedef struct what {
    lml_engine *engine;
    const lml_alloc *alloc;
    lml_span job;
    const char *shown;
    const lml_asked_what *asked;
    lml_run_name called;    /* the figure */
    lml_json_document *doc; /* of the job */
    const lml_json *says;   /* what is asked about: the job, or its closing */
    double low, high, step; /* of the range, in its unit; the finest step of an answer */
    lml_span unit;          /* as the range writes it */
    lml_value figure, wish;
    lml_wanted kind;
    int runs, died;
    lml_error first; /* that a run died of */
} what;

/* ---- the range ---- */

/* "2026-11-24T10:00..": the year and a hyphen, or an hour and a colon. */
static bool is_moment(const char *range)
{
    size_t digits = strspn(range, "0123456789");
    return digits > 0 && (range[digits] == '-' || range[digits] == ':');
}

static lml_status refuse_range(const char *range, const char *why, lml_error *err)
{
    if (is_moment(range)) {
        lml_fail(err, LML_BAD_VALUE,
                 "\"%s\" is a range of times; lemel what takes a range of amounts", range);
        lml_error_hint(err, "run the job with the other time: lemel run jobs/NAME.json "
                            "pour=2026-11-27T16:00");
        return LML_BAD_VALUE;
    }
    lml_fail(err, LML_BAD_VALUE, "\"%s\" %s", range, why);
    lml_error_hint(err, "write the lower end, two points and the higher end with its unit, as "
                        "\"50..90 USD/h\"");
    return LML_BAD_VALUE;
}

/* What is wrong on either side of the points; NULL: nothing. */
static const char *fault_of(lml_span first, size_t one, size_t other)
{
    if (first.length == 0)
        return "has no lower end";
    if (one == 0)
        return "begins with no number";
    if (one != first.length)
        return "has something behind the lower end: its unit is written once, behind the higher "
               "end";
    return other == 0 ? "has no higher end" : NULL;
}

/* The unit comes after the higher end, whatever it is. */
static lml_status read_range(what *w, lml_error *err)
{
    const char *range = w->asked->range, *dots = strstr(range, "..");
    lml_decimal low, high;
    if (!dots)
        return refuse_range(range, "is no range: it has one end", err);
    lml_span first = lml_span_trim(lml_span_between(range, dots)),
             rest = lml_span_trim(lml_span_of(dots + 2));
    size_t one = lml_decimal_read(first, &low), other = lml_decimal_read(rest, &high);
    const char *why = fault_of(first, one, other);
    if (why)
        return refuse_range(range, why, err);
    w->unit = lml_span_trim((lml_span){rest.at + other, rest.length - other});
    if (lml_span_starts(w->unit, ".."))
        return refuse_range(range, "has three ends", err);
    w->low = lml_decimal_scale(&low, (lml_rational){1, 1});
    w->high = lml_decimal_scale(&high, (lml_rational){1, 1});
    const double room = w->high - w->low, most = fmax(fabs(w->low), fabs(w->high));
    if (most > END_MOST)
        return refuse_range(range, "has an end that is too large", err);
    if (w->low > w->high)
        return refuse_range(range, "runs down: the lower end comes first", err);
    if (w->low == w->high)
        return refuse_range(range, "has the same end twice", err);
    if (room < APART || room < most * APART_OF_END)
        return refuse_range(range, "has ends that are too close to part into steps", err);
    if (strstr(range, "step"))
        return refuse_range(range, "has a step in it: lemel what takes about ten of its own", err);
    return LML_OK;
}

/* 1, 2 or 5 of a power of ten, at least `least`. */
static double round_step(double least)
{
    double power = lml_real_pow(10, floor(lml_real_log10(least)));
    double part = least / power;
    return (part <= 1.0000001 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10) * power;
}

static void write_input(const what *w, double at, char out[INPUT_TEXT])
{
    char number[LML_NUMBER_TEXT];
    /* The step has one digit; so many decimals say the number, and no noise of the last bit. */
    double power = floor(lml_real_log10(w->step) + 1e-9);
    lml_decimal_write_fixed(at, (lml_rational){1, 1}, power < 0 ? (int)-power : 0, LML_HALF_EVEN,
                            number);
    snprintf(out, INPUT_TEXT, "%s%s%.*s", number, w->unit.length > 0 ? " " : "",
             LML_SPAN_SHOWN(w->unit));
}

/* ---- one run ---- */

static const lml_json *member_named(const lml_json *record, lml_span name)
{
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m))
        if (lml_span_equal(lml_json_name(m), name))
            return m;
    return NULL;
}

/* The member that the front of the input's name stands for: all of "need.button", or "rates" of
 * "rates.bench". */
static const lml_json *front_in(const lml_json *record, const char *input, size_t *length)
{
    for (*length = strlen(input); *length > 0; (*length)--) {
        char after = input[*length];
        if (after != '\0' && after != '.' && after != '[')
            continue;
        const lml_json *found = member_named(record, (lml_span){input, *length});
        if (found)
            return found;
    }
    return NULL;
}

static lml_status put_given(const what *w, const char *value, lml_builder *job, lml_error *err)
{
    lml_builder word = lml_builder_on(w->alloc, 0);
    lml_builder_add_format(&word, "%s=%s", w->asked->input, value);
    lml_status status = lml_builder_status(&word, err);
    if (status == LML_OK)
        status = w->asked->closing ? lml_given_put_closing(job, word.at, w->shown, err)
                                   : lml_given_put(job, word.at, w->shown, err);
    lml_builder_free(&word);
    return status;
}

static const char PRICES[] = "prices.";

/* Whether the input is the price of a metal, "prices.Au"; the metal in the list, or NULL. */
static bool is_price(const what *w, const lml_json **metal)
{
    const char *input = w->asked->input;
    size_t length;
    if (strncmp(input, PRICES, sizeof PRICES - 1) != 0 ||
        front_in(lml_json_member(w->says, "house"), input, &length))
        return false;
    *metal = lml_json_member(lml_engine_prices(w->engine), input + sizeof PRICES - 1);
    return true;
}

static lml_status need_price(const what *w, lml_error *err)
{
    const lml_json *metal;
    if (!is_price(w, &metal) || metal)
        return LML_OK;
    lml_fail(err, LML_NOT_FOUND, "the price list has no price of '%s'",
             w->asked->input + sizeof PRICES - 1);
    lml_error_hint(err, "write the symbol of a metal that is in prices.json, as prices.Au");
    return LML_NOT_FOUND;
}

/* When the price of the list was quoted, or the day of the job where that is earlier: then a former
 * one holds, and this one is in its place. Both are written as ISO 8601 has them. */
static void write_at(const what *w, const lml_json *metal, lml_json_writer *to)
{
    lml_span at = lml_json_text(lml_json_member(metal, "at")),
             date = lml_json_text(lml_json_member(lml_json_root(w->doc), "date"));
    size_t both = at.length < date.length ? at.length : date.length;
    bool earlier = both > 0 && memcmp(date.at, at.at, both) < 0;
    lml_json_write_name(to, lml_span_of("at"));
    lml_json_write_text(to, earlier ? date : at);
}

/* The whole of a setting, as what the job or its closing sets. */
static lml_status put_setting(const what *w, lml_builder *job, lml_span setting, lml_span value,
                              lml_error *err)
{
    const lml_span steps[] = {lml_span_of("closing"), lml_span_of("house"), setting};
    bool closing = w->asked->closing;
    return lml_given_put_raw(job, steps + !closing, 2 + closing, value, w->shown, err);
}

/* The list with another price of one metal, as what this job sets in its place. */
static lml_status set_price(const what *w, const lml_json *metal, const char *value,
                            lml_builder *job, lml_error *err)
{
    lml_builder list = lml_builder_on(w->alloc, 0);
    lml_json_writer to = lml_json_writer_on(&list, false);
    lml_json_write_open_record(&to);
    const lml_json *m = lml_json_first(lml_engine_prices(w->engine));
    for (; m; m = lml_json_next(m)) {
        lml_json_write_name(&to, lml_json_name(m));
        if (m != metal) {
            lml_json_copy(&to, m);
            continue;
        }
        lml_json_write_open_record(&to);
        lml_json_write_member(&to, "price", value);
        write_at(w, metal, &to);
        lml_json_write_name(&to, lml_span_of("from"));
        lml_json_write_text(&to, lml_json_text(lml_json_member(metal, "from")));
        lml_json_write_close(&to);
    }
    lml_json_write_close(&to);
    lml_status status = lml_json_writer_end(&to, err);
    if (status == LML_OK)
        status = put_setting(w, job, lml_span_of("prices"), (lml_span){list.at, list.length}, err);
    lml_builder_free(&list);
    return status;
}

/* Set it where it is said: in the job's given or house, else in a copy of what the house or the
 * list of prices says, else as a value that the command line gives. */
static lml_status set_input(const what *w, const char *value, lml_builder *job, lml_error *err)
{
    const char *input = w->asked->input;
    size_t length;
    lml_status status = LML_OK;
    if (front_in(lml_json_member(w->says, "given"), input, &length))
        return put_given(w, value, job, err);
    if (!front_in(lml_json_member(w->says, "house"), input, &length)) {
        const lml_json *copied = front_in(lml_engine_house(w->engine), input, &length);
        const lml_json *metal;
        if (!copied && is_price(w, &metal))
            return set_price(w, metal, value, job, err);
        if (!copied)
            return put_given(w, value, job, err);
        status = put_setting(w, job, lml_json_name(copied), lml_json_raw(copied), err);
    }
    if (status == LML_OK)
        status = lml_given_put_house(job, w->asked->closing, (lml_span){input, length},
                                     input + length, value, w->shown, err);
    return status;
}

/* Whether the name before the first dot, or the whole of it, is the figure's: "remake.weigh" of
 * "weigh[0].mass", "need.piece" of itself. */
static bool is_of(lml_span withheld, const char *figure)
{
    const lml_span front = {figure, strcspn(figure, ".[")};
    const char *dot = memchr(withheld.at, '.', withheld.length);
    return lml_span_is(withheld, figure) ||
           (dot && lml_span_equal(lml_span_between(dot + 1, withheld.at + withheld.length), front));
}

/* The code that withholds the figure; empty where that is not known, or several might. */
static lml_span code_of(const lml_json *result, const char *figure)
{
    static const char stopped[] = "/stopped"; /* it read what another recipe withholds */
    lml_span found = {"", 0};
    for (const lml_json *m = lml_json_first(lml_json_member(result, "withheld_by")); m;
         m = lml_json_next(m)) {
        lml_span code = lml_json_text(lml_json_member(m, "code"));
        const size_t tail = sizeof stopped - 1;
        if (!is_of(lml_json_text(lml_json_member(m, "figure")), figure) ||
            lml_span_equal(code, found))
            continue;
        if (found.length > 0 ||
            (code.length > tail && memcmp(code.at + code.length - tail, stopped, tail) == 0))
            return (lml_span){"", 0};
        found = code;
    }
    return found;
}

static const lml_json *remark_of(const lml_json *result, lml_span code)
{
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    while (r && !lml_span_equal(lml_json_text(lml_json_member(r, "code")), code))
        r = lml_json_next(r);
    return r;
}

/* Whether the remark withholds all that the other does, and so whatever came from that. */
static bool withholds_as_much(const lml_json *remark, const lml_json *other)
{
    const lml_json *m = lml_json_first(lml_json_member(other, "withholds"));
    for (; m; m = lml_json_next(m)) {
        const lml_json *own = lml_json_first(lml_json_member(remark, "withholds"));
        while (own && !lml_span_equal(lml_json_text(own), lml_json_text(m)))
            own = lml_json_next(own);
        if (!own)
            return false;
    }
    return true;
}

/* The stops and points that withhold the figure: with the one that is known to, those that withhold
 * the same. Where none is known, all that there are. */
static void read_stops(const what *w, const lml_json *result, point *p)
{
    const lml_json *one = remark_of(result, code_of(result, w->called.text));
    size_t used = 0;
    for (const lml_json *r = lml_json_first(lml_json_member(result, "remarks")); r;
         r = lml_json_next(r)) {
        lml_span code = lml_json_text(lml_json_member(r, "code"));
        if ((one && !withholds_as_much(r, one)) || remark_of(result, code) != r ||
            used + code.length + 3 >= sizeof p->why)
            continue;
        p->one_of = !one && used > 0;
        used += (size_t)snprintf(p->why + used, sizeof p->why - used, "%s%.*s",
                                 used > 0 ? ", " : "", LML_SPAN_SHOWN(code));
    }
}

static void read_point(const what *w, const lml_json *result, point *p)
{
    const lml_json *datum = lml_run_datum(result, w->called.text);
    if (datum && lml_leaf_read(datum, &p->value)) {
        lml_span text = lml_json_text(lml_json_member(datum, "text"));
        p->given = true;
        snprintf(p->is, sizeof p->is, "%.*s", LML_SPAN_SHOWN(text));
        return;
    }
    read_stops(w, result, p);
}

/* A run that fails with this input is a row that says so, and not the end. */
static lml_status run_at(what *w, double at, point *p, lml_error *err)
{
    char value[INPUT_TEXT];
    lml_json_document *result = NULL;
    lml_error why;
    lml_builder job = lml_builder_on(w->alloc, 0);
    *p = (point){.at = at};
    write_input(w, at, value);
    lml_builder_add_span(&job, w->job);
    lml_status status = lml_builder_status(&job, err);
    if (status == LML_OK)
        status = set_input(w, value, &job, err);
    if (status == LML_OK) {
        lml_status ran =
            lml_run_trial(w->engine, (lml_span){job.at, job.length}, w->shown, &result, &why);
        w->runs++;
        p->died = ran != LML_OK;
        if (ran == LML_OK)
            read_point(w, lml_json_root(result), p);
        else if (ran == LML_NO_MEMORY)
            status = lml_fail(err, ran, "%s", why.message);
        else
            snprintf(p->why, sizeof p->why, "%s", why.message);
        if (p->died && w->died++ == 0)
            w->first = why;
    }
    lml_json_free(result);
    lml_builder_free(&job);
    return status;
}

/* ---- a table ---- */

static void name(lml_json_writer *w, const char *text)
{
    lml_json_write_name(w, lml_span_of(text));
}

static void put_input(const what *w, lml_json_writer *to, const char *called, double at)
{
    char text[INPUT_TEXT];
    write_input(w, at, text);
    lml_json_write_member(to, called, text);
}

static void put_row(const what *w, lml_json_writer *to, const point *p)
{
    lml_json_write_open_record(to);
    put_input(w, to, "input", p->at);
    if (p->given)
        lml_json_write_member(to, "is", p->is);
    else if (p->died)
        lml_json_write_member(to, "error", p->why);
    else
        lml_json_write_member(to, "stops", p->why); /* "" where the job just does not show it */
    if (p->one_of) {
        name(to, "one_of");
        lml_json_write_yes_no(to, true);
    }
    lml_json_write_close(to);
}

static lml_status put_table(what *w, lml_json_writer *to, lml_error *err)
{
    lml_status status = LML_OK;
    w->step = round_step((w->high - w->low) / LML_WHAT_ROWS);
    name(to, "rows");
    lml_json_write_open_list(to);
    for (int i = 0; status == LML_OK; i++) {
        point p;
        double at = w->low + i * w->step;
        bool last = at > w->high - w->step * 1e-6;
        status = run_at(w, last ? w->high : at, &p, err);
        if (status == LML_OK)
            put_row(w, to, &p);
        if (last)
            break;
    }
    lml_json_write_close(to);
    return status;
}

/* ---- a wish ---- */

static lml_status refuse_wish(const what *w, lml_error *err)
{
    char is[LML_VALUE_TEXT];
    lml_write_text(&w->figure, is);
    lml_fail(err, LML_BAD_VALUE, "%s cannot be %s: it is %s", w->asked->figure, w->asked->wish, is);
    lml_error_hint(err, "wish for the same kind of value, with its unit");
    return LML_BAD_VALUE;
}

static lml_status read_wish(what *w, lml_error *err)
{
    lml_metal metal = (lml_metal)w->figure.metal;
    lml_span text = lml_span_of(w->asked->wish);
    int order;
    if (lml_read_value(text, w->kind, metal, &w->wish, NULL) != LML_OK &&
        lml_read_value(text, LML_WANT_ANYTHING, LML_NO_METAL, &w->wish, NULL) != LML_OK)
        return refuse_wish(w, err);
    if (lml_compare(&w->wish, &w->figure, &order, NULL) != LML_OK)
        return refuse_wish(w, err);
    return LML_OK;
}

/* -1, 0 or 1 for below, at and above what is wished; 2 when the figure is not given. */
static int side_of(const what *w, const point *p)
{
    int order;
    if (!p->given || lml_compare(&p->value, &w->wish, &order, NULL) != LML_OK)
        return 2;
    return order < 0 ? -1 : order > 0;
}

/* Narrow two neighbours on different sides until they are one step apart. */
static lml_status narrow(what *w, point *a, point *b, lml_error *err)
{
    lml_status status = LML_OK;
    while (status == LML_OK && b->at - a->at > w->step * 1.5 && w->runs < LML_WHAT_RUNS) {
        point middle;
        double steps = floor((b->at - a->at) / w->step / 2 + 0.5);
        status = run_at(w, a->at + steps * w->step, &middle, err);
        if (status == LML_OK)
            *(side_of(w, &middle) == side_of(w, a) ? a : b) = middle;
    }
    return status;
}

typedef struct answers {
    lml_json_writer *to;
    bool open; /* a stretch at what is wished has begun, at `from` */
    double from;
    int count;
} answers;

static void open_stretch(answers *a, double from)
{
    a->open = true;
    a->from = from;
}

static void close_stretch(const what *w, answers *a, double to)
{
    char is[LML_VALUE_TEXT];
    if (!a->open)
        return;
    a->open = false;
    a->count++;
    lml_write_text(&w->wish, is);
    lml_json_write_open_record(a->to);
    put_input(w, a->to, "from", a->from);
    put_input(w, a->to, "to", to);
    lml_json_write_member(a->to, "is", is);
    lml_json_write_close(a->to);
}

static void put_crossing(const what *w, answers *a, const point *before, const point *after)
{
    a->count++;
    lml_json_write_open_record(a->to);
    put_input(w, a->to, "before", before->at);
    lml_json_write_member(a->to, "is", before->is);
    put_input(w, a->to, "after", after->at);
    lml_json_write_member(a->to, "then", after->is);
    lml_json_write_close(a->to);
}

/* Two points on different sides: each place between them where the side is another. From below to
 * above there may be a stretch at what is wished, which is narrowed at both of its ends. */
static lml_status look_between(what *w, answers *a, point one, const point *last, lml_error *err)
{
    lml_status status = LML_OK;
    while (status == LML_OK && side_of(w, &one) != side_of(w, last)) {
        point next = *last;
        status = narrow(w, &one, &next, err);
        if (status != LML_OK)
            break;
        int before = side_of(w, &one), after = side_of(w, &next);
        if (before == 0)
            close_stretch(w, a, one.at);
        if (after == 0)
            open_stretch(a, next.at);
        if (before * after == -1)
            put_crossing(w, a, &one, &next);
        one = next;
    }
    return status;
}

typedef struct seen {
    point low, high; /* of the figure */
    bool any;
    size_t withheld;
} seen;

static void see(seen *s, const point *p)
{
    int order;
    if (!p->given) {
        s->withheld++;
        return;
    }
    if (!s->any || (lml_compare(&p->value, &s->low.value, &order, NULL) == LML_OK && order < 0))
        s->low = *p;
    if (!s->any || (lml_compare(&p->value, &s->high.value, &order, NULL) == LML_OK && order > 0))
        s->high = *p;
    s->any = true;
}

static lml_status scan(what *w, answers *a, seen *s, lml_error *err)
{
    point last = {.given = false};
    lml_status status = LML_OK;
    double steps = floor((w->high - w->low) / w->step + 0.5);
    for (int i = 0; i <= LML_WHAT_SCAN && status == LML_OK; i++) {
        point p;
        double at = w->low + floor(steps * i / LML_WHAT_SCAN + 0.5) * w->step;
        status = run_at(w, at, &p, err);
        if (status != LML_OK)
            break;
        see(s, &p);
        if (i == 0 && side_of(w, &p) == 0)
            open_stretch(a, p.at);
        if (i > 0 && side_of(w, &p) != side_of(w, &last) && a->count < LML_WHAT_ANSWERS)
            status = look_between(w, a, last, &p, err);
        last = p;
    }
    close_stretch(w, a, w->high);
    return status;
}

static lml_status put_answers(what *w, lml_json_writer *to, lml_error *err)
{
    answers a = {.to = to};
    seen s = {.any = false};
    lml_json_write_member(to, "wish", w->asked->wish);
    /* A thousandth of the range or so, and whole steps of it. */
    w->step = round_step((w->high - w->low) / 2000);
    name(to, "answers");
    lml_json_write_open_list(to);
    lml_status status = scan(w, &a, &s, err);
    lml_json_write_close(to);
    if (s.any) {
        lml_json_write_member(to, "low", s.low.is);
        lml_json_write_member(to, "high", s.high.is);
    }
    name(to, "withheld");
    lml_json_write_whole(to, (int64_t)s.withheld);
    return status;
}

/* ---- the whole ---- */

/* From here on each try tells it, where it is wanted that is no give. */
static lml_status open_tries(const what *w, const char *wanted, lml_error *err)
{
    lml_builder about = lml_builder_on(w->alloc, 0);
    lml_builder_add_format(&about, "%s%s", w->asked->closing ? LML_TRIES_CLOSING "\n" : "",
                           w->asked->input);
    if (wanted)
        lml_builder_add_format(&about, "\n\n%s", wanted);
    lml_status status = lml_builder_status(&about, err);
    lml_tries_close(w->engine);
    if (status == LML_OK)
        status = lml_tries_open(w->engine, (lml_span){about.at, about.length}, err);
    if (status == LML_OK)
        lml_tries_mark(w->engine);
    lml_builder_free(&about);
    return status;
}

/* The figure as the job is. */
static lml_status look_at_job(what *w, lml_json_writer *to, lml_error *err)
{
    lml_json_document *result;
    lml_status status = lml_run_trial(w->engine, w->job, w->shown, &result, err);
    if (status != LML_OK)
        return status;
    status = lml_run_find_name(
        w->engine, w->job, w->shown,
        &(lml_asked_why){.figure = w->asked->figure, .closing = w->asked->closing},
        lml_json_root(result), &w->called, err);
    const lml_json *datum = lml_run_name_datum(lml_json_root(result), &w->called);
    if (status != LML_OK) {
        /* said already */
    } else if (!datum) {
        status = lml_run_refuse_figure(lml_json_root(result), w->called.text, err);
    } else if (!lml_leaf_read(datum, &w->figure)) {
        status = lml_run_refuse_kind(datum, &w->called, err);
    } else {
        w->kind = lml_wanted_by_name(lml_json_text(lml_json_member(datum, "kind")));
        name(to, "figure");
        lml_json_write_text(to, lml_run_name_shown(w->called.text));
        lml_json_write_member(to, "input", w->asked->input);
        name(to, "is");
        lml_json_write_text(to, lml_json_text(lml_json_member(datum, "text")));
        status = w->called.why ? open_tries(w, w->called.text, err) : LML_OK;
    }
    lml_json_free(result);
    return status;
}

lml_status lml_what_run(lml_engine *engine, lml_span job, const char *shown,
                        const lml_asked_what *asked, lml_json_writer *to, lml_error *err)
{
    what w = {.engine = engine,
              .alloc = lml_engine_alloc(engine),
              .job = job,
              .shown = shown,
              .asked = asked};
    lml_status status = read_range(&w, err);
    if (status == LML_OK)
        status = lml_json_read(w.alloc, job, NULL, shown, &w.doc, err);
    if (status != LML_OK)
        return status;
    w.says = lml_json_root(w.doc);
    if (asked->closing)
        w.says = lml_json_member(w.says, "closing");
    lml_tries_close(engine);
    status = need_price(&w, err);
    if (status == LML_OK)
        status = open_tries(&w, NULL, err);
    if (status == LML_OK)
        status = look_at_job(&w, to, err);
    if (status == LML_OK && asked->wish)
        status = read_wish(&w, err);
    if (status == LML_OK)
        status = asked->wish ? put_answers(&w, to, err) : put_table(&w, to, err);
    if (status == LML_OK && w.died == w.runs) { /* it is the input that is wrong */
        status = w.first.status;
        if (err)
            *err = w.first;
    }
    lml_tries_close(engine);
    lml_json_free(w.called.why);
    lml_json_free(w.doc);
    return status;
}

lml_status lml_engine_what(lml_engine *engine, const char *job, size_t length, const char *shown,
                           const lml_asked_what *asked, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"job", job}, {"shown name", shown}, {"asked", asked},
                 {"out", out}) ||
        LML_NEED(err, {"figure", asked->figure}, {"input", asked->input}, {"range", asked->range}))
        return LML_BAD_DATA;
    lml_builder report = lml_builder_on(lml_engine_alloc(engine), 0);
    lml_json_writer w = lml_json_writer_on(&report, false);
    lml_locale entered = lml_locale_enter();
    lml_json_write_open_record(&w);
    lml_status status = lml_what_run(engine, (lml_span){job, length}, shown, asked, &w, err);
    lml_json_write_close(&w);
    if (status == LML_OK)
        status = lml_json_writer_end(&w, err);
    lml_locale_leave(entered);
    return lml_output_take(&report, status, out, err);
}
