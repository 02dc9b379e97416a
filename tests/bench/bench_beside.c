/* A small need, charge and quote by lemel, and by Python with pint and decimal, which a user would
 * take instead: bench_beside PATH-OF-LEMEL FOLDER-BESIDE FOLDER-OF-SCRIPTS Both come to the same
 * figures. What is compared is the time of the processor in this one run: cold, a process that
 * works the one job; warm, a job more in a process that has worked some. Aimed at are 60 times cold
 * and 20 times warm. */
#define _DEFAULT_SOURCE /* wait4 */
#include "lemel.h"

#include <cjson/cJSON.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { TEXT = 1 << 19, PATH = 600, ROUNDS = 7, WARM = 200, WARM_PYTHON = 50, NO_PINT = 3 };

static _Noreturn void fail(const char *what)
{
    fprintf(stderr, "bench_beside: %s\n", what);
    exit(1);
}

static size_t read_file(const char *path, char out[TEXT])
{
    FILE *file = fopen(path, "rb");
    if (!file)
        fail(path);
    size_t length = fread(out, 1, TEXT - 1, file);
    fclose(file);
    out[length] = '\0';
    return length;
}

static double seconds(struct timeval t)
{
    return (double)t.tv_sec + (double)t.tv_usec / 1e6;
}

/* What the program prints, its status, and the processor's seconds that it took with its children.
 */
static double run(char *const words[], char out[TEXT], int *status)
{
    int ends[2], state;
    struct rusage usage;
    if (pipe(ends))
        fail("no pipe");
    pid_t child = fork();
    if (child < 0)
        fail("no process");
    if (child == 0) {
        dup2(ends[1], 1);
        close(ends[0]);
        close(ends[1]);
        if (!freopen("/dev/null", "w", stderr))
            _exit(127);
        execvp(words[0], words);
        _exit(127);
    }
    close(ends[1]);
    size_t length = 0;
    for (ssize_t got;
         length < TEXT - 1 && (got = read(ends[0], out + length, TEXT - 1 - length)) > 0;)
        length += (size_t)got;
    out[length] = '\0';
    close(ends[0]);
    if (wait4(child, &state, 0, &usage) < 0)
        fail("lost a process");
    *status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

static double best_of(char *const words[], int times, char out[TEXT])
{
    double best = 0;
    for (int i = 0; i < times; i++) {
        int status;
        double took = run(words, out, &status);
        if (status)
            fail(words[0]);
        best = i == 0 || took < best ? took : best;
    }
    return best;
}

/* ---- python ---- */

static const char *python_with_pint(char *script, char out[TEXT])
{
    static const char *const names[] = {"python3", "/usr/bin/python3"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        int status;
        char *words[] = {(char *)names[i], script, NULL};
        run(words, out, &status);
        if (status == 0)
            return names[i];
    }
    return NULL;
}

/* ---- lemel ---- */

static void put(lml_engine *engine, lml_put what, const char *name, const char *path)
{
    static char text[TEXT];
    size_t length = read_file(path, text);
    lml_error e;
    if (lml_engine_put(engine, what, name, text, length, path, &e))
        fail(e.message);
}

static lml_engine *engine_with(const char *beside, const char *scripts)
{
    char path[PATH], name[PATH];
    lml_engine *engine = lml_engine_new(NULL);
    DIR *dir = opendir(scripts);
    if (!engine || !dir)
        fail(scripts);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || strcmp(entry->d_name + length - 4, ".lua") != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(length - 4), entry->d_name);
        snprintf(path, sizeof path, "%s/%s", scripts, entry->d_name);
        put(engine, LML_PUT_SCRIPT, name, path);
    }
    closedir(dir);
    snprintf(path, sizeof path, "%s/recipes/small.lua", beside);
    put(engine, LML_PUT_RECIPE, "small", path);
    snprintf(path, sizeof path, "%s/house.json", beside);
    put(engine, LML_PUT_HOUSE, NULL, path);
    return engine;
}

static void work(lml_engine *engine, const char *job, size_t length)
{
    lml_text text;
    lml_error e;
    if (lml_engine_run(engine, job, length, "job.json", &text, &e))
        fail(e.message);
    lml_text_free(engine, &text);
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static double warm(const char *beside, const char *scripts, const char *job, size_t length)
{
    lml_engine *engine = engine_with(beside, scripts);
    work(engine, job, length);
    double best = 0;
    for (int round = 0; round < ROUNDS; round++) {
        double start = now();
        for (int i = 0; i < WARM; i++)
            work(engine, job, length);
        double took = (now() - start) / WARM;
        best = round == 0 || took < best ? took : best;
    }
    lml_engine_free(engine);
    return best;
}

/* A give of a result: a number, or money as a text. */
static double figure(const cJSON *result, const char *name)
{
    const cJSON *give = cJSON_GetObjectItem(cJSON_GetObjectItem(result, "results"), name);
    const cJSON *value = cJSON_GetObjectItem(give, "value");
    if (!cJSON_IsString(value) && !cJSON_IsNumber(value))
        fail(name);
    return cJSON_IsString(value) ? strtod(value->valuestring, NULL) : value->valuedouble;
}

static void expect_the_same(const char *ours, const char *theirs)
{
    double charge, gold, tax, price;
    cJSON *result = cJSON_Parse(ours);
    if (!result || sscanf(theirs, "%lf %lf %lf %lf", &charge, &gold, &tax, &price) != 4)
        fail("no figures to compare");
    const double apart[] = {figure(result, "charge") - charge, figure(result, "gold") - gold,
                            figure(result, "tax") - tax, figure(result, "price") - price};
    for (size_t i = 0; i < sizeof apart / sizeof *apart; i++)
        if (apart[i] > 1e-6 || apart[i] < -1e-6)
            fail("the two come to other figures");
    cJSON_Delete(result);
}

int main(int argc, char **argv)
{
    static char ours[TEXT], theirs[TEXT], job_text[TEXT];
    char job[PATH], script[PATH], rounds[20];
    if (argc != 4)
        fail("wants the path of lemel, the folder tests/bench/beside and the folder scripts");
    snprintf(job, sizeof job, "%s/job.json", argv[2]);
    snprintf(script, sizeof script, "%s/small.py", argv[2]);
    snprintf(rounds, sizeof rounds, "%d", WARM_PYTHON);
    const char *python = python_with_pint(script, theirs);
    if (!python) {
        printf("skipped: python3-pint is not installed\n");
        return 0;
    }
    double our_cold =
        best_of((char *[]){argv[1], "run", job, "-q", "--format", "json", NULL}, 10, ours);
    double their_cold = best_of((char *[]){(char *)python, script, NULL}, 5, theirs);
    expect_the_same(ours, theirs);
    double our_warm = warm(argv[2], argv[3], job_text, read_file(job, job_text));
    int status;
    run((char *[]){(char *)python, script, rounds, NULL}, theirs, &status);
    const char *line = strchr(theirs, '\n');
    double their_warm = line ? strtod(line + 1, NULL) / 1e6 : 0;
    if (status || their_warm <= 0)
        fail(script);
    printf("cold  %8.2f ms, pint and decimal %8.2f ms: %5.1f times (aim 60)\n", our_cold * 1e3,
           their_cold * 1e3, their_cold / our_cold);
    printf("warm  %8.3f ms, pint and decimal %8.3f ms: %5.1f times (aim 20)\n", our_warm * 1e3,
           their_warm * 1e3, their_warm / our_warm);
    return 0;
}
