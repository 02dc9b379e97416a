#include "cli/advice_list.h"
#include "cli/ask.h"
#include "cli/closing_open.h"
#include "cli/cmd.h"
#include "cli/fault_list.h"
#include "cli/foreign_money.h"
#include "cli/house_notes.h"
#include "cli/job_stops.h"
#include "cli/replaced.h"
#include "file/store.h"
#include "sheet/complain.h"
#include "sheet/layout.h"
#include "studio/original.h"

#include <stdio.h>
#include <string.h>

/* What was found out about one target. */
typedef struct finding {
    lml_json_document *advice; /* on a recipe */
    char shown[LML_PATH];      /* its file */
    lml_json_document *faults; /* of a job, a house or prices */
    lml_builder next;          /* what stops a job; what an offered one still lacks to be closed */
} finding;

/* A house of another name, as --house takes it: it says its name, or what it reckons in, and no
 * recipe. */
static bool is_house_inside(lml_call *call, const lml_target *target)
{
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_json_document *doc = NULL;
    bool is = target->path && lml_store_read(target->path, LML_STORE_SIZE, &text, NULL) == LML_OK &&
              lml_json_read(&call->alloc, lml_builder_span(&text), NULL, target->path, &doc,
                            NULL) == LML_OK;
    const lml_json *root = is ? lml_json_root(doc) : NULL;
    is = is && (lml_json_member(root, "name") || lml_json_member(root, "currency")) &&
         !lml_json_member(root, "recipe");
    lml_json_free(doc);
    lml_builder_free(&text);
    return is;
}

/* A studio's settings and prices are called so. */
static lml_fault_list_of what_is(lml_call *call, const lml_target *target)
{
    const char *path = target->path ? target->path : "", *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    return strcmp(name, "house.json") == 0    ? LML_FAULT_LIST_HOUSE
           : strcmp(name, "prices.json") == 0 ? LML_FAULT_LIST_PRICES
           : is_house_inside(call, target)    ? LML_FAULT_LIST_HOUSE
                                              : LML_FAULT_LIST_JOB;
}

/* The options name a house and prices for a job; a house or prices that are checked are themselves.
 */
static lml_status check_settings(lml_call *call, const lml_target *target, lml_fault_list_of what,
                                 finding *out, lml_error *err)
{
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_option option = what == LML_FAULT_LIST_HOUSE ? LML_OPTION_HOUSE : LML_OPTION_PRICES;
    const char *said = call->arguments.value[option];
    call->arguments.value[option] = target->path;
    lml_status status = lml_find_kit(call, NULL, &kit, err);
    call->arguments.value[option] = said;
    if (status == LML_OK)
        status = lml_fault_list_read(call, &kit, what, NULL, &out->faults, err);
    bool sound = status == LML_OK && lml_json_count(lml_json_root(out->faults)) == 0;
    if (sound && what == LML_FAULT_LIST_HOUSE)
        status = lml_house_notes_tell(call, &kit, &out->next, err);
    if (status == LML_OK && sound && what == LML_FAULT_LIST_HOUSE)
        status = lml_foreign_money_tell(call, &kit, NULL, &out->next, err);
    for (size_t i = 0; i < kit.count && status == LML_OK && what == LML_FAULT_LIST_HOUSE; i++)
        if (kit.texts[i].what == LML_PUT_RECIPE && kit.texts[i].replaces)
            status = lml_original_mention(call, NULL, &kit.texts[i], &call->aside, err);
    lml_kit_free(&kit);
    return status;
}

/* A job that lists others is run, to find what its recipes refuse, with their results. */
static lml_status check_gathered(lml_call *call, const lml_kit *kit, lml_job_text *job,
                                 lml_json_document **out, lml_error *err)
{
    size_t length = job->text.length;
    lml_status status = lml_ask_gather(kit, job, err);
    if (status != LML_OK || job->text.length == length)
        return status;
    lml_json_free(*out);
    *out = NULL;
    return lml_fault_list_read(call, kit, LML_FAULT_LIST_JOB, job, out, err);
}

static lml_status check_job(lml_call *call, const lml_target *target, const lml_kit *kit,
                            finding *out, lml_error *err)
{
    lml_job_text job;
    lml_status status = lml_job_text_read(call, target, &job, err);
    if (status != LML_OK)
        return status;
    status = lml_replaced_tell_job(call, kit, &job, target, err);
    if (status == LML_OK)
        status = lml_fault_list_read(call, kit, LML_FAULT_LIST_JOB, &job, &out->faults, err);
    if (status == LML_OK && lml_json_count(lml_json_root(out->faults)) == 0)
        status = check_gathered(call, kit, &job, &out->faults, err);
    if (status == LML_OK && lml_json_count(lml_json_root(out->faults)) == 0)
        status = lml_job_stops_tell(call, kit, &job, &out->next, err);
    if ((status == LML_OK || status == LML_STOPPED) &&
        lml_json_count(lml_json_root(out->faults)) == 0) {
        lml_error error;
        lml_status told = lml_closing_open_tell(call, kit, &job, &out->next, &error);
        if (told != LML_OK && err)
            *err = error;
        status = told != LML_OK ? told : status;
    }
    lml_builder_free(&job.text);
    return status;
}

/* Whether any of it is `what`: "wrong" or "unread". */
static bool any_is(const lml_json_document *advice, const char *what)
{
    for (const lml_json *a = lml_json_first(lml_json_root(advice)); a; a = lml_json_next(a))
        if (lml_json_yes(lml_json_member(a, what)))
            return true;
    return false;
}

/* For advice all of a recipe's declaration has to be read and checked. */
static lml_status check_recipe(lml_call *call, const lml_target *target, const lml_kit *kit,
                               finding *out, lml_error *err)
{
    const lml_kit_text *text = lml_kit_find(kit, LML_PUT_RECIPE, target->recipe);
    lml_status status = lml_ask_advise(kit, text->name, &out->advice, err);
    snprintf(out->shown, sizeof out->shown, "%s", text->shown);
    if (status != LML_OK || any_is(out->advice, "unread"))
        return status; /* what it replaces is told once it can be read */
    if (text->replaces && !lml_kit_rule_point(text->name))
        status = lml_replaced_tell(call, kit, text, &call->aside, err);
    if (status == LML_OK && !text->ours)
        status = lml_original_tell(call, target, text, &call->aside, err);
    return status;
}

static lml_status check(lml_call *call, const char *word, finding *out, lml_error *err)
{
    lml_target target = lml_find_target(word);
    lml_fault_list_of what = what_is(call, &target);
    if (target.kind == LML_TARGET_JOB && what != LML_FAULT_LIST_JOB)
        return check_settings(call, &target, what, out, err);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = target.kind == LML_TARGET_RECIPE ? check_recipe(call, &target, &kit, out, err)
                                                  : check_job(call, &target, &kit, out, err);
    lml_kit_free(&kit);
    return status;
}

static void put_list(lml_json_writer *w, const char *name, const lml_json *list)
{
    if (lml_json_count(list) == 0)
        return;
    lml_json_write_name(w, lml_span_of(name));
    lml_json_copy(w, list);
}

static void put_finding(lml_json_writer *w, const char *word, const lml_json *advice,
                        const lml_json *faults, const lml_error *error)
{
    lml_json_write_open_record(w);
    lml_json_write_member(w, "target", word);
    lml_json_write_name(w, lml_span_of("sound"));
    lml_json_write_yes_no(w, error->status == LML_OK);
    if (error->message[0])
        lml_json_write_member(w, "message", error->message);
    if (error->hint[0])
        lml_json_write_member(w, "hint", error->hint);
    put_list(w, "faults", faults);
    put_list(w, "advice", advice);
    lml_json_write_close(w);
}

/* One target; *advised is set when there is advice. */
static lml_status check_and_tell(lml_call *call, const char *word, lml_json_writer *json,
                                 bool *advised)
{
    lml_error error = {.status = LML_OK};
    finding found = {.shown = "", .next = lml_builder_on(&call->alloc, 0)};
    lml_status status = check(call, word, &found, &error);
    const lml_json *advice = found.advice ? lml_json_root(found.advice) : NULL;
    const lml_json *faults = found.faults ? lml_json_root(found.faults) : NULL;
    if (status == LML_OK && lml_json_count(faults) > 0)
        status = error.status = LML_BAD_DATA;
    if (status == LML_OK && advice && any_is(found.advice, "wrong"))
        status = error.status = LML_BAD_RECIPE;
    if (json)
        put_finding(json, word, advice, faults, &error);
    else if (error.message[0])
        lml_complain_write(&error, &call->aside);
    if (!json && status == LML_OK && !lml_call_quiet(call)) {
        lml_layout_put(&call->out, lml_span_of(word));
        lml_builder_add_text(&call->out, ": sound\n");
        lml_builder_add(&call->out, found.next.at, found.next.length);
    }
    if (!json) {
        if (status == LML_STOPPED)
            lml_builder_add(&call->aside, found.next.at, found.next.length);
        lml_fault_list_tell(call, faults);
        lml_advice_list_tell(call, found.shown, advice);
    }
    *advised = *advised || lml_json_count(advice) > 0;
    lml_json_free(found.advice);
    lml_json_free(found.faults);
    lml_builder_free(&found.next);
    return status;
}

lml_status lml_cmd_check(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words == 0)
        return lml_fail(
            err, LML_USAGE,
            "lemel check needs job files or recipes, as in: lemel check jobs/NAME.json");
    bool json = lml_call_wants_json(call), advised = false;
    lml_status first = LML_OK;
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    if (json)
        lml_json_write_open_list(&w);
    for (size_t i = 0; i < a->words; i++) {
        lml_status status = check_and_tell(call, a->word[i], json ? &w : NULL, &advised);
        first = first == LML_OK ? status : first;
    }
    if (json) {
        lml_json_write_close(&w);
        lml_status wrote = lml_call_end_json(&w, err);
        first = first == LML_OK ? wrote : first;
    }
    if (first == LML_OK && advised && a->given[LML_OPTION_STRICT])
        first = LML_STOPPED;
    return first;
}
