/* Choices that are compared with what is none of their options: part of what lemel check says.
 *
 *     job.nickel == "maybe"        where nickel is a choice of no, yes and not asked: never true
 */
#ifndef LML_REPORT_ADVICE_CHOICES_H
#define LML_REPORT_ADVICE_CHOICES_H

#include "report/advice_names.h"

void lml_advice_choices(lml_span source, const lml_recipe *recipe, lml_advice_tell *tell,
                        void *self);

#endif
