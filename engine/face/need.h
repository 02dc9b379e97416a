/* Need: the required arguments of a public function. */
#ifndef LML_FACE_NEED_H
#define LML_FACE_NEED_H

#include "base/status.h"

/* LML_BAD_DATA if a required argument is NULL, naming the function and the first such argument.
 *
 *     if (LML_NEED(err, {"job", job}, {"result", result}))
 *         return LML_BAD_DATA; */
typedef struct lml_need {
    const char *name;
    const void *at;
} lml_need;
lml_status lml_need_all(const char *function, const lml_need *needs, lml_error *err);
#define LML_NEED(err, ...)                                                                         \
    lml_need_all(__func__, (const lml_need[]){__VA_ARGS__, {NULL, NULL}}, err)

#endif
