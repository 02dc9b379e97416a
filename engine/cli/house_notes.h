/* House notes: what the settings of a studio leave open, and what needs it.
 */
#ifndef LML_CLI_HOUSE_NOTES_H
#define LML_CLI_HOUSE_NOTES_H

#include "cli/session.h"
#include "terminal/call.h"
#include "worker/kit.h"

/* Append a line or more for each, as the recipe of a studio notes it of the kit's house; nothing of
 * a house that this recipe refuses: lemel check says that. */
lml_status lml_house_notes_tell(const lml_call *call, const lml_kit *kit, lml_builder *out,
                                lml_error *err);
/* Ask the settings that these notes name: what only this house has to say, such as a tax rate that
 * lemel does not know. */
lml_status lml_house_notes_ask(lml_session *session, lml_error *err);

#endif
