/* A pair worked for comparison comes to what the two workings come to the long way: all jobs of the
 * demo studio, under changes of several recipes and rules. */
#include "face/pair.h"
#include "lemel.h"

#include "shipped.h"

#include <criterion/parameterized.h>

enum { TEXT = 1 << 20, PATH = 600 };

/* The recipe that changes, the file that its new text is from, and what is another in that. */
typedef struct change {
    char recipe[40], file[60], from[60], to[60];
} change;

static void make_change(lml_engine *engine, const change *c)
{
    static char changed[2 * TEXT];
    char path[PATH];
    lml_error e;
    snprintf(path, sizeof path, "%s/%s", LML_SOURCE_DIR, c->file);
    char *text = shipped_read(path);
    char *at = c->from[0] ? strstr(text, c->from) : text;
    cr_assert(at, "%s does not hold \"%s\"", path, c->from);
    snprintf(changed, sizeof changed, "%.*s%s%s", (int)(at - text), text, c->to,
             at + strlen(c->from));
    cr_assert_eq(lml_engine_put(engine, LML_PUT_OWN_RECIPE, c->recipe, changed, strlen(changed),
                                c->recipe, &e),
                 LML_OK, "%s", e.message);
    free(text);
}

/* Both sides the long way. */
static void work_long(lml_engine *const engine[2], lml_span job, lml_pair_side side[2])
{
    memset(side, 0, 2 * sizeof *side);
    for (int i = 0; i < 2; i++)
        side[i].status =
            lml_engine_run(engine[i], job.at, job.length, "job", &side[i].result, &side[i].error);
}

static void expect_report(lml_engine *engine, const lml_pair_side side[2], lml_text *out)
{
    lml_error e;
    const lml_text *after = side[1].same ? &side[0].result : &side[1].result;
    cr_assert_eq(lml_engine_compare(engine, &side[0].result, after, "1 %", out, &e), LML_OK, "%s",
                 e.message);
}

/* The result that lml_pair_keep gives is the usual one, and what it keeps is appended to `kept`: of
 * all jobs but the one whose recipe asks what all recipes allow. */
static void keep(lml_engine *engine, const lml_pair_side *longer, const char *name, lml_span job,
                 lml_builder *kept)
{
    lml_text result;
    lml_error e;
    lml_status status = lml_pair_keep(engine, job, "job", &result, kept, &e);
    cr_assert_eq(status, longer->status);
    if (status != LML_OK)
        return;
    cr_expect_str_eq(result.text, longer->result.text);
    bool looks_at_all_recipes = strcmp(name, "charges-used.json") == 0;
    cr_expect_eq(kept->length > 0, !looks_at_all_recipes, "%s", name);
    lml_text_free(engine, &result);
}

static void expect_same(lml_engine *const engine[2], const char *name, lml_span job,
                        const char *changed, lml_span kept, const lml_pair_side longer[2])
{
    lml_pair_side pair[2];
    lml_text is, was;
    lml_pair_work(engine, changed, job, "job", kept, pair);
    bool worked = true;
    for (int i = 0; i < 2; i++) {
        lml_status status = pair[i].same ? pair[0].status : pair[i].status;
        worked = worked && longer[i].status == LML_OK;
        cr_assert_eq(status, longer[i].status, "%s, side %d: %s", name, i, pair[i].error.message);
        cr_expect_str_eq(pair[i].error.message, longer[i].error.message, "%s", name);
        if (status == LML_OK && !pair[i].same)
            cr_expect_eq(pair[i].result.stopped, longer[i].result.stopped, "%s", name);
    }
    if (worked) {
        expect_report(engine[0], pair, &is);
        expect_report(engine[0], longer, &was);
        cr_expect_str_eq(is.text, was.text, "%s, with another %s", name, changed);
        lml_text_free(engine[0], &is);
        lml_text_free(engine[0], &was);
    }
    lml_pair_free(engine, pair);
}

/* Both sides worked; the first taken from what was kept; and from what was kept and is cut short.
 */
static void expect_same_all_ways(lml_engine *const engine[2], const char *name, lml_span job,
                                 const char *changed)
{
    lml_alloc heap = lml_alloc_heap();
    lml_builder kept = lml_builder_on(&heap, 0);
    lml_pair_side longer[2];
    work_long(engine, job, longer);
    keep(engine[0], &longer[0], name, job, &kept);
    lml_span whole = {kept.at, kept.length}, half = {kept.at, kept.length / 2};
    expect_same(engine, name, job, changed, (lml_span){"", 0}, longer);
    expect_same(engine, name, job, changed, whole, longer);
    expect_same(engine, name, job, changed, half, longer);
    lml_pair_free(engine, longer);
    lml_builder_free(&kept);
}

ParameterizedTestParameters(pair, comes_to_the_same)
{
    static change changes[] = {
        {"quote_own_metal", "recipes/quote_doubled.lua", "", ""},
        {"quote_own_metal", "recipes/quote_own_metal.lua", "return", "error 'broken' return"},
        {"need", "recipes/need.lua", "work = function (job, house, sheet)",
         "work = function (job, house, sheet) sheet:note('n', 'new')"},
        {"rule_button", "examples/rules/rule_button.lua", "", ""},
        {"rule_lots", "examples/rules/rule_lots.lua", "", ""},
        {"rule_target", "examples/rules/rule_target.lua", "", ""},
        {"rule_moved", "examples/rules/rule_moved.lua", "", ""},
        {"rule_water", "examples/rules/rule_water.lua", "", ""},
        {"remake", "recipes/remake.lua", "return recipe", "local n = 0 return recipe"},
        {"wire", "recipes/wire.lua", "return", "local n = 0 return"},
    };
    return cr_make_param_array(change, changes, sizeof changes / sizeof *changes);
}

ParameterizedTest(change *c, pair, comes_to_the_same)
{
    char path[PATH];
    lml_engine *engine[2] = {shipped_studio(), shipped_studio()};
    make_change(engine[1], c);
    DIR *dir = opendir(LML_SOURCE_DIR "/examples/jobs");
    cr_assert(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        if (!strstr(entry->d_name, ".json"))
            continue;
        snprintf(path, sizeof path, "%s/examples/jobs/%s", LML_SOURCE_DIR, entry->d_name);
        char *text = shipped_read(path);
        expect_same_all_ways(engine, entry->d_name, lml_span_of(text), c->recipe);
        free(text);
    }
    closedir(dir);
    lml_engine_free(engine[0]);
    lml_engine_free(engine[1]);
}
