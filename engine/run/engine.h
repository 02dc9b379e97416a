/* The contents of the engine, for the box's own files. The public face is lemel.h. */
#ifndef LML_RUN_ENGINE_H
#define LML_RUN_ENGINE_H

#include "shelf/shelf.h"

struct lml_engine {
    lml_alloc alloc;
    lml_limits limits;
    bool (*interrupt)(void *self);
    void *interrupt_self;
    bool without_gates;
    bool reach;                    /* proofs report what they do not reach */
    const lml_item *advised;       /* read although there are slips in it; NULL: none is */
    void (*prepare)(lua_State *L); /* the words that recipes get */
    /* Push the text of a setting in a result: of the value at the index, from "house" or "default".
     */
    void (*push_setting)(lua_State *L, int value, const char *from);
    lml_shelf shelf;
    struct lml_memo *memo;   /* what texts were read as, of all runs; NULL when memory was short */
    struct lml_trace *trace; /* of a run that is asked where its figures come from, or withholds
                                any; else NULL */
    bool tells_why;          /* the result has the steps of all figures */
    bool house_checked;
    struct lml_warm *warm; /* boxes of the recently used recipes */
    bool trial; /* a job is run with figures other than its own: its confirmations hold even if the
                   words changed with the figures, and the result has only figures */
    bool marks_tries; /* what came from a withheld figure is withheld in a trial too */
    bool no_sheets;   /* of a trial: only the stops of a sheet are read */
    bool tells_end; /* where the error of a trial may show a withheld figure, a traced run finds out
                       whether it does */
    bool draws;     /* of a trial: its result is what report/drawn.h writes of the wanted figures */
    const char *wanted;      /* by a try: names of figures, a line each; NULL: all gives */
    struct lml_tries *tries; /* of one job with changing figures: see face/tries.h */
    struct lml_reuse *reuse; /* while a job is run for its figures alone; else NULL */
};

#endif
