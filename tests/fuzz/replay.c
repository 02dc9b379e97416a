/* Works every input that was kept of a fuzz target, once each: replay FOLDER...
 *
 * An input that breaks a promise ends the program; the last name on standard output is then its
 * name. */
#include "fuzz.h"

#include <dirent.h>
#include <sys/stat.h>

static bool is_file(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

/* The block is as long as the input, so that the sanitizers see a read past its end. */
static void replay(const char *path)
{
    FILE *file = fopen(path, "rb");
    fuzz_expect(file, "%s cannot be opened", path);
    fseek(file, 0, SEEK_END);
    long size = ftell(file);
    rewind(file);
    fuzz_expect(size >= 0, "%s has no size", path);
    uint8_t *data = malloc(size ? (size_t)size : 1);
    fuzz_expect(data && fread(data, 1, (size_t)size, file) == (size_t)size, "%s cannot be read",
                path);
    fclose(file);
    printf("%s\n", path);
    fflush(stdout);
    LLVMFuzzerTestOneInput(data, (size_t)size);
    free(data);
}

int main(int count, char **words)
{
    int passed = 0;
    for (int i = 1; i < count; i++) {
        DIR *folder = opendir(words[i]);
        fuzz_expect(folder, "%s cannot be read", words[i]);
        for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
            char path[1024];
            snprintf(path, sizeof path, "%s/%s", words[i], entry->d_name);
            if (!is_file(path))
                continue;
            replay(path);
            passed++;
        }
        closedir(folder);
    }
    printf("%d passed, 0 failed\n", passed);
    return passed ? 0 : 1;
}
