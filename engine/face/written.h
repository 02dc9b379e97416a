/* Written: the words between quotes in an engine's recipes, scripts, house and prices, and in a
 * job. A traced run looks up hundreds of texts in them.
 *
 *     lml_written *written = lml_written_new(&shelf, job);
 *     if (lml_written_has(written, words)) ...
 *     lml_written_free(written);
 */
#ifndef LML_FACE_WRITTEN_H
#define LML_FACE_WRITTEN_H

#include "shelf/shelf.h"

typedef struct lml_written lml_written;

/* NULL when memory is short. The texts must stay where they are. */
lml_written *lml_written_new(const lml_shelf *shelf, const lml_json_document *job);
void lml_written_free(lml_written *written); /* NULL is fine */
/* Whether the words are there, with a quote on either side. The empty text always is. */
bool lml_written_has(const lml_written *written, lml_span words);
/* Where they first are so: in the job, else the house or the prices, else a script, else a recipe;
 * and whether they are nowhere else. False where they are nowhere. */
bool lml_written_find(const lml_written *written, lml_span words, const char **file, unsigned *line,
                      bool *once);

#endif
