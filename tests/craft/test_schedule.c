/* The plan of a casting day against every plan there is: small days are drawn, every way to stretch
 * their holds is laid out on a clock and looked at minute by minute. The check knows none of the
 * search's shortcuts. */
#include "craft/schedule.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DAY = 1440, QUARTER = 15, DAYS_DRAWN = 300 };

static uint32_t drawn = 12345;

static int draw(int below)
{
    drawn = drawn * 1664525u + 1013904223u;
    return (int)((drawn >> 8) % (uint32_t)below);
}

static bool asleep_in_minute(const lml_schedule_problem *p, int minute)
{
    int m = ((minute % DAY) + DAY) % DAY, from = (int)p->sleep.from, to = (int)p->sleep.to;
    return from <= to ? m >= from && m < to : m >= from || m < to;
}

/* At a moment: neither end of the night counts. */
static bool asleep_at(const lml_schedule_problem *p, int minute)
{
    return asleep_in_minute(p, minute) && ((minute % DAY) + DAY) % DAY != (int)p->sleep.from;
}

/* A day of holds that jump from heat to heat, on whole minutes. */
static void draw_day(lml_schedule_problem *p)
{
    memset(p, 0, sizeof *p);
    p->segments = 2 + draw(3);
    for (int i = 0; i < p->segments; i++) {
        double at = 100 + 50 * draw(14);
        p->segment[i] = (lml_schedule_segment){
            .from = at, .to = at, .minutes = 20 + draw(200), .hands = draw(4) == 0};
        p->segment[i].soft = draw(2) ? QUARTER * draw(9) : 0;
    }
    p->pour = draw(DAY);
    p->earliest = draw(2) ? -1e9 : p->pour - 600;
    p->has_sleep = p->has_ceiling = true;
    p->sleep = (lml_schedule_window){1320, 420};
    p->ceiling = 400;
    p->capacity = 0;
    p->losses = 1;
    p->bands = draw(2) ? 2 : 0;
    p->band[0] = (lml_schedule_band){{420, 1320}, 1};
    p->band[1] = (lml_schedule_band){{1320, 420}, 0.5};
    p->fixed_count = draw(2);
    p->fixed[0] = -30;
    p->at_start_count = 1; /* somebody switches it on */
    p->waits = false;
}

typedef struct laid {
    bool there;
    int hands, alone, stretch;
    double cost, start;
} laid;

static laid lay_out(const lml_schedule_problem *p, const int *took)
{
    laid l = {.there = true};
    int finish = (int)p->pour;
    for (int i = p->segments; i-- > 0;) {
        const lml_schedule_segment *s = &p->segment[i];
        int begins = finish - (int)s->minutes - took[i] * QUARTER;
        l.stretch += took[i];
        l.hands += s->hands && asleep_at(p, begins);
        for (int m = begins; m < finish; m++) {
            bool night = asleep_in_minute(p, m);
            l.alone += night && s->to > p->ceiling;
            if (p->bands > 0) /* the night is the cheap band */
                l.cost += 60 * p->losses * s->to * p->band[night].price;
        }
        finish = begins;
    }
    for (int i = 0; i < p->fixed_count; i++)
        l.hands += asleep_at(p, (int)(p->pour + p->fixed[i]));
    l.hands += asleep_at(p, finish);
    l.start = finish;
    l.there = l.start >= p->earliest;
    return l;
}

static int compare(const laid *a, const laid *b)
{
    if (a->hands != b->hands)
        return a->hands - b->hands;
    if (a->alone != b->alone)
        return a->alone - b->alone;
    if (fabs(a->cost - b->cost) > 1e-8 * (1 + b->cost))
        return a->cost < b->cost ? -1 : 1;
    return a->stretch - b->stretch;
}

static laid best_of_all(const lml_schedule_problem *p)
{
    laid best = {.there = false};
    int took[LML_SCHEDULE_SEGMENTS] = {0};
    for (int at = 0; at < p->segments;) {
        laid one = lay_out(p, took);
        if (one.there && (!best.there || compare(&one, &best) < 0))
            best = one;
        for (at = 0; at < p->segments && ++took[at] > p->segment[at].soft / QUARTER; at++)
            took[at] = 0;
    }
    return best;
}

static void *room_for(const lml_schedule_problem *p)
{
    lml_error e;
    cr_assert_eq(lml_schedule_check(p, &e), LML_OK, "%s", e.message);
    return malloc(lml_schedule_room(p));
}

Test(schedule, no_plan_of_all_is_better_than_the_one_found)
{
    static lml_schedule_problem p;
    int found_any = 0;
    for (int i = 0; i < DAYS_DRAWN; i++) {
        draw_day(&p);
        laid best = best_of_all(&p);
        void *room = room_for(&p);
        lml_schedule_plan plan;
        bool found = lml_schedule_search(&p, room, &plan);
        cr_assert_eq(found, best.there, "day %d", i);
        if (found) {
            laid one = lay_out(&p, plan.took);
            found_any++;
            cr_assert_eq(compare(&one, &best), 0,
                         "day %d: %d hands, %d min alone, %g, %d quarters; found %d, %d, %g, %d", i,
                         best.hands, best.alone, best.cost, best.stretch, one.hands, one.alone,
                         one.cost, one.stretch);
            cr_assert_eq(plan.hands, one.hands);
            cr_assert_float_eq(plan.alone, one.alone, 1e-6);
            cr_assert_float_eq(plan.start, one.start, 1e-9);
        }
        if (lml_schedule_keeps_rules(&p, room))
            cr_assert(best.there && best.hands == 0 && best.alone == 0, "day %d breaks a rule", i);
        else
            cr_assert(!best.there || best.hands > 0 || best.alone > 0, "day %d keeps every rule",
                      i);
        free(room);
    }
    cr_expect(found_any > DAYS_DRAWN / 3, "only %d of the days have a plan", found_any);
}

/* A ramp that has energy to pay: by hand, 1 kW more each minute for ten minutes is 50 kW minutes, 3
 * MJ. */
Test(schedule, the_energy_of_a_ramp_is_its_mean_power)
{
    static lml_schedule_problem p;
    memset(&p, 0, sizeof p);
    p.segments = 1;
    p.segment[0] =
        (lml_schedule_segment){.ramp = true, .from = 0, .to = 100, .rate = 10, .minutes = 10};
    p.losses = 100;
    p.bands = 1;
    p.band[0] = (lml_schedule_band){{0, 0}, 1};
    p.pour = 100;
    p.earliest = -1e9;
    void *room = room_for(&p);
    lml_schedule_plan plan;
    cr_assert(lml_schedule_search(&p, room, &plan));
    cr_expect_float_eq(plan.cost, 3e6, 1e-3, "%g", plan.cost);
    cr_expect_float_eq(plan.start, 90, 1e-12);
    free(room);
}

Test(schedule, what_means_nothing_or_is_without_end_is_refused)
{
    static lml_schedule_problem p;
    lml_error e;
    memset(&p, 0, sizeof p);
    p.segments = 1;
    p.segment[0] = (lml_schedule_segment){.from = 20, .to = 20, .minutes = NAN};
    cr_expect_eq(lml_schedule_check(&p, &e), LML_BAD_VALUE);
    p.segment[0].minutes = 1e9;
    cr_expect_eq(lml_schedule_check(&p, &e), LML_LIMIT);
    p.segment[0].minutes = 60;
    p.segment[0].soft = 90000;
    cr_expect_eq(lml_schedule_check(&p, &e), LML_LIMIT);
    p.segment[0].soft = 0;
    p.segment[0].ramp = true;
    cr_expect_eq(lml_schedule_check(&p, &e), LML_BAD_VALUE);
    p.segment[0].rate = 1;
    p.pour = INFINITY;
    cr_expect_eq(lml_schedule_check(&p, &e), LML_BAD_VALUE);
    p.pour = 0;
    cr_expect_eq(lml_schedule_check(&p, &e), LML_OK);
}
