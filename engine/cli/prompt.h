/* Prompt: a question of lml_engine_ask as a person reads it.
 */
#ifndef LML_CLI_PROMPT_H
#define LML_CLI_PROMPT_H

#include "file/json.h"

enum { LML_PROMPT_HEADING = 200 };

/* The keys, once at the start. */
void lml_prompt_write_keys(lml_span title, lml_builder *out);
/* What the previous answer was taken as, where that is not what was typed. */
void lml_prompt_write_told(const lml_json *question, lml_builder *out);
/* The outcome of the previous answer, a heading if it differs from `heading` (which is updated;
 * NULL: none is shown), and the question, without a line end. */
void lml_prompt_write(const lml_json *question, char heading[LML_PROMPT_HEADING], lml_builder *out);

#endif
