#include "run/near_alloy.h"

#include "value/metal.h"

#include <stdio.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static char folded(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_letter(char c)
{
    return (folded(c) >= 'a' && folded(c) <= 'z') || (unsigned char)c >= 0x80;
}

/* Take the next run of characters of a kind off the text; empty at its end. */
static lml_span next_run(lml_span *left, bool (*of)(char))
{
    const char *end = left->at + left->length, *from = left->at;
    while (from < end && !of(*from))
        from++;
    const char *to = from;
    while (to < end && of(*to))
        to++;
    *left = lml_span_between(to, end);
    return lml_span_between(from, to);
}

/* The next figure, with its decimals: of "Au999.9" that is 999.9. */
static lml_span next_figure(lml_span *left)
{
    lml_span whole = next_run(left, is_digit);
    if (whole.length == 0 || left->length == 0 || left->at[0] != '.' ||
        !lml_span_digit_at(*left, 1))
        return whole;
    next_run(left, is_digit);
    return lml_span_between(whole.at, left->at);
}

static bool begins_alike(lml_span text, lml_span start)
{
    if (start.length > text.length)
        return false;
    for (size_t i = 0; i < start.length; i++)
        if (folded(text.at[i]) != folded(start.at[i]))
            return false;
    return true;
}

static bool is_alike(lml_span a, lml_span b)
{
    return a.length == b.length && begins_alike(a, b);
}

static bool has_letters(lml_span text, lml_span run)
{
    for (lml_span own; (own = next_run(&text, is_letter)).length > 0;)
        if (is_alike(own, run))
            return true;
    return false;
}

static bool has_figure(lml_span text, lml_span figure)
{
    for (lml_span own; (own = next_figure(&text)).length > 0;)
        if (lml_span_equal(own, figure))
            return true;
    return false;
}

/* ---- the same fineness ---- */

static int number(lml_span digits)
{
    int n = 0;
    for (size_t i = 0; i < digits.length && i < 6; i++)
        n = 10 * n + (digits.at[i] - '0');
    return n;
}

/* Whether karats follow: "14K", "14 kt", "14ct". */
static bool is_karat(lml_span after)
{
    after = lml_span_trim(after);
    return begins_alike(after, lml_span_of("k")) || begins_alike(after, lml_span_of("ct"));
}

/* Whether the name says so many karats in parts per thousand: 14 kt is sold as 583 and as 585. */
static bool has_karats(lml_span name, int karats)
{
    enum { NEAR = 3 };
    int thousandths = karats * 1000 / 24;
    for (lml_span run; (run = next_run(&name, is_digit)).length > 0;) {
        int apart = number(run) - thousandths;
        if (run.length == 3 && apart >= -NEAR && apart <= NEAR)
            return true;
    }
    return false;
}

/* Whether the name has every figure that was typed; false when none was. */
static bool has_figures(lml_span name, lml_span typed)
{
    bool any = false;
    for (lml_span run; (run = next_figure(&typed)).length > 0;) {
        any = true;
        if (!has_figure(name, run) &&
            !(is_karat(typed) && run.length <= 2 && has_karats(name, number(run))))
            return false;
    }
    return any;
}

/* ---- the same words ---- */

/* A metal is written as its symbol in the names of alloys: "fine gold" is Au999.9 fine. */
static lml_span symbol_of(lml_span word)
{
    static const char *const metals[][2] = {{"gold", "Au"},
                                            {"silver", "Ag"},
                                            {"platinum", "Pt"},
                                            {"palladium", "Pd"},
                                            {"copper", "Cu"}};
    for (size_t i = 0; i < sizeof metals / sizeof *metals; i++)
        if (is_alike(word, lml_span_of(metals[i][0])))
            return lml_span_of(metals[i][1]);
    return (lml_span){"", 0};
}

static bool has_word(lml_span name, lml_span word)
{
    lml_span symbol = symbol_of(word);
    return has_letters(name, word) || (symbol.length > 0 && has_letters(name, symbol));
}

/* "14 kt": a figure's unit, and no word of a name. */
static bool is_karat_word(lml_span word)
{
    static const char *const words[] = {"k", "kt", "ct", "karat", "carat"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (is_alike(word, lml_span_of(words[i])))
            return true;
    return false;
}

/* Whether the name has every word that was typed; false when none was. */
static bool has_words(lml_span name, lml_span typed)
{
    bool any = false;
    for (lml_span word; (word = next_run(&typed, is_letter)).length > 0;) {
        if (is_karat_word(word))
            continue;
        if (!has_word(name, word))
            return false;
        any = true;
    }
    return any;
}

/* ---- candidates ---- */

/* Whether it begins so, and no figure of its goes on behind that: "Au58" is not Au585, "Au999" is
 * not Au999.9. */
static bool is_beginning(lml_span name, lml_span typed)
{
    if (!begins_alike(name, typed))
        return false;
    size_t at = typed.length, point = at < name.length && name.at[at] == '.';
    return !(at > 0 && lml_span_digit_at(typed, at - 1) && lml_span_digit_at(name, at + point));
}

enum { BEGINS = 100, FIGURES = 50 }; /* each more than a name has words */

static int likeness_of(lml_span name, lml_span typed)
{
    int likeness = begins_alike(name, typed) ? BEGINS : 0;
    likeness += has_figures(name, typed) ? FIGURES : 0;
    for (lml_span word; (word = next_run(&typed, is_letter)).length > 0;)
        likeness += !is_karat_word(word) && has_word(name, word);
    return likeness;
}

/* In whatever case it is typed. */
static bool is_symbol(lml_span word)
{
    if (word.length != 2)
        return false;
    const char c = folded(word.at[0]);
    const char text[] = {c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c, folded(word.at[1]),
                         '\0'};
    return lml_metal_by_symbol(lml_span_of(text)) != LML_NO_METAL;
}

bool lml_near_alloy_of_one_metal(lml_span a, lml_span b)
{
    lml_span first = next_run(&a, is_letter), second = next_run(&b, is_letter);
    return !is_symbol(first) || !is_symbol(second) || is_alike(first, second);
}

lml_near_alloy lml_near_alloy_to(lml_span name)
{
    return (lml_near_alloy){.nearest = lml_nearest_to(name)};
}

void lml_near_alloy_offer(lml_near_alloy *near, lml_span name)
{
    lml_span typed = near->nearest.wanted;
    lml_span figures = typed, own = name;
    bool without = next_run(&figures, is_digit).length == 0;
    bool bare = next_run(&own, is_digit).length == 0; /* "Pd fine", for "Pd999 fine" */
    if (is_beginning(name, typed) ||
        ((without || has_figures(name, typed)) && has_words(name, typed)))
        near->meant = near->meant_count++ == 0 ? name : near->meant;
    if (!begins_alike(name, typed) && !has_figures(name, typed) &&
        !((without || bare) && has_words(name, typed)))
        return;
    int likeness = likeness_of(name, typed), at = near->count;
    while (at > 0 && near->likeness[at - 1] < likeness)
        at--;
    if (at == LML_NEAR_ALLOYS)
        return;
    if (near->count < LML_NEAR_ALLOYS)
        near->count++;
    for (int i = near->count - 1; i > at; i--) {
        near->best[i] = near->best[i - 1];
        near->likeness[i] = near->likeness[i - 1];
    }
    near->best[at] = name;
    near->likeness[at] = likeness;
}

void lml_near_alloy_hint(const lml_near_alloy *near, lml_error *err)
{
    char names[300];
    size_t used = 0;
    lml_span figures = near->nearest.wanted;
    bool in_words = near->count > 0 && next_run(&figures, is_digit).length == 0;
    /* "Ag fine" is not a slip in "Cu fine" */
    if (!in_words && near->meant_count < 2 && lml_nearest_found(&near->nearest)) {
        lml_error_hint(err, "did you mean \"%.*s\"?", (int)near->nearest.best.length,
                       near->nearest.best.at);
        return;
    }
    if (near->meant_count == 1) {
        lml_error_hint(err, "did you mean \"%.*s\"?", LML_SPAN_SHOWN(near->meant));
        return;
    }
    for (int i = 0; i < near->count && near->likeness[i] % BEGINS == near->likeness[0] % BEGINS &&
                    used + near->best[i].length + 5 < sizeof names;
         i++)
        used += (size_t)snprintf(names + used, sizeof names - used, "%s\"%.*s\"", i > 0 ? ", " : "",
                                 (int)near->best[i].length, near->best[i].at);
    if (used > 0)
        lml_error_hint(err, "%s: %s; lemel alloys lists all",
                       has_figures(near->best[0], near->nearest.wanted) ? "of that fineness"
                                                                        : "names like that",
                       names);
    else
        lml_error_hint(err,
                       "lemel alloys lists the names; or put it into the house's stock, or give "
                       "its composition here");
}
