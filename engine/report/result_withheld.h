/* Whether a figure on a page is one that a stop withholds, wherever it was printed. All may raise.
 */
#ifndef LML_REPORT_RESULT_WITHHELD_H
#define LML_REPORT_RESULT_WITHHELD_H

#include "file/json_write.h"
#include "run/run.h"

/* Look once through the part of a finished job and those within it, before anything is asked. */
void lml_result_withheld_look(lua_State *L, int part);
/* Whether the figure at index, printed in the part as the give called `of` (NULL: unsaid), is
 * withheld there or by a recipe that uses it: the same amount of the same kind but for a 1e-9 of it
 * and for its sign, the same text or number, by itself or inside a list or record; of a text also
 * when it has such a figure in it. A zero is not. */
bool lml_result_withheld_figure(lua_State *L, int part, const char *of, int index);
/* Whether the part, or a recipe that uses it, withholds the give of that name. */
bool lml_result_withheld_give(lua_State *L, int part, const char *of);
/* "withheld_by": the code of the stop or point that withholds the give, or the figure at index (0:
 * none); nothing where several might. */
void lml_result_withheld_put_by(lua_State *L, lml_json_writer *w, int part, const char *of,
                                int index);
/* The same of a sentence: it rests on the give, or has a withheld figure in it. */
bool lml_result_withheld_text(lua_State *L, int part, const char *of, int index);
/* Whether the message at index, of an error that the part's recipe failed with, may show a figure
 * that is withheld: any that was there before it, unless the message is written so in a recipe or a
 * script. A recipe that failed gives nothing by which its own could be told. */
bool lml_result_withheld_failure(lua_State *L, int part, int index);
/* The same of the message with which the job's own recipe ended; it came from the step of a traced
 * run, 0: from none. */
bool lml_result_withheld_end(lua_State *L, int part, int index, uint32_t step);
/* The length of "melt.lua:6: " that the message at index begins with, if there is such a line; 0.
 */
size_t lml_result_withheld_place(lua_State *L, int index);
/* Push the text at index with an ellipsis for each figure in it that is withheld. */
void lml_result_withheld_push(lua_State *L, int part, int index);

#endif
