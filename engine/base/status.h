/* Status: how functions report failure; includes fail.h and error.h.
 *
 * Every function that can fail returns an lml_status and takes, last, an lml_error pointer that may
 * be NULL. `out` parameters are written only on LML_OK. What an lml_error holds is in types.h.
 *
 *     if (!fits)
 *         return lml_fail(err, LML_BAD_VALUE, "a mass (%s) is needed, but %s was given", a, b);
 *     return lml_error_context(err, inner_call(..., err), "in %s", name);
 */
#ifndef LML_BASE_STATUS_H
#define LML_BASE_STATUS_H

#include "base/error.h"
#include "base/fail.h"

/* The name of a status ("BAD_VALUE") and its sentence; never NULL. */
LML_API const char *lml_status_name(lml_status status);
LML_API const char *lml_status_sentence(lml_status status);

#endif
