/* Book: prints the metal in the safe.
 */
#ifndef LML_PRINT_BOOK_H
#define LML_PRINT_BOOK_H

#include "file/json.h"
#include "sheet/layout.h"

/* `book` is what lml_engine_book says. Of its remarks only the number is printed. */
void lml_book_print(const lml_json *book, lml_layout *layout);

#endif
