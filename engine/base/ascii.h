/* ASCII: what a byte is, in every locale.
 *
 *     lml_ascii_is_digit('7')      true
 */
#ifndef LML_BASE_ASCII_H
#define LML_BASE_ASCII_H

#include <stdbool.h>

static inline bool lml_ascii_is_digit(int c)
{
    return c >= '0' && c <= '9';
}

/* Part of a Lua name: a letter, a digit or an underscore. */
static inline bool lml_ascii_is_name(int c)
{
    return ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') || lml_ascii_is_digit(c) || c == '_';
}

#endif
