/* Command: what the subcommands share, and their table.
 *
 * A subcommand appends its results to `out` and complaints about one of several targets to `aside`;
 * main alone prints, writes files and ends the process. One whose results are many calls `emit` now
 * and then.
 */
#ifndef LML_CLI_COMMAND_H
#define LML_CLI_COMMAND_H

#include "cli/argument.h"

typedef struct lml_call lml_call;
struct lml_call {
    lml_alloc alloc;
    lml_arguments arguments; /* words without the command's own name */
    size_t width;            /* columns of what it prints to */
    bool bold;
    lml_builder out;   /* results */
    lml_builder aside; /* for standard error, after the results */
    char done[1200];   /* what stands in a file already: said when anything fails afterwards */
    /* Print what stands in `out` and empty it; with -o it stays for the file. LML_NO_WRITE. */
    lml_status (*emit)(lml_call *call, lml_error *err);
    /* Show a person who watches that so many of `all` jobs are done. */
    void (*progress)(const lml_call *call, size_t done, size_t all);
};

bool lml_call_wants_json(const lml_call *call);
bool lml_call_quiet(const lml_call *call);

typedef struct lml_command {
    const char *name, *words, *summary;
    /* On LML_STOPPED, or when what failed stands in `aside` already, err->message stays empty. */
    lml_status (*run)(lml_call *call, lml_error *err);
    const char *examples[2];
    const char *details;
} lml_command;

size_t lml_command_count(void);
const lml_command *lml_command_at(size_t index);
/* LML_USAGE with the nearest name. */
lml_status lml_command_named(const char *name, const lml_command **out, lml_error *err);

/* help.c: `command` NULL for the whole. */
void lml_help_write(const lml_command *command, size_t width, lml_builder *out);

lml_status lml_cmd_run(lml_call *call, lml_error *err);
lml_status lml_cmd_batch(lml_call *call, lml_error *err);
lml_status lml_cmd_compare(lml_call *call, lml_error *err);
lml_status lml_cmd_check(lml_call *call, lml_error *err);
lml_status lml_cmd_prove(lml_call *call, lml_error *err);
lml_status lml_cmd_reckon(lml_call *call, lml_error *err);
lml_status lml_cmd_recipes(lml_call *call, lml_error *err);
lml_status lml_cmd_inspect(lml_call *call, lml_error *err);
lml_status lml_cmd_record(lml_call *call, lml_error *err);
lml_status lml_cmd_confirm(lml_call *call, lml_error *err);
lml_status lml_cmd_price(lml_call *call, lml_error *err);
lml_status lml_cmd_new(lml_call *call, lml_error *err);
lml_status lml_cmd_adopt(lml_call *call, lml_error *err);
lml_status lml_cmd_again(lml_call *call, lml_error *err);
lml_status lml_cmd_schema(lml_call *call, lml_error *err);
lml_status lml_cmd_units(lml_call *call, lml_error *err);

#endif
