/* Advice, a look at a recipe: its words, what they mean, and who is told. The checks share it.
 */
#ifndef LML_REPORT_ADVICE_LOOK_H
#define LML_REPORT_ADVICE_LOOK_H

#include "report/advice_names.h"
#include "run/run.h"
#include "shelf/meaning.h"

/* Letters of a recipe that a line of advice repeats: about a line of a terminal. */
enum { LML_ADVICE_LOOK_SHOWN = 60 };

typedef struct lml_advice_look {
    lml_run *run;
    const lml_recipe *recipe;
    lml_meanings meanings;
    lml_span source;
    lml_token *token; /* of the whole source */
    int count;
    lml_advice_tell *tell, *tell_wrong;
    void *self;
} lml_advice_look;

void lml_advice_look_tell(lml_advice_look *k, int line, const lml_error *words);
/* What no run gets past. */
void lml_advice_look_refuse(lml_advice_look *k, int line, const lml_error *words);
/* Whether the word at i is this one. */
bool lml_advice_look_is(const lml_advice_look *k, int i, const char *text);
/* What comes behind the word at i. */
lml_scanner lml_advice_look_behind(const lml_advice_look *k, int i);
/* Where that word is, at `from` or later; their number for the end. */
int lml_advice_look_index(const lml_advice_look *k, int from, lml_token t);
/* The words before `to`, as they are written; "this" for what is long. */
lml_span lml_advice_look_text(const lml_advice_look *k, int from, int to);
/* The text between plain quotes; an empty span for long brackets and texts with a backslash. */
lml_span lml_advice_look_unquoted(lml_span text);

#endif
