#define _XOPEN_SOURCE 700
#include "studio/path.h"

#include "file/store.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

lml_status lml_path_join(char out[LML_PATH], const char *folder, const char *name, lml_error *err)
{
    bool bare = folder[0] == '\0' || strcmp(folder, ".") == 0;
    const char *slash = bare || folder[strlen(folder) - 1] == '/' ? "" : "/";
    int length = snprintf(out, LML_PATH, "%s%s%s", bare ? "" : folder, slash, name);
    if (length < 0 || length >= LML_PATH)
        return lml_fail(err, LML_NO_FILE, "the path of %s is too long", name);
    return LML_OK;
}

bool lml_path_ends_in(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length > tail && strcmp(text + length - tail, end) == 0;
}

const char *lml_path_reason(int code)
{
    const char *words = lml_store_reason(code);
    return words ? words : strerror(code);
}

bool lml_path_is_there(const char *path)
{
    struct stat s;
    return lstat(path, &s) == 0 || (errno != ENOENT && errno != ENOTDIR);
}

bool lml_path_names(const char *folder, const char *name)
{
    char path[LML_PATH];
    return lml_path_join(path, folder, name, NULL) == LML_OK && lml_path_is_there(path);
}

lml_status lml_path_need_plain(const char *path, const char *shown, lml_error *err)
{
    struct stat s;
    bool seen = stat(path, &s) == 0;
    int code = seen ? 0 : errno;
    if (seen && S_ISREG(s.st_mode))
        return LML_OK;
    if (!seen && code != ENOENT && code != ENOTDIR) {
        lml_fail(err, LML_NO_FILE, "cannot look at %s: %s", shown, lml_path_reason(code));
        lml_error_hint(err, "make it readable; no default is used instead");
        return LML_NO_FILE;
    }
    lml_fail(err, LML_NO_FILE, "%s is %s", shown,
             seen ? "not a plain file" : "a link to a file that is not there");
    lml_error_hint(err, "put the file back, or remove %s", shown);
    return LML_NO_FILE;
}

bool lml_path_holds(const char *folder, const char *name, mode_t kind)
{
    char path[LML_PATH];
    struct stat s;
    if (lml_path_join(path, folder, name, NULL) != LML_OK)
        return false;
    return stat(path, &s) == 0 ? (s.st_mode & S_IFMT) == kind : lml_path_is_there(path);
}

void lml_path_folder_of(char out[LML_PATH], const char *path)
{
    const char *slash = strrchr(path, '/');
    if (!slash)
        snprintf(out, LML_PATH, ".");
    else if (slash == path)
        snprintf(out, LML_PATH, "/");
    else
        snprintf(out, LML_PATH, "%.*s", (int)(slash - path), path);
}

void lml_path_above(char out[LML_PATH], const char *folder)
{
    if (strcmp(folder, ".") == 0)
        snprintf(out, LML_PATH, "..");
    else if (strcmp(folder, "..") == 0 || lml_path_ends_in(folder, "/.."))
        (void)!snprintf(out, LML_PATH, "%s/..", folder); /* cut, it is simply not found */
    else
        lml_path_folder_of(out, folder);
}

bool lml_path_same_folder(const char *a, const char *b)
{
    struct stat x, y;
    return stat(a, &x) == 0 && stat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}
