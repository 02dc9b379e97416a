/* Faults: everything wrong in a file, collected instead of stopping at the first.
 *
 * Written as a JSON list, in the order in which they were found:
 *
 *     [{"file": "jobs/x.json", "line": 14, "path": "given.wax", "message": "...", "hint": "...",
 *       "labels": [{"text": "11,2 g", "note": "a comma", "offset": 2, "length": 1}],
 *       "context": ["in recipes/quote.lua:41"]}]
 *
 * `message` begins with file, line and path where there are any; hint, labels and context are left
 * out where there are none.
 */
#ifndef LML_FILE_FAULTS_H
#define LML_FILE_FAULTS_H

#include "file/json.h"
#include "file/json_write.h"

enum { LML_FAULTS_MOST = 500 }; /* later ones are counted, not written */

typedef struct lml_faults {
    lml_json_writer w;
    size_t count;
} lml_faults;

lml_faults lml_faults_on(lml_builder *to);
/* `node` is where it was found; NULL if it has no place in a file. */
void lml_faults_note(lml_faults *faults, const lml_json *node, const lml_error *error);
/* Closes the list. Statuses as for lml_json_writer_end. */
lml_status lml_faults_end(lml_faults *faults, lml_error *err);
/* Turns a fault of such a list back into an error. */
void lml_faults_read(const lml_json *fault, lml_error *out);

#endif
