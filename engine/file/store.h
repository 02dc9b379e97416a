/* The store: reads whole files, and writes whole files or nothing.
 *
 * A file is written to a temporary one beside it (".NAME.PID.N.tmp"), flushed, and only then given
 * its name, in one step; then the folder is flushed. If anything fails before that step, the old
 * file is unchanged and the temporary file is removed (a killed process may leave it behind; it is
 * never read).
 *
 *     lml_builder text = lml_builder_on(&alloc, 0);
 *     lml_store_read("jobs/x.json", LML_STORE_SIZE, &text, err);
 *     lml_store_write("out.json", (lml_span){text.at, text.length}, false, err);
 */
#ifndef LML_FILE_STORE_H
#define LML_FILE_STORE_H

#include "base/text.h"

#include <stdint.h>

enum { LML_STORE_SIZE = 4 << 20 }; /* the default limit for files that people write */

/* A file as it was read. */
typedef struct lml_store_file {
    uint64_t device, inode;
    int64_t size, seconds, nanoseconds; /* the time of its last change */
    bool replaced; /* set by lml_store_replace: the new text is in place, whatever the status */
} lml_store_file;

/* Append the whole file to `out`. LML_NO_FILE: missing, unreadable or not a plain file. LML_LIMIT:
 * more than `most` bytes. LML_NO_MEMORY. A pipe or a device is refused without being opened:
 * opening it might block for ever or have an effect. */
lml_status lml_store_read(const char *path, size_t most, lml_builder *out, lml_error *err);
/* The same for a file that a person named: it may be a pipe, such as a shell's <(...). */
lml_status lml_store_read_named(const char *path, size_t most, lml_builder *out, lml_error *err);
/* The same of what its folder has as a plain file: it is not looked at before it is opened. */
lml_status lml_store_read_plain(const char *path, size_t most, lml_builder *out, lml_error *err);
lml_status lml_store_read_as(const char *path, size_t most, lml_builder *out,
                             lml_store_file *as_read, lml_error *err);

/* A system error in words that do not depend on a locale; NULL for a rare one. */
const char *lml_store_reason(int code);

/* Write all the bytes to the open file, pipe or terminal, whatever interrupts it. False, with
 * errno, when it takes no more. */
bool lml_store_write_all(int to, const void *bytes, size_t length);
/* Write `bytes` to `path`. Without `replace` an existing path is refused, even if it was created
 * meanwhile. With it the file's mode, owner and group are kept, and a symbolic link stays: its
 * target is replaced. A file whose owner or group cannot be kept is refused, and only plain files
 * are replaced. LML_NO_WRITE. Where the file system has no hard links, a power cut in the last step
 * can leave a new file empty. */
lml_status lml_store_write(const char *path, lml_span bytes, bool replace, lml_error *err);

/* The same for a file that was read and changed: if it has been replaced or written to meanwhile,
 * nothing is written. This is checked just before the last step, which is a rename. */
lml_status lml_store_replace(const char *path, lml_span bytes, lml_store_file *as_read,
                             lml_error *err);

#endif
