/* Comparison: prints the results of many jobs with two versions of a recipe.
 */
#ifndef LML_PRINT_COMPARISON_H
#define LML_PRINT_COMPARISON_H

#include "papers/moved.h"
#include "studio/jobs.h"
#include "terminal/call.h"

enum { LML_BEFORE, LML_AFTER };
enum { LML_COMPARE_WORDS = 400 };

/* The outcome of a job. */
typedef struct lml_outcome {
    const char *job;
    lml_status status[2];             /* LML_OK, LML_STOPPED, or that of an error */
    char words[2][LML_COMPARE_WORDS]; /* the codes of the stops, or the error's message */
} lml_outcome;

typedef struct lml_comparison {
    lml_call *call;
    const lml_jobs *jobs;
    const char *recipe;   /* what both stand for */
    const char *shown[2]; /* how messages name the two */
    lml_moved moved;
    lml_outcome *outcome; /* of jobs that end differently, or with an error */
    size_t outcomes, room;
    size_t done, failed, used; /* jobs; with an error in either; that use the recipe */
} lml_comparison;

/* Whether a job ended with a result, stops or not. */
bool lml_comparison_worked(lml_status status);
/* For people and for programs. */
lml_status lml_comparison_print(const lml_comparison *comparison, lml_error *err);
lml_status lml_comparison_print_json(const lml_comparison *comparison, lml_error *err);

#endif
