/* Terms: an amount with its unit, the intermediate step of reading a value.
 *
 * Private to this floor. lml_read_value cuts a text into terms; a term gets its unit, then its
 * kind, then its amount or its spread.
 */
#ifndef LML_READ_TERM_H
#define LML_READ_TERM_H

#include "unit/amount.h"
#include "value/ending.h"
#include "value/wanted.h"

/* The state of reading, passed down as a whole. */
typedef struct lml_reading {
    lml_span whole; /* the text that labels show */
    lml_wanted wanted;
    lml_metal metal; /* of a bare fineness or fine mass */
    lml_error *err;
} lml_reading;

typedef struct lml_term {
    lml_amount amount;
    lml_ending ending;
    lml_unit unit;
    lml_dimension dimension;
    lml_rational factor, offset; /* SI = amount * factor + offset */
    bool spreads_karats;         /* behind the ± of a figure in karats, whatever they are called */
} lml_term;

/* A refusal that labels `part`; returns LML_BAD_VALUE. */
lml_status lml_reading_refuse(const lml_reading *r, lml_span part, const char *note,
                              const char *message, const char *hint);

/* The unit and what follows it into `t`; an empty text is a plain number. */
lml_status lml_term_read_unit(const lml_reading *r, lml_span text, lml_term *t);
/* Kind, dimension, mode and metal of the value that the unit makes. */
lml_status lml_term_classify(const lml_reading *r, const lml_term *t, lml_value *v);
/* The amount of a classified value: alone, as one end of a range with another, or with a spread. */
lml_status lml_term_single(const lml_reading *r, const lml_term *t, lml_value *v);
lml_status lml_term_between(const lml_reading *r, const lml_term *low, const lml_term *high,
                            lml_value *v);
lml_status lml_term_deviation(const lml_reading *r, const lml_term *t, const lml_term *deviation,
                              lml_value *v);
/* An amount of money in millionths, exactly. */
lml_status lml_term_money(const lml_reading *r, const lml_amount *a, int64_t *out);

#endif
