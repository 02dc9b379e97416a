/* The plan of a casting day: from the first pour back to the start of the kiln, segment by segment.
 *
 * Holds may be stretched by quarters of an hour. Of all ways to stretch them the plan that gets the
 * fewest people up at night is sought; of those the one with the fewest minutes above the ceiling
 * while everybody sleeps; of those the cheapest; then the one that is stretched least, and the
 * later holds less. Moments are minutes from midnight of the day of the pour, temperatures °C,
 * rates °C a minute; what the rules are, the recipe says.
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

/* Of every day; over midnight when it ends before it begins, all day when both are one. */
typedef struct lml_schedule_window {
    double from, to;
} lml_schedule_window;

typedef struct lml_schedule_band {
    lml_schedule_window hours;
    double price; /* of energy; only how prices compare counts */
} lml_schedule_band;

typedef struct lml_schedule_segment {
    bool ramp;  /* else a hold */
    bool hands; /* somebody has to be there when it begins */
    double from, to, rate, minutes;
    double soft; /* minutes by which it may be stretched: holds */
} lml_schedule_segment;

typedef struct lml_schedule_problem {
    lml_schedule_segment segment[LML_SCHEDULE_SEGMENTS];
    int segments;
    double pour, earliest; /* the first pour; no start before this */
    bool has_sleep, has_ceiling;
    lml_schedule_window sleep;
    double ceiling; /* °C, while everybody sleeps */
    lml_schedule_band band[LML_SCHEDULE_BANDS];
    int bands;                          /* 0: no price is looked at */
    double capacity, losses, room;      /* of the kiln: J/K, W/K; °C. Only with bands */
    double fixed[LML_SCHEDULE_MOMENTS]; /* hands due so long after the pour */
    int fixed_count;
    double at_start[LML_SCHEDULE_STARTS]; /* hands due so long before the start */
    int at_start_count;
    bool waits; /* the kiln starts by itself: it is set at the last moment awake */
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
 * than the search takes. The others ask for a problem that was checked. */
lml_status lml_schedule_check(const lml_schedule_problem *p, lml_error *err);
/* Bytes of working room that a search needs, aligned for a double, and about how many instructions
 * of the processor it takes at most. */
size_t lml_schedule_room(const lml_schedule_problem *p);
uint64_t lml_schedule_work(const lml_schedule_problem *p);

/* The best plan; false when none starts as late as `earliest`. */
bool lml_schedule_search(const lml_schedule_problem *p, void *room, lml_schedule_plan *plan);
/* Whether some plan for this pour gets nobody up and stays below the ceiling. */
bool lml_schedule_keeps_rules(const lml_schedule_problem *p, void *room);

#endif
