/* Advice list: what is wrong in a recipe, and what could be better, as text.
 *
 *     if (!lml_advice_list_tell_wrong(call, kit, text, NULL, NULL)) ...      nothing is wrong in it
 */
#ifndef LML_CLI_ADVICE_LIST_H
#define LML_CLI_ADVICE_LIST_H

#include "file/json.h"
#include "terminal/call.h"
#include "worker/kit.h"

/* Tell all of it, beside the output. `shown`: the recipe's file. */
void lml_advice_list_tell(lml_call *call, const char *shown, const lml_json *advice);
/* Of a recipe that could not be read, everything that is wrong in its declaration, not only what it
 * was refused for; without what `error`, which the caller reports, says (NULL: nothing). False
 * where nothing is told. `out`, unless it is NULL, gets the advice, to be freed; NULL for none. */
bool lml_advice_list_tell_wrong(lml_call *call, const lml_kit *kit, const lml_kit_text *text,
                                const lml_error *error, lml_json_document **out);

#endif
