/* Amend: a file that a command changes. It is read, changed and written back under the lock,
 * completely or not at all, and not if anyone else has changed it meanwhile.
 *
 *     static lml_status change(lml_call *call, lml_amended *file, lml_error *err)
 *     {
 *         return lml_engine_price(file->engine, file->text, file->before.length, file->path,
 *                                 &quote, &file->after, &file->told, err);
 *     }
 *
 *     lml_amend amend = {.path = path, .change = change, .report = report,
 *                        .done = "the price is in ", .again = ": do not set it again"};
 *     return lml_amend_file(call, &amend, err);
 */
#ifndef LML_CLI_AMEND_H
#define LML_CLI_AMEND_H

#include "file/json.h"
#include "lemel.h"
#include "terminal/call.h"

/* The file while it is being changed. */
typedef struct lml_amended {
    const char *path;
    lml_builder before; /* as read under the lock */
    const char *text;   /* the text of `before`; NULL: the file is not there yet */
    lml_engine *engine; /* for the functions over texts */
    lml_text after, told;
} lml_amended;

typedef struct lml_amend {
    const char *path;
    bool makes; /* create the file if it does not exist */
    /* Set `after`, the new text of the file, and `told`, a JSON record that says what was done. */
    lml_status (*change)(lml_call *call, lml_amended *file, lml_error *err);
    /* Called after the new text is written and the lock is free: prints the report. */
    lml_status (*report)(lml_call *call, const lml_amended *file, const lml_json *told,
                         lml_error *err);
    /* Printed with the path between them if anything fails after the file has changed. */
    const char *done, *again;
} lml_amend;

lml_status lml_amend_file(lml_call *call, const lml_amend *amend, lml_error *err);

/* The report as --json prints it: a record with the path under `name`, then the members of
 * `told`. */
lml_status lml_amend_put_json(lml_call *call, const char *name, const lml_amended *file,
                              const lml_json *told, lml_error *err);

#endif
