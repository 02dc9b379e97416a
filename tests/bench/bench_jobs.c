/* How long the demo's main job takes from the shell, and many of them:
 *   bench_jobs PATH-OF-LEMEL FOLDER-OF-EXAMPLES [JOBS]
 * The jobs are the main job with other weights. Times are of the wall clock, the best of a few for
 * the cold start; each figure stands beside what is aimed at. */
#define _DEFAULT_SOURCE /* wait4, mkdtemp */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { PATH = 512, JOB = 1 << 16, COLD = 20 };

static const char main_job[] = "jobs/cuff-links.json";

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void fail(const char *what)
{
    perror(what);
    exit(1);
}

typedef struct cost {
    double seconds, megabytes;
    int status;
} cost;

/* Run the command with `input` as its standard input; what it prints is thrown away. */
static cost run(char *const words[], const char *input)
{
    struct rusage usage;
    int state;
    double start = now();
    pid_t child = fork();
    if (child < 0)
        fail("fork");
    if (child == 0) {
        int in = open(input ? input : "/dev/null", O_RDONLY), out = open("/dev/null", O_WRONLY);
        dup2(in, 0);
        dup2(out, 1);
        dup2(out, 2);
        execv(words[0], words);
        _exit(127);
    }
    if (wait4(child, &state, 0, &usage) < 0)
        fail("wait4");
    return (cost){now() - start, (double)usage.ru_maxrss / 1024,
                  WIFEXITED(state) ? WEXITSTATUS(state) : -1};
}

static void expect(const cost *c, int most, const char *what)
{
    if (c->status < 0 || c->status > most) {
        fprintf(stderr, "%s ended with %d: nothing was measured\n", what, c->status);
        exit(1);
    }
}

/* ---- jobs ---- */

static size_t read_job(char out[JOB])
{
    FILE *file = fopen(main_job, "r");
    if (!file)
        fail(main_job);
    size_t length = fread(out, 1, JOB - 1, file);
    fclose(file);
    out[length] = '\0';
    for (size_t i = 0; i < length; i++)
        if (out[i] == '\n')
            out[i] = ' ';
    return length;
}

/* The job with another weight of wax in the first pattern: from 0.300 g on, a milligram more each,
 * so that no two of 150 are alike and the charge stays within what the studio can cast. */
static void write_job(FILE *to, const char *job, int number)
{
    static const char mark[] = "\"wax\": \"";
    const char *wax = strstr(strstr(job, "\"patterns\""), mark) + sizeof mark - 1;
    fprintf(to, "%.*s0.%d g%s\n", (int)(wax - job), job, 300 + number % 150, strchr(wax, '"'));
}

static void write_lines(const char *path, const char *job, int jobs)
{
    FILE *file = fopen(path, "w");
    if (!file)
        fail(path);
    for (int i = 0; i < jobs; i++)
        write_job(file, job, i);
    fclose(file);
}

static void write_folder(const char *folder, const char *job, int jobs)
{
    char path[PATH + 32];
    if (mkdir(folder, 0700) != 0)
        fail(folder);
    for (int i = 0; i < jobs; i++) {
        snprintf(path, sizeof path, "%s/%06d.json", folder, i);
        FILE *file = fopen(path, "w");
        if (!file)
            fail(path);
        write_job(file, job, i);
        fclose(file);
    }
}

/* ---- measuring ---- */

static void measure_cold(char *lemel)
{
    char job[] = "jobs/cuff-links.json";
    char *words[] = {lemel, "run", job, NULL};
    cost best = {.seconds = 1e9, .megabytes = 0};
    for (int i = 0; i < COLD; i++) {
        cost c = run(words, NULL);
        expect(&c, 1, "lemel run");
        best.seconds = c.seconds < best.seconds ? c.seconds : best.seconds;
        best.megabytes = c.megabytes > best.megabytes ? c.megabytes : best.megabytes;
    }
    printf("main job, cold        %8.1f ms    of 25 ms at most\n", best.seconds * 1e3);
    printf("                      %8.1f MB    of 16 MB at most\n", best.megabytes);
}

static double measure_batch(char *lemel, char *workers, const char *lines, int jobs)
{
    char *words[] = {lemel, "batch", "-", "--quiet", "--workers", workers, NULL};
    cost c = run(words, lines);
    expect(&c, 1, "lemel batch");
    double rate = jobs / c.seconds;
    printf("batch, %s worker%s     %8.0f jobs/s, each worker's memory apart, %.1f MB\n", workers,
           workers[0] == '1' ? " " : "s", rate, c.megabytes);
    return rate;
}

static void measure_compare(char *lemel, char *folder, int jobs)
{
    char *words[] = {lemel,  "compare", "quote_own_metal", "quote_doubled",
                     folder, "--house", "house.json",      NULL};
    cost c = run(words, NULL);
    expect(&c, 1, "lemel compare");
    printf("compare, %5d jobs   %8.2f s     each worked twice\n", jobs, c.seconds);
}

int main(int argc, char **argv)
{
    static char job[JOB];
    char scratch[] = "/tmp/bench_jobs.XXXXXX", lines[PATH], folder[PATH];
    if (argc < 3) {
        fprintf(stderr, "bench_jobs PATH-OF-LEMEL FOLDER-OF-EXAMPLES [JOBS]\n");
        return 64;
    }
    char *lemel = realpath(argv[1], NULL);
    int jobs = argc > 3 ? atoi(argv[3]) : 1000;
    if (!lemel || jobs < 1 || chdir(argv[2]) != 0 || !mkdtemp(scratch))
        fail(argv[1]);
    read_job(job);
    snprintf(lines, sizeof lines, "%s/jobs.jsonl", scratch);
    snprintf(folder, sizeof folder, "%s/jobs", scratch);
    write_lines(lines, job, jobs);
    write_folder(folder, job, jobs);

    measure_cold(lemel);
    double one = measure_batch(lemel, "1", lines, jobs);
    printf("                      %8.2f x     of 1500 jobs/s at least\n", one / 1500);
    double two = measure_batch(lemel, "2", lines, jobs);
    printf("                      %8.2f x     one worker; 1.8 at least\n", two / one);
    measure_compare(lemel, folder, jobs);

    char *words[] = {"/bin/rm", "-rf", scratch, NULL};
    run(words, NULL);
    free(lemel);
    return 0;
}
