/* Every hostile script of tests/attacks, each in a process of its own: it must come to what its
 * first line says, within its steps, show no address, and leave no trace in the run after it. The
 * scripts numbered 01 to 57 are the known attacks on an embedded Lua 5.4; the rest are against our
 * own bindings. */
#include "worked.h"

#include <criterion/parameterized.h>
#include <dirent.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

enum { STEPS = 6000000, FILE_MOST = 1 << 17, REPORT = 700 };
enum { NOT_HELD = 12 };
enum { HANG = 3600 /* seconds, after which a script that no budget ends is ended, and named */ };

static const char *const GOOD =
    "local trade = require \"trade\"\n"
    "return recipe { title = \"Good\", version = \"1\", level = 1,\n"
    "  asks = { wax = ask.mass { \"Wax\" } },\n"
    "  gives = { poured = give.mass \"Poured\", said = give.text \"Said\" },\n"
    "  work = function (job, house, sheet)\n"
    "    sheet.bench:line(\"Wax\", job.wax)\n"
    "    local all = {}\n"
    "    for name, part in pairs { b = 2, a = 1 } do table.insert(all, name .. tostring(part)) "
    "end\n"
    "    return { poured = job.wax * trade.figure, said = table.concat(all) .. "
    "trade.first(trade.list[1]) }\n"
    "  end }\n";
static const char *const TRADE =
    "local kept\n"
    "return { figure = 15, list = { \"sound\" }, limit = { \"50 kg\" },\n"
    "  first = function (x) kept = kept or x return kept end }\n";
static const char *const GATES = "return { gates = { { code = \"too-much\", needs = { \"poured\" "
                                 "}, check = function (facts, sheet)\n"
                                 "  local trade = require \"trade\"\n"
                                 "  if facts.poured > Q(trade.first(trade.limit[1])) then "
                                 "sheet:stop(\"too-much\", \"Too much\") end\n"
                                 "end } } }\n";
static const char *const STOPPED =
    "return recipe { title = \"Stopped\", version = \"1\", level = 1,\n"
    "  asks = { wax = ask.mass { \"Wax\", optional = true } },\n"
    "  gives = { charge = give.mass \"Charge\" },\n"
    "  work = function (job, house, sheet)\n"
    "    sheet:stop(\"never\", \"Not this\") return { charge = Q \"1 g\" } end }\n";
static const char *const KEEPER =
    "return recipe { title = \"Keeper\", version = \"1\", level = 1,\n"
    "  asks = { thing = ask.anything { \"Thing\" } }, gives = { kept = give.anything \"Thing\" },\n"
    "  work = function (job) return { kept = job.thing } end }\n";
static const char *const BREAKER =
    "return recipe { title = \"Breaker\", version = \"1\", level = 1,\n"
    "  asks = { thing = ask.mass { \"Thing\" }, how = ask.text { \"How\" } }, gives = { charge = "
    "give.mass \"Charge\" },\n"
    "  work = function (job, house, sheet) local charge = job.thing * 15.37\n"
    "    if job.how == \"stopped\" then sheet:stop(\"never\", \"Not this\", { \"charge\" }) end\n"
    "    local said = { stopped = tostring(charge:as \"dwt\"), letters = text.rep(\"i\", "
    "floor(charge:number \"g\")), place = \"breaker.lua:\" .. floor(charge:number \"g\") .. \": "
    "x\" }\n"
    "    error(said[job.how] or \"it is \" .. tostring(charge), job.how == \"place\" and 0 or 1) "
    "end }\n";
static const char *const LIMITED =
    "return recipe { title = \"Limited\", version = \"1\", level = 1,\n"
    "  allowances = { most = ask.mass { \"Most\", default = \"5 g\", source = \"common practice, "
    "no "
    "source\" } },\n"
    "  work = function () return {} end }\n";
static const char *const ENDLESS =
    "return recipe { title = \"Endless\", version = \"1\", level = 1,\n"
    "  work = function () while true do end end }\n";

/* A script is the body of `work`, unless it says that it is a whole file. */
static const char *const BEFORE =
    "return recipe { title = \"Attack\", version = \"1\", level = 1,\n"
    "  asks = { wax = ask.mass { \"Wax\" }, stones = ask.list { \"Stones\", of = ask.mass {} } },\n"
    "  gives = { out = give.anything { \"Out\", optional = true },\n"
    "    poured = give.mass { \"Poured\", optional = true },\n"
    "    named = give.by_name { \"Named\", of = ask.number {}, optional = true },\n"
    "    listed = give.list { \"Listed\", of = ask.mass {}, optional = true },\n"
    "    number = give.number { \"Number\", optional = true },\n"
    "    whole = give.whole { \"Whole\", optional = true },\n"
    "    gold = give.fine_mass { \"Gold\", metal = \"Au\", optional = true },\n"
    "    ring = give.ring_size { \"Ring\", optional = true } },\n"
    "  work = function (job, house, sheet)\n";
static const char *const AFTER = "\nend }\n";
static const char *const JOB = "{ \"recipe\": \"attack\", \"given\": { \"wax\": \"2 g\", "
                               "\"stones\": [ \"1 ct\", \"2 ct\" ] } }";
static const char *const WHOLE_JOB = "{ \"recipe\": \"attack\", \"given\": {} }";
static const char *const GOOD_JOB = "{ \"recipe\": \"good\", \"given\": { \"wax\": \"2 g\" } }";

static bool shows_address(const char *text)
{
    for (const char *at = strstr(text, "0x"); at; at = strstr(at + 1, "0x"))
        if (strspn(at + 2, "0123456789abcdef") >= 6)
            return true;
    return false;
}

static bool shows_control(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 && *text != '\n')
            return true;
    return false;
}

typedef struct script {
    char want[20], words[200]; /* the status, and what the error or result must hold */
    const char *body;
    bool whole;
} script;

static script read_first_line(char *text)
{
    script s = {"", "", NULL, false};
    char *end = strchr(text, '\n');
    cr_assert(end && strncmp(text, "-- want: ", 9) == 0,
              "a first line such as -- want: LIMIT is due");
    *end = '\0';
    sscanf(text + 9, "%19s", s.want);
    char *out = s.words;
    const char *quote = strchr(text, '"');
    for (const char *at = quote ? quote + 1 : ""; *at && *at != '"'; at++) {
        at += *at == '\\';
        *out++ = *at;
    }
    *out = '\0';
    s.body = end + 1;
    s.whole = strncmp(s.body, "-- whole file", 13) == 0;
    return s;
}

/* The second run and the third, for which the engine keeps what it has loaded, come to what the
 * first came to. */
static bool works_again(lml_engine *engine, const char *job, const char *result,
                        const lml_error *first)
{
    bool same = true;
    for (int i = 0; i < 2 && same; i++) {
        lml_error e = {.status = LML_OK};
        char *again = run_text(engine, job, &e);
        same = e.status == first->status &&
               (result ? again && strcmp(again, result) == 0
                       : !again && strcmp(e.message, first->message) == 0);
        free(again);
    }
    return same;
}

/* What went wrong, or an empty text. */
static void try_script(char *text, char report[REPORT])
{
    lml_engine_options options = {.limits = {.steps = STEPS}};
    lml_engine *engine = lml_engine_new(&options);
    script s = read_first_line(text);
    lml_error e;
    put_text(engine, LML_PUT_SCRIPT, "trade", TRADE);
    put_text(engine, LML_PUT_SCRIPT, "gates", GATES);
    put_text(engine, LML_PUT_SCRIPT, "itself", "return require \"itself\"");
    put_text(engine, LML_PUT_RECIPE, "good", GOOD);
    put_text(engine, LML_PUT_RECIPE, "stopped", STOPPED);
    put_text(engine, LML_PUT_RECIPE, "keeper", KEEPER);
    put_text(engine, LML_PUT_RECIPE, "breaker", BREAKER);
    put_text(engine, LML_PUT_RECIPE, "limited", LIMITED);
    put_text(engine, LML_PUT_RECIPE, "endless", ENDLESS);
    char *before = run_text(engine, GOOD_JOB, &e);

    char *file = (char *)malloc(FILE_MOST);
    snprintf(file, FILE_MOST, "%s%s%s", s.whole ? "" : BEFORE, s.body, s.whole ? "" : AFTER);
    /* One that is refused as it is put harms who uses it: its job says so again. */
    lml_engine_put(engine, LML_PUT_RECIPE, "attack", file, strlen(file), "attack.lua", &e);
    const char *job = s.whole ? WHOLE_JOB : JOB;
    char *result = run_text(engine, job, &e);
    bool the_same = works_again(engine, job, result, &e);
    char *after = run_text(engine, GOOD_JOB, &(lml_error){.status = LML_OK});
    const char *got = result ? result : e.message;
    bool refused = strcmp(s.want, "BAD_RECIPE") == 0 &&
                   (e.status == LML_BAD_VALUE || e.status == LML_MISMATCH ||
                    e.status == LML_OVERFLOW || e.status == LML_NOT_FOUND);
    if (!the_same)
        snprintf(report, REPORT, "worked again it comes to something else than: %.400s", got);
    else if (strcmp(lml_status_name(e.status), s.want) != 0 && !refused)
        snprintf(report, REPORT, "%s is wanted, and it comes to %s: %.400s", s.want,
                 lml_status_name(e.status), got);
    else if (!strstr(got, s.words))
        snprintf(report, REPORT, "it says '%.400s', and not '%s'", got, s.words);
    else if (shows_address(got) || shows_address(e.hint))
        snprintf(report, REPORT, "it shows an address: %.400s", got);
    else if (shows_control(got) || shows_control(e.hint))
        snprintf(report, REPORT, "it holds a control character: %.400s", got);
    else if (!before || !after || strcmp(before, after) != 0)
        snprintf(report, REPORT, "the run after it differs: %.400s", after ? after : "no result");

    /* What stands in a file that nobody works is looked at too. */
    lml_text text_of;
    if (lml_engine_inspect(engine, "attack", &text_of, &e) == LML_OK)
        lml_text_free(engine, &text_of);
    if (strcmp(s.want, "OK") == 0 && lml_engine_prove(engine, "attack", &text_of, &e) == LML_OK)
        lml_text_free(engine, &text_of);
    free(before);
    free(result);
    free(after);
    free(file);
    lml_engine_free(engine);
}

static void try_apart(const char *path, char report[REPORT])
{
    char *text = (char *)calloc(1, FILE_MOST);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s cannot be opened", path);
    size_t length = fread(text, 1, FILE_MOST - 1, file);
    fclose(file);
    cr_assert(length > 0 && length < FILE_MOST - 4096);
    int ends[2];
    cr_assert_eq(pipe(ends), 0);
    pid_t child = fork();
    cr_assert(child >= 0);
    if (child == 0) {
        alarm(HANG);
        char words[REPORT] = "";
        try_script(text, words);
        size_t said = strlen(words) + 1;
        _exit(write(ends[1], words, said) == (ssize_t)said ? 0 : 2);
    }
    close(ends[1]);
    memset(report, 0, REPORT);
    ssize_t said = read(ends[0], report, REPORT - 1);
    close(ends[0]);
    int status;
    waitpid(child, &status, 0);
    if (WIFSIGNALED(status))
        snprintf(report, REPORT, "%s", WTERMSIG(status) == SIGALRM ? "it hangs" : "it crashes");
    else if (said < 1)
        snprintf(report, REPORT, "its process ended with %d", WEXITSTATUS(status));
    free(text);
}

/* ---- one test an attack ---- */

typedef struct attack {
    char name[120];
} attack;

static void free_attacks(struct criterion_test_params *params)
{
    cr_free(params->params);
}

/* Whether a script's third line says that lemel does not hold it: then its first line says what
 * the attack comes to, so that docs/security.md stays true of it. */
static bool is_not_held(const char *name)
{
    char path[600], text[2000] = "";
    snprintf(path, sizeof path, "%s/tests/attacks/%s", LML_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    text[file ? fread(text, 1, sizeof text - 1, file) : 0] = '\0';
    if (file)
        fclose(file);
    return strstr(text, "\n-- Held by: NOT HELD") != NULL;
}

static struct criterion_test_params all_attacks(bool held)
{
    enum { MOST = 1000 };
    attack *all = (attack *)cr_malloc(MOST * sizeof *all);
    size_t count = 0;
    DIR *dir = opendir(LML_SOURCE_DIR "/tests/attacks");
    for (struct dirent *entry = dir ? readdir(dir) : NULL; entry && count < MOST;
         entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        if (length > 4 && length < sizeof all->name &&
            strcmp(entry->d_name + length - 4, ".lua") == 0 && held != is_not_held(entry->d_name))
            memcpy(all[count++].name, entry->d_name, length + 1);
    }
    if (dir)
        closedir(dir);
    return cr_make_param_array(attack, all, count, free_attacks);
}

static void try_attack(const attack *one)
{
    char path[600], report[REPORT];
    const char *only = getenv("ATTACK"); /* the start of a name, to look at a few */
    if (only && strncmp(one->name, only, strlen(only)) != 0)
        return;
    snprintf(path, sizeof path, "%s/tests/attacks/%s", LML_SOURCE_DIR, one->name);
    try_apart(path, report);
    cr_expect(report[0] == '\0', "%s: %s", one->name, report);
}

ParameterizedTestParameters(attacks, keeps_to_its_first_line)
{
    return all_attacks(true);
}

ParameterizedTest(attack *one, attacks, keeps_to_its_first_line)
{
    try_attack(one);
}

ParameterizedTestParameters(attacks_not_held, come_to_what_is_said)
{
    return all_attacks(false);
}

ParameterizedTest(attack *one, attacks_not_held, come_to_what_is_said)
{
    try_attack(one);
}

/* Those that lemel does not hold are named in docs/security.md, and counted apart. */
Test(attacks, are_all_there)
{
    int held = 0, not_held = 0;
    DIR *dir = opendir(LML_SOURCE_DIR "/tests/attacks");
    cr_assert(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir))
        if (strstr(entry->d_name, ".lua"))
            *(is_not_held(entry->d_name) ? &not_held : &held) += 1;
    closedir(dir);
    cr_expect(held > 350, "only %d attacks are held", held);
    cr_expect_eq(not_held, NOT_HELD, "%d attacks are not held", not_held);
}
