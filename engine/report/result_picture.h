/* Pictures of a page as JSON: all that their entry holds. All may raise.
 */
#ifndef LML_REPORT_RESULT_PICTURE_H
#define LML_REPORT_RESULT_PICTURE_H

#include "file/json_write.h"
#include "run/run.h"

/* The members of a picture; the record is open. Where one of the gives that it rests on, or one of
 * its figures, is withheld, nothing of it is written but that. */
void lml_result_picture_put(lua_State *L, lml_json_writer *w, int part, int entry,
                            const char *page);

#endif
