/* Parts: what one recipe's run wrote and remarked, as a Lua table that recipes cannot reach.
 *
 *     { recipe, title, pages = { bench = { entry ... }, ... }, remarks = { remark ... },
 *       within = { the parts of the recipes that it used ... },
 *       gives = their shape, withheld = { name = code }, results = { name = value }, whole = none
 *       of the gives is left out,
 *       order = { page = { recipe = place } }, outer = the part of the recipe that uses it,
 *       failed = true, numbers = { figure = step of a bare number or text } }
 *
 * An entry is a table whose `is` says what it is: part heading line total text grid sign curve flow
 * section remark.
 */
#ifndef LML_RUN_PART_H
#define LML_RUN_PART_H

#include "cell/state.h"

/* Bytes of the longest text on a sheet. */
enum { LML_PART_TEXT = 2000 };

/* Of a figure within a give: its name, "lots[2].mass", with room for a give's name and the members
 * of it, of 180 and 60 letters; and how deep a result may be nested, so that the whole stays within
 * the depth of a JSON text. Choices of ours. */
enum { LML_PART_NAME = 256, LML_PART_DEEP = 24 };
/* The name of the member of `called` whose key is at the index. */
void lml_part_name_member(lua_State *L, const char *called, int key, char out[LML_PART_NAME]);
/* The name of the key itself, which may be made of a figure too: no member is called so. */
void lml_part_name_key(const char *member, char out[LML_PART_NAME]);
bool lml_part_is_key(const char *name);

/* How many pages a sheet has, and their names. */
size_t lml_part_pages(void);
const char *lml_part_page(size_t i);

/* Push a new empty part. */
void lml_part_push(lua_State *L, const char *recipe, const char *title);
/* The same without what is to be printed, for a recipe that is not run again. */
void lml_part_push_bare(lua_State *L, const char *recipe);
/* Push the entries of the page, a list; of a page that nothing was written on there may be none in
 * `pages`. */
void lml_part_push_entries(lua_State *L, int part, const char *page);
/* Insert the child's pages into the parent's, here. */
void lml_part_enclose(lua_State *L, int parent, int child);
/* What the part writes continues under its parent's own headings; the first is the text at the
 * index. */
void lml_part_join(lua_State *L, int part, int heading);
/* Of this part and the parts in it only the remarks are printed. */
void lml_part_hush(lua_State *L, int part);
/* Its recipe failed, and its user may continue: no gate has checked what it wrote, so only the
 * remarks of it and of the parts in it are printed, and one more says why. Raises. */
void lml_part_fail(lua_State *L, int part, const lml_error *why);
/* Put the value on top of the stack at the end of the list at index; pops it. */
void lml_part_append(lua_State *L, int list);
/* Put the remark on top of the stack among the part's remarks and into the entries of a page; pops
 * it. Raises if the job has too many. */
void lml_part_file_remark(lua_State *L, int part, int entries);
/* Count more remarks of the part, or of one that it replaces; returns how many the job has. Raises
 * if there are too many. */
lua_Integer lml_part_count_remarks(lua_State *L, int part, lua_Integer more);

#endif
