#define _DEFAULT_SOURCE /* readlink, d_type */
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

/* "recipes/quote.lua" is the recipe "quote". */
static lml_span name_of_file(const char *path)
{
    const char *slash = strrchr(path, '/');
    lml_span name = lml_span_of(slash ? slash + 1 : path);
    if (lml_path_ends_in(path, ".lua"))
        name.length -= 4;
    return name;
}

lml_status lml_find_check_name(lml_span name, lml_error *err)
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
    if (lml_path_ends_in(word, ".lua") || strchr(word, '/'))
        return (lml_target){LML_TARGET_RECIPE, word, name_of_file(word), true};
    return (lml_target){LML_TARGET_RECIPE, NULL, lml_span_of(word), true};
}

lml_target lml_find_target(const char *word)
{
    if (strcmp(word, "-") == 0 || strcmp(word, "/dev/stdin") == 0)
        return (lml_target){LML_TARGET_INPUT, NULL, lml_span_of(NULL), true};
    bool path = lml_path_ends_in(word, ".json") || strchr(word, '/');
    bool job =
        !lml_path_ends_in(word, ".lua") &&
        (path || (!lml_shelf_can_name(lml_span_of(word)) && word[0] && lml_path_is_there(word)));
    return job ? (lml_target){LML_TARGET_JOB, word, lml_span_of(NULL), true}
               : lml_find_recipe(word);
}

/* ---- what is put into the kit ---- */

static bool is_studio(const char *folder)
{
    return lml_path_names(folder, "house.json") || lml_path_names(folder, "prices.json");
}

void lml_find_studio(const lml_call *call, const lml_target *target, char out[LML_PATH])
{
    const char *house = call->arguments.value[LML_OPTION_HOUSE];
    if (house) {
        lml_path_folder_of(out, house);
        return;
    }
    if (target && target->path) {
        lml_path_folder_of(out, target->path);
        if (is_studio(out))
            return;
        char folder[LML_PATH];
        snprintf(folder, LML_PATH, "%s", out);
        lml_path_above(out, folder);
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
                            &(lml_kit_file){given, given, "studio", .named = true}, err);
    if (!lml_path_names(studio, name))
        return LML_OK;
    lml_status status = lml_path_join(path, studio, name, err);
    if (status == LML_OK)
        status = lml_path_need_plain(path, path, err);
    if (status != LML_OK)
        return status;
    return lml_kit_read(kit, what, lml_span_of(name), &(lml_kit_file){path, path, .from = "studio"},
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
        if (!lml_path_ends_in(name, ends[i]))
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
        lml_fail(err, LML_NO_FILE, "cannot read the folder %s: %s", folder, lml_path_reason(why));
        lml_error_hint(err, "put the folder back, or remove %s", folder);
        return LML_NO_FILE;
    }
    lml_status status = LML_OK;
    while (status == LML_OK) {
        errno = 0;
        struct dirent *entry = readdir(dir);
        if (!entry && errno != 0)
            status = lml_fail(err, LML_NO_FILE, "cannot read the folder %s to its end: %s", folder,
                              lml_path_reason(errno));
        if (!entry)
            break;
        if (entry->d_name[0] != '.' && what == LML_PUT_RECIPE &&
            !lml_path_ends_in(entry->d_name, ".lua"))
            tell_near_lua(call, shown_folder, entry->d_name);
        if (entry->d_name[0] == '.' || !lml_path_ends_in(entry->d_name, ".lua"))
            continue;
        char path[LML_PATH], shown[LML_PATH];
        status = lml_path_join(path, folder, entry->d_name, err);
        if (status == LML_OK)
            status = lml_path_join(shown, shown_folder, entry->d_name, err);
        bool plain = entry->d_type == DT_REG; /* no link, and the folder knows */
        if (status == LML_OK && !plain)
            status = lml_path_need_plain(path, shown, err);
        if (status != LML_OK)
            break;
        lml_error why;
        if (status == LML_OK && what == LML_PUT_SCRIPT && strcmp(from, "studio") == 0)
            status = refuse_ours(kit, shown, name_of_file(path), err);
        if (status != LML_OK)
            break;
        if (lml_find_check_name(name_of_file(path), &why) != LML_OK)
            pass_over(call, shown, &why);
        else
            status = lml_kit_read(kit, what, name_of_file(path),
                                  &(lml_kit_file){path, shown, from, .plain = plain}, err);
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
        lml_path_folder_of(folder, program);
        for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
            if (lml_path_join(out, folder, places[i], NULL) == LML_OK &&
                lml_path_holds(out, "recipes", S_IFDIR))
                return;
    }
    snprintf(out, LML_PATH, "%s", LML_SHIPPED_INSTALL);
}

static lml_status read_shipped(lml_call *call, const char *shipped, lml_kit *kit, lml_error *err)
{
    char folder[LML_PATH];
    lml_status status = lml_path_join(folder, shipped, "scripts", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, "scripts", LML_PUT_SCRIPT, "shipped", err);
    if (status == LML_OK)
        status = lml_path_join(folder, shipped, "recipes", err);
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

/* A job's folder is its studio because one of the two files is there: neither is, so the look that
 * found it failed, or it has just been taken away. */
static lml_status need_settings(const lml_kit *kit, const char *studio, lml_error *err)
{
    if (strcmp(studio, ".") == 0 || lml_kit_settings(kit, LML_PUT_HOUSE) ||
        lml_kit_settings(kit, LML_PUT_PRICES))
        return LML_OK;
    lml_fail(err, LML_NO_FILE, "the settings in %s cannot be read, and were there a moment ago",
             studio);
    lml_error_hint(err, "try again; or name the settings with --house");
    return LML_NO_FILE;
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
    if (status == LML_OK)
        status = need_settings(kit, studio, err);
    if (status != LML_OK || lml_path_same_folder(studio, shipped))
        return status;
    status = lml_path_join(folder, studio, "scripts", err);
    if (status == LML_OK)
        status = read_folder(call, kit, folder, folder, LML_PUT_SCRIPT, "studio", err);
    if (status == LML_OK)
        status = lml_path_join(folder, studio, "recipes", err);
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
    if (lml_shelf_can_name(name) && lml_path_is_there(file)) {
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
        lml_status status = lml_find_check_name(recipe->recipe, err);
        if (status != LML_OK)
            return status;
        return lml_kit_read(
            kit, LML_PUT_RECIPE, recipe->recipe,
            &(lml_kit_file){recipe->path, recipe->path, "file", .named = recipe->named}, err);
    }
    if (!lml_kit_find(kit, LML_PUT_RECIPE, recipe->recipe))
        return refuse_recipe(kit, recipe->recipe, err);
    return LML_OK;
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
