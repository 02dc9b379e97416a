/* A job's text, checked against the recipes that ship and the demo studio's house. Whatever a job
 * says, the recipes are not to blame. */
#include "fuzz.h"
#include "lemel.h"

#include <dirent.h>

static void put(lml_engine *engine, lml_put what, const char *name, const char *path)
{
    FILE *file = fopen(path, "rb");
    fuzz_expect(file, "%s cannot be opened", path);
    fseek(file, 0, SEEK_END);
    size_t length = (size_t)ftell(file);
    rewind(file);
    char *text = malloc(length + 1);
    fuzz_expect(text && fread(text, 1, length, file) == length, "%s cannot be read", path);
    fclose(file);
    lml_error err;
    fuzz_expect(lml_engine_put(engine, what, name, text, length, path, &err) == LML_OK, "%s",
                err.message);
    free(text);
}

static void put_folder(lml_engine *engine, lml_put what, const char *folder)
{
    char path[1024], name[256];
    DIR *dir = opendir(folder);
    fuzz_expect(dir, "%s cannot be read", folder);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || strcmp(entry->d_name + length - 4, ".lua") != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)length - 4, entry->d_name);
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        put(engine, what, name, path);
    }
    closedir(dir);
}

/* Made for the first input and kept: reading the shelf takes longer than any check. */
static lml_engine *studio(void)
{
    static lml_engine *engine;
    if (!engine) {
        engine = lml_engine_new(NULL);
        fuzz_expect(engine, "no engine");
        put_folder(engine, LML_PUT_SCRIPT, LML_SOURCE_DIR "/scripts");
        put_folder(engine, LML_PUT_RECIPE, LML_SOURCE_DIR "/recipes");
        put(engine, LML_PUT_HOUSE, NULL, LML_SOURCE_DIR "/examples/house.json");
        put(engine, LML_PUT_PRICES, NULL, LML_SOURCE_DIR "/examples/prices.json");
    }
    return engine;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lml_error err;
    lml_status status = lml_engine_check(studio(), (const char *)data, size, "job.json", &err);
    fuzz_expect_sound(status, &err);
    fuzz_expect(status != LML_BAD_RECIPE, "%s", err.message);
    return 0;
}
