#include "sheet/page.h"
#include "value/read.h"

#include <string.h>

typedef struct level {
    const char *name;
    const char *working; /* how the bench reads it */
    const char *client;  /* how a client does */
    bool loud;
} level;

static const level levels[] = {
    {"stop", "STOP", "STOP", true},          {"confirm", "ASK", "TO SETTLE", true},
    {"caution", "CAUTION", "CAUTION", true}, {"confirmed", "CONFIRMED", "AGREED", false},
    {"note", "NOTE", "NOTE", false},
};
enum { LEVELS = sizeof levels / sizeof levels[0], TAG = 10, INDENT = 3, NARROW = 60 };
#define DEEPER LML_NO_BREAK LML_NO_BREAK LML_NO_BREAK LML_NO_BREAK

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

/* ---- the figure that somebody answers for ---- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The word that begins at `at`, without the marks that end a sentence. */
static lml_span word_at(lml_span text, size_t at)
{
    size_t to = at;
    while (to < text.length && text.at[to] != ' ')
        to++;
    while (to > at && strchr(",;:.)", text.at[to - 1]))
        to--;
    return lml_span_between(text.at + at, text.at + to);
}

/* Whether it reads as a value of that kind, once the commas that part its thousands are left out. */
static bool reads(lml_span text, lml_wanted wanted)
{
    char plain[LML_VALUE_TEXT_MOST];
    size_t length = 0;
    for (size_t i = 0; i < text.length; i++) {
        bool parts = text.at[i] == ',' && i > 0 && i + 1 < text.length && is_digit(text.at[i - 1]) &&
                     is_digit(text.at[i + 1]);
        if (length == sizeof plain)
            return false;
        if (!parts)
            plain[length++] = text.at[i];
    }
    lml_value value;
    return lml_value_read((lml_span){plain, length}, wanted, LML_NO_METAL, &value, NULL) == LML_OK;
}

/* How long the figure is that begins there: a value with its unit, a moment, a time of day; 0 when
 * none does. "14K" and the number of a name are none: they would go on holding when all else has
 * changed. */
static size_t figure_at(lml_span text, size_t at, bool *bare)
{
    lml_span first = word_at(text, at);
    *bare = reads(first, LML_WANT_NUMBER);
    if (!*bare)
        return reads(first, LML_WANT_MOMENT) || reads(first, LML_WANT_TIME_OF_DAY) ? first.length : 0;
    size_t end[3] = {0}, words = 0; /* "21.6 inHg vac" and "1.2 g Au" are three words */
    for (size_t to = at; words < 3 && to < text.length;) {
        lml_span word = word_at(text, to);
        end[words++] = (size_t)(word.at + word.length - text.at);
        to = end[words - 1] + 1;
        if (word.length == 0 || to > text.length || text.at[to - 1] != ' ')
            break;
    }
    for (size_t n = words; n > 1; n--)
        if (reads(lml_span_between(text.at + at, text.at + end[n - 1]), LML_WANT_ANYTHING))
            return end[n - 1] - at;
    return 0;
}

/* The first figure of the text, else its first bare number; empty when it has neither. */
static lml_span figure_of(lml_span text)
{
    lml_span number = {text.at, 0};
    for (size_t at = 0; at < text.length; at++) {
        bool begins = at == 0 || text.at[at - 1] == ' ' || text.at[at - 1] == '(';
        bool minus = text.at[at] == '-' && at + 1 < text.length && is_digit(text.at[at + 1]);
        bool bare = false;
        if (!begins || !(minus || is_digit(text.at[at])))
            continue;
        size_t length = figure_at(text, at, &bare);
        if (length > 0)
            return lml_span_between(text.at + at, text.at + at + length);
        if (bare && number.length == 0)
            number = word_at(text, at);
    }
    return number;
}

static bool has_digit(lml_span text)
{
    for (size_t i = 0; i < text.length; i++)
        if (is_digit(text.at[i]))
            return true;
    return false;
}

/* The very words that settle the point, ready to be copied: so each line is one that fits, and what
 * stands in quotes is not broken. */
static void draw_how_to_confirm(lml_page *page, const lml_json *remark, size_t at)
{
    lml_layout *layout = &page->layout;
    lml_span text = member_text(remark, "text"), figure = figure_of(text);
    bool asked = has_digit(text);
    lml_layout_text(
        layout, at,
        lml_span_of(!asked ? "To go on, write this into the job file, with your own words for "
                             "WHY and WHO:"
                    : figure.length > 0
                        ? "To go on, write this into the job file, with your own words for "
                          "WHY and WHO; it lapses when the figure changes:"
                        : "To go on, write this into the job file, with your own words for "
                          "WHY and WHO, and for FIGURE the one above that you accept:"));
    lml_builder words = lml_layout_scratch(layout);
    lml_append_text(&words, "\"confirmed\": {\n" LML_NO_BREAK LML_NO_BREAK);
    lml_append_span(&words, lml_json_raw(lml_json_member(remark, "code")));
    lml_append_text(&words, ": {\n" DEEPER "\"reason\": \"WHY\",\n" DEEPER "\"by\": \"WHO\"");
    if (asked) {
        lml_append_text(&words, ",\n" DEEPER "\"figure\": \"");
        for (size_t i = 0; i < figure.length; i++)
            if (figure.at[i] == ' ')
                lml_append_text(&words, LML_NO_BREAK);
            else
                lml_append_char(&words, figure.at[i]);
        lml_append_text(&words, figure.length > 0 ? "\"" : "FIGURE\"");
    }
    lml_append_text(&words, " } }");
    if (lml_builder_status(&words, NULL) == LML_OK)
        lml_layout_text(layout, at + 2, (lml_span){words.at, words.length});
    lml_layout_scrap(layout, &words);
}

void lml_remark_draw(lml_page *page, const lml_json *remark)
{
    lml_layout *layout = &page->layout;
    const level *how = level_of(remark);
    lml_builder text = lml_layout_scratch(layout);
    lml_append_span(&text, member_text(remark, "text"));
    lml_span reason = member_text(remark, "reason"), by = member_text(remark, "by");
    if (reason.length > 0) {
        bool ended = text.length > 0 && text.at[text.length - 1] == '.';
        lml_append_text(&text, ended ? " Confirmed" : ". Confirmed");
        if (by.length > 0) {
            lml_append_text(&text, " by ");
            lml_append_span(&text, by);
        }
        lml_append_text(&text, ": ");
        lml_append_span(&text, reason);
    }
    if (page->working && lml_remark_holds(remark)) { /* what a confirmation is written under */
        lml_append_text(&text, " [");
        lml_append_span(&text, member_text(remark, "code"));
        lml_append_char(&text, ']');
    }
    size_t at = INDENT + (layout->width < NARROW ? 2 : TAG);
    if (lml_builder_status(&text, NULL) == LML_OK) {
        lml_cell cells[] = {
            {lml_span_of(page->working ? how->working : how->client), INDENT, TAG, how->loud},
            {{text.at, text.length}, at, layout->width - at, false}};
        if (layout->width < NARROW) {
            lml_layout_row(layout, &cells[0], 1);
            lml_layout_row(layout, &cells[1], 1);
        } else {
            lml_layout_row(layout, cells, 2);
        }
    }
    lml_layout_scrap(layout, &text);
    if (page->working && lml_span_is(member_text(remark, "level"), "confirm"))
        draw_how_to_confirm(page, remark, at);
}
