/* Code lines: which lines of a text hold code that runs, read from our own dump of it.
 *
 * Lua tells that only of functions that exist; one that no run ever made has lines too. So the dump
 * (lua_dump without stripping) is read, which in Lua 5.4 has one shape. The last instruction of a
 * function, which ends one that did not return, is no line of anybody's.
 */
#ifndef LML_CELL_CODE_LINES_H
#define LML_CELL_CODE_LINES_H

#include "base/text.h"

/* Set line[n] for each line n < `count` on which a function, and not the chunk itself, works.
 * False when the dump is of another shape. */
bool lml_code_lines(lml_span dump, bool *line, size_t count);

#endif
