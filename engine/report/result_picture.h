/* Pictures of a page as JSON. All may raise.
 */
#ifndef LML_REPORT_RESULT_PICTURE_H
#define LML_REPORT_RESULT_PICTURE_H

#include "file/json_write.h"
#include "run/run.h"

/* The members of a picture; the record is open. If one of the gives it depends on, or one of its
 * figures, is withheld, only that is written. */
void lml_result_picture_put(lua_State *L, lml_json_writer *w, int part, int entry,
                            const char *page);

#endif
