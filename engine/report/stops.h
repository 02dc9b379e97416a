/* Stops: what may withhold a figure of a recipe, found in its text and those of the scripts that it
 * requires. Nothing is run: a stop whose words are composed elsewhere is reported by its code
 * alone.
 */
#ifndef LML_REPORT_STOPS_H
#define LML_REPORT_STOPS_H

#include "file/json_write.h"
#include "shelf/shelf.h"

/* Write "stops": [ { "level": "stop", "confirm" or "caution", "code", "text": with the names of its
 * figures in braces } ], each once, the recipe's own first. LML_NO_MEMORY. */
lml_status lml_stops_write(const lml_shelf *shelf, const lml_item *recipe, lml_json_writer *w,
                           lml_error *err);

#endif
