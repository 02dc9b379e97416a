/* Tree: the files below a folder with their bytes, to see what a command did to them and to undo
 * it. */
#ifndef LML_TESTS_FAULTS_TREE_H
#define LML_TESTS_FAULTS_TREE_H

#include <stdbool.h>
#include <stddef.h>

typedef struct leaf {
    char *path; /* below the folder */
    char *bytes;
    size_t length;
    unsigned mode;
} leaf;

typedef struct tree {
    leaf *leaf; /* in the order of their paths; folders are told by the files in them */
    size_t count;
} tree;

/* What cannot be read ends the program. */
tree tree_read(const char *folder);
void tree_free(tree *t);
/* Make the files below `folder` what `want` says, folders that hold none apart. */
void tree_restore(const char *folder, const tree *want);
/* NULL when there is none. */
const leaf *tree_find(const tree *t, const char *path);
/* Both missing, or both the same bytes and mode. */
bool leaf_same(const leaf *a, const leaf *b);
/* A file that a write under way was filling: .NAME.PID.N.tmp, or that waits to be put in its place:
 * .adopting/N */
bool leaf_is_temporary(const leaf *l);

/* The bytes of one file, NUL-ended. */
char *file_read(const char *path, size_t *length);
_Noreturn void give_up(const char *what, const char *about);

#endif
