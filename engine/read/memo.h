/* Memo: the values of texts that were read before. An engine reads the same few in every job, such
 * as "0.1 g" and the settings of the house, and the value of a text depends on nothing but the
 * text, the kind wanted and the metal. Refusals are not kept. Of too many texts
 * that fall into the same few places the oldest goes.
 *
 *     lml_value v;
 *     lml_status s = lml_memo_read(engine->memo, text, LML_WANT_MASS, LML_NO_METAL, &v, err);
 */
#ifndef LML_READ_MEMO_H
#define LML_READ_MEMO_H

#include "read/read.h"

typedef struct lml_memo lml_memo;

/* NULL when memory is short: then nothing is remembered. */
lml_memo *lml_memo_new(const lml_alloc *alloc);
void lml_memo_free(lml_memo *memo, const lml_alloc *alloc); /* NULL is fine */

/* As lml_read_value. `memo` may be NULL. */
lml_status lml_memo_read(lml_memo *memo, lml_span text, lml_wanted wanted, lml_metal metal,
                         lml_value *out, lml_error *err);

#endif
