/* The pieces that a result is put together from. All may raise; the writer is the caller's.
 */
#ifndef LML_REPORT_RESULT_PART_H
#define LML_REPORT_RESULT_PART_H

#include "run/run.h"
#include "file/json_write.h"

/* The members of the datum of the checked value at index; the record is open. `shown` is the same
 * value in the unit of a sheet, or NULL. LML_BAD_RECIPE when it is nested too deep. */
void lml_put_datum(lua_State *L, lml_json_writer *w, int index, const lml_value *shown);
void lml_put_lua_text(lua_State *L, lml_json_writer *w, int index);
/* The text field of the table as a member; false, and nothing, when it has none. */
bool lml_put_text_field(lua_State *L, lml_json_writer *w, int table, const char *field);

/* "worked": the recipes, with the one they were used by, and scripts, in the order in which they
 * took part. */
void lml_put_worked(lua_State *L, lml_json_writer *w);

/* Whether the figure at index, printed in the part as the give called `of` (NULL: unsaid), is
 * withheld there or by a recipe that uses it: the same amount of the same kind but for a 1e-9 of it
 * and for its sign, the same text or number, by itself or inside a list or record; of a text also
 * when it has such a figure in it. A zero is not. */
bool lml_is_withheld_figure(lua_State *L, int part, const char *of, int index);
/* The same of a sentence: it rests on the give, or has a withheld figure in it. */
bool lml_is_withheld_text(lua_State *L, int part, const char *of, int index);
/* Push the text at index with an ellipsis for each figure in it that is withheld. */
void lml_push_unwithheld(lua_State *L, int part, int index);

/* The entries of a page, those of the parts within it included, as a list. */
void lml_put_page(lua_State *L, lml_json_writer *w, int part, const char *page);
bool lml_page_has_entries(lua_State *L, int part, const char *page);
/* The members of a remark; the record is open. */
void lml_put_remark(lua_State *L, lml_json_writer *w, int part, int remark);

#endif
