/* Typed: turns what a person types into the text that a value is read from.
 */
#ifndef LML_PAPERS_TYPED_H
#define LML_PAPERS_TYPED_H

#include "papers/walk.h"

typedef enum lml_typed_key {
    LML_TYPED_ANSWER,
    LML_TYPED_NOTHING, /* Enter */
    LML_TYPED_BACK,    /* < */
    LML_TYPED_PAST,    /* - */
    LML_TYPED_OUT,     /* -- */
    LML_TYPED_WHOLE,   /* --- */
    LML_TYPED_MORE,    /* ? */
} lml_typed_key;
lml_typed_key lml_typed_read_key(lml_span typed);

/* Yes or no, possibly abbreviated. LML_BAD_VALUE. */
lml_status lml_typed_read_yes(lml_span typed, bool *yes, lml_error *err);
/* Append the answer to a question for a value as lml_engine_check_value takes it: a choice by any
 * beginning that no other has, yes for true, 585 for a fineness of 585 ‰. LML_BAD_VALUE. */
lml_status lml_typed_read(const lml_step *step, lml_span typed, lml_builder *out, lml_error *err);

#endif
