/* What texts were read as before: an engine reads the same few, "0.1 g" and what the house sets,
 * in every job. What a text is read as hangs on nothing else. Only what was read is remembered,
 * never what was refused. Texts that fall to the same place displace each other.
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
