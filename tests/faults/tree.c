#define _GNU_SOURCE
#include "tree.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

_Noreturn void give_up(const char *what, const char *about)
{
    fprintf(stderr, "faults: %s %s: %s\n", what, about, strerror(errno));
    exit(70);
}

static void *need(void *block)
{
    if (!block)
        give_up("no memory for", "the test itself");
    return block;
}

char *file_read(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    struct stat about;
    if (!file || fstat(fileno(file), &about) != 0)
        give_up("cannot read", path);
    char *bytes = need(malloc((size_t)about.st_size + 1));
    *length = fread(bytes, 1, (size_t)about.st_size, file);
    bytes[*length] = '\0';
    fclose(file);
    return bytes;
}

static void write_file(const char *path, const leaf *l)
{
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(l->bytes, 1, l->length, file) != l->length || fclose(file) != 0 ||
        chmod(path, l->mode) != 0)
        give_up("cannot write", path);
}

static char *join(const char *folder, const char *name)
{
    char *path;
    if (asprintf(&path, "%s%s%s", folder, *folder ? "/" : "", name) < 0)
        give_up("no memory for", name);
    return path;
}

static void add_folder(tree *t, const char *root, const char *below)
{
    char *folder = join(root, below);
    DIR *list = opendir(folder);
    if (!list)
        give_up("cannot list", folder);
    for (struct dirent *entry = readdir(list); entry; entry = readdir(list)) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        char *path = join(below, entry->d_name), *whole = join(root, path);
        struct stat about;
        if (lstat(whole, &about) != 0)
            give_up("cannot look at", whole);
        if (S_ISDIR(about.st_mode)) {
            add_folder(t, root, path);
            free(path);
        } else {
            t->leaf = need(realloc(t->leaf, (t->count + 1) * sizeof *t->leaf));
            leaf *l = &t->leaf[t->count++];
            *l = (leaf){.path = path, .mode = about.st_mode & 07777};
            l->bytes = file_read(whole, &l->length);
        }
        free(whole);
    }
    closedir(list);
    free(folder);
}

static int by_path(const void *a, const void *b)
{
    return strcmp(((const leaf *)a)->path, ((const leaf *)b)->path);
}

tree tree_read(const char *folder)
{
    tree t = {NULL, 0};
    add_folder(&t, folder, "");
    if (t.count > 0)
        qsort(t.leaf, t.count, sizeof *t.leaf, by_path);
    return t;
}

void tree_free(tree *t)
{
    for (size_t i = 0; i < t->count; i++) {
        free(t->leaf[i].path);
        free(t->leaf[i].bytes);
    }
    free(t->leaf);
    *t = (tree){NULL, 0};
}

const leaf *tree_find(const tree *t, const char *path)
{
    leaf key = {.path = (char *)(size_t)path};
    return t->count > 0 ? bsearch(&key, t->leaf, t->count, sizeof *t->leaf, by_path) : NULL;
}

bool leaf_same(const leaf *a, const leaf *b)
{
    if (!a || !b)
        return a == b;
    return a->length == b->length && a->mode == b->mode &&
           memcmp(a->bytes, b->bytes, a->length) == 0;
}

bool leaf_is_temporary(const leaf *l)
{
    const char *slash = strrchr(l->path, '/'), *name = slash ? slash + 1 : l->path;
    size_t length = strlen(name);
    return strncmp(l->path, ".adopting", 9) == 0 ||
           (name[0] == '.' && length > 4 && strcmp(name + length - 4, ".tmp") == 0);
}

static void make_folders(char *path)
{
    for (size_t i = 1; path[i]; i++) {
        if (path[i] != '/')
            continue;
        path[i] = '\0';
        if (mkdir(path, 0777) != 0 && errno != EEXIST)
            give_up("cannot make", path);
        path[i] = '/';
    }
}

void tree_restore(const char *folder, const tree *want)
{
    tree is = tree_read(folder);
    for (size_t i = 0; i < is.count; i++) {
        char *path = join(folder, is.leaf[i].path);
        if (!tree_find(want, is.leaf[i].path) && unlink(path) != 0)
            give_up("cannot remove", path);
        free(path);
    }
    for (size_t i = 0; i < want->count; i++) {
        char *path = join(folder, want->leaf[i].path);
        if (!leaf_same(&want->leaf[i], tree_find(&is, want->leaf[i].path))) {
            make_folders(path);
            write_file(path, &want->leaf[i]);
        }
        free(path);
    }
    tree_free(&is);
}
