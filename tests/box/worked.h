/* An engine of the tests' own: recipes and scripts given as texts, jobs run from texts. */
#ifndef LML_TESTS_BOX_WORKED_H
#define LML_TESTS_BOX_WORKED_H

#include "lemel.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static inline void put_text(lml_engine *engine, lml_put what, const char *name, const char *text)
{
    char shown[200];
    lml_error e;
    snprintf(shown, sizeof shown, "%s%s", name ? name : "house", name ? ".lua" : ".json");
    cr_assert_eq(lml_engine_put(engine, what, name, text, strlen(text), shown, &e), LML_OK,
                 "%s: %s", shown, e.message);
}

/* The result as a text that the caller frees, or NULL and the error. */
static inline char *run_text(lml_engine *engine, const char *job, lml_error *e)
{
    lml_text text;
    memset(e, 0, sizeof *e);
    lml_status status = lml_engine_run(engine, job, strlen(job), "job.json", &text, e);
    if (status) {
        cr_expect_eq(status, e->status, "status %s, and the error says %s", lml_status_name(status),
                     lml_status_name(e->status));
        return NULL;
    }
    char *copy = (char *)malloc(text.length + 1);
    memcpy(copy, text.text, text.length + 1);
    lml_text_free(engine, &text);
    return copy;
}

#endif
