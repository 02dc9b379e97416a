/* Craft source: where the formula of a function of craft.* is published, as its header in craft/
 * says it: the steps of a figure name it.
 *
 *     lml_craft_source("buoyancy")      "NIST IR 6969, SOP 2; OIML D 28:2004"
 */
#ifndef LML_WORDS_CRAFT_SOURCE_H
#define LML_WORDS_CRAFT_SOURCE_H

/* NULL for a name that is none of theirs. */
const char *lml_craft_source(const char *name);

#endif
