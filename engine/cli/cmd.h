/* Cmd: the subcommands, one file each; for their words see the table in command.c.
 *
 * On LML_STOPPED, or if the failure is in `call->aside` already, err->message stays empty.
 */
#ifndef LML_CLI_CMD_H
#define LML_CLI_CMD_H

#include "cli/job_text.h"
#include "terminal/call.h"
#include "worker/kit.h"

lml_status lml_cmd_run(lml_call *call, lml_error *err);
/* Run the first word's job, or its closing, and print it. */
lml_status lml_cmd_run_target(lml_call *call, bool closing, lml_error *err);
/* Run the text of a job and print the result. */
lml_status lml_cmd_run_text(lml_call *call, const lml_target *target, const lml_job_text *job,
                            const lml_kit *kit, lml_error *err);
lml_status lml_cmd_enquiry(lml_call *call, lml_error *err);
lml_status lml_cmd_ask(lml_call *call, lml_error *err);
lml_status lml_cmd_close(lml_call *call, lml_error *err);
lml_status lml_cmd_offer(lml_call *call, lml_error *err);
lml_status lml_cmd_book(lml_call *call, lml_error *err);
lml_status lml_cmd_batch(lml_call *call, lml_error *err);
lml_status lml_cmd_compare(lml_call *call, lml_error *err);
lml_status lml_cmd_learn(lml_call *call, lml_error *err);
lml_status lml_cmd_check(lml_call *call, lml_error *err);
lml_status lml_cmd_prove(lml_call *call, lml_error *err);
lml_status lml_cmd_reckon(lml_call *call, lml_error *err);
lml_status lml_cmd_recipes(lml_call *call, lml_error *err);
lml_status lml_cmd_inspect(lml_call *call, lml_error *err);
lml_status lml_cmd_record(lml_call *call, lml_error *err);
lml_status lml_cmd_confirm(lml_call *call, lml_error *err);
lml_status lml_cmd_price(lml_call *call, lml_error *err);
lml_status lml_cmd_new(lml_call *call, lml_error *err);
lml_status lml_cmd_new_studio(lml_call *call, lml_error *err);
lml_status lml_cmd_adopt(lml_call *call, lml_error *err);
lml_status lml_cmd_pack(lml_call *call, lml_error *err);
lml_status lml_cmd_again(lml_call *call, lml_error *err);
lml_status lml_cmd_sure(lml_call *call, lml_error *err);
lml_status lml_cmd_why(lml_call *call, lml_error *err);
lml_status lml_cmd_what(lml_call *call, lml_error *err);
lml_status lml_cmd_schema(lml_call *call, lml_error *err);
lml_status lml_cmd_alloys(lml_call *call, lml_error *err);
lml_status lml_cmd_units(lml_call *call, lml_error *err);

#endif
