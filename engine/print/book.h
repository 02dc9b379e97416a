/* Book: the metal in the safe, as a person reads it.
 */
#ifndef LML_PRINT_BOOK_H
#define LML_PRINT_BOOK_H

#include "file/json.h"
#include "sheet/layout.h"

/* `book` is what lml_engine_book says. Its remarks are left out, but for how many. */
void lml_book_print(const lml_json *book, lml_layout *layout);

#endif
