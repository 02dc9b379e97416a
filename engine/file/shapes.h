/* The shapes of the files a studio keeps: jobs, the house, prices.
 *
 * Names that recipes declare (what a job gives, what the house sets) are not checked here; the box
 * checks them against the recipe. Each file may name its schema under "$schema", so that editors
 * help. Each may have a version; for a later version the check reports only that.
 */
#ifndef LML_FILE_SHAPES_H
#define LML_FILE_SHAPES_H

#include "file/shape.h"

extern const lml_shape lml_shapes_job, lml_shapes_house, lml_shapes_prices;
/* One entry of a job's record. */
extern const lml_shape lml_shapes_record_entry;
/* One entry of its offers, and its closing. */
extern const lml_shape lml_shapes_offer;
enum { LML_SHAPES_CLOSING_FIELDS = 4 };
extern const lml_shape lml_shapes_closing_fields[LML_SHAPES_CLOSING_FIELDS];

/* The version of these files: raised when an older lemel would misread one. */
enum { LML_SHAPES_VERSION = 1 };
/* Whether a later lemel wrote the file with that root. */
bool lml_shapes_is_later(const lml_json *root);

/* The results of the jobs that a job lists: a member of the job, and the ask that reads it. */
#define LML_LISTED "listed"

/* By the names that the command takes: "job", "house", "prices"; NULL when unknown. */
const lml_shape *lml_shapes_named(lml_span name);

/* The code to write for an example, by the place of the house. */
const char *lml_shapes_currency_of(const lml_json *house);

#endif
