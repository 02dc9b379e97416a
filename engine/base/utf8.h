/* UTF-8, one character at a time.
 *
 *     uint32_t code;
 *     for (size_t n; (n = lml_utf8_next(rest, &code)) > 0; rest = (lml_span){rest.at + n,
 * rest.length - n}) ...
 */
#ifndef LML_BASE_UTF8_H
#define LML_BASE_UTF8_H

#include "base/span.h"

#include <stdint.h>

/* Decode the character at the start of `span` into *code; returns its bytes (1-4), or 0 when it is
 * not valid UTF-8 (overlong forms, surrogates and above U+10FFFF are not) or the span is empty. */
size_t lml_utf8_next(lml_span span, uint32_t *code);

#endif
