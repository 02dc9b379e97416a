/* Code lines: which lines of a text have code, read from our own dump of it.
 *
 * Lua reports this only for functions that exist, and not for one that no run has created. So the
 * dump (lua_dump without stripping) is read, whose format is fixed in Lua 5.4. The last instruction
 * of a function, its implicit return, belongs to no line.
 */
#ifndef LML_CELL_CODE_LINES_H
#define LML_CELL_CODE_LINES_H

#include "base/text.h"

/* Set line[n] for each line n < `count` that has code of a function other than the chunk itself.
 * False if the dump has another format. */
bool lml_code_lines(lml_span dump, bool *line, size_t count);

#endif
