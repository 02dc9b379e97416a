/* Session: a person at the terminal who fills in a job or a studio's house.json. The file is the
 * memory: each answer is put into the text as it is under the lock, so that what others write
 * meanwhile stays. A house is asked as what a job of the recipe `studio` sets in its stead: the
 * text is that job, and the file what stands under its "house".
 */
#ifndef LML_CLI_SESSION_H
#define LML_CLI_SESSION_H

#include "cli/ask.h"
#include "cli/prompt.h"
#include "papers/walk.h"
#include "terminal/line.h"

typedef struct lml_session {
    lml_call *call;
    lml_kit kit;
    const char *path, *under;
    lml_builder text; /* of the job, as it was last seen */
    lml_builder was;  /* the text as it was seen before that; empty: the same */
    bool is_house;    /* the file is a house.json */
    bool there;       /* the file is written */
    bool ended;       /* the person stopped */
    bool alone;       /* one question, without the heading it is under */
    bool missing;     /* begin at what is missing, not after the last question */
    lml_line_reader reader;
    lml_builder line;
    char setting[LML_JSON_PATH]; /* of a house: what `under` is */
    char at[LML_JSON_PATH], unfolded[LML_UNFOLDED], heading[LML_PROMPT_HEADING];
} lml_session;

/* Ask from `at` on ("": from what is missing) until the last question or until the person stops. */
lml_status lml_session_ask(lml_session *session, lml_error *err);
/* Ask one question, without the heading it is under; LML_USAGE: the job has none of that name. */
lml_status lml_session_ask_one(lml_session *session, const char *under, lml_error *err);
/* The text of the job that a house is asked as, from the text of its file. */
lml_status lml_session_wrap_house(lml_session *session, lml_error *err);
/* The price of gold, where the studio has no prices yet. */
lml_status lml_session_ask_price(lml_session *session, lml_error *err);
/* Print what call->out holds, and read a line into `line`. */
lml_status lml_session_read(lml_session *session, lml_error *err);
/* Ask for a text of any kind: Enter accepts what `out` holds, "-" removes it. */
lml_status lml_session_ask_for(lml_session *session, const char *question, char *out, size_t size,
                               lml_error *err);
/* Change the file: `change` makes the new text from the current one. */
typedef lml_status (*lml_session_change)(lml_session *session, void *self, lml_builder *after,
                                         lml_error *err);
lml_status lml_session_write(lml_session *session, lml_session_change change, void *self,
                             lml_error *err);
/* Ask the question whose answer would mend what a stop or a note of the job says, as it ran: the
 * next that `asked`, a line each, does not hold yet. *any: there was one. */
lml_status lml_session_mend(lml_session *session, const lml_text *ran, lml_builder *asked,
                            bool *any, lml_error *err);
/* Ask about the points that a person has to confirm: each gets a reason or stays open. */
lml_status lml_session_confirm(lml_session *session, lml_error *err);

#endif
