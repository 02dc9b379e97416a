/* Where something of a studio belongs that is written or looked up by name. */
#define _XOPEN_SOURCE 700
#include "studio/find.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

lml_status lml_find_place(const lml_call *call, const char *name, char out[LML_PATH],
                          lml_error *err)
{
    char studio[LML_PATH], shipped[LML_PATH], folder[LML_PATH], file[LML_PATH];
    lml_status status = lml_find_check_name(lml_span_of(name), err);
    if (status != LML_OK)
        return status;
    lml_find_studio(call, NULL, studio);
    lml_find_shipped_folder(shipped);
    if (lml_path_same_folder(studio, shipped)) {
        lml_fail(err, LML_USAGE, "the only recipes here are those that come with lemel");
        lml_error_hint(err, "go to the folder of a studio, or name its settings with --house");
        return LML_USAGE;
    }
    snprintf(file, sizeof file, "%s.lua", name);
    status = lml_path_join(folder, studio, "recipes", err);
    return status == LML_OK ? lml_path_join(out, folder, file, err) : status;
}

lml_status lml_find_in_studio(const lml_call *call, const char *name, char out[LML_PATH],
                              lml_error *err)
{
    char studio[LML_PATH];
    lml_find_studio(call, NULL, studio);
    return lml_path_join(out, studio, name, err);
}

lml_status lml_find_refuse_link(const char *path, const char *doing, lml_error *err)
{
    struct stat found;
    if (lstat(path, &found) != 0 || !S_ISLNK(found.st_mode))
        return LML_OK; /* what cannot be looked at cannot be written either */
    lml_fail(
        err, LML_NO_WRITE,
        "%s is a link, and %s does not write through links: its target is not part of this studio",
        path, doing);
    lml_error_hint(err,
                   "do it in the folder the link points to, or put a file or folder of your own "
                   "there");
    return LML_NO_WRITE;
}

lml_status lml_find_make_folder(const char *place, lml_error *err)
{
    char folder[LML_PATH];
    lml_path_folder_of(folder, place);
    if (mkdir(folder, 0777) != 0 && errno != EEXIST)
        return lml_fail(err, LML_NO_WRITE, "cannot make the folder %s", folder);
    return LML_OK;
}

lml_status lml_find_prices(const lml_call *call, char out[LML_PATH], lml_error *err)
{
    const char *given = call->arguments.value[LML_OPTION_PRICES];
    char studio[LML_PATH];
    if (given)
        return lml_path_join(out, ".", given, err);
    lml_find_studio(call, NULL, studio);
    return lml_path_join(out, studio, "prices.json", err);
}

bool lml_find_same_studio(const lml_call *call, const char *a, const char *b)
{
    const char *slash_a = strrchr(a, '/'), *slash_b = strrchr(b, '/');
    size_t length_a = slash_a ? (size_t)(slash_a - a) : 0,
           length_b = slash_b ? (size_t)(slash_b - b) : 0;
    if (call->arguments.value[LML_OPTION_HOUSE] ||
        (length_a == length_b && memcmp(a, b, length_a) == 0))
        return true;
    char of_a[LML_PATH], of_b[LML_PATH];
    lml_target job_a = lml_find_target(a), job_b = lml_find_target(b);
    lml_find_studio(call, &job_a, of_a);
    lml_find_studio(call, &job_b, of_b);
    return lml_path_same_folder(of_a, of_b);
}
