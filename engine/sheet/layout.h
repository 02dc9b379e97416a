/* Layout: text set in columns, for a terminal or a printer of fixed pitch.
 *
 * Everything on a sheet is a row of cells. A cell starts at a column, wraps at words within its
 * width and does not move others; the row is as tall as its tallest cell. A number and the word
 * after it (its unit) are never separated, nor are words joined by U+00A0. What a recipe or a job
 * wrote cannot steer the terminal: control characters and the marks that turn the direction of
 * writing print as '?'.
 *
 *     lml_cell cells[] = {{label, 3, 30, false}, {figure, 35, 10, true}};
 *     lml_layout_row(&layout, cells, 2);
 */
#ifndef LML_SHEET_LAYOUT_H
#define LML_SHEET_LAYOUT_H

#include "base/text.h"

typedef struct lml_layout {
    lml_builder *out; /* sticky: checked once, at the end */
    size_t width;     /* columns, at least LML_LAYOUT_LEAST */
    bool bold;        /* may bold be used; no meaning depends on it */
} lml_layout;

enum { LML_LAYOUT_LEAST = 40, LML_LAYOUT_CELLS = 64 };
#define LML_NO_BREAK "\302\240" /* a blank at which no line ends */

typedef struct lml_cell {
    lml_span text;
    size_t at, width; /* columns */
    bool bold;
} lml_cell;

/* Text as it may stand on a terminal; a line feed is a control character too. */
void lml_layout_put(lml_builder *out, lml_span text);
/* As one word of a command that can be copied. */
void lml_layout_put_word(lml_builder *out, lml_span word);
/* The next line of a text that is at most `columns` wide, taken off the front of *rest; a line feed
 * ends a line. A single word that is too wide is cut. */
lml_span lml_layout_take_line(lml_span *rest, size_t columns);
/* Cells in order of their columns; those beyond LML_LAYOUT_CELLS are a fault of the caller. */
void lml_layout_row(lml_layout *layout, const lml_cell *cells, size_t count);
/* One wrapped text from column `at` to the right edge. */
void lml_layout_text(lml_layout *layout, size_t at, lml_span text);
void lml_layout_rule(lml_layout *layout, size_t at, size_t columns, char mark);
/* One empty line; never two, and none at the very top. */
void lml_layout_gap(lml_layout *layout);

/* What stays on one line: a name and its figure, a figure and its unit, the parts of a date. */
void lml_layout_add_unbroken(lml_builder *out, lml_span text);
/* A builder for a text that is put together before it is set; scrapping it hands a failure on to
 * the layout's own builder. */
lml_builder lml_layout_scratch(const lml_layout *layout);
void lml_layout_scrap(lml_layout *layout, lml_builder *scratch);

/* A figure cut at its decimal point, where figures in a column line up: "1,149.00 USD" is "1,149"
 * and
 * ".00 USD". A text that is no figure ("Au750 yellow 3N") is all `whole`. */
typedef struct lml_figure {
    lml_span text;
    size_t whole, rest; /* columns */
    bool words;
} lml_figure;
lml_figure lml_figure_cut(lml_span text);

/* The columns that a run of figures needs. */
typedef struct lml_align {
    size_t whole, rest, words;
} lml_align;
void lml_align_add(lml_align *align, const lml_figure *figure);
size_t lml_align_width(const lml_align *align);
/* The cell of a figure whose column starts at `at`. */
lml_cell lml_align_place(const lml_align *align, const lml_figure *figure, size_t at, bool bold);

#endif
