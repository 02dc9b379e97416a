/* The store: whole files in, whole files out or nothing.
 *
 * A file is written to a temporary one beside it (".NAME.PID.N.tmp"), flushed, and only then given
 * its name, in one step; then the folder is flushed. Whatever goes wrong before that step, what
 * was there is still there, and the temporary file is taken away (a killed process may leave it
 * behind; it is never read).
 *
 *     lml_builder text = lml_builder_on(&alloc, 0);
 *     lml_store_read("jobs/x.json", LML_STORE_SIZE, &text, err);
 *     lml_store_write("out.json", (lml_span){text.at, text.length}, false, err);
 */
#ifndef LML_FILE_STORE_H
#define LML_FILE_STORE_H

#include "base/text.h"

#include <stdint.h>

enum { LML_STORE_SIZE = 4 << 20 }; /* the usual most for a file that people write */

/* A file as it was when it was read. */
typedef struct lml_store_file {
    uint64_t device, inode;
    int64_t size, seconds, nanoseconds; /* the time of its last change */
    bool replaced; /* by lml_store_replace: the new text bears its name, whatever the status says */
} lml_store_file;

/* Append the whole file to `out`. LML_NO_FILE: not there, not readable, no plain file. LML_LIMIT:
 * more than `most` bytes. LML_NO_MEMORY. A pipe or a device is refused without being opened: to
 * open one may wait for ever, or do something. */
lml_status lml_store_read(const char *path, size_t most, lml_builder *out, lml_error *err);
/* The same for a file that a person named: that may be a pipe, such as a shell's <(...). */
lml_status lml_store_read_named(const char *path, size_t most, lml_builder *out, lml_error *err);
lml_status lml_store_read_as(const char *path, size_t most, lml_builder *out,
                             lml_store_file *as_read, lml_error *err);

/* What the system's refusal means, in words that do not depend on a locale; NULL for a rare one. */
const char *lml_store_reason(int code);

/* Write `bytes` to `path`. Without `replace` a path that exists is refused, also when it comes into
 * being meanwhile. With it the file's mode, owner and group are kept, and a symbolic link stays:
 * the file that it names is replaced. One whose owner or group cannot be kept is refused, and only
 * plain files are replaced. LML_NO_WRITE. Where the file system has no hard links, a power cut in
 * the last step can leave a new file empty. */
lml_status lml_store_write(const char *path, lml_span bytes, bool replace, lml_error *err);

/* The same for a file that was read, changed and goes back: when another one bears its name by now,
 * or it was written to meanwhile, nothing is written. It is looked at just before the last step,
 * which takes no longer than a rename. */
lml_status lml_store_replace(const char *path, lml_span bytes, lml_store_file *as_read,
                             lml_error *err);

#endif
