#include "craft/schedule.h"

#include <math.h>
#include <string.h>

enum { DAY = 1440, QUARTER = 15 };

static const double HARDLY = 1e-6; /* minutes that count as none */

/* ---- the clock ---------------------------------------------------------------------------------
 */

/* What is left of `a` over whole `b`s, never negative. */
static double over(double a, double b)
{
    double rest = fmod(a, b);
    return rest < 0 ? rest + b : rest;
}

/* Its two ends are outside: a task at bedtime is done before bed. */
static bool is_within(lml_schedule_window w, double t)
{
    double minute = over(t, DAY);
    return w.from <= w.to ? minute > w.from && minute < w.to : minute > w.from || minute < w.to;
}

static bool is_asleep(const lml_schedule_problem *p, double t)
{
    return p->has_sleep && is_within(p->sleep, t);
}

/* The last moment at or before t at which somebody is awake. */
static double awake_before(const lml_schedule_problem *p, double t)
{
    return is_asleep(p, t) ? t - over(t - p->sleep.from, DAY) : t;
}

static double length_of(lml_schedule_window w)
{
    double length = over(w.to - w.from, DAY);
    return length > 0 ? length : DAY;
}

/* Minutes of the window that have passed by a moment. */
static double passed(lml_schedule_window w, double t)
{
    double length = length_of(w), since = t - w.from, today = over(since, DAY);
    return floor(since / DAY) * length + (today < length ? today : length);
}

/* ---- heat --------------------------------------------------------------------------------------
 */

static double power(const lml_schedule_problem *p, const lml_schedule_segment *s, double celsius)
{
    return p->capacity * s->rate / 60 + p->losses * (celsius - p->room);
}

/* Energy (J) between two moments of a segment: the power runs straight, and a kiln cannot take heat
 * back. */
static double energy(const lml_schedule_problem *p, const lml_schedule_segment *s, double begin,
                     double from, double to)
{
    double first = power(p, s, s->from + s->rate * (from - begin));
    double last = power(p, s, s->from + s->rate * (to - begin));
    double seconds = 60 * (to - from), most = first > last ? first : last;
    if (first >= 0 && last >= 0)
        return (first + last) / 2 * seconds;
    return most <= 0 ? 0 : most * most / (2 * fabs(first - last)) * seconds;
}

static double price_of(const lml_schedule_problem *p, const lml_schedule_segment *s, double finish)
{
    double begin = finish - s->minutes, paid = 0;
    for (const lml_schedule_band *b = p->band; b < p->band + p->bands; b++) {
        double length = length_of(b->hours);
        double opens = b->hours.from + DAY * floor((begin - b->hours.from - length) / DAY);
        for (; opens < finish; opens += DAY) {
            double from = opens > begin ? opens : begin;
            double to = opens + length < finish ? opens + length : finish;
            if (from < to)
                paid += energy(p, s, begin, from, to) * b->price;
        }
    }
    return paid;
}

/* Minutes of a ramp that ends at `finish` above the ceiling while everybody sleeps. */
static double hot_and_alone(const lml_schedule_problem *p, const lml_schedule_segment *s,
                            double finish)
{
    if (!p->has_sleep || !p->has_ceiling || (s->from <= p->ceiling && s->to <= p->ceiling))
        return 0;
    double from = finish - s->minutes, to = finish;
    if (s->from < p->ceiling)
        from += (p->ceiling - s->from) / s->rate;
    if (s->to < p->ceiling)
        to = from + (p->ceiling - s->from) / s->rate;
    return to > from ? passed(p->sleep, to) - passed(p->sleep, from) : 0;
}

/* ---- the search --------------------------------------------------------------------------------
 */

/* The best way to one moment at which a segment begins. */
typedef struct path {
    bool there;
    int hands, took, later; /* took: stretches of this segment; later: the path of the next one */
    double alone, cost;
    int stretch;
    uint64_t order; /* which stretches: those of later holds count more. It may turn over */
} path;

/* What has run up by a moment, were the kiln always as hot as in one hold. */
typedef struct run_up {
    double cost, alone;
} run_up;

static int stretches_of(const lml_schedule_segment *s)
{
    return (int)floor(s->soft / QUARTER);
}

static int stretches_in_all(const lml_schedule_problem *p)
{
    int all = 0;
    for (int i = 0; i < p->segments; i++)
        all += stretches_of(&p->segment[i]);
    return all;
}

/* Of two that are equal in all else it is the one that stretches later holds less. */
static bool is_better(const path *a, const path *b)
{
    if (!b->there)
        return true;
    if (a->hands != b->hands)
        return a->hands < b->hands;
    if (fabs(a->alone - b->alone) > HARDLY)
        return a->alone < b->alone;
    if (fabs(a->cost - b->cost) > 1e-9 * (1 + b->cost))
        return a->cost < b->cost;
    if (a->stretch != b->stretch)
        return a->stretch < b->stretch;
    return (int64_t)a->order < (int64_t)b->order;
}

static run_up run_up_by(const lml_schedule_problem *p, const lml_schedule_segment *s, double t,
                        bool priced)
{
    run_up r = {0, 0};
    if (priced) {
        double watts = power(p, s, s->to);
        for (int b = 0; b < p->bands; b++)
            r.cost += p->band[b].price * passed(p->band[b].hours, t);
        r.cost *= 60 * (watts > 0 ? watts : 0);
    }
    if (p->has_ceiling && s->to > p->ceiling && p->has_sleep)
        r.alone = passed(p->sleep, t);
    return r;
}

/* The ways one segment further back: every one that was found to the moment at which it ends, with
 * every stretch of it. What a segment costs depends only on when it ends and how long it is, so of
 * the ways to one moment the best is enough. Returns the furthest stretch reached. */
static int further_back(const lml_schedule_problem *p, const lml_schedule_segment *s,
                        const path *paths, int most, double finish, bool strict, bool priced,
                        run_up *before, path *reached)
{
    int stretches = stretches_of(s), furthest = 0;
    double begins = finish - s->minutes;
    for (int k = 0; !s->ramp && k <= most + stretches; k++)
        before[k] = run_up_by(p, s, begins - k * QUARTER, priced);
    for (int k = 0; k <= most + stretches; k++)
        reached[k].there = false;
    for (int shift = 0; shift <= most; shift++) {
        const path *next = &paths[shift];
        if (!next->there)
            continue;
        double ends = finish - shift * QUARTER;
        run_up by = {0, 0};
        if (s->ramp)
            by = (run_up){priced ? price_of(p, s, ends) : 0, hot_and_alone(p, s, ends)};
        else
            by = run_up_by(p, s, ends, priced);
        for (int took = 0; took <= stretches; took++) {
            path one = {.there = true,
                        .hands = next->hands,
                        .took = took,
                        .later = shift,
                        .stretch = shift + took};
            one.cost = next->cost + by.cost;
            one.alone = next->alone + by.alone;
            if (s->hands && is_asleep(p, begins - one.stretch * QUARTER))
                one.hands++;
            if (!s->ramp) {
                one.cost -= before[one.stretch].cost;
                one.alone -= before[one.stretch].alone;
            }
            if (strict && (one.hands > 0 || one.alone > HARDLY))
                continue;
            one.order = stretches > 0 ? next->order * 100 + (uint64_t)took : next->order;
            if (is_better(&one, &reached[one.stretch]))
                reached[one.stretch] = one;
            if (one.stretch > furthest)
                furthest = one.stretch;
        }
    }
    return furthest;
}

static int fixed_hands(const lml_schedule_problem *p)
{
    int count = 0;
    for (int i = 0; i < p->fixed_count; i++)
        count += is_asleep(p, p->pour + p->fixed[i]);
    return count;
}

/* Whether somebody has to get up to load a kiln that could have waited by itself, had the flasks
 * been ready at bedtime. A flask that goes in then and still sets is not moved, and a person who
 * makes the plan at night is awake. */
static bool is_loaded_late(const lml_schedule_problem *p, double start)
{
    if (p->at_start_count > 0 || (p->has_now && is_asleep(p, p->now)))
        return false;
    double load = p->waits ? awake_before(p, start) : start;
    if (p->has_now && start >= p->now && p->now > load)
        load = p->now;
    if (p->has_movable && p->steam <= 0 && start >= p->movable && p->movable > load)
        load = p->movable;
    return is_asleep(p, load);
}

/* The hands that are due at the start. */
static int hands_at(const lml_schedule_problem *p, double start)
{
    int count = is_loaded_late(p, start);
    for (int i = 0; i < p->at_start_count; i++)
        count += is_asleep(p, start - p->at_start[i]);
    return count;
}

/* Walk back from the pour. `strict` leaves out plans that break a rule; `priced` looks at what the
 * energy costs. Without `plan` it only says whether there is one. */
static bool walk_back(const lml_schedule_problem *p, void *room, bool strict, bool priced,
                      lml_schedule_plan *plan)
{
    size_t wide = (size_t)stretches_in_all(p) + 1;
    run_up *before = room;
    path *paths = (path *)(before + wide); /* a row for each segment, and one for the pour */
    int most = 0;
    double finish = p->pour;
    paths[(size_t)p->segments * wide] = (path){.there = true, .hands = fixed_hands(p)};
    for (int i = p->segments; i-- > 0;) {
        path *row = paths + (size_t)i * wide;
        most =
            further_back(p, &p->segment[i], row + wide, most, finish, strict, priced, before, row);
        finish -= p->segment[i].minutes;
    }
    path best = {.there = false};
    for (int shift = 0; shift <= most; shift++) {
        path one = paths[shift];
        double start = finish - shift * QUARTER;
        if (!one.there || start < p->earliest - HARDLY)
            continue;
        one.hands += hands_at(p, start);
        if (!(strict && one.hands > 0) && is_better(&one, &best))
            best = one;
    }
    if (!best.there || !plan)
        return best.there;
    *plan = (lml_schedule_plan){.hands = best.hands,
                                .alone = best.alone,
                                .cost = best.cost,
                                .start = finish - best.stretch * QUARTER,
                                .stretch = best.stretch};
    for (int i = 0, at = best.stretch; i < p->segments; i++) {
        const path *one = &paths[(size_t)i * wide + (size_t)at];
        plan->took[i] = one->took;
        at = one->later;
    }
    return true;
}

/* Few plans keep every rule, and the best of those is the best of all: so they are tried alone
 * first. */
bool lml_schedule_search(const lml_schedule_problem *p, void *room, lml_schedule_plan *plan)
{
    bool priced = p->bands > 0;
    return (fixed_hands(p) == 0 && walk_back(p, room, true, priced, plan)) ||
           walk_back(p, room, false, priced, plan);
}

bool lml_schedule_keeps_rules(const lml_schedule_problem *p, void *room)
{
    return fixed_hands(p) == 0 && walk_back(p, room, true, false, NULL);
}

size_t lml_schedule_room(const lml_schedule_problem *p)
{
    size_t wide = (size_t)stretches_in_all(p) + 1;
    return wide * sizeof(run_up) + wide * (size_t)(p->segments + 1) * sizeof(path);
}

uint64_t lml_schedule_work(const lml_schedule_problem *p)
{
    enum { A_WAY = 60, A_WINDOW = 80, A_START = 60 };
    uint64_t work = 0, windows = (uint64_t)p->bands + 2, most = 0;
    for (int i = p->segments; i-- > 0;) {
        const lml_schedule_segment *s = &p->segment[i];
        uint64_t stretches = (uint64_t)stretches_of(s),
                 days = s->ramp ? 2 + (uint64_t)(s->minutes / DAY) : 1;
        work += (most + 1) * (stretches + 1) * A_WAY +
                (2 * most + stretches + 2) * windows * days * A_WINDOW;
        most += stretches;
    }
    work += (most + 1) * ((uint64_t)p->at_start_count + 2) * A_START +
            (uint64_t)p->fixed_count * A_START;
    return 2 * work;
}

/* ---- what is taken -----------------------------------------------------------------------------
 */

static bool is_far(double moment)
{
    return !(fabs(moment) <= 1e9);
}

static bool are_far(const double *moments, int count)
{
    bool far = false;
    for (int i = 0; i < count; i++)
        far = far || is_far(moments[i]);
    return far;
}

static bool is_no_window(lml_schedule_window w)
{
    return !(w.from >= 0 && w.from <= DAY && w.to >= 0 && w.to <= DAY);
}

static lml_status check_segment(const lml_schedule_segment *s, int number, lml_error *err)
{
    enum { LONGEST = 100000 /* minutes: ten weeks */ };
    if (is_far(s->from) || is_far(s->to) || is_far(s->rate) || !(s->minutes >= 0) ||
        !(s->soft >= 0))
        return lml_fail(err, LML_BAD_VALUE, "segment %d of the burnout has an invalid number",
                        number);
    if (s->minutes > LONGEST || s->soft > LONGEST)
        return lml_fail(err, LML_LIMIT, "segment %d of the burnout is longer than %d min", number,
                        LONGEST);
    if (s->ramp && (s->soft > 0 || (fabs(s->rate) <= 0 && s->minutes > 0)))
        return lml_fail(
            err, LML_BAD_VALUE,
            "segment %d of the burnout is a ramp: it has a rate and cannot be stretched", number);
    return LML_OK;
}

lml_status lml_schedule_check(const lml_schedule_problem *p, lml_error *err)
{
    for (int i = 0; i < p->segments; i++) {
        lml_status status = check_segment(&p->segment[i], i + 1, err);
        if (status)
            return status;
    }
    for (int i = 0, all = 0; i < p->segments; i++)
        if ((all += stretches_of(&p->segment[i])) > LML_SCHEDULE_STRETCHES)
            return lml_fail(err, LML_LIMIT,
                            "the holds may be stretched by more than %d quarter-hours",
                            LML_SCHEDULE_STRETCHES);
    bool bad = (p->has_sleep && is_no_window(p->sleep)) || (p->has_ceiling && is_far(p->ceiling));
    for (int i = 0; i < p->bands; i++)
        bad = bad || is_no_window(p->band[i].hours) || is_far(p->band[i].price);
    bad = bad ||
          (p->bands > 0 && (!isfinite(p->capacity) || !isfinite(p->losses) || is_far(p->room)));
    bad = bad || are_far(p->fixed, p->fixed_count) || are_far(p->at_start, p->at_start_count);
    bad = bad || is_far(p->pour) || is_far(p->earliest) || is_far(p->steam);
    bad = bad || (p->has_now && is_far(p->now)) || (p->has_movable && is_far(p->movable));
    if (bad)
        return lml_fail(err, LML_BAD_VALUE, "the casting day has an invalid time or number");
    return LML_OK;
}
