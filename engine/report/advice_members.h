/* Advice on members: names that a table, a sheet, a method or a sentence does not have.
 */
#ifndef LML_REPORT_ADVICE_MEMBERS_H
#define LML_REPORT_ADVICE_MEMBERS_H

#include "report/advice_look.h"

/* At the word at i, where one begins. */
void lml_advice_members_path(lml_advice_look *k, int i);
void lml_advice_members_sentence(lml_advice_look *k, int i);
/* For `meanings.used`: the recipe of that name; `self` is the look. */
const lml_recipe *lml_advice_members_used(void *self, lml_span name);

#endif
