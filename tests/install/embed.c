/* A C program that embeds the installed library, from its header alone: what a mistaken program is
 * told, and the same job in two threads at once, in whatever locale LC_ALL names, with the result
 * of the C locale. Its word is the folder of recipes/ and scripts/; the result is printed. */
#include <lemel.h>

#include <dirent.h>
#include <locale.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char recipe[] =
    "return recipe { title = 'Weight of a casting', version = '1.0.0', licence = 'CC0-1.0', level "
    "= 1,"
    " asks = { wax = ask.mass { 'Finished wax' }, ratio = ask.number { 'Metal to wax' } },"
    " gives = { piece = give.mass 'Raw casting', half = give.text 'As Lua writes it' },"
    " work = function (job, house, sheet)"
    "   if job.wax > Q'100 g' then sheet:stop('heavy', 'Too heavy for this flask') end"
    "   return { piece = job.wax * job.ratio, half = 'half is ' .. 1 / 2 } end }";
static const char job[] =
    "{ \"recipe\": \"casting\", \"given\": { \"wax\": \"2.53 g\", \"ratio\": 16.5 } }";
static const char heavy_job[] =
    "{ \"recipe\": \"casting\", \"given\": { \"wax\": \"120.5 g\", \"ratio\": 16.5 } }";
static const char bad_job[] =
    "{ \"recipe\": \"casting\", \"given\": { \"wax\": \"2,53 g\", \"ratio\": 16.5 } }";

static const char *data_folder;

static void need(int holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "not so: %s\n", what);
    exit(1);
}

static void print_error(const lml_error *error)
{
    char text[LML_ERROR_TEXT];
    lml_error_text(error, text, sizeof text);
    fputs(text, stderr);
}

static void put_file(lml_engine *engine, lml_put what, const char *folder, const char *file)
{
    static const size_t most = 1 << 20;
    char path[1000], name[100];
    lml_error error;
    char *text = malloc(most);
    snprintf(path, sizeof path, "%s/%s", folder, file);
    snprintf(name, sizeof name, "%.*s", (int)(strlen(file) - strlen(".lua")), file);
    FILE *stream = fopen(path, "rb");
    need(text && stream, path);
    size_t length = fread(text, 1, most, stream);
    fclose(stream);
    if (lml_engine_put(engine, what, name, text, length, path, &error) != LML_OK) {
        print_error(&error);
        exit(1);
    }
    free(text);
}

/* Every *.lua of a folder. */
static void put_folder(lml_engine *engine, lml_put what, const char *name)
{
    char folder[900];
    snprintf(folder, sizeof folder, "%s/%s", data_folder, name);
    DIR *dir = opendir(folder);
    need(dir != NULL, folder);
    for (struct dirent *entry; (entry = readdir(dir)) != NULL;)
        if (strstr(entry->d_name, ".lua"))
            put_file(engine, what, folder, entry->d_name);
    closedir(dir);
}

static lml_engine *make_engine(void)
{
    lml_engine *engine = lml_engine_new(NULL);
    need(engine != NULL, "memory for an engine");
    put_folder(engine, LML_PUT_SCRIPT, "scripts");
    need(lml_engine_put(engine, LML_PUT_RECIPE, "casting", recipe, strlen(recipe), "casting.lua",
                        NULL) == LML_OK,
         "the recipe is put");
    return engine;
}

/* The result as a text of the program's own. */
static char *work(lml_engine *engine, const char *text, int *stopped)
{
    lml_text result;
    lml_error error;
    if (lml_engine_run(engine, text, strlen(text), "job.json", &result, &error) != LML_OK) {
        print_error(&error);
        exit(1);
    }
    char *copy = malloc(result.length + 1);
    need(copy != NULL, "memory");
    memcpy(copy, result.text, result.length + 1);
    if (stopped)
        *stopped = result.stopped;
    lml_text_free(engine, &result);
    return copy;
}

/* A thread: an engine of its own, and the job a few times. */
static void *work_often(void *expected)
{
    lml_engine *engine = make_engine();
    for (int i = 0; i < 20; i++) {
        char *result = work(engine, job, NULL);
        need(strcmp(result, expected) == 0, "the result is the same in every thread and locale");
        free(result);
    }
    lml_engine_free(engine);
    return NULL;
}

static void check_mistakes(void)
{
    lml_error error;
    lml_text result;
    char text[LML_ERROR_TEXT];
    lml_engine *engine = lml_engine_new(NULL);
    need(lml_engine_put(engine, LML_PUT_RECIPE, NULL, recipe, strlen(recipe), "a.lua", &error) ==
             LML_BAD_DATA,
         "a recipe without a name is refused");
    need(lml_engine_put(engine, LML_PUT_SCRIPT, "", recipe, strlen(recipe), "a.lua", &error) ==
             LML_BAD_DATA,
         "a script with an empty name is refused");
    need(lml_engine_put(engine, LML_PUT_RECIPE, "a", NULL, 0, "a.lua", &error) == LML_BAD_DATA,
         "a recipe without a text is refused");
    need(lml_engine_put(engine, LML_PUT_RECIPE, "casting", recipe, strlen(recipe), "casting.lua",
                        &error) == LML_OK,
         "the recipe is put");
    need(lml_engine_run(engine, job, strlen(job), "job.json", &result, &error) == LML_NO_GATES,
         "nothing is run without its gates");
    lml_error_text(&error, text, sizeof text);
    need(strstr(text, "pkg-config --variable=datadir lemel") != NULL,
         "the error says where the scripts are");
    lml_engine_free(engine);
    engine = make_engine();
    need(lml_engine_run(engine, bad_job, strlen(bad_job), "job.json", &result, &error) ==
             LML_BAD_VALUE,
         lml_status_name(error.status));
    lml_error_text(&error, text, sizeof text);
    need(strstr(text, "2,53 g\n") && strstr(text, "^"), text);
    int stopped = 0;
    free(work(engine, heavy_job, &stopped));
    need(stopped, "a stop is a flag of the result");
    free(work(engine, job, &stopped));
    need(!stopped, "and none is none");
    lml_engine_free(engine);
}

int main(int words, char **word)
{
    need(words == 2, "one word, the folder of recipes/ and scripts/");
    data_folder = word[1];
    check_mistakes();
    lml_engine *engine = make_engine();
    char *expected = work(engine, job, NULL); /* in the C locale */
    lml_engine_free(engine);
    need(setlocale(LC_ALL, "") != NULL, "the locale that LC_ALL names is there");
    char half[10], after[10];
    snprintf(half, sizeof half, "%.1f", 0.5);
    pthread_t thread[2];
    for (int i = 0; i < 2; i++)
        need(pthread_create(&thread[i], NULL, work_often, expected) == 0, "a thread can be had");
    for (int i = 0; i < 2; i++)
        pthread_join(thread[i], NULL);
    work_often(expected);
    snprintf(after, sizeof after, "%.1f", 0.5);
    need(strcmp(half, after) == 0, "the program's own locale is left as it was");
    printf("the program writes %s, the library %s\n", half, expected);
    free(expected);
    return 0;
}
