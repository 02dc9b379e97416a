#define _XOPEN_SOURCE 700 /* lstat, fsync */
#include "studio/change.h"
#include "file/store.h"
#include "studio/lock.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define STAGE ".adopting.new"
#define DECIDED ".adopting"
#define LIST "list"
enum { ROOM = PATH_MAX };

/* ---- what is to be done ------------------------------------------------------------------------
 */

lml_change lml_change_on(const lml_alloc *alloc, const char *studio, const char *what)
{
    return (lml_change){.alloc = alloc, .studio = studio, .what = what};
}

void lml_change_free(lml_change *change)
{
    for (size_t i = 0; i < change->count; i++) {
        lml_alloc_free(change->alloc, change->files[i].path, strlen(change->files[i].path) + 1);
        lml_builder_free(&change->files[i].bytes);
    }
    if (change->files)
        lml_alloc_free(change->alloc, change->files, change->room * sizeof *change->files);
    *change = (lml_change){.alloc = change->alloc};
}

static lml_status add(lml_change *c, const char *path, lml_span bytes, bool goes, lml_error *err)
{
    if (c->count == c->room) {
        size_t room = c->room ? 2 * c->room : 32;
        lml_change_file *moved =
            lml_alloc_resize(c->alloc, c->files, c->room * sizeof *moved, room * sizeof *moved);
        if (!moved)
            return lml_fail(err, LML_NO_MEMORY, "out of memory for the files of a pack");
        c->files = moved;
        c->room = room;
    }
    lml_change_file file = {.path = lml_span_copy(c->alloc, lml_span_of(path)),
                            .bytes = lml_builder_on(c->alloc, 0),
                            .goes = goes};
    if (!file.path)
        return lml_fail(err, LML_NO_MEMORY, "out of memory for the files of a pack");
    lml_builder_add_span(&file.bytes, bytes);
    c->files[c->count++] = file;
    return lml_builder_status(&file.bytes, err);
}

lml_status lml_change_put(lml_change *change, const char *path, lml_span bytes, lml_error *err)
{
    return add(change, path, bytes, false, err);
}

lml_status lml_change_take_away(lml_change *change, const char *path, lml_error *err)
{
    return add(change, path, lml_span_of(""), true, err);
}

/* ---- paths -------------------------------------------------------------------------------------
 */

static lml_status fail(lml_error *err, const char *doing, const char *path, int code)
{
    const char *why = lml_store_reason(code);
    return lml_fail(err, LML_NO_WRITE, "cannot %s %s: %s", doing, path, why ? why : strerror(code));
}

/* STUDIO/NAME, or STUDIO/NAME/INNER. */
static lml_status place(char out[ROOM], const char *studio, const char *name, const char *inner,
                        lml_error *err)
{
    bool here = strcmp(studio, ".") == 0;
    int length = snprintf(out, ROOM, "%s%s%s%s%s", here ? "" : studio, here ? "" : "/", name,
                          inner ? "/" : "", inner ? inner : "");
    return length > 0 && length < ROOM
               ? LML_OK
               : lml_fail(err, LML_NO_WRITE, "the path of %s is too long", inner ? inner : name);
}

/* A line of the list may come from anyone: it must not lead elsewhere. */
static bool is_inside(const char *path)
{
    return (strncmp(path, "recipes/", 8) == 0 || strncmp(path, "scripts/", 8) == 0) &&
           !strstr(path, "..") && !strstr(path, "//") && path[strlen(path) - 1] != '/';
}

/* No link on the way, nothing but a plain file at its end, and all on the studio's own disk: what
 * is decided must be done by moving files alone. */
static lml_status check_way(const char *studio, const char *path, lml_error *err)
{
    char part[ROOM], whole[ROOM], folder[ROOM]; /* the last that is there: it is written into */
    struct stat own, found;
    lml_status status = place(whole, studio, path, NULL, err);
    if (status != LML_OK)
        return status;
    if (stat(studio, &own) != 0)
        return fail(err, "write into", studio, errno);
    snprintf(folder, sizeof folder, "%s", studio);
    for (const char *slash = whole; slash;) {
        slash = strchr(slash + 1, '/');
        size_t length = slash ? (size_t)(slash - whole) : strlen(whole);
        snprintf(part, sizeof part, "%.*s", (int)length, whole);
        if (length <= strlen(studio) && strcmp(studio, ".") != 0)
            continue; /* however the studio is reached */
        if (lstat(part, &found) != 0 && errno != ENOENT)
            return fail(err, "write", part, errno);
        if (lstat(part, &found) != 0)
            return access(folder, W_OK | X_OK) == 0 ? LML_OK
                                                    : fail(err, "write into", folder, errno);
        if (S_ISLNK(found.st_mode)) {
            lml_fail(
                err, LML_NO_WRITE,
                "%s is a link, and adopting does not write through links: its target is not this "
                "studio's",
                part);
            lml_error_hint(err, "put a file or folder of your own there");
            return LML_NO_WRITE;
        }
        if (slash ? !S_ISDIR(found.st_mode) : !S_ISREG(found.st_mode))
            return lml_fail(err, LML_NO_WRITE, "cannot write %s: %s is not a plain %s", whole, part,
                            slash ? "folder" : "file");
        if (found.st_dev != own.st_dev)
            return lml_fail(
                err, LML_NO_WRITE,
                "cannot write %s: it is on a different disk from the studio, so it cannot "
                "change at one with the rest",
                part);
        if (slash)
            snprintf(folder, sizeof folder, "%s", part);
    }
    return access(folder, W_OK | X_OK) == 0 ? LML_OK : fail(err, "write into", folder, errno);
}

static lml_status make_folders(const char *whole, size_t studio, lml_error *err)
{
    char part[ROOM];
    for (const char *slash = strchr(whole + studio, '/'); slash; slash = strchr(slash + 1, '/')) {
        snprintf(part, sizeof part, "%.*s", (int)(slash - whole), whole);
        if (slash > whole && mkdir(part, 0777) != 0 && errno != EEXIST)
            return fail(err, "make the folder", part, errno);
    }
    return LML_OK;
}

static lml_status flush_folder(const char *path, lml_error *err)
{
    int folder = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int code = folder < 0 ? errno : 0;
    if (folder >= 0 && fsync(folder) != 0 && errno != EINVAL) /* some file systems cannot */
        code = errno;
    if (folder >= 0)
        close(folder);
    return code ? fail(err, "flush", path, code) : LML_OK;
}

static lml_status flush_folder_of(const char *whole, lml_error *err)
{
    char folder[ROOM];
    const char *slash = strrchr(whole, '/');
    snprintf(folder, sizeof folder, "%.*s", slash ? (int)(slash - whole) : 1, slash ? whole : ".");
    return flush_folder(folder, err);
}

/* Take away a folder of the studio's, and the files in it. */
static lml_status clear(const char *studio, const char *name, lml_error *err)
{
    char folder[ROOM], inner[ROOM];
    lml_status status = place(folder, studio, name, NULL, err);
    DIR *dir = status == LML_OK ? opendir(folder) : NULL;
    if (!dir)
        return status != LML_OK || errno == ENOENT ? status : fail(err, "clear", folder, errno);
    for (const struct dirent *entry; status == LML_OK && (entry = readdir(dir));)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            status = place(inner, studio, name, entry->d_name, err);
            if (status == LML_OK && unlink(inner) != 0 && errno != ENOENT)
                status = fail(err, "clear", inner, errno);
        }
    closedir(dir);
    if (status == LML_OK && rmdir(folder) != 0 && errno != ENOENT)
        status = fail(err, "clear", folder, errno);
    return status;
}

/* What is in the stage does not count yet. */
static lml_status drop_stage(const char *studio, lml_error *err)
{
    return clear(studio, STAGE, err);
}

/* ---- decided -----------------------------------------------------------------------------------
 */

/* "put 3 recipes/x.lua" or "gone 0 recipes/y.lua". A file that is not in the stage any more is in
 * its place. */
static lml_status do_line(const char *studio, const char *line, lml_error *err)
{
    char word[8], number[16], path[ROOM], from[ROOM], to[ROOM];
    if (sscanf(line, "%7s %15[0-9] %4000[^\n]", word, number, path) != 3 || !is_inside(path))
        return lml_fail(err, LML_BAD_DATA, DECIDED "/" LIST " is not one of lemel's lists: %.*s",
                        (int)strcspn(line, "\n"), line);
    lml_status status = place(from, studio, DECIDED, number, err);
    if (status == LML_OK)
        status = place(to, studio, path, NULL, err);
    if (status != LML_OK)
        return status;
    if (strcmp(word, "gone") == 0)
        return unlink(to) == 0 || errno == ENOENT ? LML_OK : fail(err, "remove", to, errno);
    if (access(from, F_OK) != 0 && errno == ENOENT)
        return LML_OK;
    status = make_folders(to, strcmp(studio, ".") == 0 ? 0 : strlen(studio) + 1, err);
    if (status == LML_OK && rename(from, to) != 0)
        status = fail(err, "write", to, errno);
    return status == LML_OK ? flush_folder_of(to, err) : status;
}

static lml_status do_list(const char *studio, const lml_builder *list, lml_error *err)
{
    lml_status status = LML_OK;
    for (const char *line = list->at; status == LML_OK && line && *line;) {
        const char *feed = strchr(line, '\n');
        if (*line != '#')
            status = do_line(studio, line, err);
        line = feed ? feed + 1 : NULL;
    }
    return status;
}

/* `what` gets the list's first line. A folder without a list is one whose work is done: what is
 * still in it (what could not be taken away while it was staged) is nobody's. */
static lml_status do_decided(const lml_alloc *alloc, const char *studio, lml_builder *what,
                             lml_error *err)
{
    char path[ROOM];
    lml_builder list = lml_builder_on(alloc, 0);
    lml_status status = place(path, studio, DECIDED, LIST, err);
    bool listed = status == LML_OK && access(path, F_OK) == 0;
    if (status == LML_OK && !listed && errno != ENOENT)
        status = fail(err, "read", path, errno);
    if (listed) {
        status = lml_store_read(path, LML_STORE_SIZE, &list, err);
        if (status == LML_OK && list.length > 2 && what)
            lml_builder_add(what, list.at + 2, strcspn(list.at + 2, "\n"));
        if (status == LML_OK)
            status = do_list(studio, &list, err);
        if (status == LML_OK && unlink(path) != 0)
            status = fail(err, "remove", path, errno);
    }
    if (status == LML_OK)
        status = clear(studio, DECIDED, err);
    lml_builder_free(&list);
    return status;
}

/* ---- made --------------------------------------------------------------------------------------
 */

/* A file keeps its mode. */
static lml_status stage_file(const lml_change *c, size_t number, lml_error *err)
{
    const lml_change_file *file = &c->files[number];
    char name[24], path[ROOM], target[ROOM];
    struct stat old;
    snprintf(name, sizeof name, "%zu", number);
    lml_status status = place(path, c->studio, STAGE, name, err);
    if (status == LML_OK)
        status = place(target, c->studio, file->path, NULL, err);
    if (status == LML_OK)
        status = lml_store_write(path, lml_builder_span(&file->bytes), false, err);
    if (status == LML_OK && lstat(target, &old) == 0 && chmod(path, old.st_mode & 07777) != 0)
        status = fail(err, "write", path, errno);
    return status;
}

static lml_status stage(const lml_change *c, lml_error *err)
{
    char folder[ROOM], path[ROOM];
    lml_builder list = lml_builder_on(c->alloc, 0);
    lml_builder_add_format(&list, "# %s\n", c->what);
    lml_status status = place(folder, c->studio, STAGE, NULL, err);
    if (status == LML_OK && mkdir(folder, 0777) != 0)
        status = fail(err, "make the folder", folder, errno);
    for (size_t i = 0; i < c->count && status == LML_OK; i++) {
        lml_builder_add_format(&list, "%s %zu %s\n", c->files[i].goes ? "gone" : "put", i,
                               c->files[i].path);
        if (!c->files[i].goes)
            status = stage_file(c, i, err);
    }
    if (status == LML_OK)
        status = place(path, c->studio, STAGE, LIST, err);
    if (status == LML_OK)
        status = lml_builder_status(&list, err);
    if (status == LML_OK)
        status = lml_store_write(path, (lml_span){list.at, list.length}, false, err);
    lml_builder_free(&list);
    return status;
}

static lml_status decide(lml_change *c, lml_error *err)
{
    char stage_path[ROOM], decided[ROOM];
    lml_status status = place(stage_path, c->studio, STAGE, NULL, err);
    if (status == LML_OK)
        status = place(decided, c->studio, DECIDED, NULL, err);
    if (status == LML_OK && rename(stage_path, decided) != 0)
        status = fail(err, "write", decided, errno);
    c->decided = status == LML_OK;
    return status == LML_OK ? flush_folder(c->studio, err) : status;
}

lml_status lml_change_make(lml_change *change, lml_error *err)
{
    lml_status status = LML_OK;
    for (size_t i = 0; i < change->count && status == LML_OK; i++)
        status = check_way(change->studio, change->files[i].path, err);
    if (status != LML_OK)
        return status;
    status = drop_stage(change->studio, err);
    if (status == LML_OK)
        status = stage(change, err);
    if (status == LML_OK)
        status = decide(change, err);
    if (!change->decided) {
        drop_stage(change->studio, NULL);
        return status;
    }
    if (status == LML_OK)
        status = do_decided(change->alloc, change->studio, NULL, err);
    if (status != LML_OK)
        lml_error_hint(
            err, "%s is adopted all the same: the next lemel command in this studio finishes it",
            change->what);
    return status;
}

lml_status lml_change_finish(const lml_alloc *alloc, const char *studio, lml_builder *what,
                             lml_error *err)
{
    char decided[ROOM], stage_path[ROOM];
    struct stat found;
    lml_lock lock;
    if (place(decided, studio, DECIDED, NULL, err) != LML_OK ||
        place(stage_path, studio, STAGE, NULL, err) != LML_OK)
        return LML_OK; /* what else is there cannot be read either */
    if (lstat(decided, &found) != 0 && lstat(stage_path, &found) != 0)
        return LML_OK;
    lml_status status = lml_lock_take(decided, &lock, err);
    if (status == LML_OK)
        status = do_decided(alloc, studio, what, err);
    if (status == LML_OK)
        status = drop_stage(studio, err);
    lml_lock_end(&lock);
    if (status != LML_OK)
        lml_error_context(err, status, "while finishing an interrupted adoption");
    return status;
}
