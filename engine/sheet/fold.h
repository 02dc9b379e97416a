/* A sheet in two columns side by side.
 */
#ifndef LML_SHEET_FOLD_H
#define LML_SHEET_FOLD_H

#include "sheet/page.h"

enum { LML_FOLD_GAP = 4 };

/* The text that stands from `start` on set again in two columns of `width`, the second beginning
 * with a part, a heading or what stands after an empty line. A short page for a client stays in
 * one. */
void lml_fold(lml_page *page, size_t start, size_t width);

#endif
