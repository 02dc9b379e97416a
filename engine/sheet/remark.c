#include "sheet/remark.h"

#include "base/letter.h"
#include "base/shell.h"

#include <string.h>

typedef struct level {
    const char *name;
    const char *working; /* how the bench reads it: at the column `margin` */
    size_t margin;
    const char *client; /* how a client does */
    bool loud;
} level;

static const level levels[] = {
    {"stop", "STOP", 0, "STOP", true},    {"confirm", "ASK", 0, "TO DECIDE", true},
    {"caution", "!", 2, "CAUTION", true}, {"confirmed", "", 2, "AGREED", false},
    {"note", "", 2, "NOTE", false},
};
enum { LEVELS = sizeof levels / sizeof levels[0], TAG = 10, INDENT = 4, NARROW = 60 };

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static const level *level_of(const lml_json *remark)
{
    lml_span name = member_text(remark, "level");
    for (size_t i = 0; i < LEVELS; i++)
        if (lml_span_is(name, levels[i].name))
            return &levels[i];
    return &levels[LEVELS - 1];
}

bool lml_remark_holds(const lml_json *remark)
{
    lml_span name = member_text(remark, "level");
    return lml_span_is(name, "stop") || lml_span_is(name, "confirm");
}

/* Whether `full` is "recipe/rest" or "recipe.rest", or bare `rest`; rest NULL is any. */
static bool belongs(lml_span full, lml_span recipe, char mark, const lml_span *rest)
{
    lml_span tail = full;
    if (recipe.length > 0 && full.length > recipe.length && full.at[recipe.length] == mark &&
        lml_span_equal((lml_span){full.at, recipe.length}, recipe))
        tail = (lml_span){full.at + recipe.length + 1, full.length - recipe.length - 1};
    else if (!rest)
        return false;
    return !rest || lml_span_equal(tail, *rest);
}

static bool names_give(const lml_json *remark, lml_span recipe, lml_span give)
{
    const lml_json *item = lml_json_first(lml_json_member(remark, "withholds"));
    for (; item; item = lml_json_next(item))
        if (belongs(lml_json_text(item), recipe, '.', &give))
            return true;
    return false;
}

const lml_json *lml_remark_called(const lml_json *result, lml_span code)
{
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    while (remark && !lml_span_equal(member_text(remark, "code"), code))
        remark = lml_json_next(remark);
    return code.length > 0 ? remark : NULL;
}

const lml_json *lml_remark_withholding(const lml_json *result, lml_span recipe, lml_span give)
{
    const lml_json *of_recipe = NULL, *any = NULL;
    size_t of_recipe_count = 0, any_count = 0;
    const lml_json *remark = lml_json_first(lml_json_member(result, "remarks"));
    for (; remark; remark = lml_json_next(remark)) {
        if (!lml_remark_holds(remark))
            continue;
        if (give.length > 0 && names_give(remark, recipe, give))
            return remark;
        any = remark;
        any_count++;
        if (belongs(member_text(remark, "code"), recipe, '/', NULL)) {
            of_recipe = remark;
            of_recipe_count++;
        }
    }
    if (of_recipe_count > 0)
        return of_recipe_count == 1 ? of_recipe : NULL;
    return any_count == 1 ? any : NULL;
}

/* The command that confirms the point, ready to be copied: a line that goes on ends in a backslash.
 */
static void put_confirm_line(lml_layout *layout, const lml_json *remark, size_t at, lml_span file,
                             lml_span typed)
{
    enum { GOES_ON = 2 }; /* columns of " \\" */
    lml_builder quoted = lml_layout_scratch(layout);
    lml_shell_add_word(&quoted, file);
    const lml_span words[] = {
        lml_span_of("lemel confirm"), {quoted.at ? quoted.at : "", quoted.length},
        member_text(remark, "code"),  typed,
        lml_span_of("--by WHO"),      lml_span_of("--reason WHY")};
    size_t used = 0, count = sizeof words / sizeof *words;
    for (size_t i = 0; i < count; i++) {
        if (words[i].length == 0)
            continue;
        size_t wide = lml_letter_columns_of(words[i]), ends = i + 1 < count ? GOES_ON : 0;
        if (i > 0 && used + 1 + wide + ends > layout->width) {
            lml_builder_add_text(layout->out, " \\\n");
            used = 0;
        }
        size_t blanks = used > 0 ? 1 : at + (i > 0 ? 2 : 0);
        lml_builder_add_format(layout->out, "%*s", (int)blanks, "");
        lml_layout_put(layout->out, words[i]);
        used += blanks + wide;
    }
    lml_builder_add_char(layout->out, '\n');
    lml_layout_scrap(layout, &quoted);
}

static void draw_how_to_confirm(lml_page *page, const lml_json *remark, size_t at)
{
    lml_layout *layout = &page->layout;
    const lml_json *job = lml_json_member(lml_json_member(page->result, "inputs"), "job");
    lml_span file = member_text(job, "file");
    bool kept = file.length > 5 && memcmp(file.at + file.length - 5, ".json", 5) == 0,
         all = lml_json_yes(lml_json_member(remark, "all_jobs"));
    if (lml_json_yes(lml_json_member(remark, "lapsed")))
        lml_layout_text(layout, at,
                        lml_span_of("It was confirmed before with a different text: confirm it "
                                    "again."));
    lml_span house = member_text(remark, "house");
    if (lml_span_is(house, "stale"))
        lml_layout_text(layout, at,
                        lml_span_of("The house confirmed it for all jobs until a day before this "
                                    "job's: look it up again."));
    else if (house.length > 0)
        lml_layout_text(layout, at,
                        lml_span_of("The house confirmed it for all jobs, but for other words."));
    lml_layout_text(layout, at,
                    lml_span_of(!kept ? "To go on, keep the job in a file:"
                                : all ? "To go on (with --all --until" LML_NO_BREAK
                                        "DATE for all jobs):"
                                      : "To go on:"));
    put_confirm_line(layout, remark, at + 2, kept ? file : lml_span_of("JOB"), page->typed);
}

lml_span lml_remark_first_clause(lml_span text)
{
    for (size_t i = 0; i + 1 < text.length; i++)
        if (text.at[i + 1] == ' ' && strchr(".:;", text.at[i]))
            return (lml_span){text.at, i};
    if (text.length > 0 && text.at[text.length - 1] == '.')
        text.length--;
    return text;
}

/* The bench works by the reason, which says what is done; what was asked is behind it. */
static void write_confirmed(const lml_page *page, const lml_json *remark, lml_builder *out)
{
    lml_span text = member_text(remark, "text"), by = member_text(remark, "by");
    lml_days days = lml_page_days(page);
    lml_span reason = member_text(remark, "reason");
    if (page->working) {
        lml_builder_add_text(out, "Confirmed by ");
        lml_builder_add_span(out, by);
        lml_builder_add_text(out, ": ");
        lml_days_put_sentence(days, reason, out);
        lml_builder_add_text(out, " (");
        lml_days_put_sentence(days, lml_remark_first_clause(text), out);
        lml_builder_add_char(out, ')');
        return;
    }
    bool ended = text.length > 0 && text.at[text.length - 1] == '.';
    lml_days_put_sentence(days, text, out);
    lml_builder_add_text(out, ended ? " Confirmed" : ". Confirmed");
    if (by.length > 0) {
        lml_builder_add_text(out, " by ");
        lml_builder_add_span(out, by);
    }
    lml_builder_add_text(out, ": ");
    lml_days_put_sentence(days, reason, out);
}

lml_span lml_remark_text(const lml_json *remark)
{
    lml_span text = member_text(remark, "text");
    return lml_span_is(text, "\342\200\246") ? lml_span_of(LML_LEFT_OUT) : text;
}

static void write_text(const lml_page *page, const lml_json *remark, lml_builder *out)
{
    bool confirmed = member_text(remark, "reason").length > 0 &&
                     !lml_json_yes(lml_json_member(remark, "lapsed"));
    if (confirmed)
        write_confirmed(page, remark, out);
    else
        lml_days_put_sentence(lml_page_days(page), lml_remark_text(remark), out);
    if (page->working && lml_remark_holds(remark)) { /* what a confirmation is written under */
        lml_builder_add_text(out, " [");
        lml_builder_add_span(out, member_text(remark, "code"));
        lml_builder_add_char(out, ']');
    }
}

/* On a working page what is to be heeded has its mark in the margin, and the rest none. */
static size_t draw_working(lml_page *page, const level *how, lml_span text)
{
    lml_layout *layout = &page->layout;
    bool held = how->margin == 0 && how->loud;
    size_t at = held ? strlen(how->working) + 1 : INDENT;
    lml_cell cells[] = {{lml_span_of(how->working), how->margin, INDENT, how->loud},
                        {text, at, layout->width - at, false}};
    lml_layout_row(layout, cells, 2);
    return at;
}

static void draw_given(lml_page *page, const level *how, lml_span text)
{
    lml_layout *layout = &page->layout;
    size_t at = INDENT + (layout->width < NARROW ? 2 : TAG);
    lml_cell cells[] = {{lml_span_of(how->client), INDENT, TAG, how->loud},
                        {text, at, layout->width - at, false}};
    if (layout->width < NARROW) {
        lml_layout_row(layout, &cells[0], 1);
        lml_layout_row(layout, &cells[1], 1);
    } else {
        lml_layout_row(layout, cells, 2);
    }
}

void lml_remark_draw(lml_page *page, const lml_json *remark)
{
    const level *how = level_of(remark);
    lml_builder text = lml_layout_scratch(&page->layout);
    size_t at = INDENT;
    write_text(page, remark, &text);
    if (lml_builder_status(&text, NULL) == LML_OK) {
        if (page->working)
            at = draw_working(page, how, (lml_span){text.at, text.length});
        else
            draw_given(page, how, (lml_span){text.at, text.length});
    }
    lml_layout_scrap(&page->layout, &text);
    if (page->working && lml_span_is(member_text(remark, "level"), "confirm"))
        draw_how_to_confirm(page, remark, at);
}

void lml_remark_draw_withheld(lml_page *page, const lml_json *entry)
{
    enum { WITHHELD = 4 };
    const lml_json *remark =
        lml_remark_called(page->result, lml_json_text(lml_json_member(entry, "withheld_by")));
    lml_span why = lml_json_text(lml_json_member(remark, "text"));
    if (why.length == 0)
        why = lml_span_of("the reasons are beside STOP and ASK");
    if (!page->working)
        why = lml_span_of("not resolved yet: please ask the studio");
    lml_cell cells[] = {{lml_span_of("DO NOT"), WITHHELD, 6, true},
                        {why, WITHHELD + 8, page->layout.width - WITHHELD - 8, false}};
    lml_layout_row(&page->layout, cells, 2);
}
