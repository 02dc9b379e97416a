/* Skeleton: a job file to fill in, from what its recipe declares. */
#ifndef LML_CLI_SKELETON_H
#define LML_CLI_SKELETON_H

#include "file/json.h"
#include "file/json_write.h"

/* Write a job for the recipe that `about` describes (lml_engine_inspect, parsed). What a job must
 * have is in it with an empty text, which is invalid for every kind, so that `check` names each one
 * that is not filled in; what it may have is listed in its notes. */
void lml_skeleton_job(lml_json_writer *w, const lml_json *about, const char *title,
                      const char *date);

/* Settings of a studio, written in parts: its own members, then what each recipe passed to
 * lml_skeleton_recipe needs from the house. Values come from `words`, NAME=VALUE; all others are an
 * empty text. */
typedef struct lml_skeleton_words {
    const char *const *word;
    size_t count;
} lml_skeleton_words;
void lml_skeleton_house(lml_json_writer *w, const lml_skeleton_words *words, lml_builder *written);
const char *lml_skeleton_recipe(size_t index); /* NULL after the last */
/* `written` has a line for each name already written. */
void lml_skeleton_settings(lml_json_writer *w, const lml_json *about,
                           const lml_skeleton_words *words, lml_builder *written);
/* Whether that word names one of those lines. */
bool lml_skeleton_has(const lml_builder *written, const char *word);

#endif
