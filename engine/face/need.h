/* Need: what a function of the public face cannot do without. */
#ifndef LML_FACE_NEED_H
#define LML_FACE_NEED_H

#include "base/status.h"

/* What a function cannot do without: LML_BAD_DATA, naming the function and the first that is NULL.
 *
 *     if (LML_NEED(err, {"job", job}, {"result", result}))
 *         return LML_BAD_DATA;
 */
typedef struct lml_need {
    const char *name;
    const void *at;
} lml_need;
lml_status lml_need_all(const char *function, const lml_need *needs, lml_error *err);
#define LML_NEED(err, ...)                                                                         \
    lml_need_all(__func__, (const lml_need[]){__VA_ARGS__, {NULL, NULL}}, err)

#endif
