/* new: a job, a recipe or a house rule to start from, and what an editor needs to know of recipes.
 */
#include "base/shell.h"
#include "cli/annotate.h"
#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/new_file.h"
#include "cli/skeleton.h"
#include "terminal/clock.h"
#include "report/api.h"
#include "shelf/shelf.h"
#include "studio/find.h"
#include "studio/original.h"

#include <stdio.h>
#include <string.h>

/* NAME stands for the recipe's name; `lemel prove NAME` passes. */
static const char start[] =
    "-- NAME: a recipe to start from. Change it line by line, and after each change run\n"
    "--     lemel prove NAME\n"
    "-- Text after two dashes is for people; lemel does not read it.\n"
    "return recipe {\n"
    "  title   = \"Metal required\",  -- what it works out, in a few words\n"
    "  version = \"1.0.0\",    -- raise it whenever a figure may come out different\n"
    "  licence = \"CC0-1.0\",  -- what others may do with it; CC0-1.0 means anything\n"
    "  level   = 1,          -- of the recipe language; leave it\n"
    "\n"
    "  -- What every job must give. After ask. comes the kind of figure: mass, length, density, "
    "ratio, money,\n"
    "  -- text, yes_no and many more. Values outside from and to are refused.\n"
    "  asks = {\n"
    "    wax     = ask.mass    { \"Finished wax, with its sprues\", from = \"0.02 g\", to = \"2 "
    "kg\" },\n"
    "    density = ask.density { \"Density of the metal\" },\n"
    "  },\n"
    "\n"
    "  -- The studio's own figures. house.json sets them (\"NAME.button\": \"9 g\"), and a job "
    "may. A default\n"
    "  -- applies unless something else is set, and needs a source.\n"
    "  allowances = {\n"
    "    wax_density = ask.density { \"Wax in use\", default = \"0.96 g/cm3\", source = \"common "
    "practice, no source\" },\n"
    "    button      = ask.mass    { \"Metal for the button\" },\n"
    "    crucible_holds = ask.mass { \"Capacity of the crucible\", optional = true },\n"
    "  },\n"
    "\n"
    "  -- What it gives, for the sheets and for other recipes.\n"
    "  gives = {\n"
    "    charge = give.mass \"Metal to weigh out\",\n"
    "  },\n"
    "\n"
    "  -- The work. Asks are read as job.NAME, allowances as house.NAME. Units take care "
    "of\n"
    "  -- themselves; a mass and a volume cannot be added. The next line is for an editor "
    "(lemel new annotations).\n"
    "  ---@type work_NAME\n"
    "  work = function (job, house, sheet)\n"
    "    local piece  = job.wax * (job.density / house.wax_density)\n"
    "    local charge = (piece + house.button):up_to \"0.1 g\"  -- rounded up: better a little "
    "over\n"
    "\n"
    "    sheet.bench:line(\"Metal to weigh out\", charge, { record = \"charge\" })\n"
    "\n"
    "    -- A stop holds the figure back: the sheet prints DO NOT in its place.\n"
    "    if house.crucible_holds and charge > house.crucible_holds then\n"
    "      sheet:stop(\"crucible\", \"The charge is more than the crucible holds\", { \"charge\" "
    "})\n"
    "    end\n"
    "\n"
    "    return { charge = charge }\n"
    "  end,\n"
    "\n"
    "  -- Worked examples that must come out, each with its source. A recipe without proofs is not "
    "adopted.\n"
    "  proofs = {\n"
    "    { \"as many grams of metal as its density says, and the button\",\n"
    "      given = { wax = \"0.96 g\", density = \"15 g/cm3\", button = \"5 g\" },\n"
    "      expect = { charge = \"20 g\" }, within = \"0 g\", source = \"arithmetic: 0.96 / 0.96 * "
    "15 + 5\" },\n"
    "    { \"a crucible that is too small stops the charge\",\n"
    "      given = { wax = \"0.96 g\", density = \"15 g/cm3\", button = \"5 g\", crucible_holds = "
    "\"19 g\" },\n"
    "      stops = { \"crucible\" }, source = \"arithmetic: 20 is more than 19\" },\n"
    "  },\n"
    "}\n";

static void write_start(const char *name, lml_builder *out)
{
    const char *at = start, *mark;
    /* "job.NAME" and "house.NAME" are for the reader. */
    while ((mark = strstr(at, "NAME")) != NULL) {
        bool kept = mark > start && mark[-1] == '.';
        lml_builder_add_span(out, lml_span_between(at, mark));
        lml_builder_add_text(out, kept ? "NAME" : name);
        at = mark + strlen("NAME");
    }
    lml_builder_add_text(out, at);
}

/* A new recipe would replace one of its name. */
static lml_status check_name(lml_call *call, const char *name, lml_error *err)
{
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, NULL, &kit, err);
    const lml_kit_text *known = lml_kit_find(&kit, LML_PUT_RECIPE, lml_span_of(name));
    if (status == LML_OK && known) {
        lml_fail(err, LML_USAGE, "there is already a recipe %s: %s (%s)", name, known->shown,
                 known->from);
        lml_error_hint(err, "choose another name");
        status = LML_USAGE;
    }
    lml_kit_free(&kit);
    return status;
}

static lml_status make_recipe(lml_call *call, const char *name, lml_error *err)
{
    char place[LML_PATH];
    if (call->arguments.given[LML_OPTION_REPLACE]) {
        lml_fail(err, LML_USAGE, "a new recipe does not replace another");
        lml_error_hint(err, "choose another name and leave out --replace");
        return LML_USAGE;
    }
    lml_status status = lml_find_place(call, name, place, err);
    if (status == LML_OK)
        status = check_name(call, name, err);
    if (status != LML_OK)
        return status;
    lml_builder text = lml_builder_on(&call->alloc, 0);
    write_start(name, &text);
    status = lml_builder_status(&text, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, place, (lml_span){text.at, text.length}, err);
    if (status == LML_OK && !lml_call_quiet(call))
        lml_builder_add_format(&call->out, "  lemel prove %s\n", name);
    lml_builder_free(&text);
    return status;
}

/* ---- a house rule -------------------------------------------------------------------------------
 */

static void put_names(lml_builder *out, const char *head, const char *before,
                      const lml_json *shapes)
{
    for (const lml_json *s = lml_json_first(shapes); s; s = lml_json_next(s)) {
        lml_builder_add_text(out, s == lml_json_first(shapes) ? head : "--          ");
        lml_builder_add_text(out, before);
        lml_builder_add_span(out, lml_json_text(lml_json_member(s, "name")));
        lml_builder_add_text(out, ", ");
        lml_builder_add_span(out, lml_json_text(lml_json_member(s, "kind")));
        lml_builder_add_text(out, ": ");
        lml_builder_add_span(out, lml_json_text(lml_json_member(s, "title")));
        lml_builder_add_text(out, lml_json_yes(lml_json_member(s, "optional")) ? " (may be nil)\n"
                                                                               : "\n");
    }
}

/* Lemel's own answer, below what the point is given and answers. */
static lml_status write_rule(const lml_kit *shipped, const lml_kit_text *own, lml_builder *out,
                             lml_error *err)
{
    lml_json_document *about = NULL;
    lml_status status = lml_ask_inspect(shipped, own->name, &about, err);
    if (status == LML_OK) {
        const lml_json *root = lml_json_root(about);
        lml_builder_add_text(out, "-- ");
        lml_builder_add_span(out, lml_json_text(lml_json_member(root, "title")));
        lml_builder_add_format(
            out, ", by this house. Change work and proofs, then: lemel prove %s\n--\n", own->name);
        put_names(out, "-- is given: ", "job.", lml_json_member(root, "asks"));
        put_names(out, "-- answers: ", "", lml_json_member(root, "gives"));
        lml_builder_add_text(out, "--\n" LML_ORIGINAL_BELOW);
        lml_builder_add_span(out, own->text);
        status = lml_builder_status(out, err);
    }
    lml_json_free(about);
    return status;
}

static lml_status refuse_point(const lml_kit *shipped, const char *point, lml_error *err)
{
    lml_nearest near = lml_nearest_to(lml_span_of(point));
    for (size_t i = 0; i < shipped->count; i++)
        if (shipped->texts[i].what == LML_PUT_RECIPE && lml_kit_rule_point(shipped->texts[i].name))
            lml_nearest_offer(&near, lml_span_of(lml_kit_rule_point(shipped->texts[i].name)));
    lml_fail(err, LML_USAGE, "there is no rule point \"%s\"", point);
    if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
    else
        lml_error_hint(err, "lemel recipes --rules lists them all");
    return LML_USAGE;
}

static lml_status make_rule(lml_call *call, const char *word, lml_error *err)
{
    char name[LML_PATH], place[LML_PATH];
    const char *point = lml_kit_rule_point(word) ? lml_kit_rule_point(word) : word;
    if (snprintf(name, sizeof name, "rule_%s", point) >= (int)sizeof name)
        return lml_fail(err, LML_USAGE, "no rule point has such a long name");
    lml_kit shipped = lml_kit_on(&call->alloc);
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_find_shipped(call, &shipped, err);
    const lml_kit_text *own = lml_kit_find(&shipped, LML_PUT_RECIPE, lml_span_of(name));
    if (status == LML_OK && !own)
        status = refuse_point(&shipped, point, err);
    if (status == LML_OK)
        status = lml_find_place(call, name, place, err);
    if (status == LML_OK)
        status = write_rule(&shipped, own, &text, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, place, (lml_span){text.at, text.length}, err);
    if (status == LML_OK)
        status = lml_original_keep(call, name, err);
    if (status == LML_OK && !lml_call_quiet(call))
        lml_builder_add_format(&call->out, "  lemel prove %s\n", name);
    lml_builder_free(&text);
    lml_kit_free(&shipped);
    return status;
}

/* Settings of the Lua language server for the studio's folder. The words are in a folder that is
 * not read for recipes. */
static const char editor_settings[] =
    "{\n"
    "  \"runtime.version\": \"Lua 5.4\",\n"
    "  \"runtime.builtin\": { \"basic\": \"disable\", \"io\": \"disable\", "
    "\"os\": \"disable\", \"debug\": \"disable\",\n"
    "    \"math\": \"disable\", \"table\": \"disable\", "
    "\"package\": \"disable\", \"coroutine\": \"disable\" },\n"
    "  \"workspace.library\": [\".lemel\"]\n"
    "}\n";

/* The path of a file in the studio, unless it or its folder is a link. */
static lml_status find_own(lml_call *call, const char *name, char place[LML_PATH], lml_error *err)
{
    lml_status status = lml_find_in_studio(call, name, place, err);
    return status == LML_OK ? lml_find_refuse_link(place, "lemel new", err) : status;
}

static lml_status make_annotations(lml_call *call, lml_error *err)
{
    char folder[LML_PATH], words[LML_PATH], settings[LML_PATH], luacheck[LML_PATH];
    lml_builder text = lml_builder_on(&call->alloc, 0), checked = lml_builder_on(&call->alloc, 0);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_api_annotations(&text);
    lml_api_luacheck(&checked);
    lml_status status = lml_find_kit(call, NULL, &kit, err);
    if (status == LML_OK)
        status = lml_annotate_recipes(&kit, &text, err);
    if (status == LML_OK)
        status = lml_builder_status(&checked, err);
    if (status == LML_OK)
        status = find_own(call, ".lemel", folder, err);
    if (status == LML_OK)
        status = find_own(call, ".lemel/words.lua", words, err);
    if (status == LML_OK)
        status = find_own(call, ".luarc.json", settings, err);
    if (status == LML_OK)
        status = find_own(call, ".luacheckrc", luacheck, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, words, (lml_span){text.at, text.length}, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, settings, lml_span_of(editor_settings), err);
    if (status == LML_OK)
        status = lml_new_file_put(call, luacheck, (lml_span){checked.at, checked.length}, err);
    lml_kit_free(&kit);
    lml_builder_free(&checked);
    lml_builder_free(&text);
    return status;
}

/* ---- a job --------------------------------------------------------------------------------------
 */

static lml_status write_job(const lml_kit *kit, const char *recipe, const char *name,
                            lml_builder *out, lml_error *err)
{
    char now[LML_CLOCK_TEXT], date[11];
    lml_json_document *about = NULL;
    lml_status status = lml_clock_now(now, err);
    if (status == LML_OK)
        status = lml_ask_inspect(kit, recipe, &about, err);
    if (status == LML_OK) {
        lml_json_writer w = lml_json_writer_on(out, true);
        snprintf(date, sizeof date, "%.10s", now);
        lml_skeleton_job(&w, lml_json_root(about), name, date);
        status = lml_call_end_json(&w, err);
    }
    lml_json_free(about);
    return status;
}

static lml_status make_job(lml_call *call, const char *word, const char *name, lml_error *err)
{
    char quoted[LML_SHELL_WORD];
    char place[LML_PATH], file[LML_PATH];
    lml_target target = lml_find_recipe(word);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_builder text = lml_builder_on(&call->alloc, 0);
    if (!lml_shelf_can_name(lml_span_of(name))) {
        lml_fail(err, LML_USAGE, "\"%s\" cannot be the name of a job file", name);
        lml_error_hint(err, "use letters a to z, digits, _ and -, not starting with -: it becomes "
                            "jobs/NAME.json");
        return LML_USAGE;
    }
    if (call->arguments.given[LML_OPTION_REPLACE]) {
        lml_fail(err, LML_USAGE, "a new job does not replace another");
        lml_error_hint(err, "choose another name and leave out --replace");
        return LML_USAGE;
    }
    snprintf(file, sizeof file, "jobs/%s.json", name);
    lml_status status = lml_find_in_studio(call, file, place, err);
    if (status == LML_OK)
        status = lml_new_file_refuse_taken(place, "choose another name", err);
    if (status == LML_OK)
        status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = write_job(&kit, lml_kit_find(&kit, LML_PUT_RECIPE, target.recipe)->name, name,
                           &text, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, place, (lml_span){text.at, text.length}, err);
    if (status == LML_OK && !lml_call_quiet(call))
        lml_builder_add_format(&call->out, "  fill in what is empty, then: lemel check %s\n",
                               lml_shell_word(lml_span_of(place), quoted));
    lml_builder_free(&text);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_new(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    bool recipe = a->words > 0 && strcmp(a->word[0], "recipe") == 0;
    if (recipe && a->words == 2)
        return make_recipe(call, a->word[1], err);
    bool rule = a->words > 0 && strcmp(a->word[0], "rule") == 0;
    if (rule && a->words == 2)
        return make_rule(call, a->word[1], err);
    if (a->words > 0 && strcmp(a->word[0], "studio") == 0)
        return lml_cmd_new_studio(call, err);
    bool job = a->words > 0 && strcmp(a->word[0], "job") == 0;
    if (job && a->words == 3)
        return make_job(call, a->word[1], a->word[2], err);
    if (a->words == 1 && strcmp(a->word[0], "annotations") == 0)
        return make_annotations(call, err);
    if (job) {
        lml_fail(err, LML_USAGE, "lemel new job needs a recipe and the name of the job");
        lml_error_hint(err, "lemel new job remake cuff-links");
        return LML_USAGE;
    }
    if (recipe || a->words == 0) {
        lml_fail(err, LML_USAGE, "lemel new recipe needs the name of the new recipe");
    } else if (rule) {
        lml_fail(err, LML_USAGE, "lemel new rule needs the name of a rule point");
        lml_error_hint(err, "lemel new rule hours; lemel recipes --rules lists the points");
        return LML_USAGE;
    } else {
        lml_fail(err, LML_USAGE,
                 "lemel new makes a studio, a job, a recipe, a rule or annotations, and \"%s\" is "
                 "something "
                 "else",
                 a->word[0]);
    }
    lml_error_hint(err, "lemel new recipe polish");
    return LML_USAGE;
}
