/* Lib: the words of recipes that need no lower floor, one array per file.
 */
#ifndef LML_WORDS_LIB_H
#define LML_WORDS_LIB_H

#include "cell/word.h"

extern const lml_word lml_lib_base[];  /* assert error ipairs pairs ... */
extern const lml_word lml_lib_text[];  /* text.*, also the methods of a text */
extern const lml_word lml_lib_table[]; /* table.* */
extern const lml_word lml_lib_value[]; /* Q sum max min ... */
extern const lml_word lml_lib_more[];  /* contains copy decimals leftover: level 2 */

#endif
