#include "base/letter.h"
#include "cli/advice_list.h"
#include "cli/ask.h"
#include "cli/by_house.h"
#include "cli/cmd.h"
#include "cli/script_reach.h"
#include "sheet/complain.h"
#include "sheet/layout.h"
#include "studio/original.h"
#include "studio/proved.h"

#include <stdio.h>
#include <string.h>

/* The proofs of all recipes asked for, counted. A recipe that cannot be read counts as one failure.
 */
typedef struct tally {
    lml_call *call;
    const lml_kit *kit;
    lml_kit shipped; /* what comes with lemel is proved by itself */
    bool changed;    /* the house has rules or recipes that replace lemel's own */
    lml_json_writer json;
    size_t name_columns;
    size_t passed, failed;
    lml_status fault; /* the first that was no failed proof */
    lml_script_reach scripts;
    char studio[LML_PATH];
    lml_proved proved;
    bool listed; /* whether `proved` could be read */
} tally;

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static size_t count_of(const lml_json *report, const char *name)
{
    double n = lml_json_number(lml_json_member(report, name));
    return n > 0 && n < 1e6 ? (size_t)n : 0;
}

static void put_proof(lml_layout *layout, const lml_json *report, const lml_json *proof)
{
    if (lml_json_yes(lml_json_member(proof, "passed")))
        return;
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_text(&line, "FAILED: ");
    lml_builder_add_span(&line, member_text(proof, "name"));
    lml_span at = lml_json_raw(lml_json_member(proof, "line"));
    if (at.length > 0) {
        lml_builder_add_text(&line, member_text(proof, "name").length > 0 ? ", " : "");
        lml_builder_add_span(&line, member_text(report, "file"));
        lml_builder_add_char(&line, ':');
        lml_builder_add_span(&line, at);
    }
    if (member_text(proof, "source").length > 0) {
        lml_builder_add_text(&line, " (");
        lml_builder_add_span(&line, member_text(proof, "source"));
        lml_builder_add_char(&line, ')');
    }
    if (line.at)
        lml_layout_text(layout, 3, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
    const lml_json *failure = lml_json_first(lml_json_member(proof, "failures"));
    for (; failure; failure = lml_json_next(failure))
        lml_layout_text(layout, 6, lml_json_text(failure));
}

/* Proofs that fail for their currency alone say nothing of the recipe: after the first they are
 * only counted. */
static const lml_json *first_of_two_currencies(const lml_json *proofs, size_t *count)
{
    const lml_json *first = NULL;
    *count = 0;
    for (const lml_json *p = lml_json_first(proofs); p; p = lml_json_next(p))
        if (lml_json_yes(lml_json_member(p, "currencies"))) {
            first = first ? first : p;
            ++*count;
        }
    return first;
}

static void put_proofs(lml_layout *layout, const lml_json *report)
{
    size_t count;
    const lml_json *proofs = lml_json_member(report, "proofs");
    const lml_json *first = first_of_two_currencies(proofs, &count);
    for (const lml_json *p = lml_json_first(proofs); p; p = lml_json_next(p))
        if (p == first || !lml_json_yes(lml_json_member(p, "currencies")))
            put_proof(layout, report, p);
    if (count < 2)
        return;
    lml_builder line = lml_layout_scratch(layout);
    lml_builder_add_format(&line,
                           "and %zu more of two currencies: write the recipe and its proofs in "
                           "one, such as by sed -i 's/EUR/USD/g' on the copy: a name is changed "
                           "in all of it, and no rate comes into it",
                           count - 1);
    if (line.at)
        lml_layout_text(layout, 3, (lml_span){line.at, line.length});
    lml_layout_scrap(layout, &line);
}

/* What no proof of the recipe comes by. */
static void put_reach(lml_layout *layout, const lml_json *report)
{
    const lml_json *reach = lml_json_member(report, "reach");
    const lml_json *missed = lml_json_member(reach, "missed");
    if (!reach)
        return;
    lml_builder line = lml_layout_scratch(layout);
    size_t lines = count_of(reach, "lines");
    if (lml_json_count(missed) == 0) {
        lml_builder_add_text(&line, "its proofs cover all of it");
    } else {
        lml_builder_add_format(&line, "its proofs cover %zu of its %zu lines; not ",
                               lines - lml_json_count(missed), lines);
        lml_script_reach_put_lines(&line, missed);
    }
    lml_layout_text(layout, 3, (lml_span){line.at, line.length});
    const lml_json *stop = lml_json_first(lml_json_member(reach, "missed_stops"));
    for (; stop; stop = lml_json_next(stop)) {
        line.length = 0;
        lml_builder_add_text(&line, "no proof covers ");
        lml_builder_add_span(&line, member_text(stop, "code"));
        lml_builder_add_text(&line, ", ");
        lml_builder_add_span(&line, member_text(report, "file"));
        lml_builder_add_char(&line, ':');
        lml_builder_add_span(&line, lml_json_raw(lml_json_member(stop, "line")));
        lml_layout_text(layout, 3, (lml_span){line.at, line.length});
    }
    lml_layout_scrap(layout, &line);
}

static void put_report(tally *t, const char *recipe, const lml_json *report)
{
    size_t passed = count_of(report, "passed"), failed = count_of(report, "failed");
    t->passed += passed;
    t->failed += failed;
    if (lml_call_wants_json(t->call))
        return;
    lml_layout layout = {.out = &t->call->out, .width = t->call->width, .bold = t->call->bold};
    char verdict[80];
    if (passed + failed == 0)
        snprintf(verdict, sizeof verdict, "no proofs");
    else if (failed == 0)
        snprintf(verdict, sizeof verdict, "%zu passed", passed);
    else
        snprintf(verdict, sizeof verdict, "%zu passed, %zu failed", passed, failed);
    size_t at = t->name_columns + 2;
    lml_cell cells[] = {{lml_span_of(recipe), 0, t->name_columns, false},
                        {lml_span_of(verdict), at, layout.width - at, failed > 0}};
    lml_layout_row(&layout, cells, 2);
    put_proofs(&layout, report);
    put_reach(&layout, report);
}

/* The report, and which of its proofs come out otherwise by the house's own rules. */
static void write_report(tally *t, const lml_json *report, const lml_by_house *by_house)
{
    lml_json_writer *w = &t->json;
    lml_json_write_open_record(w);
    for (const lml_json *m = lml_json_first(report); m; m = lml_json_next(m)) {
        lml_json_write_name(w, lml_json_name(m));
        lml_json_copy(w, m);
    }
    if (by_house->count > 0) {
        lml_json_write_name(w, lml_span_of("changed_by_house"));
        lml_by_house_write(by_house, w);
    }
    lml_json_write_close(w);
}

/* All that is wrong in its declaration, where it is that. */
static void put_fault(tally *t, const lml_kit_text *text, const lml_error *error)
{
    lml_json_document *advice = NULL;
    t->failed++;
    t->fault = t->fault == LML_OK ? error->status : t->fault;
    if (!lml_advice_list_tell_wrong(t->call, t->kit, text, NULL, &advice))
        lml_complain_write(error, &t->call->aside);
    if (lml_call_wants_json(t->call)) {
        lml_json_write_open_record(&t->json);
        lml_json_write_member(&t->json, "recipe", text->name);
        lml_json_write_member(&t->json, "message", error->message);
        if (advice) {
            lml_json_write_name(&t->json, lml_span_of("advice"));
            lml_json_copy(&t->json, lml_json_root(advice));
        }
        lml_json_write_close(&t->json);
    } else {
        lml_builder_add_format(&t->call->out, "%-*s  cannot be proved\n", (int)t->name_columns,
                               text->name);
    }
    lml_json_free(advice);
}

/* The studio's own recipes are in its list of proved recipes, and lemel's own of that name is kept
 * beside the first of them. `report` NULL: it cannot be proved. */
static void keep(tally *t, const lml_kit_text *text, const lml_json *report)
{
    if (strcmp(text->from, "studio") != 0)
        return;
    if (t->listed)
        lml_proved_put(&t->proved, t->kit, text, report);
    const lml_kit_text *own =
        report ? lml_kit_find(&t->shipped, LML_PUT_RECIPE, lml_span_of(text->name)) : NULL;
    lml_error error;
    if (own && count_of(report, "failed") == 0 &&
        lml_original_keep_first(t->call, t->studio, own, &error) != LML_OK)
        lml_complain_write(&error, &t->call->aside);
}

static void prove(tally *t, const lml_kit_text *text)
{
    lml_error error;
    lml_call *call = t->call;
    bool own = t->changed && text->ours, json = lml_call_wants_json(call);
    lml_ask_of ask = call->arguments.given[LML_OPTION_REACH] ? lml_ask_reach : lml_ask_prove;
    lml_by_house by_house = {.count = 0};
    lml_json_document *report = NULL;
    if (ask(own ? &t->shipped : t->kit, text->name, &report, &error) == LML_OK) {
        put_report(t, text->name, lml_json_root(report));
    } else {
        report = NULL;
        put_fault(t, text, &error);
    }
    if (own && report && lml_by_house_read(call, t->kit, text, ask, &by_house, &error) != LML_OK)
        lml_complain_write(&error, &call->aside);
    t->failed += lml_by_house_broken(&by_house);
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    if (!json)
        lml_by_house_put(&by_house, &layout);
    if (report && json)
        write_report(t, lml_json_root(report), &by_house);
    keep(t, text, report ? lml_json_root(report) : NULL);
    if (report && lml_script_reach_add(&t->scripts, t->kit, lml_json_root(report), &error))
        lml_complain_write(&error, &call->aside);
    lml_by_house_free(&by_house);
    lml_json_free(report);
}

static bool asked_for(const lml_arguments *a, const lml_kit_text *text)
{
    if (text->what != LML_PUT_RECIPE)
        return false;
    bool named = false;
    for (size_t i = 0; i < a->words && !named; i++)
        named = lml_span_is(lml_find_recipe(a->word[i]).recipe, text->name);
    return named || a->words == 0;
}

static lml_status prove_all(tally *t, lml_error *err)
{
    const lml_arguments *a = &t->call->arguments;
    bool json = lml_call_wants_json(t->call);
    for (size_t i = 0; i < t->kit->count; i++) {
        size_t columns = lml_letter_columns_of(lml_span_of(t->kit->texts[i].name));
        if (asked_for(a, &t->kit->texts[i]) && columns > t->name_columns)
            t->name_columns = columns;
    }
    if (json)
        lml_json_write_open_list(&t->json);
    for (size_t i = 0; i < t->kit->count; i++)
        if (asked_for(a, &t->kit->texts[i]))
            prove(t, &t->kit->texts[i]);
    if (json) {
        lml_json_write_close(&t->json);
        lml_status status = lml_call_end_json(&t->json, err);
        if (status != LML_OK)
            return status;
    } else {
        lml_layout layout = {.out = &t->call->out, .width = t->call->width};
        lml_script_reach_put(&t->scripts, a->words > 0, &layout);
        lml_builder_add_format(&t->call->out, "%zu passed, %zu failed\n", t->passed, t->failed);
    }
    if (t->fault != LML_OK)
        return t->fault;
    return t->failed > 0 ? LML_STOPPED : LML_OK;
}

lml_status lml_cmd_prove(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_target first = {.kind = LML_TARGET_RECIPE};
    if (a->words > 0)
        first = lml_find_recipe(a->word[0]);
    lml_status status = lml_find_kit(call, a->words > 0 ? &first : NULL, &kit, err);
    for (size_t i = 1; i < a->words && status == LML_OK; i++) {
        lml_target target = lml_find_recipe(a->word[i]);
        status = lml_find_into(&kit, &target, err);
    }
    tally t = {.call = call,
               .kit = &kit,
               .shipped = lml_kit_on(&call->alloc),
               .scripts = lml_script_reach_on(&call->alloc),
               .json = lml_json_writer_on(&call->out, true)};
    for (size_t i = 0; i < kit.count; i++)
        t.changed = t.changed || (kit.texts[i].what == LML_PUT_RECIPE && kit.texts[i].replaces);
    if (status == LML_OK && t.changed)
        status = lml_find_shipped(call, &t.shipped, err);
    lml_error error = {.status = LML_OK};
    lml_find_studio(call, a->words > 0 ? &first : NULL, t.studio);
    t.listed = lml_proved_read(&call->alloc, t.studio, &t.proved, &error) == LML_OK;
    if (status == LML_OK)
        status = prove_all(&t, err);
    /* That the list cannot be kept changes nothing about the proofs. */
    if (t.listed)
        lml_proved_write(&t.proved, &error);
    if (error.status != LML_OK)
        lml_complain_write(&error, &call->aside);
    lml_proved_free(&t.proved);
    lml_script_reach_free(&t.scripts);
    lml_kit_free(&t.shipped);
    lml_kit_free(&kit);
    return status;
}
