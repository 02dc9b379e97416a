/* Dialogue answer: what a person typed, taken into the job, or refused in the words of the
 * question.
 */
#ifndef LML_PAPERS_DIALOGUE_ANSWER_H
#define LML_PAPERS_DIALOGUE_ANSWER_H

#include "papers/dialogue.h"

/* The result: where to go on, and what is said of it. */
typedef struct lml_dialogue_answer {
    char next[LML_JSON_PATH]; /* the path whose next question comes; "": see index */
    bool into;                /* `next` itself, or what lies within it */
    size_t index;
    bool left; /* the question is left: what it alone had begun is not begun any more */
    lml_error fault;
    bool is_fault, more;
    lml_builder told;
} lml_dialogue_answer;

/* Take what was typed to the question at o->index. `after`: the text of the job then; empty if it
 * did not change. */
lml_status lml_dialogue_answer_take(lml_dialogue *d, lml_builder *after, lml_dialogue_answer *o,
                                    lml_error *err);
/* What the recipe refuses of a list of the house, once its entry at the path `last` is answered. */
void lml_dialogue_answer_check_entry(const lml_dialogue *d, const char *last,
                                     lml_dialogue_answer *o);

#endif
