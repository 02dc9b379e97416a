/* Letter: what a Unicode character does when a text is shown.
 *
 * One table for everything that reads or shows texts: files, recipes, the box, the layout of pages,
 * and messages.
 *
 *     lml_letter_hides(0x200B)       true: a space of no width
 *     lml_letter_columns(0x6F22)     2
 */
#ifndef LML_BASE_LETTER_H
#define LML_BASE_LETTER_H

#include "base/utf8.h"

#include <stdbool.h>
#include <stdint.h>

/* Whether it is invisible, ends a line or changes the writing direction, so that a text could be
 * misread. A line feed and a tab are among them. */
bool lml_letter_hides(uint32_t code);
/* Name of such a character in messages: "a control character", "an invisible character", "too many
 * marks on a letter". */
const char *lml_letter_fault(uint32_t code);
/* Columns of a terminal: 0, 1 or 2. */
size_t lml_letter_columns(uint32_t code);
/* Columns a terminal shows: every character one, combining marks none, East Asian wide two,
 * a byte that is not UTF-8 one. */
size_t lml_letter_columns_of(lml_span span);
/* The Latin letter that it looks like: A for Cyrillic А and Greek Α. The letter itself if it looks
 * like none. */
uint32_t lml_letter_latin(uint32_t code);
/* Whether a word of the text has letters of two alphabets, one of which only looks Latin: nobody
 * can see why "Au" with a Cyrillic A is not a metal. `code` is that letter, `like` the Latin
 * one. */
bool lml_letter_find_mixed(lml_span text, uint32_t *code, uint32_t *like);
/* The bytes at the start that are printable ASCII: most of most texts. */
size_t lml_letter_plain(lml_span text);
/* The same, up to the first of two given characters: a JSON text ends at '"' or '\\'. */
size_t lml_letter_plain_to(lml_span text, char a, char b);
/* Offset of the first invisible character, or of one combining mark too many; the length of the
 * text if there is none. Control characters in `allowed` ("\n\t") are accepted. */
size_t lml_letter_find_hidden(lml_span text, const char *allowed, uint32_t *code);

#endif
