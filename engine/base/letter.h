/* Letter: what one character of Unicode does where a text is shown.
 *
 * One table for all that reads or shows texts: files, recipes, the box, the layout of pages, and
 * messages.
 *
 *     lml_letter_hides(0x200B)       true: a space of no width
 *     lml_letter_columns(0x6F22)     2
 */
#ifndef LML_BASE_LETTER_H
#define LML_BASE_LETTER_H

#include "base/utf8.h"

#include <stdbool.h>
#include <stdint.h>

/* Whether it draws nothing, ends a line or turns the direction of what follows: so that a text
 * could be read as another than it is. A line feed and a tab are among them. */
bool lml_letter_hides(uint32_t code);
/* What to call one that was found: "a control character", "an invisible character", "too many
 * marks on a letter". */
const char *lml_letter_fault(uint32_t code);
/* Columns of a terminal: 0, 1 or 2. */
size_t lml_letter_columns(uint32_t code);
/* Columns a terminal shows: every character one, combining marks none, East Asian wide two,
 * a byte that is not UTF-8 one. */
size_t lml_letter_columns_of(lml_span span);
/* The Latin letter that the eye takes it for: Cyrillic А and Greek Α are A. Itself where it looks
 * like none. */
uint32_t lml_letter_latin(uint32_t code);
/* Whether a word of the text has letters of two alphabets, of which one only looks Latin: nobody
 * sees why "Au" with a Cyrillic A is no metal. `code` is that letter, `like` the Latin one. */
bool lml_letter_find_mixed(lml_span text, uint32_t *code, uint32_t *like);
/* The bytes at the start that are printable ASCII: most of most texts. */
size_t lml_letter_plain(lml_span text);
/* The same, as far as the first of two of them: a text in JSON goes to '"' and '\\'. */
size_t lml_letter_plain_to(lml_span text, char a, char b);
/* Where the first character is that hides, or that is one mark too many on one letter; the
 * length of the text when none does. Control characters that are `allowed` ("\n\t") are let pass.
 */
size_t lml_letter_find_hidden(lml_span text, const char *allowed, uint32_t *code);

#endif
