/* Help: what --help prints, from the tables of subcommands and options.
 */
#ifndef LML_CLI_HELP_H
#define LML_CLI_HELP_H

#include "cli/command.h"

/* `command` NULL for the whole. */
void lml_help_write(const lml_command *command, size_t width, lml_builder *out);

#endif
