/* Differ: compares two results of one job, to the last bit, and finds possible causes of a
 * difference.
 *
 *     { "result": "result.json", "same": false, "figures": 14,
 *       "otherwise": [ { "name": "charge", "is": "58.0 g", "was": "57.8 g" } ],
 *       "sheets": [ "bench" ], "remarks": [ { "code": "need/crucible", "is": "...", "was": "..." }
 * ], "changed": [ { "what": "recipe", "name": "need", "is": "sha256:...", "was": "sha256:..." } ],
 *       "settings": [ { "name": "need.button", "is": "9 g", "was": "12 g" } ] }
 *
 * New entries have no "was", removed ones no "is". `figures` counts those of the earlier result.
 */
#ifndef LML_PAPERS_DIFFER_H
#define LML_PAPERS_DIFFER_H

#include "file/json.h"
#include "file/json_write.h"
#include "sheet/layout.h"

/* `path` is the name of the earlier result. */
void lml_differ_write(lml_json_writer *w, const char *path, const lml_json *was,
                      const lml_json *is);
void lml_differ_draw(lml_layout *layout, const lml_json *report);

#endif
