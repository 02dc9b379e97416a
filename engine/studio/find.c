#define _XOPEN_SOURCE 700 /* readlink */
#include "studio/find.h"
#include "file/store.h"
#include "studio/change.h"
#include "sheet/complain.h"
#include "shelf/shelf.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- paths ---- */

static lml_status join(char out[LML_PATH], const char *folder, const char *name, lml_error *err)
{
    bool bare = folder[0] == '\0' || strcmp(folder, ".") == 0;
    const char *slash = bare || folder[strlen(folder) - 1] == '/' ? "" : "/";
    int length = snprintf(out, LML_PATH, "%s%s%s", bare ? "" : folder, slash, name);
    if (length < 0 || length >= LML_PATH)
        return lml_fail(err, LML_NO_FILE, "the path of %s is too long", name);
    return LML_OK;
}

static bool ends_in(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length > tail && strcmp(text + length - tail, end) == 0;
}

static const char *reason(int code)
{
    const char *words = lml_store_reason(code);
    return words ? words : strerror(code);
}

/* Whether the path leads to something, be it a link that leads nowhere. What the system does not
 * let us look at is there: whoever reads it complains, and no default takes its place without a
 * word. */
static bool is_there(const char *path)
{
    struct stat s;
    return lstat(path, &s) == 0 || (errno != ENOENT && errno != ENOTDIR);
}

static bool names(const char *folder, const char *name)
{
    char path[LML_PATH];
    return join(path, folder, name, NULL) == LML_OK && is_there(path);
}

/* What a folder lists must be a plain file: one that is passed over would let another file of that
 * name, or a default, take its place without a word. */
static lml_status need_plain(const char *path, const char *shown, lml_error *err)
{
    struct stat s;
    bool seen = stat(path, &s) == 0;
    int code = seen ? 0 : errno;
    if (seen && S_ISREG(s.st_mode))
        return LML_OK;
    if (!seen && code != ENOENT && code != ENOTDIR) {
        lml_fail(err, LML_NO_FILE, "cannot look at %s: %s", shown, reason(code));
        lml_error_hint(err, "make it readable; no default is used instead");
        return LML_NO_FILE;
    }
    lml_fail(err, LML_NO_FILE, "%s is %s", shown,
             seen ? "not a plain file" : "a link to a file that is not there");
    lml_error_hint(err, "put the file back, or remove %s", shown);
    return LML_NO_FILE;
}

/* The same, and what is there is of that kind. */
static bool holds(const char *folder, const char *name, mode_t kind)
{
    char path[LML_PATH];
    struct stat s;
    if (join(path, folder, name, NULL) != LML_OK)
        return false;
    return stat(path, &s) == 0 ? (s.st_mode & S_IFMT) == kind : is_there(path);
}

/* The folder of a path, "." for a bare name. Cut when too long, and then not found. */
static void folder_of(char out[LML_PATH], const char *path)
{
    const char *slash = strrchr(path, '/');
    if (!slash)
        snprintf(out, LML_PATH, ".");
    else if (slash == path)
        snprintf(out, LML_PATH, "/");
    else
        snprintf(out, LML_PATH, "%.*s", (int)(slash - path), path);
}

static void above(char out[LML_PATH], const char *folder)
{
    if (strcmp(folder, ".") == 0)
        snprintf(out, LML_PATH, "..");
    else if (strcmp(folder, "..") == 0 || ends_in(folder, "/.."))
        (void)!snprintf(out, LML_PATH, "%s/..", folder); /* cut, it is simply not found */
    else
        folder_of(out, folder);
}

/* "recipes/quote.lua" is the recipe "quote". */
static lml_span name_of_file(const char *path)
{
    const char *slash = strrchr(path, '/');
    lml_span name = lml_span_of(slash ? slash + 1 : path);
    if (ends_in(path, ".lua"))
        name.length -= 4;
    return name;
}

/* One that stands in the list of what was proved, in JSON and on the command line as it is. */
static lml_status check_name(lml_span name, lml_error *err)
{
    if (lml_shelf_can_name(name))
        return LML_OK;
    lml_fail(err, LML_USAGE, "\"%.*s\" is not a valid recipe name", (int)name.length, name.at);
    lml_error_hint(
        err,
        "use up to %d letters a to z, digits, _ and -, not starting with -, and name the file so",
        LML_NAME_MOST);
    return LML_USAGE;
}

/* ---- targets ---- */

lml_target lml_find_recipe(const char *word)
{
    if (ends_in(word, ".lua") || strchr(word, '/'))
        return (lml_target){LML_TARGET_RECIPE, word, name_of_file(word), true};
    return (lml_target){LML_TARGET_RECIPE, NULL, lml_span_of(word), true};
}

lml_target lml_find_target(const char *word)
{
    if (strcmp(word, "-") == 0 || strcmp(word, "/dev/stdin") == 0)
        return (lml_target){LML_TARGET_INPUT, NULL, lml_span_of(NULL), true};
    bool path = ends_in(word, ".json") || strchr(word, '/');
    bool job = !ends_in(word, ".lua") &&
               (path || (!lml_shelf_can_name(lml_span_of(word)) && word[0] && is_there(word)));
    return job ? (lml_target){LML_TARGET_JOB, word, lml_span_of(NULL), true}
               : lml_find_recipe(word);
}

/* ---- what is put into the kit ---- */

static bool is_studio(const char *folder)
{
    return names(folder, "house.json") || names(folder, "prices.json");
}

void lml_find_studio(const lml_call *call, const lml_target *target, char out[LML_PATH])
{
    const char *house = call->arguments.value[LML_OPTION_HOUSE];
    if (house) {
        folder_of(out, house);
        return;
    }
    if (target && target->path) {
        folder_of(out, target->path);
        if (is_studio(out))
            return;
        char folder[LML_PATH];
        snprintf(folder, LML_PATH, "%s", out);
        above(out, folder);
        if (is_studio(out))
            return;
    }
    snprintf(out, LML_PATH, ".");
}

static lml_status read_settings(lml_kit *kit, const char *given, const char *studio,
                                const char *name, lml_put what, lml_error *err)
{
    char path[LML_PATH];
    if (given)
        return lml_kit_read(kit, what, lml_span_of(name),
                            &(lml_kit_file){given, given, "studio", true}, err);
    if (!names(studio, name))
        return LML_OK;
    lml_status status = join(path, studio, name, err);
    if (status == LML_OK)
        status = need_plain(path, path, err);
    if (status != LML_OK)
        return status;
    return lml_kit_read(kit, what, lml_span_of(name), &(lml_kit_file){path, path, "studio", false},
                        err);
}

/* Told once, though `lemel compare` reads the folder twice. */
static void pass_over(lml_call *call, const char *shown, lml_error *why)
{
    lml_builder remark = lml_builder_on(&call->alloc, 0);
    lml_error_context(why, why->status, "%s is skipped", shown);
    lml_complain_write(why, &remark);
    bool told = call->aside.at && remark.at && strstr(call->aside.at, remark.at);
    if (!told && !lml_call_quiet(call))
        lml_builder_add(&call->aside, remark.at, remark.length);
    lml_builder_free(&remark);
}

/* A recipe that an editor or a mail named otherwise: NAME.lua.txt, NAME.LUA. */
static void tell_near_lua(lml_call *call, const char *folder, const char *name)
{
    static const char *const ends[] = {".lua.txt", ".LUA.TXT", ".LUA", ".Lua"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        if (!ends_in(name, ends[i]))
            continue;
        lml_error why;
        char shown[LML_PATH];
        snprintf(shown, sizeof shown, "%s/%s", folder, name);
        lml_fail(&why, LML_BAD_RECIPE, "the name of a recipe file ends in .lua, but %s ends in %s",
                 name, ends[i]);
        lml_error_hint(&why, "for a recipe name it %.*s.lua", (int)(strlen(name) - strlen(ends[i])),
                       name);
        pass_over(call, shown, &why);
        return;
    }
}

/* What lemel's recipes and gates require is lemel's own. */
static lml_status refuse_ours(const lml_kit *kit, const char *shown, lml_span name, lml_error *err)
{
    if (!lml_kit_find(kit, LML_PUT_SCRIPT, name))
        return LML_OK;
    lml_fail(err, LML_BAD_RECIPE,
             "%s has the name of one of lemel's scripts, which cannot be replaced", shown);
    lml_error_hint(err, "rename it, and require that name");
    return LML_BAD_RECIPE;
}

/* All *.lua of a folder; one that is not there holds none. `shown_folder` is how messages call it.
 */
static lml_status read_folder(lml_call *call, lml_kit *kit, const char *folder,
                              const char *shown_folder, lml_put what, const char *from,
                              lml_error *err)
{
    DIR *dir = opendir(folder);
    if (!dir) {
        int why = errno;
        struct stat s;
        if ((why == ENOENT || why == ENOTDIR) && lstat(folder, &s) != 0)
            return LML_OK;
        lml_fail(err, LML_NO_FILE, "cannot read the folder %s: %s", folder, reason(why));
        lml_error_hint(err, "put the folder back, or remove %s", folder);
        return LML_NO_FILE;
    }
    lml_status status = LML_OK;
    while (status == LML_OK) {
        errno = 0;
        struct dirent *entry = readdir(dir);
        if (!entry && errno != 0)
            status = lml_fail(err, LML_NO_FILE, "cannot read the folder %s to its end: %s", folder,
                              reason(errno));
        if (!entry)
            break;
        if (entry->d_name[0] != '.' && what == LML_PUT_RECIPE && !ends_in(entry->d_name, ".lua"))
            tell_near_lua(call, shown_folder, entry->d_name);
        if (entry->d_name[0] == '.' || !ends_in(entry->d_name, ".lua"))
            continue;
        char path[LML_PATH], shown[LML_PATH];
        status = join(path, folder, entry->d_name, err);
        if (status == LML_OK)
            status = join(shown, shown_folder, entry->d_name, err);
        if (status == LML_OK)
            status = need_plain(path, shown, err);
        if (status != LML_OK)
            break;
        lml_error why;
        if (status == LML_OK && what == LML_PUT_SCRIPT && strcmp(from, "studio") == 0)
            status = refuse_ours(kit, shown, name_of_file(path), err);
        if (status != LML_OK)
            break;
        if (check_name(name_of_file(path), &why) != LML_OK)
            pass_over(call, shown, &why);
        else
            status = lml_kit_read(kit, what, name_of_file(path),
                                  &(lml_kit_file){path, shown, from, false}, err);
    }
    closedir(dir);
    return status;
}

/* Beside a program in its build folder, where a link leads to the source tree; and where it is
 * installed. */
void lml_find_shipped_folder(char out[LML_PATH])
{
    static const char *const places[] = {"share/lemel", "../share/lemel"};
    char program[LML_PATH], folder[LML_PATH];
    ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
    if (length > 0) {
        program[length] = '\0';
        folder_of(folder, program);
        for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
            if (join(out, folder, places[i], NULL) == LML_OK && holds(out, "recipes", S_IFDIR))
                return;
    }
    snprintf(out, LML_PATH, "%s", LML_SHIPPED_INSTALL);
}

static lml_status read_shipped(lml_call *call, const char *shipped, lml_kit *kit, lml_error *err)
{
    char folder[LML_PATH];
    lml_status status = join(folder, shipped, "scripts", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, "scripts", LML_PUT_SCRIPT, "shipped", err);
    if (status == LML_OK)
        status = join(folder, shipped, "recipes", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, "recipes", LML_PUT_RECIPE, "shipped", err);
    if (status != LML_OK || lml_kit_find(kit, LML_PUT_SCRIPT, lml_span_of("gates")))
        return status;
    lml_fail(err, LML_NO_GATES,
             "lemel's own recipes and scripts are not in %s; they include its gates (the stops "
             "for law, physics and health), and nothing is run without them",
             shipped[0] ? shipped : "reach");
    lml_error_hint(err, "install lemel again: the command cannot be copied on its own");
    return LML_NO_GATES;
}

lml_status lml_find_shipped(lml_call *call, lml_kit *kit, lml_error *err)
{
    char shipped[LML_PATH];
    lml_find_shipped_folder(shipped);
    lml_status status = lml_limits_read(&call->arguments, &kit->limits, err);
    if (status == LML_OK)
        status = read_shipped(call, shipped, kit, err);
    if (status == LML_OK)
        lml_kit_sort(kit);
    return status;
}

/* A rule that no recipe asks would be passed over without a word. */
static lml_status check_points(const lml_kit *kit, lml_error *err)
{
    for (size_t i = 0; i < kit->count; i++) {
        const lml_kit_text *t = &kit->texts[i];
        if (t->what != LML_PUT_RECIPE || t->ours || t->replaces || !lml_kit_rule_point(t->name))
            continue;
        lml_nearest near = lml_nearest_to(lml_span_of(t->name));
        for (size_t k = 0; k < kit->count; k++)
            if (kit->texts[k].what == LML_PUT_RECIPE &&
                (kit->texts[k].ours || kit->texts[k].replaces) &&
                lml_kit_rule_point(kit->texts[k].name))
                lml_nearest_offer(&near, lml_span_of(kit->texts[k].name));
        lml_fail(err, LML_BAD_RECIPE,
                 "%s: there is no rule point \"%s\", so this rule would never be used", t->shown,
                 lml_kit_rule_point(t->name));
        if (lml_nearest_found(&near))
            lml_error_hint(err, "did you mean %.*s.lua? lemel recipes --rules lists the points",
                           (int)near.best.length, near.best.at);
        else
            lml_error_hint(err, "name it after one of the points that lemel recipes --rules lists");
        return LML_BAD_RECIPE;
    }
    return LML_OK;
}

static bool same_folder(const char *a, const char *b)
{
    struct stat x, y;
    return stat(a, &x) == 0 && stat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

static lml_status read_studio(lml_call *call, const char *studio, const char *shipped, lml_kit *kit,
                              lml_error *err)
{
    char folder[LML_PATH];
    lml_status status = read_settings(kit, call->arguments.value[LML_OPTION_HOUSE], studio,
                                      "house.json", LML_PUT_HOUSE, err);
    if (status == LML_OK)
        status = read_settings(kit, call->arguments.value[LML_OPTION_PRICES], studio, "prices.json",
                               LML_PUT_PRICES, err);
    if (status != LML_OK || same_folder(studio, shipped))
        return status;
    status = join(folder, studio, "scripts", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, folder, LML_PUT_SCRIPT, "studio", err);
    if (status == LML_OK)
        status = join(folder, studio, "recipes", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, folder, LML_PUT_RECIPE, "studio", err);
    return status == LML_OK ? check_points(kit, err) : status;
}

static lml_status refuse_recipe(const lml_kit *kit, lml_span name, lml_error *err)
{
    lml_nearest near = lml_nearest_to(name);
    for (size_t i = 0; i < kit->count; i++)
        if (kit->texts[i].what == LML_PUT_RECIPE)
            lml_nearest_offer(&near, lml_span_of(kit->texts[i].name));
    char file[LML_NAME_MOST + 1];
    snprintf(file, sizeof file, "%.*s", (int)name.length, name.at);
    if (lml_shelf_can_name(name) && is_there(file)) {
        lml_fail(err, LML_NO_FILE, "there is no recipe \"%s\"", file);
        lml_error_hint(err, "there is a file of that name here: for a job in it, write ./%s", file);
        return LML_NO_FILE;
    }
    lml_fail(err, LML_NO_FILE, "there is no recipe or file \"%.*s\"", (int)name.length, name.at);
    if (lml_nearest_found(&near)) {
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
        return LML_NO_FILE;
    }
    lml_error_hint(err, "lemel recipes lists the available ones");
    return LML_NO_FILE;
}

lml_status lml_find_into(lml_kit *kit, const lml_target *recipe, lml_error *err)
{
    if (recipe->path) {
        lml_status status = check_name(recipe->recipe, err);
        if (status != LML_OK)
            return status;
        return lml_kit_read(kit, LML_PUT_RECIPE, recipe->recipe,
                            &(lml_kit_file){recipe->path, recipe->path, "file", recipe->named},
                            err);
    }
    if (!lml_kit_find(kit, LML_PUT_RECIPE, recipe->recipe))
        return refuse_recipe(kit, recipe->recipe, err);
    return LML_OK;
}

lml_status lml_find_place(const lml_call *call, const char *name, char out[LML_PATH],
                          lml_error *err)
{
    char studio[LML_PATH], shipped[LML_PATH], folder[LML_PATH], file[LML_PATH];
    lml_status status = check_name(lml_span_of(name), err);
    if (status != LML_OK)
        return status;
    lml_find_studio(call, NULL, studio);
    lml_find_shipped_folder(shipped);
    if (same_folder(studio, shipped)) {
        lml_fail(err, LML_USAGE, "the only recipes here are those that come with lemel");
        lml_error_hint(err, "go to the folder of a studio, or name its settings with --house");
        return LML_USAGE;
    }
    snprintf(file, sizeof file, "%s.lua", name);
    status = join(folder, studio, "recipes", err);
    return status == LML_OK ? join(out, folder, file, err) : status;
}

lml_status lml_find_in_studio(const lml_call *call, const char *name, char out[LML_PATH],
                              lml_error *err)
{
    char studio[LML_PATH];
    lml_find_studio(call, NULL, studio);
    return join(out, studio, name, err);
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
    folder_of(folder, place);
    if (mkdir(folder, 0777) != 0 && errno != EEXIST)
        return lml_fail(err, LML_NO_WRITE, "cannot make the folder %s", folder);
    return LML_OK;
}

lml_status lml_find_prices(const lml_call *call, char out[LML_PATH], lml_error *err)
{
    const char *given = call->arguments.value[LML_OPTION_PRICES];
    char studio[LML_PATH];
    if (given)
        return join(out, ".", given, err);
    lml_find_studio(call, NULL, studio);
    return join(out, studio, "prices.json", err);
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
    return same_folder(of_a, of_b);
}

/* An adoption that was cut short is finished before anything of the studio is read. */
static lml_status finish_change(lml_call *call, const char *studio, lml_error *err)
{
    lml_builder what = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_change_finish(&call->alloc, studio, &what, err);
    if (status == LML_OK && what.length > 0)
        lml_builder_add_format(&call->aside,
                               "the adoption of %s was interrupted and is now finished\n", what.at);
    lml_builder_free(&what);
    return status;
}

lml_status lml_find_finish(lml_call *call, lml_error *err)
{
    char studio[LML_PATH];
    lml_find_studio(call, NULL, studio);
    return finish_change(call, studio, err);
}

lml_status lml_find_kit(lml_call *call, const lml_target *target, lml_kit *kit, lml_error *err)
{
    char studio[LML_PATH], shipped[LML_PATH];
    lml_find_studio(call, target, studio);
    lml_find_shipped_folder(shipped);
    lml_status status = lml_limits_read(&call->arguments, &kit->limits, err);
    if (status == LML_OK)
        status = read_shipped(call, shipped, kit, err);
    if (status == LML_OK)
        status = finish_change(call, studio, err);
    if (status == LML_OK)
        status = read_studio(call, studio, shipped, kit, err);
    if (status == LML_OK)
        lml_kit_sort(kit);
    if (status == LML_OK && target && target->kind == LML_TARGET_RECIPE)
        status = lml_find_into(kit, target, err);
    return status;
}
