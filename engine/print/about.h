/* About: prints a recipe's declaration.
 *
 * `about` is what lml_engine_inspect gives, parsed.
 */
#ifndef LML_PRINT_ABOUT_H
#define LML_PRINT_ABOUT_H

#include "file/json.h"
#include "sheet/layout.h"

/* "list of record". */
void lml_about_kind(const lml_json *shape, lml_builder *out);
/* Title, range, default, and where the default comes from. */
void lml_about_words(const lml_json *shape, lml_builder *out);

/* Name, version, licence, digest; `from` is where it came from. */
void lml_about_head(lml_layout *layout, const lml_json *about, const char *from);
/* Asks, allowances or gives under a title; nothing where there are none. */
void lml_about_section(lml_layout *layout, const char *title, const lml_json *shapes);
/* All of it. */
void lml_about_draw(lml_layout *layout, const lml_json *about, const char *from);
/* A page for users of the recipe: what it does, everything it asks, allows and gives, what stops it
 * and what to do then, and the sources of its figures. */
void lml_about_page(lml_layout *layout, const lml_json *about);
/* What a job must say, and the headings under which it may say more. Only recipes whose asks are
 * under headings are folded. */
bool lml_about_folds(const lml_json *about);
void lml_about_draw_folded(lml_layout *layout, const lml_json *about, const char *from);
/* The allowances of a recipe that another one uses, except those in `told`, to which they are
 * added: recipes that share a figure name and describe it alike. */
void lml_about_settings(lml_layout *layout, const lml_json *about, lml_builder *told);
/* A rule point: what it is given and what it answers, and whose file answers it (NULL: lemel's
 * own). */
void lml_about_point(lml_layout *layout, const lml_json *about, const char *by);
/* What it asks, allows and gives, and its proofs, beside those of another one: lines that are added
 * (+), gone (-) or changed (~, with what stood before). Before them, when the version is older or
 * the same and the text is not, or the licence is another. */
void lml_about_beside(lml_layout *layout, const lml_json *about, const lml_json *before);

#endif
