/* ask: a job filled in at the terminal, question by question, and run at the end. */
#include "base/shell.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "cli/fault_list.h"
#include "cli/house_notes.h"
#include "cli/session.h"
#include "file/patch.h"
#include "file/shapes.h"
#include "file/store.h"
#include "shelf/shelf.h"
#include "sheet/layout.h"
#include "studio/find.h"
#include "terminal/clock.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char MADE[] = "lemel ask";

/* ---- the job ---- */

static lml_status write_start(lml_span recipe, const char *path, lml_builder *out, lml_error *err)
{
    char now[LML_CLOCK_TEXT];
    lml_status status = lml_clock_now(now, err);
    if (status != LML_OK)
        return status;
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path;
    size_t length = strlen(name);
    length -= length > 5 && strcmp(name + length - 5, ".json") == 0 ? 5 : 0;
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_json_write_open_record(&w);
    lml_json_write_name(&w, lml_span_of(LML_SHAPE_VERSION));
    lml_json_write_whole(&w, LML_SHAPES_VERSION);
    lml_json_write_name(&w, lml_span_of("recipe"));
    lml_json_write_text(&w, recipe);
    lml_json_write_member(&w, "made", MADE);
    lml_json_write_name(&w, lml_span_of("title"));
    lml_json_write_text(&w, (lml_span){name, length});
    now[10] = '\0'; /* the date */
    lml_json_write_member(&w, "date", now);
    lml_json_write_name(&w, lml_span_of("given"));
    lml_json_write_open_record(&w);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_builder_add_char(out, '\n');
    return lml_json_writer_end(&w, err);
}

static lml_status open_new(lml_session *s, const lml_target *recipe, lml_error *err)
{
    char word[LML_SHELL_WORD];
    if (access(s->path, F_OK) == 0) {
        lml_fail(err, LML_NO_WRITE, "there is already a %s", s->path);
        lml_error_hint(err, "lemel ask %s goes on with it; or choose another name",
                       lml_shell_word(lml_span_of(s->path), word));
        return LML_NO_WRITE;
    }
    lml_status status = lml_find_make_folder(s->path, err);
    return status == LML_OK ? write_start(recipe->recipe, s->path, &s->text, err) : status;
}

static lml_status refuse_hand(const lml_session *s, lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_fail(err, LML_USAGE, "%s was not made by lemel ask", s->path);
    lml_error_hint(err,
                   "name what to ask: lemel ask %s given.wax; that is put in, and all else "
                   "stays as it is",
                   lml_shell_word(lml_span_of(s->path), word));
    return LML_USAGE;
}

/* A job that somebody wrote is changed only where they say. */
static lml_status open_old(lml_session *s, lml_error *err)
{
    lml_json_document *doc = NULL;
    lml_status status = lml_store_read(s->path, LML_STORE_SIZE, &s->text, err);
    s->there = true;
    if (status == LML_OK && !s->under)
        status =
            lml_json_read(&s->call->alloc, (lml_span){s->text.at ? s->text.at : "", s->text.length},
                          NULL, s->path, &doc, err);
    if (status == LML_OK && !s->under &&
        !lml_span_is(lml_json_text(lml_json_member(lml_json_root(doc), "made")), MADE))
        status = refuse_hand(s, err);
    lml_json_free(doc);
    return status;
}

/* The settings of a studio are in a file of that name. */
static bool is_house(const char *path)
{
    const char *slash = strrchr(path, '/');
    return strcmp(slash ? slash + 1 : path, "house.json") == 0;
}

/* What the house sets so far is what it is asked about: nothing else of it is needed here. */
static lml_status open_house(lml_session *s, lml_error *err)
{
    s->is_house = true;
    s->there = true;
    const char *dot = s->under ? "." : "";
    snprintf(s->setting, sizeof s->setting, "house%s%s", dot, s->under ? s->under : "");
    s->under = s->setting;
    lml_status status = lml_store_read(s->path, LML_STORE_SIZE, &s->text, err);
    if (status == LML_NO_FILE && access(s->path, F_OK) != 0)
        lml_error_hint(err, "lemel new studio makes one in an empty folder");
    if (status == LML_OK)
        status = lml_session_wrap_house(s, err);
    if (status == LML_OK)
        status = lml_find_shipped(s->call, &s->kit, err);
    s->kit.without_settings = true;
    return status;
}

static lml_status open_session(lml_session *s, lml_error *err)
{
    const lml_arguments *a = &s->call->arguments;
    lml_target recipe = lml_find_target(a->word[0]);
    lml_status status;
    s->path = recipe.kind == LML_TARGET_RECIPE ? a->value[LML_OPTION_OUTPUT] : a->word[0];
    s->under = a->words > 1 ? a->word[1] : NULL;
    if (recipe.kind != LML_TARGET_RECIPE && is_house(s->path))
        return open_house(s, err);
    if (recipe.kind == LML_TARGET_RECIPE)
        status = open_new(s, &recipe, err);
    else
        status = open_old(s, err);
    lml_target job = {.kind = LML_TARGET_JOB, .path = s->path};
    if (status == LML_OK)
        status = lml_find_kit(s->call, &job, &s->kit, err);
    if (status == LML_OK && recipe.kind == LML_TARGET_RECIPE && recipe.path)
        status = lml_find_into(&s->kit, &recipe, err);
    return status;
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    bool recipe = a->words > 0 && lml_find_target(a->word[0]).kind == LML_TARGET_RECIPE;
    const char *output = a->value[LML_OPTION_OUTPUT];
    if (a->words == 0 || a->words > 2)
        lml_fail(err, LML_USAGE, "lemel ask needs a recipe, or a job file and what to ask");
    else if (strcmp(a->word[0], "-") == 0)
        lml_fail(err, LML_USAGE, "the answers come from standard input, so the job needs a file");
    else if (recipe && a->words > 1)
        lml_fail(err, LML_USAGE, "all of a new job is asked: %s says too much", a->word[1]);
    else if (recipe && (!output || strcmp(output, "-") == 0))
        lml_fail(err, LML_USAGE, "which file is the new job written to?");
    else if (!recipe && output)
        lml_fail(err, LML_USAGE, "%s is filled in itself: -o %s says too much", a->word[0], output);
    else
        return LML_OK;
    lml_error_hint(err,
                   "lemel ask remake -o jobs/two-rings.json, or lemel ask jobs/two-rings.json");
    return LML_USAGE;
}

/* ---- from the first question to the sheet ---- */

static lml_status title_of(lml_session *s, lml_builder *out, lml_error *err)
{
    lml_json_document *job = NULL, *about = NULL;
    lml_status status = lml_json_read(&s->call->alloc, (lml_span){s->text.at, s->text.length}, NULL,
                                      s->path, &job, err);
    if (status == LML_OK)
        status = lml_shape_check(&lml_shapes_job, lml_json_root(job), err);
    const lml_json *recipe =
        status == LML_OK ? lml_json_member(lml_json_root(job), "recipe") : NULL;
    if (recipe)
        status = lml_ask_inspect(&s->kit, lml_json_text(recipe).at, &about, err);
    if (status == LML_NOT_FOUND && s->there)
        lml_json_place(recipe, status, err);
    if (status == LML_OK)
        lml_builder_add_span(out, lml_json_text(lml_json_member(lml_json_root(about), "title")));
    lml_json_free(about);
    lml_json_free(job);
    return status == LML_OK ? lml_builder_status(out, err) : status;
}

static bool has_settings(const lml_session *s)
{
    lml_json_document *job = NULL;
    size_t settings = 0;
    if (lml_json_read(&s->call->alloc, (lml_span){s->text.at, s->text.length}, NULL, s->path, &job,
                      NULL) == LML_OK)
        settings = lml_json_count(lml_json_member(lml_json_root(job), "house"));
    lml_json_free(job);
    return settings > 1; /* the first is its version */
}

static lml_status say_title(lml_session *s, lml_error *err)
{
    lml_builder title = lml_builder_on(&s->call->alloc, 0);
    lml_status status = title_of(s, &title, err);
    if (status == LML_OK)
        lml_prompt_write_keys((lml_span){title.at ? title.at : "", title.length}, &s->call->out);
    if (status == LML_OK && s->is_house && strcmp(s->under, "house") == 0 && has_settings(s))
        lml_builder_add_text(&s->call->out, "What is set is not asked again; to change it: lemel "
                                            "ask house.json SETTING\n");
    lml_builder_free(&title);
    return status;
}

static lml_status put_head(lml_session *s, const char *name, const char *text, lml_error *err)
{
    lml_patch_path path;
    lml_builder value = lml_builder_on(&s->call->alloc, 0),
                after = lml_builder_on(&s->call->alloc, 0);
    lml_json_writer w = lml_json_writer_on(&value, false);
    lml_json_write_text(&w, lml_span_of(text));
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        status = lml_patch_read_path(lml_span_of(name), &path, err);
    if (status == LML_OK)
        status = lml_patch_value(lml_builder_span(&s->text), s->path, &path,
                                 lml_builder_span(&value), &after, err);
    lml_builder_free(&value);
    if (status != LML_OK) {
        lml_builder_free(&after);
        return status;
    }
    lml_builder_free(&s->text);
    s->text = after;
    return LML_OK;
}

/* What heads the sheets of a new job, asked of a person; a script says it in the file. */
static lml_status ask_head(lml_session *s, lml_error *err)
{
    char title[200], client[200] = "";
    const char *slash = strrchr(s->path, '/');
    if (s->there || s->under || !lml_line_is_shown())
        return LML_OK;
    snprintf(title, sizeof title, "%s", slash ? slash + 1 : s->path);
    title[strcspn(title, ".")] = '\0';
    lml_builder_add_text(&s->call->out, "\nThe job (2 questions)\n");
    lml_status status =
        lml_session_ask_for(s, "Its title, as its sheets print it", title, sizeof title, err);
    if (status == LML_OK && title[0])
        status = put_head(s, "title", title, err);
    if (status == LML_OK && !s->ended)
        status = lml_session_ask_for(s, "The client's name", client, sizeof client, err);
    if (status == LML_OK && client[0])
        status = put_head(s, "client", client, err);
    return status;
}

/* A run that fails because a setting or an answer is missing names it in quotes, as "need needs
 * 'button' ...". */
static bool name_missing(const lml_error *error, char at[LML_JSON_PATH], bool *setting)
{
    const char *from = strchr(error->message, '\''), *to = from ? strchr(from + 1, '\'') : NULL;
    if (error->status != LML_BAD_DATA || !to)
        return false;
    *setting = !strstr(to, "which is not given");
    return snprintf(at, LML_JSON_PATH, "%s.%.*s", *setting ? "house" : "given",
                    (int)(to - from - 1), from + 1) < LML_JSON_PATH;
}

enum { SETTINGS_MOST = 100 };

/* Run the job, and ask the settings that the house lacks as the run comes to need them. Its result
 * at last, where it has one. */
static lml_status ask_settings(lml_session *s, lml_text *result, lml_error *err)
{
    bool headed = false;
    lml_status status = LML_OK;
    for (int n = 0; n < SETTINGS_MOST && !s->ended; n++) {
        lml_error error;
        size_t length = s->text.length;
        status = lml_boxes_read(s->call, s->path, &s->text, result, &error);
        if (status == LML_OK)
            break;
        char at[LML_JSON_PATH];
        bool setting = false, named = name_missing(&error, at, &setting);
        if (named) {
            if (setting && !headed)
                lml_builder_add_text(&s->call->out, "\nSettings that the house does not have yet; "
                                                    "the job keeps them\n");
            else if (!setting)
                lml_builder_add_text(&s->call->out,
                                     "\nLeft out, but the job cannot be run without it\n");
            headed = headed || setting;
            lml_error ignored; /* no setting of that name: the run's own refusal is reported */
            named = lml_session_ask_one(s, at, &ignored) == LML_OK;
        }
        if (!named || (s->text.length == length && !s->ended)) {
            if (err)
                *err = error;
            return status;
        }
        status = LML_OK;
    }
    return status;
}

/* What the run shows to be missing: settings, and answers that would mend a stop. */
static lml_status ask_open(lml_session *s, lml_error *err)
{
    lml_builder asked = lml_builder_on(&s->call->alloc, 0);
    lml_status status = LML_OK;
    for (bool any = true; status == LML_OK && any && !s->ended;) {
        lml_text result = {.text = NULL};
        status = ask_settings(s, &result, err);
        any = false;
        if (status == LML_OK && !s->ended)
            status = lml_session_mend(s, &result, &asked, &any, err);
        lml_boxes_end(s->call, &result);
    }
    lml_builder_free(&asked);
    return status;
}

static void say_saved(lml_session *s)
{
    char word[LML_SHELL_WORD];
    if (lml_call_quiet(s->call))
        return;
    if (s->there)
        lml_builder_add_format(&s->call->out, "saved: %s; lemel ask %s goes on\n", s->path,
                               lml_shell_word(lml_span_of(s->path), word));
    else
        lml_builder_add_text(&s->call->out, "nothing was said, and nothing was written\n");
}

static lml_status finish(lml_session *s, lml_error *err)
{
    lml_call *call = s->call;
    lml_error error = {.status = LML_OK};
    lml_status status = ask_open(s, &error);
    if (status != LML_OK) {
        const lml_job_text job = {.text = s->text, .shown = s->path};
        lml_fault_list_tell_others(call, &s->kit, &job, &error);
        if (err)
            *err = error;
    }
    if (status == LML_OK && !s->ended)
        status = lml_session_confirm(s, err);
    if (status != LML_OK || s->ended) {
        say_saved(s);
        return status;
    }
    lml_builder_add_char(&call->out, '\n');
    call->arguments.word[0] = s->path;
    call->arguments.words = 1;
    return lml_cmd_run_target(call, false, err);
}

/* What was passed over stays so in this go: the run reports what it cannot do without. */
static lml_status ask_all(lml_session *s, lml_error *err)
{
    lml_status status = say_title(s, err);
    if (status == LML_OK)
        status = ask_head(s, err);
    if (status == LML_OK && !s->ended)
        status = lml_session_ask(s, err);
    if (status == LML_OK && s->is_house && !s->ended && strcmp(s->under, "house") == 0)
        status = lml_house_notes_ask(s, err);
    if (status == LML_OK && s->is_house && !s->ended && strcmp(s->under, "house") == 0)
        status = lml_session_ask_price(s, err);
    if (status == LML_OK && s->is_house) {
        say_saved(s);
        return LML_OK;
    }
    if (status == LML_OK && !s->ended)
        return finish(s, err);
    if (status == LML_OK)
        say_saved(s);
    return status;
}

lml_status lml_cmd_ask(lml_call *call, lml_error *err)
{
    lml_session s = {.call = call,
                     .kit = lml_kit_on(&call->alloc),
                     .text = lml_builder_on(&call->alloc, 0),
                     .was = lml_builder_on(&call->alloc, 0),
                     .line = lml_builder_on(&call->alloc, 0)};
    lml_status status = check_words(&call->arguments, err);
    if (status == LML_OK)
        status = open_session(&s, err);
    call->arguments.given[LML_OPTION_OUTPUT] =
        false; /* the job; what is printed goes to the person */
    call->arguments.value[LML_OPTION_OUTPUT] = NULL;
    if (status == LML_OK)
        status = ask_all(&s, err);
    if (status == LML_STOPPED) /* the job was asked and run to its end */
        call->done[0] = '\0';
    lml_kit_free(&s.kit);
    lml_builder_free(&s.text);
    lml_builder_free(&s.was);
    lml_builder_free(&s.line);
    return status;
}
