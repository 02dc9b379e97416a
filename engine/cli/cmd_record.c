#include "base/shell.h"
#include "cli/amend.h"
#include "cli/ask.h"
#include "cli/boxes.h"
#include "cli/cmd.h"
#include "file/standing.h"
#include "sheet/layout.h"
#include "terminal/clock.h"
#include "terminal/line.h"

#include <stdio.h>
#include <string.h>

/* Whether the word at `index` names a member that the entry already has. */
static bool is_there(const lml_arguments *a, size_t first, size_t index)
{
    const char *word = a->word[index];
    lml_span name = {word, strcspn(word, "=")};
    bool there = first == 2 && (lml_span_is(name, "at") || lml_span_is(name, "what") ||
                                (lml_span_is(name, "owner") && a->given[LML_OPTION_OWNER]));
    for (size_t i = first; i < index && !there; i++)
        there = strcspn(a->word[i], "=") == name.length &&
                strncmp(a->word[i], name.at, name.length) == 0;
    return there;
}

static lml_status check_words(const lml_arguments *a, lml_error *err)
{
    if (a->words < 2) {
        lml_fail(err, LML_USAGE,
                 a->words == 0 ? "lemel record needs a job file and what was weighed"
                               : "lemel record needs what was weighed or measured");
        lml_error_hint(err, "lemel record jobs/x.json \"raw casting\" \"31.02 g\"");
        return LML_USAGE;
    }
    if (strcmp(a->word[0], "-") == 0) {
        lml_fail(err, LML_USAGE, "an entry goes into a job file, not into standard input");
        lml_error_hint(err, "name the file");
        return LML_USAGE;
    }
    bool all = a->given[LML_OPTION_ALL];
    if (!all && strchr(a->word[1], '=')) {
        lml_fail(err, LML_USAGE, "expected what was weighed, but got %s", a->word[1]);
        lml_error_hint(err, "name it as the box on the bench sheet does: \"raw casting\"; with "
                            "--all, several readings are \"flask=540 °C\" \"metal=960 °C\"");
        return LML_USAGE;
    }
    size_t first = all ? 1 : 2;
    for (size_t i = first; i < a->words; i++)
        if (is_there(a, first, i))
            return lml_fail(err, LML_USAGE, "%.*s is given twice: leave one out",
                            (int)strcspn(a->word[i], "="), a->word[i]);
    return LML_OK;
}

/* ---- whether any box is called that ---- */

static bool has_word(const lml_arguments *a, const char *start)
{
    for (size_t i = 2; i < a->words; i++)
        if (lml_span_starts(lml_span_of(a->word[i]), start))
            return true;
    return false;
}

/* Whether it has a name of its own: what moves metal, and what says how a casting turned out. */
static bool is_known(const lml_arguments *a)
{
    static const char *const states[] = {"misrun", "mixed", "estimated"};
    for (size_t i = 0; i < sizeof states / sizeof *states; i++)
        if (strcmp(a->word[1], states[i]) == 0)
            return true;
    return has_word(a, "way=") || has_word(a, "from=") ||
           lml_standing_denied(lml_span_of(a->word[1])).length > 0;
}

/* Say that no box has this name: a misspelt entry would never be read. Notes may have names of
 * their own, and so do entries of the metal account, so there only names similar to a box's are
 * reported. The job is read as it was before the entry, as its sheet was printed; one that cannot
 * be run has no boxes, and its faults are not faults of the weighing. */
static void tell(lml_call *call, const lml_amended *file, const lml_text *result)
{
    const char *what = call->arguments.word[1];
    lml_text text = {.text = NULL};
    lml_json_document *doc = NULL;
    if (result->text && lml_engine_box(file->engine, result, what, &text, NULL) == LML_OK &&
        lml_ask_parse_span(call, (lml_span){text.text, text.length}, &doc, NULL) == LML_OK) {
        const lml_json *box = lml_json_root(doc);
        bool any = lml_json_number(lml_json_member(box, "boxes")) > 0,
             called = lml_json_number(lml_json_member(box, "called")) > 0;
        lml_span near = lml_json_text(lml_json_member(box, "near"));
        if (any && !called && (near.length > 0 || !is_known(&call->arguments)))
            lml_builder_add_format(
                &call->aside,
                "no box on this job's sheets is called \"%s\", so no sheet uses this entry\n",
                what);
        if (any && !called && near.length > 0)
            lml_builder_add_format(&call->aside, "  did you mean \"%.*s\"?\n", (int)near.length,
                                   near.at);
    }
    lml_json_free(doc);
    lml_text_free(file->engine, &text);
}

/* At a terminal: what the sheet has next, or that the page is done. */
static void tell_next(lml_call *call, const lml_amended *file, const lml_text *result,
                      const char *what)
{
    char word[LML_SHELL_WORD];
    lml_text text = {.text = NULL};
    lml_json_document *doc = NULL;
    if (!lml_line_is_shown() || !result->text ||
        lml_engine_box(file->engine, result, what, &text, NULL) != LML_OK ||
        lml_ask_parse_span(call, (lml_span){text.text, text.length}, &doc, NULL) != LML_OK)
        return;
    lml_span next = lml_json_text(lml_json_member(lml_json_root(doc), "next"));
    if (next.length > 0)
        lml_builder_add_format(&call->aside, "next: %.*s\n", LML_SPAN_SHOWN(next));
    else
        lml_builder_add_format(&call->aside, "next: lemel check %s\n",
                               lml_shell_word(lml_span_of(file->path), word));
    lml_json_free(doc);
    lml_text_free(file->engine, &text);
}

static void put_entries(lml_call *call, const lml_amended *file, const lml_json *told)
{
    const lml_json *also = lml_json_first(lml_json_member(told, "also"));
    const lml_json *counts = lml_json_first(lml_json_member(told, "counts"));
    const lml_json *e = lml_json_first(lml_json_member(told, "entries"));
    for (; e; e = lml_json_next(e)) {
        lml_span other = lml_json_text(also), later = lml_json_text(counts);
        lml_layout_put(&call->out, lml_span_of(file->path));
        lml_builder_add_format(&call->out, ": recorded %.*s\n", (int)lml_json_raw(e).length,
                               lml_json_raw(e).at);
        if (other.length > 0)
            lml_builder_add_format(&call->out, "  that is %.*s on the sheet\n", (int)other.length,
                                   other.at);
        if (later.length > 0)
            lml_builder_add_format(&call->out, "  the entry of %.*s is later, and counts\n",
                                   LML_SPAN_SHOWN(later));
        also = also ? lml_json_next(also) : NULL;
        counts = counts ? lml_json_next(counts) : NULL;
    }
}

static lml_status put_json(lml_call *call, const lml_amended *file, const lml_json *entries,
                           lml_error *err)
{
    bool all = call->arguments.given[LML_OPTION_ALL];
    lml_json_writer w = lml_json_writer_on(&call->out, true);
    lml_json_write_open_record(&w);
    lml_json_write_member(&w, "job", file->path);
    lml_json_write_name(&w, lml_span_of(all ? "entries" : "entry"));
    if (all)
        lml_json_write_open_list(&w);
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e))
        lml_json_write_raw(&w, lml_json_raw(e));
    if (all)
        lml_json_write_close(&w);
    lml_json_write_close(&w);
    return lml_call_end_json(&w, err);
}

static lml_status report(lml_call *call, const lml_amended *file, const lml_json *told,
                         lml_error *err)
{
    lml_span shut = lml_json_text(lml_json_member(told, "shut"));
    if (shut.length > 0)
        lml_builder_add_format(&call->aside, "recorded although the sheet says DO NOT: %.*s\n",
                               LML_SPAN_SHOWN(shut));
    if (lml_call_wants_json(call))
        return put_json(call, file, lml_json_member(told, "entries"), err);
    if (!lml_call_quiet(call))
        put_entries(call, file, told);
    return LML_OK;
}

/* What the words say; the clock is read where they say now or nothing, or where they could be of a
 * moment still to come. */
static lml_status read_entry(const lml_arguments *a, char now[LML_CLOCK_TEXT], lml_entry *out,
                             lml_error *err)
{
    const char *at = a->value[LML_OPTION_AT];
    bool all = a->given[LML_OPTION_ALL], is_now = !at || strcmp(at, "now") == 0;
    size_t first = all ? 1 : 2;
    *out = (lml_entry){.what = all ? NULL : a->word[1],
                       .word = a->word + first,
                       .count = a->words - first,
                       .at = is_now ? now : at,
                       .owner = a->value[LML_OPTION_OWNER],
                       .anyway = a->given[LML_OPTION_ANYWAY]};
    if (!is_now && out->anyway)
        return LML_OK;
    out->now = is_now ? NULL : now;
    return lml_clock_now(now, err);
}

/* ---- what is taken out of a lot ---- */

/* The words of a stop on what was taken out of a lot; empty: there is none. */
static lml_span stop_of_taken(const lml_json *result)
{
    for (const lml_json *r = lml_json_first(lml_json_member(result, "remarks")); r;
         r = lml_json_next(r)) {
        const char *code = lml_json_text(lml_json_member(r, "code")).at;
        if (lml_span_is(lml_json_text(lml_json_member(r, "level")), "stop") &&
            (strstr(code, "/settled-") || strstr(code, "/taken-")))
            return lml_json_text(lml_json_member(r, "text"));
    }
    return (lml_span){"", 0};
}

/* A record only grows: what the metal account would stop for is not entered. Metal that settles is
 * its owner's no more, and is not entered either where no account can be run. Where there is no
 * closing yet, the job is the account. */
static lml_status check_taken(lml_call *call, const lml_amended *file, lml_error *err)
{
    lml_builder text = lml_builder_on(&call->alloc, file->after.length);
    lml_json_document *doc = NULL;
    lml_builder_add(&text, file->after.text, file->after.length);
    lml_status status = lml_builder_status(&text, err);
    lml_text result = {.text = NULL};
    if (status == LML_OK)
        result = lml_boxes_of_closing(call, file->path, &text);
    if (status == LML_OK && !result.text)
        status = lml_boxes_read(call, file->path, &text, &result, err);
    if (status == LML_OK)
        status = lml_ask_parse_span(call, (lml_span){result.text, result.length}, &doc, err);
    lml_span stop = doc ? stop_of_taken(lml_json_root(doc)) : (lml_span){"", 0};
    if (status != LML_OK && !has_word(&call->arguments, "way=settled")) {
        status = LML_OK;
    } else if (status != LML_OK) {
        lml_error_context(err, status,
                          "what settles is entered only where the metal account can be run: "
                          "nothing was recorded");
    } else if (stop.length > 0) {
        status = lml_fail(err, LML_STOPPED, "%.*s", LML_SPAN_SHOWN(stop));
        lml_error_hint(err, "nothing was recorded");
    }
    lml_json_free(doc);
    lml_boxes_end(call, &result);
    lml_builder_free(&text);
    return status;
}

/* The clock is read under the lock: entries of two shells come in order. */
static lml_status record(lml_call *call, lml_amended *file, lml_error *err)
{
    char now[LML_CLOCK_TEXT];
    lml_entry entry;
    lml_status status = read_entry(&call->arguments, now, &entry, err);
    if (status != LML_OK)
        return status;
    lml_text result = lml_boxes_of(call, file->path, &file->before);
    if (!result.text && !entry.what)
        lml_builder_add_text(&call->aside,
                             "the job cannot be run, so the names were not checked against "
                             "its boxes; lemel check says why\n");
    status =
        lml_engine_record(file->engine, file->text, file->before.length, file->path,
                          result.text ? &result : NULL, &entry, &file->after, &file->told, err);
    if (status == LML_OK &&
        (has_word(&call->arguments, "way=settled") || has_word(&call->arguments, "from=")))
        status = check_taken(call, file, err);
    if (status == LML_OK && entry.what && !lml_call_quiet(call))
        tell(call, file, &result);
    if (status == LML_OK && !lml_call_quiet(call)) {
        char last[LML_JSON_PATH];
        const char *word = entry.what ? entry.what : entry.word[entry.count - 1];
        snprintf(last, sizeof last, "%.*s", (int)(entry.what ? strlen(word) : strcspn(word, "=")),
                 word);
        tell_next(call, file, &result, last);
    }
    lml_boxes_end(call, &result);
    return status;
}

lml_status lml_cmd_record(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    lml_status status = check_words(a, err);
    if (status != LML_OK)
        return status;
    bool all = a->given[LML_OPTION_ALL];
    lml_amend amend = {.path = a->word[0],
                       .change = record,
                       .report = report,
                       .done = all ? "all entries are in " : "the entry is in ",
                       .again = all ? ": do not record them again" : ": do not record it again"};
    return lml_amend_file(call, &amend, err);
}
