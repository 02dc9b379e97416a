/* Verdict: the result of one proof, each figure as calculated and as expected.
 *
 *     lml_verdict v = {.failures = 0};
 *     lml_verdict_compare(L, shape, got, expected, "0.1 g", "charge", &v);
 */
#ifndef LML_REPORT_VERDICT_H
#define LML_REPORT_VERDICT_H

#include "file/shape.h"

#include <lua.h>

/* The result of one proof: all differences, up to a screenful. */
enum { LML_VERDICT_MOST = 12 };
typedef struct lml_verdict {
    int failures; /* also those that are not kept */
    char difference[LML_VERDICT_MOST][sizeof((lml_error *)0)->message];
} lml_verdict;

void lml_verdict_fail(lml_verdict *v, const char *format, ...) LML_PRINTF(2, 3);
/* Both stand on the stack: what was got, checked, and what is expected, as the proof says it. Of a
 * record only the members that are named are looked at. How many figures were compared. */
size_t lml_verdict_compare(lua_State *L, const lml_shape *shape, int got, int expected,
                           const char *within, const char *path, lml_verdict *v);

/* Whether `within` says how far a figure of that kind may be off: "0.1 g" of a mass, "1 %" of most.
 */
lml_status lml_verdict_check_within(const lml_value *expected, lml_span within, lml_error *err);

#endif
