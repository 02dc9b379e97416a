#include "base/letter.h"

#include <string.h>

typedef struct code_range {
    uint32_t first, last;
} code_range;

/* Default_Ignorable_Code_Point (Unicode Standard 15, DerivedCoreProperties.txt: from memory,
 * unverified), the controls of both halves of Latin-1, the separators of lines and paragraphs,
 * interlinear annotation, and the pattern of no dots of Braille. */
static const code_range hidden[] = {
    {0x0000, 0x001f}, {0x007f, 0x009f}, {0x00ad, 0x00ad},   {0x034f, 0x034f},   {0x061c, 0x061c},
    {0x115f, 0x1160}, {0x17b4, 0x17b5}, {0x180b, 0x180f},   {0x200b, 0x200f},   {0x2028, 0x202e},
    {0x2060, 0x206f}, {0x2800, 0x2800}, {0x3164, 0x3164},   {0xfe00, 0xfe0f},   {0xfeff, 0xfeff},
    {0xffa0, 0xffa0}, {0xfff0, 0xfffb}, {0x1bca0, 0x1bca3}, {0x1d173, 0x1d17a}, {0xe0000, 0xe0fff},
};

/* Marks on the letter before them, and formatting characters: by blocks of the Unicode
 * Standard (general categories Mn, Me, Cf), without those of scripts that need shaping anyway. */
static const code_range zero_columns[] = {
    {0x0300, 0x036f}, {0x0483, 0x0489},   {0x0591, 0x05bd},   {0x064b, 0x065f}, {0x1ab0, 0x1aff},
    {0x1dc0, 0x1dff}, {0x200b, 0x200f},   {0x202a, 0x202e},   {0x2060, 0x2064}, {0x2066, 0x206f},
    {0x20d0, 0x20f0}, {0x302a, 0x302d},   {0x3099, 0x309a},   {0xfe00, 0xfe0f}, {0xfe20, 0xfe2f},
    {0xfeff, 0xfeff}, {0xe0001, 0xe007f}, {0xe0100, 0xe01ef},
};

/* East Asian Width W and F (Unicode Standard Annex #11), neighbouring ranges joined. */
static const code_range two_columns[] = {
    {0x1100, 0x115f},   {0x231a, 0x231b},   {0x2329, 0x232a},   {0x23e9, 0x23ec},
    {0x23f0, 0x23f0},   {0x23f3, 0x23f3},   {0x25fd, 0x25fe},   {0x2614, 0x2615},
    {0x2648, 0x2653},   {0x267f, 0x267f},   {0x2693, 0x2693},   {0x26a1, 0x26a1},
    {0x26aa, 0x26ab},   {0x26bd, 0x26be},   {0x26c4, 0x26c5},   {0x26ce, 0x26ce},
    {0x26d4, 0x26d4},   {0x26ea, 0x26ea},   {0x26f2, 0x26f3},   {0x26f5, 0x26f5},
    {0x26fa, 0x26fa},   {0x26fd, 0x26fd},   {0x2705, 0x2705},   {0x270a, 0x270b},
    {0x2728, 0x2728},   {0x274c, 0x274c},   {0x274e, 0x274e},   {0x2753, 0x2755},
    {0x2757, 0x2757},   {0x2795, 0x2797},   {0x27b0, 0x27b0},   {0x27bf, 0x27bf},
    {0x2b1b, 0x2b1c},   {0x2b50, 0x2b50},   {0x2b55, 0x2b55},   {0x2e80, 0x303e},
    {0x3041, 0x4dbf},   {0x4e00, 0xa4c6},   {0xa960, 0xa97c},   {0xac00, 0xd7a3},
    {0xf900, 0xfaff},   {0xfe10, 0xfe19},   {0xfe30, 0xfe6b},   {0xff01, 0xff60},
    {0xffe0, 0xffe6},   {0x16fe0, 0x18cff}, {0x1aff0, 0x1b2fb}, {0x1f004, 0x1f004},
    {0x1f0cf, 0x1f0cf}, {0x1f18e, 0x1f18e}, {0x1f191, 0x1f19a}, {0x1f200, 0x1f320},
    {0x1f32d, 0x1f335}, {0x1f337, 0x1f37c}, {0x1f37e, 0x1f393}, {0x1f3a0, 0x1f3ca},
    {0x1f3cf, 0x1f3d3}, {0x1f3e0, 0x1f3f0}, {0x1f3f4, 0x1f3f4}, {0x1f3f8, 0x1f43e},
    {0x1f440, 0x1f440}, {0x1f442, 0x1f4fc}, {0x1f4ff, 0x1f53d}, {0x1f54b, 0x1f567},
    {0x1f57a, 0x1f57a}, {0x1f595, 0x1f596}, {0x1f5a4, 0x1f5a4}, {0x1f5fb, 0x1f64f},
    {0x1f680, 0x1f6c5}, {0x1f6cc, 0x1f6cc}, {0x1f6d0, 0x1f6d2}, {0x1f6d5, 0x1f6d7},
    {0x1f6dc, 0x1f6df}, {0x1f6eb, 0x1f6ec}, {0x1f6f4, 0x1f6fc}, {0x1f7e0, 0x1f7f0},
    {0x1f90c, 0x1f93a}, {0x1f93c, 0x1f945}, {0x1f947, 0x1f9ff}, {0x1fa70, 0x1faff},
    {0x20000, 0x3fffd},
};

static bool stands_in(const code_range *ranges, size_t count, uint32_t code)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (code > ranges[middle].last)
            low = middle + 1;
        else if (code < ranges[middle].first)
            high = middle;
        else
            return true;
    }
    return false;
}

size_t lml_letter_columns(uint32_t code)
{
    if (code < 0x300)
        return 1;
    if (stands_in(zero_columns, sizeof zero_columns / sizeof *zero_columns, code))
        return 0;
    return stands_in(two_columns, sizeof two_columns / sizeof *two_columns, code) ? 2 : 1;
}

bool lml_letter_hides(uint32_t code)
{
    if (code < 0x7f)
        return code < 0x20;
    return stands_in(hidden, sizeof hidden / sizeof *hidden, code);
}

const char *lml_letter_fault(uint32_t code)
{
    if (code < 0x20 || (code >= 0x7f && code <= 0x9f))
        return "a control character";
    return lml_letter_hides(code) ? "an invisible character" : "too many marks on a letter";
}

/* Letters of other alphabets that are drawn as Latin ones (after Unicode Technical Standard #39,
 * confusables.txt: from memory, unverified). The Greek small letters that units and figures need
 * keep to themselves. */
static const struct {
    uint16_t code;
    char like;
} look_alikes[] = {
    {0x0391, 'A'}, {0x0392, 'B'}, {0x0395, 'E'}, {0x0396, 'Z'}, {0x0397, 'H'}, {0x0399, 'I'},
    {0x039a, 'K'}, {0x039c, 'M'}, {0x039d, 'N'}, {0x039f, 'O'}, {0x03a1, 'P'}, {0x03a4, 'T'},
    {0x03a5, 'Y'}, {0x03a7, 'X'}, {0x03bf, 'o'}, {0x03bd, 'v'}, {0x0405, 'S'}, {0x0406, 'I'},
    {0x0408, 'J'}, {0x0410, 'A'}, {0x0412, 'B'}, {0x0415, 'E'}, {0x041a, 'K'}, {0x041c, 'M'},
    {0x041d, 'H'}, {0x041e, 'O'}, {0x0420, 'P'}, {0x0421, 'C'}, {0x0422, 'T'}, {0x0423, 'Y'},
    {0x0425, 'X'}, {0x0430, 'a'}, {0x0435, 'e'}, {0x043e, 'o'}, {0x0440, 'p'}, {0x0441, 'c'},
    {0x0443, 'y'}, {0x0445, 'x'}, {0x0455, 's'}, {0x0456, 'i'}, {0x0458, 'j'}, {0x0501, 'd'},
    {0x050c, 'G'}, {0x051b, 'q'}, {0x051d, 'w'}, {0x0261, 'g'}, {0x0131, 'i'}, {0x13a2, 'I'},
    {0x13aa, 'A'}, {0x13d9, 'T'},
};

uint32_t lml_letter_latin(uint32_t code)
{
    if (code < 0x131)
        return code;
    for (size_t i = 0; i < sizeof look_alikes / sizeof *look_alikes; i++)
        if (look_alikes[i].code == code)
            return (uint32_t)look_alikes[i].like;
    if (code >= 0xff01 && code <= 0xff5e) /* full-width */
        return code - 0xff01 + '!';
    if (code >= 0x1d400 &&
        code <= 0x1d6a3) { /* mathematical letters: capitals, then small ones, style by style */
        uint32_t n = (code - 0x1d400) % 52;
        return n < 26 ? 'A' + n : 'a' + n - 26;
    }
    return code;
}

bool lml_letter_find_mixed(lml_span text, uint32_t *code, uint32_t *like)
{
    bool latin = false, other = false;
    for (size_t at = 0, bytes; at < text.length; at += bytes) {
        uint32_t c;
        bytes = lml_utf8_next((lml_span){text.at + at, text.length - at}, &c);
        if (bytes == 0)
            return false;
        uint32_t as = lml_letter_latin(c);
        bool letter = (as >= 'A' && as <= 'Z') || (as >= 'a' && as <= 'z');
        latin = letter && (latin || as == c);
        other = letter && (other || as != c);
        if (letter && as != c) {
            *code = c;
            *like = as;
        }
        if (latin && other)
            return true;
    }
    return false;
}

size_t lml_letter_plain(lml_span text)
{
    const uint64_t ones = 0x0101010101010101, tops = 0x8080808080808080;
    uint64_t eight;
    size_t at = 0;
    for (; at + sizeof eight <= text.length; at += sizeof eight) {
        memcpy(&eight, text.at + at, sizeof eight);
        /* With the top bit of a byte set, taking 0x20 away clears it where the byte is less; adding
         * one sets it where the byte is 0x7f. Neither reaches the byte beside it. */
        uint64_t not_less = ((eight | tops) - ones * 0x20) & tops;
        if (not_less != tops || ((eight | (eight + ones)) & tops))
            break;
    }
    while (at < text.length && (unsigned char)(text.at[at] - 0x20) < 0x5f)
        at++;
    return at;
}

/* The eight bytes, of which `a` and `b` are so many: a top bit where a byte is not plain, or is one
 * of the two. What is borrowed may set one more, behind the first. */
static uint64_t odd_in(const char *at, uint64_t eight_a, uint64_t eight_b)
{
    const uint64_t ones = 0x0101010101010101, tops = 0x8080808080808080;
    uint64_t eight;
    memcpy(&eight, at, sizeof eight);
    return ((eight | (eight + ones) | (eight - ones * 0x20) | ((eight ^ eight_a) - ones) |
             ((eight ^ eight_b) - ones)) &
            tops);
}

/* Which of eight bytes is the first with its top bit set; where it is not the lowest in a number,
 * or the compiler cannot tell, 0: then they are looked at one by one. */
static size_t first_of(uint64_t tops)
{
#if defined(__GNUC__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__
    return (size_t)__builtin_ctzll(tops) / 8;
#else
    (void)tops;
    return 0;
#endif
}

size_t lml_letter_plain_to(lml_span text, char a, char b)
{
    enum { FOUR = 4, EIGHT = 8 };
    const uint64_t ones = 0x0101010101010101;
    const uint64_t eight_a = ones * (unsigned char)a, eight_b = ones * (unsigned char)b;
    uint64_t odd = 0;
    size_t at = 0;
    while (at + EIGHT <= text.length && !(odd = odd_in(text.at + at, eight_a, eight_b)))
        at += EIGHT;
    /* Four to eight are looked at as eight, of which some are the same. */
    if (text.length >= FOUR && text.length < EIGHT) {
        char eight[EIGHT];
        memcpy(eight, text.at, FOUR);
        memcpy(eight + FOUR, text.at + text.length - FOUR, FOUR);
        if (!odd_in(eight, eight_a, eight_b))
            return text.length;
    }
    /* The last eight again, and not what is left of them byte by byte. */
    if (text.length >= EIGHT && !odd && at < text.length) {
        at = text.length - EIGHT;
        odd = odd_in(text.at + at, eight_a, eight_b);
        if (!odd)
            return text.length;
    }
    at += odd ? first_of(odd) : 0;
    while (at < text.length && (unsigned char)(text.at[at] - 0x20) < 0x5f && text.at[at] != a &&
           text.at[at] != b)
        at++;
    return at;
}

size_t lml_letter_find_hidden(lml_span text, const char *allowed, uint32_t *code)
{
    enum { MARKS_MOST = 3 }; /* Vietnamese and the languages of the Latin letter take two */
    size_t at = 0, marks = 0;
    while (at < text.length) {
        size_t plain = lml_letter_plain((lml_span){text.at + at, text.length - at});
        if (plain > 0) {
            marks = 0;
            at += plain;
            continue;
        }
        if (!text.at[at] || !strchr(allowed, text.at[at])) {
            size_t length = lml_utf8_next((lml_span){text.at + at, text.length - at}, code);
            marks = *code >= 0x300 && lml_letter_columns(*code) == 0 ? marks + 1 : 0;
            if (length == 0 || lml_letter_hides(*code) || marks > MARKS_MOST)
                return at;
            at += length;
        } else {
            marks = 0;
            at++;
        }
    }
    return text.length;
}

size_t lml_letter_columns_of(lml_span span)
{
    size_t columns = 0;
    while (span.length) {
        uint32_t code = 0;
        size_t plain = lml_letter_plain(span);
        columns += plain;
        span.at += plain;
        span.length -= plain;
        if (span.length == 0)
            break;
        size_t length = lml_utf8_next(span, &code);
        columns += length ? lml_letter_columns(code) : 1;
        span.at += length ? length : 1;
        span.length -= length ? length : 1;
    }
    return columns;
}
