/* A program that embeds the library: runs one job and prints the result. Its words are the paths of the gates and of the facts that they read. */
#include <lemel.h>

#include <stdio.h>
#include <string.h>

static const char recipe[] =
    "return recipe { title = 'Weight of a casting', version = '1.0.0', licence = 'CC0-1.0', level = 1,"
    " asks = { wax = ask.mass { 'Finished wax' }, ratio = ask.number { 'Metal to wax' } },"
    " gives = { piece = give.mass 'Raw casting' },"
    " work = function (job) return { piece = job.wax * job.ratio } end }";
static const char job[] =
    "{ \"recipe\": \"casting\", \"given\": { \"wax\": \"2.5 g\", \"ratio\": 16 } }";

static lml_status put_script(lml_engine *engine, const char *name, const char *path,
                             lml_error *error)
{
    static char text[1 << 18];
    FILE *file = fopen(path, "rb");
    if (!file)
        return LML_NO_FILE;
    size_t length = fread(text, 1, sizeof text, file);
    fclose(file);
    return lml_engine_put(engine, LML_PUT_SCRIPT, name, text, length, path, error);
}

int main(int words, char **word)
{
    lml_error error = {.message = "no gates"};
    lml_text result;
    lml_engine *engine = lml_engine_new(NULL);
    if (!engine || words < 3)
        return 1;
    lml_status status = lml_engine_put(engine, LML_PUT_RECIPE, "casting", recipe, strlen(recipe),
                                       "casting.lua", &error);
    if (status == LML_OK &&
        lml_engine_run(engine, job, strlen(job), "job.json", &result, &error) != LML_NO_GATES)
        return 2; /* nothing is run without its gates */
    if (status == LML_OK)
        status = put_script(engine, "gates", word[1], &error);
    if (status == LML_OK)
        status = put_script(engine, "facts", word[2], &error);
    if (status == LML_OK)
        status = lml_engine_run(engine, job, strlen(job), "job.json", &result, &error);
    if (status == LML_OK) {
        puts(result.text);
        lml_text_free(engine, &result);
    } else {
        fprintf(stderr, "%s\n", error.message);
    }
    lml_engine_free(engine);
    return status != LML_OK;
}
