/* Works a reference table: every row names its case, and an unknown case fails. */
#ifndef LML_TESTS_WORKED_H
#define LML_TESTS_WORKED_H

#include "reference.h"

#include "base/status.h"

/* Our value of a row, or the status of the refusal. *known is set to false for a case that is not
 * of the table. */
typedef lml_status worked_case(const char *name, ref_row *row, double *ours, bool *known,
                               lml_error *err);

static inline void worked_table(const char *table, worked_case *work)
{
    ref_table *t = ref_open(table);
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        const char *name = ref_cell(row, "case");
        lml_error err;
        double ours = NAN;
        bool known = true;
        lml_status status = work(name, row, &ours, &known, &err);
        cr_assert(known, "%s: unknown case %s", ref_where(row), name);
        cr_assert_eq(status, LML_OK, "%s: refused: %s", ref_where(row), err.message);
        ref_expect(row, ours);
        ref_end_row(row);
    }
}

static inline bool worked_is(const char *name, const char *other)
{
    return strcmp(name, other) == 0;
}

/* The refusal says what it must, gives its status, and leaves the result alone. */
#define WORKED_REFUSES(call, expected, words)                                                      \
    do {                                                                                           \
        cr_expect_eq((call), (expected), "%s is not refused as it should be", #call);              \
        cr_expect_not_null(strstr(err.message, (words)), "%s says: %s", #call, err.message);       \
    } while (0)

#endif
