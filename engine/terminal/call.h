/* Call: the command's arguments, and its output.
 *
 * A subcommand appends its results to `out` and complaints about one of several targets to `aside`;
 * main alone prints, writes files and ends the process. One whose results are many calls `emit` now
 * and then.
 */
#ifndef LML_TERMINAL_CALL_H
#define LML_TERMINAL_CALL_H

#include "file/json_write.h"
#include "terminal/argument.h"

typedef struct lml_call lml_call;
struct lml_call {
    lml_alloc alloc;
    lml_arguments arguments; /* words without the command's own name */
    size_t width;            /* columns of what it prints to */
    bool bold;
    lml_builder out;   /* results */
    lml_builder aside; /* for standard error, after the results */
    char done[1200];   /* what is in a file already: printed if anything fails afterwards */
    /* Print `out` and empty it; with -o it stays for the file. LML_NO_WRITE. */
    lml_status (*emit)(lml_call *call, lml_error *err);
    /* Show progress to a person: how many of `all` jobs are done. */
    void (*progress)(const lml_call *call, size_t done, size_t all);
};

bool lml_call_wants_json(const lml_call *call);
bool lml_call_wants_html(const lml_call *call);
bool lml_call_quiet(const lml_call *call);
/* End what is printed as JSON with a line feed. */
lml_status lml_call_end_json(lml_json_writer *w, lml_error *err);

#endif
