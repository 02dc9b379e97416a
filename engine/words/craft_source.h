/* Craft source: where the formula of a function of craft.* is published, as its header in craft/
 * says it: the steps of a figure name it.
 *
 *     lml_craft_source("water_density")      "Tanaka and others, Metrologia 38 (2001) 301-309"
 */
#ifndef LML_WORDS_CRAFT_SOURCE_H
#define LML_WORDS_CRAFT_SOURCE_H

/* NULL for a name that is none of theirs. */
const char *lml_craft_source(const char *name);

#endif
