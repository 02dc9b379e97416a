/* Text: operations on texts; includes all of its parts.
 *
 *     lml_text_join(path, sizeof path, "job", ".", "wax");
 */
#ifndef LML_BASE_TEXT_H
#define LML_BASE_TEXT_H

#include "base/builder.h"
#include "base/nearest.h"
#include "base/span.h"
#include "base/utf8.h"

/* Concatenates the texts into `out` of `size` bytes: NUL-ended, cut if they do not fit. For names
 * that are built far more often than they are shown. */
void lml_text_join(char *out, size_t size, const char *a, const char *b, const char *c);
/* "list[3]", in the same way. */
void lml_text_place(char *out, size_t size, const char *list, int index);

/* LML_OK, or LML_BAD_DATA with the byte's offset in the message. */
lml_status lml_text_check_utf8(lml_span span, lml_error *err);
/* LML_BAD_DATA, naming `source`, for a text that starts with a byte order mark, of UTF-8 or UTF-16.
 */
lml_status lml_text_refuse_mark(lml_span text, const char *source, lml_error *err);

/* Whether it is three whole numbers between dots, as "1.10.0". */
bool lml_text_is_version(const char *text);

#endif
