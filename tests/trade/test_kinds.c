/* One name has one kind: what a recipe gives, another asks for under the same name, a house sets
 * for all of them, and the gates read whatever stands under it. Judged are the asks, allowances and
 * gives of all shipped recipes and rules, and the fields of records beside the name of the record.
 */
#include "../shipped.h"

typedef struct {
    char name[80], kind[40], where[80];
} seen;

typedef struct {
    seen *of;
    size_t count, room;
} all_seen;

static const char *text_of(const cJSON *entry, const char *name)
{
    const char *text = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(entry, name));
    return text ? text : "";
}

/* A choice is a text out of a few. Anything agrees with everything: the main job hands such things
 * on. */
static bool kind_of(const cJSON *entry, char kind[static 40])
{
    const char *of = text_of(entry, "of");
    if (strcmp(text_of(entry, "kind"), "anything") == 0 || strcmp(of, "anything") == 0)
        return false;
    snprintf(kind, 40, "%s%s%s", text_of(entry, "kind"), *of ? " of " : "", of);
    if (strcmp(kind, "choice") == 0)
        strcpy(kind, "text");
    return true;
}

static void look_at(all_seen *all, const cJSON *entries, const char *parent, const char *where)
{
    const cJSON *entry;
    cJSON_ArrayForEach(entry, entries)
    {
        char name[80], kind[40];
        snprintf(name, sizeof name, "%s%s%s", parent, *parent ? "." : "", text_of(entry, "name"));
        if (kind_of(entry, kind)) {
            size_t i = 0;
            while (i < all->count && strcmp(all->of[i].name, name) != 0)
                i++;
            if (i == all->count) {
                if (all->count == all->room) {
                    all->room = all->room ? 2 * all->room : 256;
                    all->of = (seen *)realloc(all->of, all->room * sizeof *all->of);
                    cr_assert(all->of);
                }
                snprintf(all->of[i].name, sizeof all->of[i].name, "%s", name);
                snprintf(all->of[i].kind, sizeof all->of[i].kind, "%s", kind);
                snprintf(all->of[i].where, sizeof all->of[i].where, "%s", where);
                all->count++;
            }
            cr_expect_str_eq(all->of[i].kind, kind, "%s is a %s in the %s, and a %s in the %s",
                             name, all->of[i].kind, all->of[i].where, kind, where);
        }
        look_at(all, cJSON_GetObjectItemCaseSensitive(entry, "fields"), text_of(entry, "name"),
                where);
    }
}

Test(kinds, one_name_has_one_kind)
{
    lml_engine *engine = shipped_engine();
    all_seen all = {0};
    char path[600];
    snprintf(path, sizeof path, "%s/recipes", LML_SOURCE_DIR);
    DIR *dir = opendir(path);
    cr_assert(dir);
    size_t recipes = 0;
    for (struct dirent *file = readdir(dir); file; file = readdir(dir)) {
        char name[80];
        if (sscanf(file->d_name, "%70[a-z0-9_].lua", name) != 1)
            continue;
        lml_text text;
        lml_error e;
        cr_assert_eq(lml_engine_inspect(engine, name, &text, &e), LML_OK, "%s: %s", name,
                     e.message);
        cJSON *recipe = cJSON_Parse(text.text);
        lml_text_free(engine, &text);
        static const char *const part[] = {"asks", "allowances", "gives"};
        for (size_t i = 0; i < 3; i++) {
            char where[80];
            snprintf(where, sizeof where, "%s of %.60s", part[i], name);
            look_at(&all, cJSON_GetObjectItemCaseSensitive(recipe, part[i]), "", where);
        }
        cJSON_Delete(recipe);
        recipes++;
    }
    closedir(dir);
    cr_expect_gt(recipes, 20);
    cr_expect_gt(all.count, 900);
    free(all.of);
    lml_engine_free(engine);
}
