/* The plan of a casting day: from the first pour back to the start of the kiln, segment by segment.
 *
 * Holds may be extended by quarters of an hour. The best plan has the fewest tasks at night; then
 * the fewest minutes above the ceiling while everybody sleeps; then the least cost; then the least
 * extension, preferably of earlier holds. Moments are minutes from midnight of the day of the pour,
 * temperatures °C, rates °C per minute; the recipe sets the rules.
 *
 *     lml_schedule_plan plan;
 *     lml_status status = lml_schedule_check(&p, err);
 *     void *room = status ? NULL : malloc(lml_schedule_room(&p));
 *     bool found = room && lml_schedule_search(&p, room, &plan);
 */
#ifndef LML_CRAFT_SCHEDULE_H
#define LML_CRAFT_SCHEDULE_H

#include "base/status.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum {
    LML_SCHEDULE_SEGMENTS = 64,
    LML_SCHEDULE_BANDS = 100,
    LML_SCHEDULE_MOMENTS = 4000,
    LML_SCHEDULE_STARTS = 16,
    LML_SCHEDULE_STRETCHES = 1000 /* quarters of an hour, of all holds together */
};

/* Of every day; across midnight if it ends before it begins, all day if both are equal. */
typedef struct lml_schedule_window {
    double from, to;
} lml_schedule_window;

typedef struct lml_schedule_band {
    lml_schedule_window hours;
    double price; /* of energy; only the ratio of prices matters */
} lml_schedule_band;

typedef struct lml_schedule_segment {
    bool ramp;  /* else a hold */
    bool hands; /* somebody has to be there when it begins */
    double from, to, rate, minutes;
    double soft; /* minutes by which it may be extended: holds */
} lml_schedule_segment;

typedef struct lml_schedule_problem {
    lml_schedule_segment segment[LML_SCHEDULE_SEGMENTS];
    int segments;
    double pour, earliest; /* the first pour; no start before this */
    bool has_sleep, has_ceiling;
    lml_schedule_window sleep;
    double ceiling; /* °C, while everybody sleeps */
    lml_schedule_band band[LML_SCHEDULE_BANDS];
    int bands;                          /* 0: prices are ignored */
    double capacity, losses, room;      /* of the kiln: J/K, W/K; °C. Only with bands */
    double fixed[LML_SCHEDULE_MOMENTS]; /* a person is needed so long after the pour */
    int fixed_count;
    double at_start[LML_SCHEDULE_STARTS]; /* a person is needed so long before the start */
    int at_start_count;
    bool waits; /* the kiln starts by itself: it is set at the last waking moment */
    bool has_now, has_movable;
    double now;     /* nothing is done before */
    double movable; /* from when the last flask may be moved */
    double steam;   /* minutes of steaming before the start */
} lml_schedule_problem;

typedef struct lml_schedule_plan {
    int hands;
    double alone, cost, start;
    int stretch;                     /* quarters, in all */
    int took[LML_SCHEDULE_SEGMENTS]; /* of each segment */
} lml_schedule_plan;

/* LML_BAD_VALUE: a number that is not finite, or negative minutes; LML_LIMIT: more, longer or later
 * than the search takes. The other functions require a checked problem. */
lml_status lml_schedule_check(const lml_schedule_problem *p, lml_error *err);
/* Bytes of working room that a search needs, aligned for a double, and about how many instructions
 * of the processor it takes at most. */
size_t lml_schedule_room(const lml_schedule_problem *p);
uint64_t lml_schedule_work(const lml_schedule_problem *p);

/* The best plan; false when none starts as late as `earliest`. */
bool lml_schedule_search(const lml_schedule_problem *p, void *room, lml_schedule_plan *plan);
/* Whether a plan for this pour has no task at night and stays below the ceiling. */
bool lml_schedule_keeps_rules(const lml_schedule_problem *p, void *room);

#endif
