#define _XOPEN_SOURCE 700 /* realpath */
#include "file/store.h"
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

const char *lml_store_reason(int code)
{
    switch (code) {
    case ENOENT:
        return "no such file or folder";
    case EACCES:
    case EPERM:
        return "permission denied";
    case EISDIR:
        return "it is a folder";
    case ENOTDIR:
        return "part of the path is not a folder";
    case ELOOP:
        return "its symbolic links form a loop";
    case ENAMETOOLONG:
        return "the name is too long";
    case ENOSPC:
        return "the disk is full";
    case EDQUOT:
        return "the disk quota is used up";
    case EFBIG:
        return "the file would be larger than the limit";
    case EROFS:
        return "the disk is read-only";
    case EMFILE:
    case ENFILE:
        return "too many files are open";
    case EEXIST:
        return "it already exists";
    case EIO:
        return "the disk reports an error";
    default:
        return NULL;
    }
}

static lml_status system_fail(lml_error *err, lml_status status, const char *what, const char *path,
                              int code)
{
    const char *words = lml_store_reason(code);
    if (words)
        return lml_fail(err, status, "%s %s: %s", what, path, words);
    return lml_fail(err, status, "%s %s: the system says error %d", what, path, code);
}

bool lml_store_write_all(int to, const void *bytes, size_t length)
{
    const char *at = bytes;
    while (length > 0) {
        ssize_t wrote = write(to, at, length);
        if (wrote < 0 && errno == EINTR)
            continue;
        if (wrote <= 0)
            return false;
        at += wrote;
        length -= (size_t)wrote;
    }
    return true;
}

/* ---- reading ---- */

/* A plain file ends at its size; what has none, such as a pipe, where no more comes. */
static lml_status read_all(int file, const char *path, off_t size, size_t most, lml_builder *out,
                           lml_error *err)
{
    char block[32768];
    size_t total = 0;
    while (size == 0 || total < (size_t)size) {
        ssize_t got = read(file, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return system_fail(err, LML_NO_FILE, "cannot read", path, errno);
        if (got == 0)
            break;
        total += (size_t)got;
        if (total > most)
            return lml_fail(err, LML_LIMIT, "%s is longer than %zu bytes", path, most);
        lml_builder_add(out, block, (size_t)got);
    }
    return lml_builder_status(out, err);
}

static lml_store_file identity(const struct stat *found)
{
    return (lml_store_file){.device = (uint64_t)found->st_dev,
                            .inode = (uint64_t)found->st_ino,
                            .size = found->st_size,
                            .seconds = found->st_mtim.tv_sec,
                            .nanoseconds = found->st_mtim.tv_nsec};
}

static bool is_same(const lml_store_file *a, const lml_store_file *b)
{
    return a->device == b->device && a->inode == b->inode && a->size == b->size &&
           a->seconds == b->seconds && a->nanoseconds == b->nanoseconds;
}

static lml_status check_kind(const char *path, mode_t mode, bool pipes, lml_error *err)
{
    if (S_ISREG(mode) || (pipes && S_ISFIFO(mode)))
        return LML_OK;
    if (S_ISDIR(mode))
        return system_fail(err, LML_NO_FILE, "cannot read", path, EISDIR);
    lml_fail(err, LML_NO_FILE, "cannot read %s: it is %s, not a plain file", path,
             S_ISFIFO(mode)   ? "a pipe"
             : S_ISSOCK(mode) ? "a socket"
                              : "a device");
    if (err)
        lml_error_hint(err, "save its output in a file and name that");
    return LML_NO_FILE;
}

/* The file is looked at before it is read, so that what is written to it meanwhile shows
 * afterwards. */
static lml_status read_open(const char *path, size_t most, bool pipes, int file, lml_builder *out,
                            struct stat *found, lml_error *err)
{
    lml_status status;
    if (fstat(file, found) < 0)
        status = system_fail(err, LML_NO_FILE, "cannot read", path, errno);
    else
        status = check_kind(path, found->st_mode, pipes, err);
    if (!status)
        status = read_all(file, path, found->st_size, most, out, err);
    close(file);
    return status;
}

enum { OPEN = O_RDONLY | O_CLOEXEC | O_NOCTTY };

/* It is looked at before it is opened too, and opened so that a pipe put in its place meanwhile
 * does not block us. */
static lml_status read_file(const char *path, size_t most, bool pipes, lml_builder *out,
                            struct stat *found, lml_error *err)
{
    if (stat(path, found) < 0)
        return system_fail(err, LML_NO_FILE, "cannot read", path, errno);
    lml_status status = check_kind(path, found->st_mode, pipes, err);
    if (status)
        return status;
    int file = open(path, OPEN | (S_ISFIFO(found->st_mode) ? 0 : O_NONBLOCK));
    if (file < 0)
        return system_fail(err, LML_NO_FILE, "cannot read", path, errno);
    return read_open(path, most, pipes, file, out, found, err);
}

lml_status lml_store_read_plain(const char *path, size_t most, lml_builder *out, lml_error *err)
{
    struct stat found;
    int file = open(path, OPEN | O_NONBLOCK);
    if (file < 0)
        return system_fail(err, LML_NO_FILE, "cannot read", path, errno);
    return read_open(path, most, false, file, out, &found, err);
}

lml_status lml_store_read_as(const char *path, size_t most, lml_builder *out,
                             lml_store_file *as_read, lml_error *err)
{
    struct stat found;
    lml_status status = read_file(path, most, false, out, &found, err);
    if (status == LML_OK)
        *as_read = identity(&found);
    return status;
}

lml_status lml_store_read(const char *path, size_t most, lml_builder *out, lml_error *err)
{
    struct stat found;
    return read_file(path, most, false, out, &found, err);
}

lml_status lml_store_read_named(const char *path, size_t most, lml_builder *out, lml_error *err)
{
    struct stat found;
    return read_file(path, most, true, out, &found, err);
}

/* ---- writing ---- */

enum { ATTEMPTS = 100 };

/* One write under way. The folder stays open, so that the temporary file and its final name are in
 * the same one whatever happens to the path meanwhile. */
struct job {
    const char *shown; /* the path as the caller gave it */
    char path[PATH_MAX];
    const char *name; /* within path */
    char temporary[NAME_MAX + 1];
    int folder, file;
    struct stat old; /* of the file that is replaced */
    bool exists;
    lml_store_file *as_read; /* NULL: whatever is there is replaced */
    lml_error *err;
};

static lml_status refuse(const struct job *j, int code)
{
    return system_fail(j->err, LML_NO_WRITE, "cannot write", j->shown, code);
}

static lml_status exists_already(const struct job *j)
{
    lml_status status = refuse(j, EEXIST);
    lml_error_hint(j->err, "choose another name, or add --replace");
    return status;
}

/* Look at what is at the path, and follow a link to the file that is really meant. */
static lml_status look(struct job *j, const char *path, bool replace)
{
    struct stat found;
    if (strlen(path) >= sizeof j->path)
        return refuse(j, ENAMETOOLONG);
    strcpy(j->path, path);
    j->exists = lstat(path, &found) == 0;
    if (!j->exists)
        return errno == ENOENT ? LML_OK : refuse(j, errno);
    if (!replace)
        return exists_already(j);
    if (S_ISLNK(found.st_mode) && (!realpath(path, j->path) || lstat(j->path, &found) < 0))
        return refuse(j, errno);
    if (S_ISDIR(found.st_mode))
        return refuse(j, EISDIR);
    if (!S_ISREG(found.st_mode))
        return lml_fail(j->err, LML_NO_WRITE, "cannot write %s: it is not a plain file", j->shown);
    j->old = found;
    return LML_OK;
}

static lml_status open_folder(struct job *j)
{
    char *slash = strrchr(j->path, '/');
    j->name = slash ? slash + 1 : j->path;
    if (!*j->name || strcmp(j->name, ".") == 0 || strcmp(j->name, "..") == 0)
        return refuse(j, *j->path ? EISDIR : ENOENT);
    const char *folder = !slash ? "." : slash == j->path ? "/" : j->path;
    if (slash && slash != j->path)
        *slash = 0;
    j->folder = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    return j->folder < 0 ? refuse(j, errno) : LML_OK;
}

/* It gets the mode of the file that it replaces once it is filled: until then no one else can read
 * it. */
static lml_status open_temporary(struct job *j)
{
    mode_t mode = j->exists ? 0600 : 0666;
    for (int n = 0; n < ATTEMPTS; n++) {
        int length = snprintf(j->temporary, sizeof j->temporary, ".%s.%ld.%d.tmp", j->name,
                              (long)getpid(), n);
        if (length < 0 || (size_t)length >= sizeof j->temporary)
            return refuse(j, ENAMETOOLONG);
        j->file = openat(j->folder, j->temporary,
                         O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
        if (j->file >= 0)
            return LML_OK;
        if (errno != EEXIST)
            break;
    }
    return refuse(j, errno);
}

/* A file with another owner would be closed to the people who share it. The mode comes after: to
 * change the owner takes bits from it. */
static lml_status keep_owner(struct job *j)
{
    struct stat own;
    if (fstat(j->file, &own) < 0)
        return refuse(j, errno);
    bool user = own.st_uid != j->old.st_uid, group = own.st_gid != j->old.st_gid;
    if ((!user && !group) ||
        fchown(j->file, user ? j->old.st_uid : (uid_t)-1, group ? j->old.st_gid : (gid_t)-1) == 0)
        return LML_OK;
    if (errno != EPERM)
        return refuse(j, errno);
    lml_fail(j->err, LML_NO_WRITE, "cannot write %s: it would not belong to the same %s afterwards",
             j->shown, user ? "user" : "group");
    lml_error_hint(j->err, "let its owner write it, or copy it to a file of your own");
    return LML_NO_WRITE;
}

static lml_status fill_temporary(struct job *j, lml_span bytes)
{
    if (!lml_store_write_all(j->file, bytes.at, bytes.length))
        return refuse(j, errno);
    lml_status status = j->exists ? keep_owner(j) : LML_OK;
    if (status)
        return status;
    if (j->exists && fchmod(j->file, j->old.st_mode & 07777) < 0)
        return refuse(j, errno);
    if (fsync(j->file) < 0)
        return refuse(j, errno);
    return LML_OK;
}

/* Give the temporary file its name without ever taking one that is in use. */
static lml_status take_free_name(struct job *j)
{
    if (linkat(j->folder, j->temporary, j->folder, j->name, 0) == 0) {
        unlinkat(j->folder, j->temporary, 0);
        return LML_OK;
    }
    if (errno == EEXIST)
        return exists_already(j);
    /* No hard links here (memory sticks): hold the name with an empty file, then rename over it. */
    int held =
        openat(j->folder, j->name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (held < 0)
        return errno == EEXIST ? exists_already(j) : refuse(j, errno);
    close(held);
    if (renameat(j->folder, j->temporary, j->folder, j->name) == 0)
        return LML_OK;
    int code = errno;
    unlinkat(j->folder, j->name, 0);
    return refuse(j, code);
}

/* The last check: if somebody saved the file meanwhile, their text is kept. */
static lml_status look_again(const struct job *j)
{
    struct stat found;
    lml_store_file now = {0};
    if (fstatat(j->folder, j->name, &found, AT_SYMLINK_NOFOLLOW) == 0)
        now = identity(&found);
    else if (errno != ENOENT)
        return refuse(j, errno);
    if (is_same(&now, j->as_read))
        return LML_OK;
    lml_fail(j->err, LML_NO_WRITE,
             "%s was changed by someone else in the meantime, so nothing was written to it",
             j->shown);
    lml_error_hint(j->err, "run the same command again");
    return LML_NO_WRITE;
}

static lml_status give_name(struct job *j, bool replace)
{
    if (!replace)
        return take_free_name(j);
    lml_status status = j->as_read ? look_again(j) : LML_OK;
    if (status)
        return status;
    if (renameat(j->folder, j->temporary, j->folder, j->name) < 0)
        return refuse(j, errno);
    if (j->as_read)
        j->as_read->replaced = true;
    return LML_OK;
}

static lml_status write_in_folder(struct job *j, lml_span bytes, bool replace)
{
    lml_status status = open_temporary(j);
    if (status)
        return status;
    status = fill_temporary(j, bytes);
    if (close(j->file) < 0 && !status)
        status = refuse(j, errno);
    if (!status)
        status = give_name(j, replace);
    if (status) {
        unlinkat(j->folder, j->temporary, 0);
        return status;
    }
    /* Some file systems cannot flush a folder and say EINVAL. */
    if (fsync(j->folder) < 0 && errno != EINVAL)
        return lml_fail(j->err, LML_NO_WRITE, "%s is written, but the disk did not confirm it",
                        j->shown);
    return LML_OK;
}

static lml_status write_job(struct job *j, const char *path, lml_span bytes, bool replace)
{
    lml_status status = look(j, path, replace);
    if (!status)
        status = open_folder(j);
    if (status)
        return status;
    status = write_in_folder(j, bytes, replace);
    close(j->folder);
    return status;
}

lml_status lml_store_write(const char *path, lml_span bytes, bool replace, lml_error *err)
{
    struct job j = {.shown = path, .err = err};
    return write_job(&j, path, bytes, replace);
}

lml_status lml_store_replace(const char *path, lml_span bytes, lml_store_file *as_read,
                             lml_error *err)
{
    struct job j = {.shown = path, .as_read = as_read, .err = err};
    as_read->replaced = false;
    return write_job(&j, path, bytes, true);
}
