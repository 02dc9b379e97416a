/* Command: the table of the subcommands, from which help comes too.
 */
#ifndef LML_CLI_COMMAND_H
#define LML_CLI_COMMAND_H

#include "terminal/call.h"

typedef struct lml_command {
    const char *name, *words, *summary;
    /* On LML_STOPPED, or if the failure is in `aside` already, err->message stays empty. */
    lml_status (*run)(lml_call *call, lml_error *err);
    const char *examples[2];
    const char *details;
} lml_command;

size_t lml_command_count(void);
const lml_command *lml_command_at(size_t index);
/* LML_USAGE with the nearest name. */
lml_status lml_command_named(const char *name, const lml_command **out, lml_error *err);

#endif
