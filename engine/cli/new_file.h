/* New file: a file that lemel new writes, which never replaces another.
 */
#ifndef LML_CLI_NEW_FILE_H
#define LML_CLI_NEW_FILE_H

#include "terminal/call.h"

/* Write it, with the folder it is in, and say so. With --replace over a former one. LML_NO_WRITE.
 */
lml_status lml_new_file_put(lml_call *call, const char *place, lml_span text, lml_error *err);
/* What somebody works with is never written over. LML_NO_WRITE. */
lml_status lml_new_file_refuse_taken(const char *place, const char *advice, lml_error *err);

#endif
