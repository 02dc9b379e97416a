/* The store: whole files in, whole files out or nothing.
 *
 * A file is written to a temporary one beside it (".NAME.PID.N.tmp"), flushed, and only then given
 * its name, in one step; then the folder is flushed. Whatever goes wrong before that step, what
 * stood there still stands, and the temporary file is taken away (a killed process may leave it
 * behind; it is never read).
 *
 *     lml_builder text = lml_builder_on(&alloc, 0);
 *     lml_store_read("jobs/x.json", LML_STORE_SIZE, &text, err);
 *     lml_store_write("out.json", (lml_span){text.at, text.length}, false, err);
 */
#ifndef LML_FILE_STORE_H
#define LML_FILE_STORE_H

#include "base/text.h"

enum { LML_STORE_SIZE = 4 << 20 }; /* the usual most for a file that people write */

/* Append the whole file to `out`. LML_NO_FILE: not there, not readable, a folder. LML_LIMIT: more
 * than `most` bytes. LML_NO_MEMORY. */
lml_status lml_store_read(const char *path, size_t most, lml_builder *out, lml_error *err);

/* Write `bytes` to `path`. Without `replace` a path that exists is refused, also when it comes into
 * being meanwhile. With it the file's mode is kept, and a symbolic link stays: the file that it
 * names is replaced. Only plain files are replaced. LML_NO_WRITE. Where the file system has no hard
 * links, a power cut in the last step can leave a new file empty. */
lml_status lml_store_write(const char *path, lml_span bytes, bool replace, lml_error *err);

#endif
