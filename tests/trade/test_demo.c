/* The demo studio's jobs, worked with the recipes and scripts that ship: every figure of
 * tests/reference/demo.tsv comes out, and what a rule should stop is stopped. The jobs and their
 * figures are worked examples of our own; what they rest on is checked elsewhere. */
#include "lemel.h"
#include "reference.h"
#include "shipped.h"

#include <cjson/cJSON.h>
#include <dirent.h>
#include <sys/stat.h>

/* Whether the end of a job is meant, "wide-band-closing"; `file` is then the job's name without it,
 * unless that state of the job has a file of its own. */
static bool is_end(const char *name, char *file, size_t room)
{
    static const char suffix[] = "-closing";
    size_t length = strlen(name), end = sizeof suffix - 1;
    bool ends = length > end && strcmp(name + length - end, suffix) == 0;
    struct stat there;
    snprintf(file, room, "%s/examples/jobs/%s.json", LML_SOURCE_DIR, name);
    if (ends && stat(file, &there) != 0)
        snprintf(file, room, "%s/examples/jobs/%.*s.json", LML_SOURCE_DIR, (int)(length - end),
                 name);
    return ends;
}

/* The same point, answered: what it asks is in the words. */
static void confirm(cJSON *job, const char *code, const char *words)
{
    cJSON *point = cJSON_CreateObject(), *all = cJSON_GetObjectItemCaseSensitive(job, "confirmed");
    if (!all)
        all = cJSON_AddObjectToObject(job, "confirmed");
    cJSON_AddStringToObject(point, "text", words);
    cJSON_AddStringToObject(point, "reason", "for this test");
    cJSON_AddStringToObject(point, "by", "T.");
    cJSON_AddItemToObject(all, code, point);
}

/* The result of jobs/NAME.json, as cJSON; `change` is put into what it gives ("mould", "gypsum"),
 * or NULL; with `words` it is the code of a point that asks this, which is confirmed. */
static cJSON *work_with(lml_engine *engine, const char *name, const char *change, const char *to,
                        const char *words)
{
    char path[600];
    bool ends = is_end(name, path, sizeof path);
    char *job = shipped_read(path);
    if (change) {
        cJSON *json = cJSON_Parse(job), *given = cJSON_GetObjectItemCaseSensitive(json, "given");
        if (words)
            confirm(json, change, words);
        else
            cJSON_DeleteItemFromObjectCaseSensitive(given, change);
        if (to)
            cJSON_AddStringToObject(given, change, to);
        free(job);
        job = cJSON_PrintUnformatted(json);
        cJSON_Delete(json);
    }
    job = shipped_gathered(engine, job);
    const size_t length = strlen(job);
    lml_text result;
    lml_error e;
    lml_status status = ends ? lml_engine_close(engine, job, length, path, &result, &e)
                             : lml_engine_run(engine, job, length, path, &result, &e);
    cr_assert_eq(status, LML_OK, "%s: %s (%s)", name, e.message, e.hint);
    cJSON *json = cJSON_Parse(result.text);
    cr_assert(json, "%s: the result is not JSON", name);
    lml_text_free(engine, &result);
    free(job);
    return json;
}

static cJSON *work_changed(lml_engine *engine, const char *name, const char *change, const char *to)
{
    return work_with(engine, name, change, to, NULL);
}

static cJSON *work(lml_engine *engine, const char *name)
{
    return work_changed(engine, name, NULL, NULL);
}

/* The datum at "weigh.2.mass" of the results; lists count from 1. */
static const cJSON *find(const cJSON *result, const char *give)
{
    char path[200], *part[12];
    snprintf(path, sizeof path, "%s", give);
    int parts = ref_split(path, '.', part, 12);
    const cJSON *at = cJSON_GetObjectItemCaseSensitive(result, "results");
    for (int i = 0; i < parts && at; i++) {
        const cJSON *inside = i ? cJSON_GetObjectItemCaseSensitive(at, "value") : at;
        at = cJSON_IsArray(inside) ? cJSON_GetArrayItem(inside, atoi(part[i]) - 1)
                                   : cJSON_GetObjectItemCaseSensitive(inside, part[i]);
    }
    return at;
}

static void check_figure(ref_row *row, const cJSON *result, const char *give)
{
    const char *unit = ref_input_text(row, "unit");
    const cJSON *datum = find(result, give);
    cr_expect(datum, "%s: %s is missing", ref_where(row), give);
    if (!datum)
        return;
    const cJSON *value = cJSON_GetObjectItemCaseSensitive(datum, "value");
    const cJSON *own_unit = cJSON_GetObjectItemCaseSensitive(datum, "unit");
    const char *own = cJSON_IsString(own_unit) ? own_unit->valuestring : "1";
    int hour, minute;
    if (cJSON_IsString(value) &&
        sscanf(value->valuestring, "%*d-%*d-%*dT%d:%d", &hour, &minute) == 2) {
        cr_expect_str_eq(unit, "o'clock", "%s: %s is a moment", ref_where(row), give);
        ref_expect(row, hour + minute / 60.0);
        return;
    }
    cr_expect(unit && strncmp(own, unit, strlen(unit)) == 0, "%s: %s comes in %s", ref_where(row),
              give, own);
    ref_expect(row, cJSON_IsString(value) ? strtod(value->valuestring, NULL) : value->valuedouble);
}

/* A remark of that code and level stands in the result as often as it should. */
static void check_remark(ref_row *row, const cJSON *result, const char *code)
{
    const char *level = ref_input_text(row, "level");
    int count = 0;
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItemCaseSensitive(result, "remarks"))
    {
        const cJSON *own_code = cJSON_GetObjectItemCaseSensitive(remark, "code");
        const cJSON *own_level = cJSON_GetObjectItemCaseSensitive(remark, "level");
        count += level && strcmp(own_code->valuestring, code) == 0 &&
                 strcmp(own_level->valuestring, level) == 0;
    }
    ref_expect(row, count);
}

/* The words of the remark of that code, or "". */
static const char *words_of(const cJSON *result, const char *code)
{
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItemCaseSensitive(result, "remarks"))
    {
        if (strcmp(cJSON_GetObjectItemCaseSensitive(remark, "code")->valuestring, code) == 0)
            return cJSON_GetObjectItemCaseSensitive(remark, "text")->valuestring;
    }
    return "";
}

Test(demo, figures)
{
    lml_engine *engine = shipped_studio();
    ref_table *t = ref_open("demo.tsv");
    const char *job = "";
    cJSON *result = NULL;
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        if (strcmp(job, ref_cell(row, "case")) != 0) {
            cJSON_Delete(result);
            job = ref_cell(row, "case");
            result = work(engine, job);
        }
        const char *give = ref_input_text(row, "give"), *remark = ref_input_text(row, "remark");
        const char *point = ref_input_text(row, "confirmed");
        cJSON *answered =
            point ? work_with(engine, job, point, NULL, words_of(result, point)) : NULL;
        if (give)
            check_figure(row, answered ? answered : result, give);
        else if (remark)
            check_remark(row, result, remark);
        else
            ref_fail("%s: neither give nor remark", ref_where(row));
        cJSON_Delete(answered);
        ref_end_row(row);
    }
    cJSON_Delete(result);
    lml_engine_free(engine);
}

/* Lemel's own recipes share their scripts, but not where values are traced: both ways the result of
 * every job is the same. */
Test(demo, shared_scripts_change_no_result)
{
    lml_engine *engine = shipped_studio();
    DIR *dir = opendir(LML_SOURCE_DIR "/examples/jobs");
    int jobs = 0;
    cr_assert(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        char path[600];
        lml_text shared, apart;
        lml_error e;
        snprintf(path, sizeof path, "%s/examples/jobs/%s", LML_SOURCE_DIR, entry->d_name);
        if (!strstr(entry->d_name, ".json"))
            continue;
        char *job = shipped_gathered(engine, shipped_read(path));
        if (lml_engine_run(engine, job, strlen(job), path, &shared, &e) == LML_OK) {
            cr_assert_eq(lml_engine_run_why(engine, job, strlen(job), path, &apart, &e), LML_OK,
                         "%s: %s", path, e.message);
            const size_t end = strlen(shared.text) - strlen("}");
            cr_expect_eq(strncmp(shared.text, apart.text, end), 0, "%s", path);
            cr_expect_eq(strncmp(apart.text + end, ",\"why\":", 7), 0, "%s: %.20s", path,
                         apart.text + end);
            lml_text_free(engine, &shared);
            lml_text_free(engine, &apart);
            jobs++;
        }
        free(job);
    }
    closedir(dir);
    cr_expect_gt(jobs, 20, "%d jobs", jobs);
    lml_engine_free(engine);
}

/* What is stopped says its reason and its way out, in figures of the worked examples of our own. */
Test(demo, ways_out)
{
    static const struct {
        const char *job, *change, *to, *code, *says[3];
    } cases[] = {
        {"ear-cuff",
         "mould",
         NULL,
         "melt/metal-too-hot",
         {"2138 °F", "phosphate", "clean white mould"}},
        {"warden-rings",
         "use_crucible",
         "small",
         "need/crucible",
         {"4.313 cm3", "3.450 cm3", "take the crucible large"}},
        {"cloak-pin",
         "use_crucible",
         "small",
         "need/crucible",
         {"7.303 cm3", "3.450 cm3", "take the crucible large"}},
        {"ear-cuff-own-metal", NULL, NULL, "charge/nickel", {"92 ‰", "white chain", "nickel-free"}},
        {"bracelet", NULL, NULL, "old_metal/not-gold-1", {"8.44 g/cm3", "2.84 g", "3,051.04 USD"}},
        {"warden-rings-account",
         "split",
         NULL,
         "account/shares-and-pieces",
         {"1.21", "2.23", "1.46"}},
    };
    lml_engine *engine = shipped_studio();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cJSON *result = work_changed(engine, cases[i].job, cases[i].change, cases[i].to);
        cr_expect(cJSON_IsTrue(cJSON_GetObjectItemCaseSensitive(result, "stopped")), "%s",
                  cases[i].job);
        for (int j = 0; j < 3; j++)
            cr_expect(strstr(words_of(result, cases[i].code), cases[i].says[j]),
                      "%s: %s does not say %s but: %s", cases[i].job, cases[i].code,
                      cases[i].says[j], words_of(result, cases[i].code));
        cJSON_Delete(result);
    }
    lml_engine_free(engine);
}

static cJSON *run_text(lml_engine *engine, const char *recipe, const char *job)
{
    lml_error e;
    lml_text result;
    cr_assert_eq(
        lml_engine_put(engine, LML_PUT_RECIPE, "table", recipe, strlen(recipe), "table.lua", &e),
        LML_OK, "%s", e.message);
    cr_assert_eq(lml_engine_run(engine, job, strlen(job), "job.json", &result, &e), LML_OK, "%s",
                 e.message);
    cJSON *json = cJSON_Parse(result.text);
    lml_text_free(engine, &result);
    return json;
}

static double figure(const cJSON *result, const char *name)
{
    const cJSON *datum =
        cJSON_GetObjectItemCaseSensitive(cJSON_GetObjectItemCaseSensitive(result, "results"), name);
    const cJSON *value = cJSON_GetObjectItemCaseSensitive(datum, "value");
    cr_assert(cJSON_IsNumber(value), "%s is not given", name);
    return value->valuedouble;
}

/* Every alloy of the table is one: its parts sum, its range stands the right way up, and a density
 * that is stated lies within 1.4 % of what its elements' volumes add up to, the most that a
 * measured gold alloy was found to differ (Au-Cu at 51 % of gold, X-ray density). */
Test(demo, alloys)
{
    static const char recipe[] =
        "return recipe { title = 'x', version = '1.0.0', licence = 'CC0-1.0', level = 1, asks = {},"
        "  allowances = {}, gives = { rows = give.whole 'Rows' }, work = function()"
        "  local seen, n = {}, 0"
        "  for _, row in ipairs(require('alloys').alloys) do"
        "    assert(not seen[row.name]) assert(row.source ~= nil)"
        "    local a = alloy { name = row.name, composition = row.composition, density = "
        "row.density,"
        "                      solidus = row.solidus, liquidus = row.liquidus, source = row.source "
        "}"
        "    if row.density then"
        "      local plain = craft.plain_density(row.composition)"
        "      assert(abs(a.density - plain) < Q '1.4 %' * plain)"
        "    end"
        "    seen[row.name], n = true, n + 1"
        "  end return { rows = n } end, proofs = {} }";
    lml_engine *engine = shipped_studio();
    cJSON *json = run_text(engine, recipe, "{\"recipe\": \"table\"}");
    cr_expect_geq(figure(json, "rows"), 40);
    cJSON_Delete(json);
    lml_engine_free(engine);
}

/* Densities and melting ranges as they are printed for those compositions. */
Test(demo, published_alloys)
{
    static const char recipe[] =
        "return recipe { title = 'x', version = '1.0.0', licence = 'CC0-1.0', level = 1,"
        "  asks = { metal = ask.alloy { 'Metal' } }, allowances = {}, gives = { density = "
        "give.density 'Density',"
        "  solidus = give.temperature { 's', optional = true }, liquidus = give.temperature { 'l', "
        "optional = true } },"
        "  work = function(job) return { density = job.metal.density, solidus = job.metal.solidus,"
        "  liquidus = job.metal.liquidus } end, proofs = {} }";
    lml_engine *engine = shipped_studio();
    ref_table *t = ref_open("alloys.tsv");
    for (size_t i = 0; i < t->count; i++) {
        ref_row *row = &t->row[i];
        char job[200];
        snprintf(job, sizeof job, "{\"recipe\": \"table\", \"given\": {\"metal\": \"%s\"}}",
                 ref_cell(row, "case"));
        cJSON *json = run_text(engine, recipe, job);
        ref_expect(row, figure(json, ref_input_text(row, "figure")));
        ref_end_row(row);
        cJSON_Delete(json);
    }
    lml_engine_free(engine);
}

/* The proofs that each shipped recipe carries hold. */
Test(demo, proofs)
{
    lml_engine *engine = shipped_studio();
    for (size_t i = 0; lml_engine_recipe(engine, i); i++) {
        const char *name = lml_engine_recipe(engine, i);
        lml_text report;
        lml_error e;
        cr_assert_eq(lml_engine_prove(engine, name, &report, &e), LML_OK, "%s: %s", name,
                     e.message);
        cJSON *json = cJSON_Parse(report.text);
        cr_expect_eq(cJSON_GetObjectItemCaseSensitive(json, "failed")->valuedouble, 0, "%s: %s",
                     name, report.text);
        cr_expect_gt(cJSON_GetObjectItemCaseSensitive(json, "passed")->valuedouble, 0,
                     "%s has no proof", name);
        cJSON_Delete(json);
        lml_text_free(engine, &report);
    }
    lml_engine_free(engine);
}
