#include "cli/spoken.h"

#include "read/read.h"

#include <stdio.h>
#include <string.h>

static const lml_span nothing = {"", 0};
enum { LONGEST = 3 /* 925 ‰ Ag, 2 1/2 dwt */ };

lml_span lml_spoken_words(const lml_said_words *s, lml_phrase p)
{
    if (p.first >= p.end)
        return nothing;
    return (lml_span){s->text.at + s->at[p.first], s->end[p.end - 1] - s->at[p.first]};
}

/* In small letters or capitals. */
static bool is_said(lml_span word, const char *wanted)
{
    size_t i = 0;
    for (; i < word.length && wanted[i]; i++) {
        char c = word.at[i];
        if ((c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c) != wanted[i])
            return false;
    }
    return word.length > 0 && i == word.length && !wanted[i];
}

static bool is_one_of(const lml_said_words *s, size_t word, const char *const *list)
{
    lml_span is = word < s->count ? lml_spoken_words(s, (lml_phrase){word, word + 1}) : nothing;
    for (; *list; list++)
        if (is_said(is, *list))
            return true;
    return false;
}

bool lml_spoken_is_word(const lml_said_words *s, size_t word, const char *wanted)
{
    return is_one_of(s, word, (const char *const[]){wanted, NULL});
}

static bool reads(lml_span text, lml_wanted want, lml_metal metal)
{
    lml_value ignored;
    return lml_read_value(text, want, metal, &ignored, NULL) == LML_OK;
}

/* "585" of "585 gold": three digits, as stamps have them. */
static bool is_thousandths(lml_span text)
{
    return text.length == 3 && lml_span_digit_at(text, 0) && lml_span_digit_at(text, 1) &&
           lml_span_digit_at(text, 2);
}

static const char *symbol_of(lml_span word)
{
    static const char *const metals[][2] = {
        {"gold", "Au"}, {"silver", "Ag"}, {"platinum", "Pt"}, {"palladium", "Pd"}};
    for (size_t i = 0; i < sizeof metals / sizeof *metals; i++)
        if (lml_span_is(word, metals[i][0]))
            return metals[i][1];
    return NULL;
}

/* "14k", "14 karat": what is said of gold in twenty-fourths, but is no unit of ours. */
static bool write_karats(lml_span text, char out[LML_SPOKEN_TEXT])
{
    size_t digits = 0;
    while (lml_span_digit_at(text, digits))
        digits++;
    lml_span word = lml_span_trim((lml_span){text.at + digits, text.length - digits});
    if (digits == 0 || digits > 2 ||
        !(is_said(word, "k") || is_said(word, "karat") || is_said(word, "carat")))
        return false;
    snprintf(out, LML_SPOKEN_TEXT, "%.*s kt", (int)digits, text.at);
    return true;
}

/* A fineness as a caller says it, to be written "585 ‰ Au": a number and the name of its metal, or
 * sterling, which is 925 of silver (15 U.S.C. 296). 925 by itself is silver: no other metal has a
 * mark of it (Hallmarking Convention, Annex I 2.2). Other bare numbers are of two metals or more.
 */
bool lml_spoken_write(lml_span text, char out[LML_SPOKEN_TEXT])
{
    if (write_karats(text, out))
        return true;
    const char *blank = memchr(text.at, ' ', text.length);
    lml_span one = {text.at, blank ? (size_t)(blank - text.at) : text.length};
    lml_span other = blank ? lml_span_between(blank + 1, text.at + text.length) : nothing;
    if (is_thousandths(other)) {
        lml_span swapped = one;
        one = other;
        other = swapped;
    }
    const char *symbol = symbol_of(other);
    bool sterling = lml_span_is(one, "sterling") || lml_span_is(one, "925");
    if (sterling && (!blank || (symbol && strcmp(symbol, "Ag") == 0)))
        snprintf(out, LML_SPOKEN_TEXT, "925 ‰ Ag");
    else if (is_thousandths(one) && symbol)
        snprintf(out, LML_SPOKEN_TEXT, "%.3s ‰ %s", one.at, symbol);
    else
        return false;
    return true;
}

/* "14 kt" is a fineness, and so are "925 ‰ Ag" and "sterling"; anything else is the name of a
 * metal. */
bool lml_spoken_is_fineness(lml_span text)
{
    static const lml_metal metals[] = {LML_Au, LML_Ag, LML_Pt, LML_Pd};
    char spoken[LML_SPOKEN_TEXT];
    bool is = lml_spoken_write(text, spoken);
    for (size_t i = 0; i < sizeof metals / sizeof metals[0] && !is; i++)
        is = reads(text, LML_WANT_FINENESS, metals[i]);
    return is;
}

/* The most words from `first` on that are a mass; 0 if none are. */
static size_t mass_at(const lml_said_words *s, size_t first, size_t end)
{
    for (size_t n = end - first < LONGEST ? end - first : LONGEST; n > 0; n--)
        if (reads(lml_spoken_words(s, (lml_phrase){first, first + n}), LML_WANT_MASS, LML_NO_METAL))
            return n;
    return 0;
}

/* The most words from `first` on that are a fineness; 0 if none are. The 925 of 925 g is none. */
static size_t fineness_at(const lml_said_words *s, size_t first, size_t end)
{
    for (size_t n = end - first < LONGEST ? end - first : LONGEST; n > 0; n--)
        if (lml_spoken_is_fineness(lml_spoken_words(s, (lml_phrase){first, first + n})))
            return n == 1 && mass_at(s, first, end) > 1 ? 0 : n;
    return 0;
}

bool lml_spoken_is_number(const lml_said_words *s, size_t word)
{
    return word < s->count &&
           lml_span_digit_at(lml_spoken_words(s, (lml_phrase){word, word + 1}), 0);
}

static const char *const articles[] = {"a", "an", "the", "and", "one", NULL};
/* "about": all that a caller says is. */
static const char *const between[] = {"of",      "old",           "in",    "about", "around",
                                      "roughly", "approximately", "maybe", NULL};

static bool is_small(const lml_said_words *s, size_t word)
{
    return is_one_of(s, word, articles) || is_one_of(s, word, between);
}

/* ---- how many ---- */

/* A whole number below 100, alone or as "2x". */
static int read_whole(lml_span word)
{
    size_t digits = 0;
    int n = 0;
    for (; digits < word.length && lml_span_digit_at(word, digits); digits++)
        n = digits < 2 ? 10 * n + (word.at[digits] - '0') : 0;
    lml_span rest = {word.at + digits, word.length - digits};
    return rest.length == 0 || lml_span_is(rest, "x") || lml_span_is(rest, "×") ? n : 0;
}

static bool is_times(const lml_said_words *s, size_t word)
{
    return is_one_of(s, word, (const char *const[]){"x", "×", "times", NULL});
}

static bool ends_in_times(const lml_said_words *s, lml_phrase count)
{
    size_t last = count.end > count.first ? count.end - 1 : s->count;
    lml_span word = lml_spoken_words(s, (lml_phrase){last, last + 1});
    return is_times(s, last) ||
           (lml_spoken_is_number(s, last) && !lml_span_digit_at(word, word.length - 1));
}

/* "3" of "3 rings of 6 g" counts; of "3 grams of 18 kt" it is a mass, wrong as it is. */
static bool is_count(const lml_said_words *s, size_t first, size_t end)
{
    size_t next = first + 1;
    if (read_whole(lml_spoken_words(s, (lml_phrase){first, next})) == 0 ||
        mass_at(s, first, end) > 0 || fineness_at(s, first, end) > 0)
        return false;
    while (next < end && !lml_spoken_is_number(s, next))
        next++;
    return is_times(s, first + 1) || (next < end && (next == first + 1 || mass_at(s, next, end)));
}

/* The words from `first` on that say how many; 0 if none do. */
static size_t count_at(const lml_said_words *s, size_t first, size_t end, int *count)
{
    static const char *const numbers[] = {"two",   "three", "four", "five",   "six",   "seven",
                                          "eight", "nine",  "ten",  "eleven", "twelve"};
    lml_span word = lml_spoken_words(s, (lml_phrase){first, first + 1});
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (is_said(word, numbers[i])) {
            *count = (int)i + 2;
            return 1;
        }
    if (is_one_of(s, first, (const char *const[]){"pair", "pairs", "couple", NULL})) {
        *count = 2;
        return 1 + lml_spoken_is_word(s, first + 1, "of");
    }
    if (!is_count(s, first, end))
        return 0;
    *count = read_whole(word);
    return 1 + is_times(s, first + 1);
}

/* ---- a piece ---- */

bool lml_spoken_is_whole(const lml_spoken_piece *p)
{
    return p->mass.end > p->mass.first && p->metal.end > p->metal.first;
}

/* With the small words that part it from the one before: "bag of rings". */
static void add_name(const lml_said_words *s, lml_spoken_piece *p, size_t word)
{
    size_t from = p->names > 0 ? p->name[p->names - 1] + 1 : word;
    for (size_t i = from; i < word; i++)
        if (!is_small(s, i))
            from = word;
    for (; from <= word; from++)
        p->name[p->names++] = from;
}

/* "18 kt gold" is no more than 18 kt; which metal it is, the fineness says. */
static bool take_spoken(const lml_said_words *s, lml_spoken_piece *p, size_t word)
{
    if (p->spoken.end > p->spoken.first ||
        !symbol_of(lml_spoken_words(s, (lml_phrase){word, word + 1})))
        return false;
    p->spoken = (lml_phrase){word, word + 1};
    return true;
}

/* "925 sterling silver" */
static bool says_again(const lml_said_words *s, const lml_spoken_piece *p, lml_phrase metal)
{
    char first[LML_SPOKEN_TEXT], second[LML_SPOKEN_TEXT];
    return p->metal.end > p->metal.first &&
           lml_spoken_write(lml_spoken_words(s, p->metal), first) &&
           lml_spoken_write(lml_spoken_words(s, metal), second) && strcmp(first, second) == 0;
}

/* What a piece may be said to be once. Returns how many words it takes; 0 if none of it. */
static size_t take_figure(const lml_said_words *s, lml_spoken_piece *p, size_t at, size_t end)
{
    int count = 0;
    size_t words = count_at(s, at, end, &count);
    lml_phrase *part = &p->how_many;
    if (words == 0 && (words = fineness_at(s, at, end)) > 0)
        part = &p->metal;
    if (words == 0 && lml_spoken_is_number(s, at)) {
        /* what is no mass is taken as one, with the unit behind it: the run says what is wrong */
        words = mass_at(s, at, end);
        words = words > 0 ? words : at + 1 < end && !lml_spoken_is_number(s, at + 1) ? 2 : 1;
        part = &p->mass;
    }
    if (part == &p->metal && says_again(s, p, (lml_phrase){at, at + words}))
        return words;
    if (words == 0 || part->end > part->first)
        return 0;
    *part = (lml_phrase){at, at + words};
    if (part == &p->how_many)
        p->count = count;
    else if (part == &p->mass && p->how_many.end == at && ends_in_times(s, p->how_many))
        p->each = true; /* "2 x 6 g" */
    return words;
}

static bool begins_figure(const lml_said_words *s, size_t at, size_t end)
{
    int ignored;
    return lml_spoken_is_number(s, at) || count_at(s, at, end, &ignored) > 0 ||
           fineness_at(s, at, end) > 0;
}

/* A colour says nothing of a weight or a price: it is part of the name, wherever it is said. */
static const char *const colours[] = {"yellow", "white", "rose", "red",
                                      "pink",   "green", "grey", NULL};
static const char *const each[] = {"each", "apiece", NULL};
static const char *const together[] = {"together", "altogether", NULL};

/* The words of one piece; returns where they end, at what is of the next one or is too much. */
size_t lml_spoken_read_piece(const lml_said_words *s, size_t at, size_t end, lml_spoken_piece *p)
{
    while (at < end) {
        bool whole = lml_spoken_is_whole(p);
        if (whole && (s->comma[at - 1] || is_one_of(s, at, articles)))
            break;
        size_t words = 1;
        if (is_one_of(s, at, each))
            p->each = true;
        else if (is_one_of(s, at, together))
            p->together = true;
        else if (begins_figure(s, at, end))
            words = take_figure(s, p, at, end);
        else if (is_one_of(s, at, colours))
            add_name(s, p, at);
        else if (!is_small(s, at) && !take_spoken(s, p, at)) {
            words = whole && p->named ? 0 : 1;
            if (words > 0)
                add_name(s, p, at);
        }
        if (words == 0)
            break;
        if (!whole && lml_spoken_is_whole(p))
            p->named = p->names > 0;
        if (words > 1 || !is_small(s, at))
            p->all = (lml_phrase){p->all.end > 0 ? p->all.first : at, at + words};
        at += words;
    }
    return at;
}
/* The name of an alloy, where no fineness is said: behind the last "in", or else behind the mass.
 */
lml_phrase lml_spoken_find_alloy(const lml_said_words *s, size_t end)
{
    size_t first = end;
    for (size_t i = 0; i < end; i++)
        if (fineness_at(s, i, end) > 0)
            return (lml_phrase){end, end};
    for (size_t i = 0; i < end; i++)
        if (lml_spoken_is_word(s, i, "in"))
            first = i + 1;
    for (size_t i = 0; i < end && first == end; i++)
        if (mass_at(s, i, end) > 0)
            first = i + mass_at(s, i, end);
    while (end > first && (is_one_of(s, end - 1, each) || is_one_of(s, end - 1, together)))
        end--;
    return (lml_phrase){first, end};
}

bool lml_spoken_is_of_two_metals(const lml_said_words *s, const lml_spoken_piece *p)
{
    lml_value fineness;
    lml_span word = lml_spoken_words(s, p->spoken), metal = lml_spoken_words(s, p->metal);
    char spoken[LML_SPOKEN_TEXT];
    if (word.length == 0)
        return false;
    metal = lml_spoken_write(metal, spoken) ? lml_span_of(spoken) : metal;
    return lml_read_value(metal, LML_WANT_FINENESS, LML_NO_METAL, &fineness, NULL) == LML_OK &&
           strcmp(lml_metal_symbol((lml_metal)fineness.metal), symbol_of(word)) != 0;
}
