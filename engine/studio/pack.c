#define _XOPEN_SOURCE 700 /* openat, fdopendir */
#include "base/shell.h"
#include "studio/pack.h"
#include "file/store.h"
#include "shelf/shelf.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_ROOM = 300, NAME_ROOM = 64 };

/* ---- files -------------------------------------------------------------------------------------
 */

static lml_status refuse(const lml_pack *pack, const char *path, const char *why, lml_error *err)
{
    lml_fail(err, LML_BAD_DATA, "%s/%s %s", pack->folder, path, why);
    return LML_BAD_DATA;
}

static lml_status system_fail(const lml_pack *pack, const char *path, int code, lml_error *err)
{
    const char *why = lml_store_reason(code);
    return lml_fail(err, LML_NO_FILE, "cannot read %s%s%s: %s", pack->folder, path[0] ? "/" : "",
                    path, why ? why : strerror(code));
}

static lml_pack_file *add(lml_pack *pack, const char *path, lml_error *err)
{
    lml_pack_file *file = NULL;
    if (pack->count == pack->room) {
        size_t room = pack->room ? 2 * pack->room : 32;
        lml_pack_file *moved = lml_alloc_resize(pack->alloc, pack->files,
                                                pack->room * sizeof *moved, room * sizeof *moved);
        if (moved) {
            pack->files = moved;
            pack->room = room;
        }
    }
    char *own = lml_span_copy(pack->alloc, lml_span_of(path));
    if (own && pack->count < pack->room) {
        file = &pack->files[pack->count++];
        *file = (lml_pack_file){.path = own, .bytes = lml_builder_on(pack->alloc, 0)};
        return file;
    }
    if (own)
        lml_alloc_free(pack->alloc, own, strlen(own) + 1);
    lml_fail(err, LML_NO_MEMORY, "out of memory for the files of a pack");
    return NULL;
}

/* Into the builder; no more than a pack's file may hold, however long it grows meanwhile. */
static lml_status fill(lml_pack *pack, int file, const char *path, lml_builder *out, lml_error *err)
{
    char block[16384];
    for (;;) {
        ssize_t got = read(file, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return system_fail(pack, path, errno, err);
        if (got == 0)
            return lml_builder_status(out, err);
        lml_builder_add(out, block, (size_t)got);
        pack->size += (size_t)got;
        if (out->length > LML_PACK_FILE_SIZE || pack->size > LML_PACK_SIZE)
            return lml_fail(err, LML_LIMIT,
                            "%s/%s: a file of a pack may have %d bytes, all files together %d",
                            pack->folder, path, (int)LML_PACK_FILE_SIZE, (int)LML_PACK_SIZE);
    }
}

/* Not through a link, not waiting for a pipe: looked at again once it is open. */
static lml_status read_file(lml_pack *pack, int folder, const char *name, const char *path,
                            lml_builder *out, lml_error *err)
{
    struct stat found;
    int file = openat(folder, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (file < 0)
        return errno == ELOOP
                   ? refuse(
                         pack, path,
                         "is a link, but a pack may only have plain files: copy the file into it",
                         err)
                   : system_fail(pack, path, errno, err);
    lml_status status = LML_OK;
    if (fstat(file, &found) < 0)
        status = system_fail(pack, path, errno, err);
    else if (!S_ISREG(found.st_mode))
        status = refuse(pack, path, "is not a plain file", err);
    if (status == LML_OK)
        status = fill(pack, file, path, out, err);
    close(file);
    return status;
}

static lml_status take_plain(lml_pack *pack, int folder, const char *name, const char *path,
                             lml_error *err)
{
    if (strcmp(path, LML_PACK_PAGE) == 0) {
        pack->has_page = true;
        return read_file(pack, folder, name, path, &pack->page, err);
    }
    if (strcmp(path, LML_PACK_SIGNATURE) == 0) {
        pack->is_signed = true; /* the program that looks at it reads it */
        return LML_OK;
    }
    lml_pack_file *file = add(pack, path, err);
    if (!file)
        return LML_NO_MEMORY;
    lml_status status = read_file(pack, folder, name, path, &file->bytes, err);
    if (status == LML_OK)
        lml_digest_of(lml_builder_span(&file->bytes), file->digest);
    return status;
}

static lml_status check_name(const lml_pack *pack, const char *path, const char *inner,
                             lml_error *err)
{
    lml_pack_file file = {.path = (char *)(uintptr_t)path};
    char name[NAME_ROOM];
    for (const char *c = path; *c; c++)
        if ((unsigned char)*c < ' ' || *c == 127 || *c == '\\')
            return refuse(pack, path, "has a name that is not allowed in a pack", err);
    if (!inner || lml_pack_name(&file, inner, name))
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s/%s cannot be taken as a %s", pack->folder, path,
             strcmp(inner, "recipes") == 0 ? "recipe" : "script");
    lml_error_hint(
        err, "NAME.lua, with use up to %d letters a to z, digits, _ and -, not starting with -",
        LML_NAME_MOST);
    return LML_BAD_DATA;
}

static lml_status walk(lml_pack *pack, int folder, const char *inner, lml_error *err);

/* `inner` is the folder within the pack, NULL for itself. */
static lml_status take_entry(lml_pack *pack, int folder, const char *inner, const char *name,
                             lml_error *err)
{
    char path[PATH_ROOM];
    struct stat found;
    if (snprintf(path, sizeof path, "%s%s%s", inner ? inner : "", inner ? "/" : "", name) >=
        (int)sizeof path)
        return lml_fail(err, LML_BAD_DATA, "%s has a file with too long a name", pack->folder);
    if (fstatat(folder, name, &found, AT_SYMLINK_NOFOLLOW) < 0)
        return system_fail(pack, path, errno, err);
    if (S_ISLNK(found.st_mode))
        return refuse(pack, path,
                      "is a link, but a pack may only have plain files: copy the file into it",
                      err);
    if (S_ISDIR(found.st_mode)) {
        if (inner && strcmp(name, ".base") == 0) /* what lemel keeps of its own beside a rule */
            return LML_OK;
        if (inner || (strcmp(name, "recipes") != 0 && strcmp(name, "scripts") != 0)) {
            lml_status status = refuse(
                pack, path, "is a folder, and a pack has only recipes/, scripts/ and files", err);
            lml_error_hint(
                err,
                "a pack is a folder of its own with recipes/ in it, and scripts/ if it has any");
            return status;
        }
        int deeper = openat(folder, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        return deeper < 0 ? system_fail(pack, path, errno, err) : walk(pack, deeper, name, err);
    }
    if (inner && strcmp(name, "proved.txt") == 0) /* of the studio that it was copied from */
        return LML_OK;
    if (!S_ISREG(found.st_mode))
        return refuse(pack, path,
                      S_ISFIFO(found.st_mode)
                          ? "is a pipe, but a pack may only have plain files: remove it"
                          : "is not a plain file",
                      err);
    if (pack->count >= LML_PACK_FILES) {
        lml_fail(err, LML_LIMIT, "%s has more than %d files, so it is not a pack", pack->folder,
                 (int)LML_PACK_FILES);
        lml_error_hint(err, "name the folder that has pack.json, recipes/ and scripts/ alone, or "
                            "make several packs of it");
        return LML_LIMIT;
    }
    lml_status status = check_name(pack, path, inner, err);
    return status == LML_OK ? take_plain(pack, folder, name, path, err) : status;
}

/* Takes `folder` over. */
static lml_status walk(lml_pack *pack, int folder, const char *inner, lml_error *err)
{
    DIR *dir = fdopendir(folder);
    lml_status status = LML_OK;
    if (!dir) {
        status = system_fail(pack, inner ? inner : "", errno, err);
        close(folder);
        return status;
    }
    while (status == LML_OK) {
        errno = 0;
        const struct dirent *entry = readdir(dir);
        if (!entry && errno != 0)
            status = system_fail(pack, inner ? inner : "", errno, err);
        if (!entry)
            break;
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
            status = take_entry(pack, dirfd(dir), inner, entry->d_name, err);
    }
    closedir(dir);
    return status;
}

static int by_path(const void *a, const void *b)
{
    return strcmp(((const lml_pack_file *)a)->path, ((const lml_pack_file *)b)->path);
}

static bool same_but_for_case(const char *a, const char *b)
{
    for (; *a && *b; a++, b++) {
        int x = *a >= 'A' && *a <= 'Z' ? *a + 32 : *a, y = *b >= 'A' && *b <= 'Z' ? *b + 32 : *b;
        if (x != y)
            return false;
    }
    return *a == *b;
}

/* On many disks two such files are one. */
static lml_status check_case(const lml_pack *pack, lml_error *err)
{
    for (size_t i = 0; i < pack->count; i++)
        for (size_t k = 0; k < i; k++)
            if (same_but_for_case(pack->files[i].path, pack->files[k].path))
                return lml_fail(err, LML_BAD_DATA,
                                "%s: %s and %s are the same file on a disk that ignores upper "
                                "and lower case: rename one",
                                pack->folder, pack->files[k].path, pack->files[i].path);
    return LML_OK;
}

lml_status lml_pack_gather(const lml_alloc *alloc, const char *folder, lml_pack *out,
                           lml_error *err)
{
    *out = (lml_pack){.alloc = alloc, .folder = folder, .page = lml_builder_on(alloc, 0)};
    int open_folder = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (open_folder < 0)
        return system_fail(out, "", errno, err);
    lml_status status = walk(out, open_folder, NULL, err);
    if (status != LML_OK)
        return status;
    if (out->count > 1)
        qsort(out->files, out->count, sizeof *out->files, by_path);
    lml_digest_of(lml_builder_span(&out->page), out->digest);
    return check_case(out, err);
}

void lml_pack_free(lml_pack *pack)
{
    for (size_t i = 0; i < pack->count; i++) {
        lml_alloc_free(pack->alloc, pack->files[i].path, strlen(pack->files[i].path) + 1);
        lml_builder_free(&pack->files[i].bytes);
    }
    if (pack->files)
        lml_alloc_free(pack->alloc, pack->files, pack->room * sizeof *pack->files);
    lml_builder_free(&pack->page);
    lml_json_free(pack->doc);
    *pack = (lml_pack){.alloc = pack->alloc, .page = lml_builder_on(pack->alloc, 0)};
}

const lml_pack_file *lml_pack_find(const lml_pack *pack, const char *path)
{
    for (size_t i = 0; i < pack->count; i++)
        if (strcmp(pack->files[i].path, path) == 0)
            return &pack->files[i];
    return NULL;
}

bool lml_pack_name(const lml_pack_file *file, const char *folder, char name[NAME_ROOM])
{
    size_t start = strlen(folder), length = strlen(file->path);
    if (strncmp(file->path, folder, start) != 0 || file->path[start] != '/' || length < start + 6 ||
        strcmp(file->path + length - 4, ".lua") != 0)
        return false;
    lml_span own = lml_span_between(file->path + start + 1, file->path + length - 4);
    if (!lml_shelf_can_name(own))
        return false;
    snprintf(name, NAME_ROOM, "%.*s", (int)own.length, own.at);
    return true;
}

/* ---- the page ----------------------------------------------------------------------------------
 */

const char *lml_pack_says(const lml_pack *pack, const char *member)
{
    const lml_json *node = pack->doc ? lml_json_member(lml_json_root(pack->doc), member) : NULL;
    return lml_json_text(node).at;
}

int lml_pack_order(const char *version, const char *other)
{
    char *end, *other_end;
    for (;; version = end + 1, other = other_end + 1) {
        long a = strtol(version, &end, 10), b = strtol(other, &other_end, 10);
        if (a != b)
            return a < b ? -1 : 1;
        if (*end != '.' || *other_end != '.')
            return 0;
    }
}

static lml_status check_head(const lml_json *page, lml_error *err)
{
    static const char *const known[] = {"pack",    "name",    "title", "about",
                                        "version", "licence", "lemel", "files"};
    for (const lml_json *m = lml_json_first(page); m; m = lml_json_next(m)) {
        lml_nearest near = lml_nearest_to(lml_json_name(m));
        bool found = false;
        for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
            found = found || lml_span_is(lml_json_name(m), known[i]);
            lml_nearest_offer(&near, lml_span_of(known[i]));
        }
        if (found)
            continue;
        lml_json_fail(m, err, LML_BAD_DATA, "a pack's page has no such entry");
        if (lml_nearest_found(&near))
            lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        return LML_BAD_DATA;
    }
    const lml_json *name = lml_json_member(page, "name"),
                   *version = lml_json_member(page, "version"),
                   *licence = lml_json_member(page, "licence");
    if (!lml_shelf_can_name(lml_json_text(name)))
        return lml_json_fail(name ? name : page, err, LML_BAD_DATA,
                             "a pack needs a name: letters a to z, digits, _ and -");
    if (!lml_text_is_version(lml_json_text(version).at))
        return lml_json_fail(version ? version : page, err, LML_BAD_DATA,
                             "a pack needs a version, three numbers such as 1.0.0");
    if (lml_json_text(licence).length == 0)
        return lml_json_fail(licence ? licence : page, err, LML_BAD_DATA,
                             "a pack needs a licence: what others may do with it");
    return LML_OK;
}

/* Before anything is looked for by that name. */
static bool leads_out(lml_span path)
{
    return path.length == 0 || path.at[0] == '/' || strstr(path.at, "..") != NULL ||
           strchr(path.at, '\\') != NULL || strchr(path.at, ':') != NULL;
}

static lml_status check_listed(const lml_pack *pack, const lml_json *line, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_span path = lml_json_name(line), sum = lml_json_text(line);
    if (leads_out(path))
        return lml_json_fail(
            line, err, LML_BAD_DATA,
            "this path leads out of the pack: write it as recipes/NAME.lua or scripts/NAME.lua");
    const lml_pack_file *file = lml_pack_find(pack, path.at);
    if (!file)
        return lml_json_fail(
            line, err, LML_BAD_DATA,
            "the page lists it, but it is not there: lemel pack FOLDER writes the page again");
    if (!lml_span_starts(sum, "sha256:") || sum.length != strlen("sha256:") + 64)
        return lml_json_fail(line, err, LML_BAD_DATA,
                             "its checksum is missing: lemel pack FOLDER writes it");
    if (!lml_span_is(sum, file->digest)) {
        lml_json_fail(line, err, LML_BAD_DATA, "the file is not the one that was listed: it has %s",
                      file->digest);
        lml_error_hint(err,
                       "ask the maker of the pack; after changing a file, run lemel pack %s again",
                       lml_shell_word(lml_span_of(pack->folder), word));
        return LML_BAD_DATA;
    }
    return LML_OK;
}

static lml_status check_files(const lml_pack *pack, const lml_json *files, lml_error *err)
{
    if (lml_json_kind_of(files) != LML_JSON_RECORD)
        return lml_json_fail(files ? files : lml_json_root(pack->doc), err, LML_BAD_DATA,
                             "a pack must list its files, each with its checksum: see lemel pack");
    for (const lml_json *line = lml_json_first(files); line; line = lml_json_next(line)) {
        lml_status status = check_listed(pack, line, err);
        if (status != LML_OK)
            return status;
    }
    for (size_t i = 0; i < pack->count; i++) {
        if (lml_json_member(files, pack->files[i].path))
            continue;
        lml_fail(err, LML_BAD_DATA, "%s/%s is not listed in %s", pack->folder, pack->files[i].path,
                 LML_PACK_PAGE);
        lml_error_hint(err, "remove it, or ask the maker of the pack");
        return LML_BAD_DATA;
    }
    return LML_OK;
}

lml_status lml_pack_read(const lml_alloc *alloc, const char *folder, lml_pack *out, lml_error *err)
{
    char word[LML_SHELL_WORD];
    char shown[PATH_ROOM * 4];
    lml_status status = lml_pack_gather(alloc, folder, out, err);
    if (status != LML_OK)
        return status;
    if (!out->has_page) {
        lml_fail(err, LML_NO_FILE, "%s has no %s, so it is not a pack", folder, LML_PACK_PAGE);
        lml_error_hint(err, "lemel pack %s makes it one; adopt a single recipe by its file",
                       lml_shell_word(lml_span_of(folder), word));
        return LML_NO_FILE;
    }
    snprintf(shown, sizeof shown, "%s/%s", folder, LML_PACK_PAGE);
    status = lml_json_read(alloc, lml_builder_span(&out->page), NULL, shown, &out->doc, err);
    if (status == LML_OK)
        status = check_head(lml_json_root(out->doc), err);
    return status == LML_OK
               ? check_files(out, lml_json_member(lml_json_root(out->doc), "files"), err)
               : status;
}
