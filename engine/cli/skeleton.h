/* Skeleton: a job or a studio to fill in, from what a recipe declares. What has to be filled in is
 * in it with an empty text, which no kind takes, so that `check` names every one that is not filled
 * in.
 */
#ifndef LML_CLI_SKELETON_H
#define LML_CLI_SKELETON_H

#include "file/json.h"
#include "file/json_write.h"

/* Write a job for the recipe that `about` describes (lml_engine_inspect, parsed): what a job must
 * say and what it usually says, in the order of the work; what else it may say is listed in its
 * notes. */
void lml_skeleton_job(lml_json_writer *w, const lml_json *about, const char *title,
                      const char *date);

/* NAME=VALUE of the command line. */
typedef struct lml_skeleton_words {
    const char *const *word;
    size_t count;
} lml_skeleton_words;
/* Write a studio, from the usual allowances of `about`: with the words in their places, and the
 * rest empty, or left out for a person to be asked. Its notes say what each of them is. */
void lml_skeleton_house(lml_json_writer *w, const lml_json *about, const lml_skeleton_words *words,
                        bool with_empty);
/* Whether that word sets one of them. */
bool lml_skeleton_has(const lml_json *about, const char *word);

#endif
