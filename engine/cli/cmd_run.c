#include "cli/ask.h"
#include "cli/closing_day.h"
#include "cli/closing_open.h"
#include "cli/cmd.h"
#include "cli/fault_list.h"
#include "cli/held.h"
#include "cli/replaced.h"
#include "papers/given.h"
#include "base/shell.h"
#include "sheet/entries.h"
#include "sheet/html.h"
#include "sheet/sheet.h"
#include "studio/unproved.h"
#include "terminal/call.h"

#include <stdio.h>
#include <string.h>

/* The names of the pages with content, except those in `but`: "bench, client". */
static void list_pages(const lml_json *result, const char *but, lml_builder *out)
{
    const lml_json *sheets = lml_json_member(result, "sheets");
    for (const lml_json *p = lml_json_first(sheets); p; p = lml_json_next(p)) {
        lml_span name = lml_json_name(p);
        if (!lml_sheet_has(result, name.at) || (but && lml_entries_names(but, name)))
            continue;
        lml_builder_add_text(out, out->length > 0 ? ", " : "");
        lml_builder_add_span(out, name);
    }
}

/* What a recipe of several steps says that it did not work out, and why; empty where none does. */
static lml_span left_out(const lml_json *result)
{
    static const char CODE[] = "/left-out";
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    for (; r; r = lml_json_next(r)) {
        lml_span code = lml_json_text(lml_json_member(r, "code"));
        if (code.length > strlen(CODE) &&
            memcmp(code.at + code.length - strlen(CODE), CODE, strlen(CODE)) == 0)
            return lml_json_text(lml_json_member(r, "text"));
    }
    return (lml_span){"", 0};
}

static lml_status refuse_page(const lml_call *call, const lml_json *result, lml_span page,
                              lml_error *err)
{
    lml_builder held = lml_builder_on(&call->alloc, 0);
    lml_span why = left_out(result);
    list_pages(result, NULL, &held);
    lml_fail(err, LML_NOT_FOUND, "sheet \"%.*s\" is empty", (int)page.length, page.at);
    if (held.length > 0)
        lml_error_hint(err, "sheets with content: %s, or all%s%.*s", held.at,
                       why.length > 0 ? ". " : "", LML_SPAN_SHOWN(why));
    else
        lml_error_hint(err, "all sheets are empty");
    lml_builder_free(&held);
    return LML_NOT_FOUND;
}

/* Find the first name in the list that no page with something on it has. */
static bool find_missing(const lml_json *result, const char *list, lml_span *missing)
{
    char name[40];
    while (*list) {
        size_t length = strcspn(list, ",");
        snprintf(name, sizeof name, "%.*s", (int)length, list);
        *missing = (lml_span){list, length};
        if (length == 0 || length >= sizeof name || !lml_sheet_has(result, name))
            return true;
        list += length + (list[length] == ',');
    }
    return false;
}

/* The page that is printed when none is named: the first that holds anything; NULL when none does.
 */
static const char *first_page(const lml_json *result)
{
    const lml_json *page = lml_json_first(lml_json_member(result, "sheets"));
    while (page && !lml_sheet_has(result, lml_json_name(page).at))
        page = lml_json_next(page);
    return page ? lml_json_name(page).at : NULL;
}

/* The end of a job is printed as the client gets it: the invoice and the account of the metal. */
static const char *usual_pages(const lml_json *result, bool closing)
{
    if (closing && lml_sheet_has(result, "client"))
        return lml_sheet_has(result, "metal") ? "client,metal" : "client";
    return first_page(result);
}

/* The last line: which other pages there are. */
static void name_others(lml_call *call, const lml_json *result, const char *page)
{
    lml_builder others = lml_builder_on(&call->alloc, 0);
    list_pages(result, page, &others);
    if (others.length > 0)
        lml_builder_add_format(&call->out, "More sheets: %s (--sheet NAME, or all)\n", others.at);
    if (lml_builder_status(&others, NULL) != LML_OK)
        call->out.status = others.status;
    lml_builder_free(&others);
}

/* The settings of the command line, to be copied: a point is confirmed with them. */
static lml_span typed_words(const lml_call *call, lml_builder *out)
{
    for (size_t i = 1; i < call->arguments.words; i++) {
        lml_builder_add_text(out, out->length > 0 ? " " : "");
        lml_shell_add_word(out, lml_span_of(call->arguments.word[i]));
    }
    return lml_builder_span(out);
}

static lml_status draw_html(lml_call *call, const lml_json *result, const char *pages,
                            lml_span typed, lml_error *err)
{
    const char *paper = call->arguments.value[LML_OPTION_PAPER];
    lml_html_look look = {.pages = pages,
                          .typed = typed,
                          .paper = !paper                     ? LML_PAPER_OF_HOUSE
                                   : strcmp(paper, "A4") == 0 ? LML_PAPER_A4
                                                              : LML_PAPER_LETTER};
    return lml_html_draw(result, &look, &call->out, err);
}

static lml_status draw(lml_call *call, const lml_json *result, bool closing, lml_span typed,
                       lml_error *err)
{
    bool json = lml_call_wants_json(call);
    const char *asked = call->arguments.value[LML_OPTION_SHEET];
    lml_sheet_look look = {.page = asked ? asked : usual_pages(result, closing),
                           .width = call->width,
                           .bold = call->bold,
                           .typed = typed,
                           .landscape = call->arguments.given[LML_OPTION_LANDSCAPE]};
    if (asked && strcmp(asked, "all") == 0)
        look.page = NULL;
    lml_span named = lml_span_of(NULL);
    bool missing = asked && look.page && find_missing(result, asked, &named);
    lml_status status = LML_OK;
    if (json) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        lml_json_copy(&w, result);
        status = lml_call_end_json(&w, err);
    } else if (!missing && lml_call_wants_html(call)) {
        status = draw_html(call, result, look.page, typed, err);
    } else if (!missing) {
        status = lml_sheet_draw(result, &look, &call->out, err);
        if (!asked && look.page && !lml_call_quiet(call))
            name_others(call, result, look.page);
    }
    if (status == LML_OK) {
        look.bold = look.landscape = false;
        bool nothing = json && !missing && !lml_call_quiet(call);
        if (!nothing && (json || missing))
            look.page = ""; /* stops and points to confirm, and no more */
        status = lml_sheet_draw_unseen(result, &look, nothing, &call->aside, err);
    }
    return status == LML_OK && missing ? refuse_page(call, result, named, err) : status;
}

static lml_status tell_unproved(lml_call *call, const lml_target *target, const lml_kit *kit,
                                const lml_builder *answer, lml_error *err)
{
    char studio[LML_PATH];
    lml_find_studio(call, target, studio);
    return lml_unproved_tell(call, studio, kit, (lml_span){answer->at, answer->length}, err);
}

static void tell_steps(lml_call *call, const lml_json *result, const char *shown, lml_span typed,
                       bool stopped)
{
    if (stopped)
        (void)lml_closing_open_steps(call, result, shown, typed, &call->aside);
    else if (!lml_call_wants_json(call))
        lml_closing_open_after(call, result, shown, &call->aside);
}

lml_status lml_cmd_run_text(lml_call *call, const lml_target *target, const lml_job_text *job,
                            const lml_kit *kit, lml_error *err)
{
    lml_builder answer = lml_builder_on(&call->alloc, 0);
    lml_json_document *result = NULL;
    bool stopped = false;
    lml_status status = LML_OK;
    if (!lml_call_quiet(call))
        status = lml_replaced_tell_job(call, kit, job, NULL, err);
    if (status != LML_OK)
        return status;
    status = lml_ask_run(kit, job, &answer, &stopped, err);
    if (status != LML_OK)
        lml_fault_list_tell_others(call, kit, job, err);
    if (status == LML_OK)
        status = lml_ask_parse(call, &answer, &result, err);
    if (status == LML_OK)
        status = draw(call, lml_json_root(result), job->closing, job->typed, err);
    if (status == LML_OK && job->closing && !lml_call_quiet(call))
        tell_steps(call, lml_json_root(result), job->shown, job->typed, stopped);
    if (status == LML_OK)
        status = tell_unproved(call, target, kit, &answer, err);
    if (status == LML_OK && stopped)
        status = LML_STOPPED;
    lml_json_free(result);
    lml_builder_free(&answer);
    return status;
}

/* The job is run with another recipe that asks the same. */
static lml_status put_recipe(const lml_call *call, lml_job_text *job, lml_error *err)
{
    const lml_span recipe = lml_span_of(call->arguments.value[LML_OPTION_RECIPE]);
    const lml_span step[] = {lml_span_of("recipe")};
    lml_builder value = lml_builder_on(&call->alloc, 0);
    if (!call->arguments.given[LML_OPTION_RECIPE])
        return LML_OK;
    lml_json_writer w = lml_json_writer_on(&value, false);
    lml_json_write_text(&w, recipe);
    lml_status status = lml_json_writer_end(&w, err);
    if (status == LML_OK)
        status = lml_given_put_raw(&job->text, step, 1, lml_builder_span(&value), job->shown, err);
    lml_builder_free(&value);
    return status;
}

static lml_status work(lml_call *call, const lml_target *target, bool closing, lml_kit *kit,
                       lml_error *err)
{
    lml_job_text job;
    lml_builder words = lml_builder_on(&call->alloc, 0);
    lml_status status = lml_job_text_read(call, target, &job, err);
    if (status != LML_OK)
        return status;
    if (target->kind == LML_TARGET_JOB) /* another is kept in a file with its settings */
        job.typed = typed_words(call, &words);
    status = lml_builder_status(&words, err);
    job.closing = closing;
    job.why = call->arguments.given[LML_OPTION_WHY];
    if (status == LML_OK)
        status = put_recipe(call, &job, err);
    if (status == LML_OK && closing)
        status = lml_closing_day_put(call, !lml_call_quiet(call), &job, err);
    if (status == LML_OK)
        status = lml_held_put(call, 1, &job, err);
    if (status == LML_OK)
        status = lml_cmd_run_text(call, target, &job, kit, err);
    if (status != LML_OK && status != LML_STOPPED)
        lml_job_text_blame(call, 1, &job, err);
    lml_builder_free(&words);
    lml_builder_free(&job.text);
    return status;
}

lml_status lml_cmd_run_target(lml_call *call, bool closing, lml_error *err)
{
    lml_target target = lml_find_target(call->arguments.word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_status status = lml_find_kit(call, &target, &kit, err);
    if (status == LML_OK)
        status = work(call, &target, closing, &kit, err);
    lml_kit_free(&kit);
    return status;
}

lml_status lml_cmd_run(lml_call *call, lml_error *err)
{
    if (call->arguments.words == 0) {
        lml_fail(err, LML_USAGE, "lemel run needs a job file or a recipe");
        lml_error_hint(err, "lemel recipes lists the available recipes");
        return LML_USAGE;
    }
    return lml_cmd_run_target(call, false, err);
}
