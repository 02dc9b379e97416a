#include "cli/ask.h"
#include "cli/cmd.h"
#include "print/about.h"

#include <stdio.h>

enum { INDENT = 3, COLUMN = 22, NAMES_MOST = 200 };

/* What applies when it is run here, with the options of this call. */
static lml_limits limits_of_engine(const lml_kit *kit)
{
    lml_engine_options options = {.limits = lml_limits_of_engine(&kit->limits)};
    lml_engine *engine = lml_engine_new(&options);
    lml_limits limits = engine ? lml_engine_limits(engine) : options.limits;
    lml_engine_free(engine);
    limits.memory = kit->limits.memory; /* of the worker: it comes first */
    return limits;
}

static void put_limit(lml_layout *layout, const char *what, unsigned long long n, const char *unit)
{
    char figure[40];
    snprintf(figure, sizeof figure, "%llu%s", n, unit);
    lml_cell cells[] = {{lml_span_of(what), INDENT, COLUMN - INDENT, false},
                        {lml_span_of(figure), COLUMN, layout->width - COLUMN, false}};
    lml_layout_row(layout, cells, 2);
}

static void put_limits(lml_layout *layout, const lml_kit *kit)
{
    lml_limits limits = limits_of_engine(kit);
    lml_layout_gap(layout);
    lml_layout_row(layout, &(lml_cell){lml_span_of("limits"), 0, layout->width, true}, 1);
    put_limit(layout, "steps", limits.steps, "");
    put_limit(layout, "seconds", (unsigned long long)kit->limits.patience / 1000, "");
    put_limit(layout, "memory", limits.memory >> 20, " MiB");
    put_limit(layout, "recipe or script", limits.source >> 10, " KiB");
    put_limit(layout, "job", limits.job >> 20, " MiB");
    put_limit(layout, "result", limits.result >> 20, " MiB");
}

static void put_json(lml_json_writer *w, const lml_json *about, const lml_kit *kit)
{
    lml_limits limits = limits_of_engine(kit);
    const struct {
        const char *name;
        uint64_t figure;
    } figures[] = {{"steps", limits.steps},   {"seconds", (uint64_t)kit->limits.patience / 1000},
                   {"memory", limits.memory}, {"source", limits.source},
                   {"job", limits.job},       {"result", limits.result}};
    lml_json_write_open_record(w);
    for (const lml_json *m = lml_json_first(about); m; m = lml_json_next(m)) {
        lml_json_write_name(w, lml_json_name(m));
        lml_json_copy(w, m);
    }
    lml_json_write_name(w, lml_span_of("limits"));
    lml_json_write_open_record(w);
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        lml_json_write_name(w, lml_span_of(figures[i].name));
        lml_json_write_whole(w, (int64_t)figures[i].figure);
    }
    lml_json_write_close(w);
    lml_json_write_close(w);
}

typedef struct names {
    lml_span name[NAMES_MOST];
    size_t count;
    lml_builder told; /* allowances */
} names;

static bool is_new(const names *seen, lml_span name)
{
    for (size_t i = 0; i < seen->count; i++)
        if (lml_span_equal(seen->name[i], name))
            return false;
    return seen->count < NAMES_MOST;
}

static lml_status put_used(lml_call *call, const lml_kit *kit, lml_layout *layout,
                           const lml_json *about, names *seen, lml_error *err);

static lml_status put_use(lml_call *call, const lml_kit *kit, lml_layout *layout,
                          const lml_kit_text *text, names *seen, lml_error *err)
{
    lml_json_document *about = NULL;
    seen->name[seen->count++] = lml_span_of(text->name);
    lml_status status = lml_ask_inspect(kit, text->name, &about, err);
    if (status == LML_OK) {
        lml_about_settings(layout, lml_json_root(about), &seen->told);
        status = put_used(call, kit, layout, lml_json_root(about), seen, err);
    }
    lml_json_free(about);
    return status;
}

/* The allowances of all that it uses, each recipe once. */
static lml_status put_used(lml_call *call, const lml_kit *kit, lml_layout *layout,
                           const lml_json *about, names *seen, lml_error *err)
{
    lml_status status = LML_OK;
    const lml_json *use = lml_json_first(lml_json_member(about, "uses"));
    for (; use && status == LML_OK; use = lml_json_next(use)) {
        const lml_kit_text *text = lml_kit_find(kit, LML_PUT_RECIPE, lml_json_text(use));
        if (text && is_new(seen, lml_json_text(use)))
            status = put_use(call, kit, layout, text, seen, err);
    }
    return status;
}

static lml_status put_about(lml_call *call, const lml_kit *kit, const lml_json *about,
                            const char *from, lml_error *err)
{
    if (lml_call_wants_json(call)) {
        lml_json_writer w = lml_json_writer_on(&call->out, true);
        put_json(&w, about, kit);
        return lml_call_end_json(&w, err);
    }
    lml_layout layout = {.out = &call->out, .width = call->width, .bold = call->bold};
    bool all = call->arguments.given[LML_OPTION_ALL];
    if (call->arguments.given[LML_OPTION_PAGE]) {
        lml_about_page(&layout, about);
        return lml_builder_status(&call->out, err);
    }
    if (!all && lml_about_folds(about)) {
        lml_about_draw_folded(&layout, about, from);
        return lml_builder_status(&call->out, err);
    }
    lml_about_draw(&layout, about, from);
    names seen = {.count = 0, .told = lml_builder_on(&call->alloc, 0)};
    lml_status status = all ? put_used(call, kit, &layout, about, &seen, err) : LML_OK;
    lml_builder_free(&seen.told);
    put_limits(&layout, kit);
    return status ? status : lml_builder_status(&call->out, err);
}

lml_status lml_cmd_inspect(lml_call *call, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    if (a->words != 1) {
        lml_fail(err, LML_USAGE, "lemel inspect needs one recipe");
        lml_error_hint(err, "lemel recipes lists the available recipes");
        return LML_USAGE;
    }
    lml_target target = lml_find_recipe(a->word[0]);
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_json_document *about = NULL;
    lml_status status = lml_find_kit(call, &target, &kit, err);
    const lml_kit_text *text = NULL;
    if (status == LML_OK) {
        text = lml_kit_find(&kit, LML_PUT_RECIPE, target.recipe);
        status = lml_ask_inspect(&kit, text->name, &about, err);
    }
    if (status == LML_OK)
        status = put_about(call, &kit, lml_json_root(about), text->from, err);
    lml_json_free(about);
    lml_kit_free(&kit);
    return status;
}
