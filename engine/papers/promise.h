/* Promise: what an offer keeps of a result, written so that a job can use it: figures in the
 * grammar of values, texts, lists and records of these.
 *
 *     lml_status s = lml_promise_write(&w, "price", figure, err);    "price":"1149.00 USD"
 */
#ifndef LML_PAPERS_PROMISE_H
#define LML_PAPERS_PROMISE_H

#include "file/json.h"
#include "file/json_write.h"

/* `figure` of a result, under its name; NULL or "" for an item of a list. LML_BAD_DATA for one that
 * cannot be written completely as text. */
lml_status lml_promise_write(lml_json_writer *w, lml_span name, const lml_json *figure,
                             lml_error *err);
/* The digests of what the result was calculated with, as members of the entry that is open:
 * `worked` of recipes and rules by name, `scripts` and `settings` one each, `job`, `house` and
 * `prices`. */
lml_status lml_promise_write_digests(lml_json_writer *w, const lml_json *result, lml_error *err);

#endif
