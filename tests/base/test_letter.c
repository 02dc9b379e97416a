/* Characters that hide: each kind that a text could be forged with, and what must go on being
 * written. */
#include "base/letter.h"

#include <criterion/criterion.h>

Test(letter, what_nobody_sees_hides)
{
    /* Unicode Standard, names of the characters; general categories Cc, Cf, Zl, Zp and the fillers
     */
    static const uint32_t hides[] = {0x00,
                                     0x09,
                                     0x0a,
                                     0x1b,
                                     0x7f,
                                     0x9b,
                                     0xad /* soft hyphen */,
                                     0x34f /* grapheme joiner */,
                                     0x61c /* Arabic letter mark */,
                                     0x115f,
                                     0x3164,
                                     0xffa0 /* Hangul fillers */,
                                     0x180e,
                                     0x200b /* no width */,
                                     0x200d /* joiner */,
                                     0x200e,
                                     0x200f,
                                     0x2028,
                                     0x2029,
                                     0x202a,
                                     0x2800 /* BRAILLE PATTERN BLANK */,
                                     0x202e,
                                     0x2060 /* word joiner */,
                                     0x2066,
                                     0x2069,
                                     0xfe0f,
                                     0xfeff,
                                     0xfff9,
                                     0xe0001,
                                     0xe0041 /* tags */,
                                     0xe0100};
    for (size_t i = 0; i < sizeof hides / sizeof *hides; i++)
        cr_expect(lml_letter_hides(hides[i]), "U+%04X", (unsigned)hides[i]);
    static const uint32_t shows[] = {' ',    'a',    '~',    0xa0,   0xae,   0xb5,   0xb1,
                                     0x394,  0x301,  0x416,  0x5d0,  0x627,  0x2009, 0x2013,
                                     0x2030, 0x20ac, 0x2103, 0x6f22, 0xac00, 0xff05, 0x1f48d};
    for (size_t i = 0; i < sizeof shows / sizeof *shows; i++)
        cr_expect_not(lml_letter_hides(shows[i]), "U+%04X", (unsigned)shows[i]);
}

static size_t find(const char *text, const char *allowed)
{
    uint32_t code;
    return lml_letter_find_hidden(lml_span_of(text), allowed, &code);
}

Test(letter, the_first_that_hides_is_found)
{
    cr_expect_eq(find("ring A", ""), 6);
    cr_expect_eq(find("ring\u202e A", ""), 4);
    cr_expect_eq(find("two\nlines", ""), 3);
    cr_expect_eq(find("two\nlines\tand a tab\r\n", "\n\t\r"), 21);
    cr_expect_eq(find("Vi\u1ec7t e\u0323\u0302", ""),
                 12); /* two marks on one letter are Vietnamese */
    cr_expect_eq(find("Z\u0351\u036b\u0343\u036a\u0302", ""), 7); /* the fourth is too many */
    cr_expect_eq(find("\xff", ""), 0);
}

/* Every byte, at every place of two rows of eight. */
Test(letter, plain_is_printable_ascii)
{
    for (unsigned byte = 0; byte < 256; byte++) {
        char text[17] = "sixteen   letter";
        for (size_t at = 0; at < 16; at++) {
            char was = text[at];
            text[at] = (char)byte;
            size_t want = byte >= 0x20 && byte <= 0x7e ? 16 : at;
            cr_expect_eq(lml_letter_plain((lml_span){text, 16}), want, "%02X at %zu", byte, at);
            want = byte == '"' || byte == '\\' ? at : want;
            cr_expect_eq(lml_letter_plain_to((lml_span){text, 16}, '"', '\\'), want, "%02X at %zu",
                         byte, at);
            text[at] = was;
        }
    }
}
