#include "base/status.h"

#include <criterion/criterion.h>
#include <string.h>

Test(status, every_status_has_a_name_and_a_sentence)
{
    for (int s = LML_OK; s <= LML_FAULT; s++) {
        cr_expect(strlen(lml_status_name((lml_status)s)) > 1);
        cr_expect(strlen(lml_status_sentence((lml_status)s)) > 3);
    }
    cr_expect_str_eq(lml_status_name(LML_NO_MEMORY), "NO_MEMORY");
    cr_expect_not_null(lml_status_name((lml_status)99));
    cr_expect_not_null(lml_status_sentence((lml_status)-1));
}

Test(status, a_new_failure_empties_what_the_last_one_left)
{
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "first");
    lml_error_hint(&err, "mend it");
    lml_error_label(&err, "12,5 g", 6, 2, 1, "a comma");
    lml_error_context(&err, LML_BAD_VALUE, "in one");
    cr_expect_eq(lml_fail(&err, LML_OVERFLOW, "%d is %s", 7, "large"), LML_OVERFLOW);
    cr_expect_eq(err.status, LML_OVERFLOW);
    cr_expect_str_eq(err.message, "7 is large");
    cr_expect_str_eq(err.hint, "");
    cr_expect_eq(err.labels, 0);
    cr_expect_eq(err.contexts, 0);
}

Test(status, a_letter_that_only_looks_latin_is_told_once)
{
    /* Unicode Standard, names of the characters: U+0410 CYRILLIC CAPITAL LETTER A */
    static const char told[] = "U+0410 in it only looks like A: retype that letter";
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "\"%s\" is no metal", "\u0410u");
    lml_error_label(&err, "5 \u0410u", strlen("5 \u0410u"), 2, 3, "here");
    cr_assert_eq(err.contexts, 1);
    cr_expect_str_eq(err.context[0], told);
    lml_fail(&err, LML_BAD_VALUE, "this is no metal");
    cr_expect_eq(err.contexts, 0);
    lml_error_label(&err, "5 \u0410u", strlen("5 \u0410u"), 2, 3, "here");
    cr_assert_eq(err.contexts, 1);
    cr_expect_str_eq(err.context[0], told);
    /* a word of one alphabet hides nothing */
    lml_fail(&err, LML_BAD_VALUE, "%s is a ring: 750 ‰ Au", "\u041a\u043e\u043b\u044c\u0446\u043e");
    cr_expect_eq(err.contexts, 0);
}

Test(status, every_call_works_without_an_error_to_fill)
{
    cr_expect_eq(lml_fail(NULL, LML_LIMIT, "%s", "x"), LML_LIMIT);
    lml_error_hint(NULL, "%s", "x");
    cr_expect_eq(lml_error_context(NULL, LML_LIMIT, "%s", "x"), LML_LIMIT);
    lml_error_label(NULL, "x", 1, 0, 1, "x");
}

Test(status, what_a_terminal_would_obey_becomes_a_question_mark)
{
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "\"%s\"", "a\x1b[31m\n\tb\x7f");
    cr_expect_str_eq(err.message, "\"a?[31m??b?\"");
    /* The second half of the control codes, ISO/IEC 6429: CSI is U+009B. */
    lml_fail(&err, LML_BAD_VALUE, "a%sb", "\xc2\x9b");
    cr_expect_str_eq(err.message, "a?b");
    /* Direction override U+202E: CVE-2021-42574. */
    lml_fail(&err, LML_BAD_VALUE, "a%sb", "\xe2\x80\xae");
    cr_expect_str_eq(err.message, "a?b");
    lml_fail(&err, LML_BAD_VALUE, "%s", "caf\xe9 \xc0\x80 \xed\xa0\x80 na\xc3\xafve \xe2\x80\xb0");
    cr_expect_str_eq(err.message, "caf? ?? ??? na\xc3\xafve \xe2\x80\xb0");
}

Test(status, what_does_not_fit_is_cut_at_a_whole_character)
{
    lml_error err;
    for (size_t lead = 0; lead < 4; lead++) {
        char text[1200] = "xxxx";
        size_t length = lead;
        while (length + 3 < sizeof text) {
            memcpy(text + length, "\xe2\x80\xb0", 4);
            length += 3;
        }
        lml_fail(&err, LML_BAD_VALUE, "%s", text);
        size_t kept = strlen(err.message);
        cr_expect(kept < sizeof err.message && kept > sizeof err.message - 8);
        cr_expect_str_eq(err.message + kept - 3, "...");
        cr_expect_eq(strncmp(err.message, text, kept - 3), 0);
        cr_expect_eq((kept - 3 - lead) % 3, 0, "a character was cut in two");
    }
    char just[sizeof err.message];
    memset(just, 'a', sizeof just - 1);
    just[sizeof just - 1] = '\0';
    lml_fail(&err, LML_BAD_VALUE, "%s", just);
    cr_expect_str_eq(err.message, just);
    lml_fail(&err, LML_BAD_VALUE, "%sa", just);
    cr_expect_str_eq(err.message + sizeof just - 4, "...");
}

/* To the byte: what stands behind each place in the error stays as it was. */
Test(status, what_just_fits_leaves_its_neighbours_alone)
{
    char text[sizeof((lml_error *)0)->message + 1];
    memset(text, 'x', sizeof text);
    for (int length = 0; length < (int)sizeof text; length++) {
        struct {
            lml_error err;
            char beyond[8];
        } at = {.beyond = "beyond"};
        lml_fail(&at.err, LML_BAD_VALUE, "%s", "message");
        lml_error_hint(&at.err, "%.*s", length, text);
        cr_expect_eq(at.err.labels, 0, "a hint of %d bytes", length);
        lml_error_label(&at.err, text, (size_t)length, 0, 1, "note");
        cr_expect_str_eq(at.err.label[0].note, "note", "a label of %d bytes", length);
        for (int i = 0; i < LML_ERROR_CONTEXTS; i++)
            lml_error_context(&at.err, LML_BAD_VALUE, "%.*s", length, text);
        cr_expect_str_eq(at.beyond, "beyond", "contexts of %d bytes", length);
        cr_expect_eq(at.err.contexts, LML_ERROR_CONTEXTS);
    }
}

Test(status, an_error_may_quote_itself)
{
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "a comma");
    lml_error_hint(&err, "of %s", err.message);
    lml_fail(&err, LML_BAD_DATA, "line 3: %s (%s)", err.message, err.hint);
    cr_expect_str_eq(err.message, "line 3: a comma (of a comma)");
}

Test(status, the_outermost_context_is_never_lost)
{
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "x");
    for (int i = 0; i < 20; i++)
        cr_expect_eq(lml_error_context(&err, LML_BAD_VALUE, "in %d", i), LML_BAD_VALUE);
    cr_expect_eq(lml_error_context(&err, LML_OK, "in %d", 99), LML_OK);
    cr_expect_eq(err.contexts, LML_ERROR_CONTEXTS);
    cr_expect_str_eq(err.context[0], "in 0");
    cr_expect_str_eq(err.context[LML_ERROR_CONTEXTS - 1], "in 19");
}

static void expect_label(const lml_label *label, const char *stretch)
{
    cr_expect_eq(label->length, strlen(stretch));
    cr_expect(label->offset + label->length <= strlen(label->text));
    cr_expect_eq(strncmp(label->text + label->offset, stretch, label->length), 0,
                 "\"%s\" at %d is not \"%s\"", label->text, label->offset, stretch);
}

Test(status, a_label_points_at_its_stretch)
{
    lml_error err;
    lml_fail(&err, LML_BAD_VALUE, "x");
    lml_error_label(&err, "11,2 g and more", 6, 2, 1, "a comma");
    cr_expect_str_eq(err.label[0].text, "11,2 g");
    cr_expect_str_eq(err.label[0].note, "a comma");
    expect_label(&err.label[0], ",");

    char text[1000];
    memset(text, 'a', sizeof text);
    memcpy(text + 700, "WRONG", 5);
    lml_error_label(&err, text, sizeof text, 700, 5, "");
    cr_expect_eq(strncmp(err.label[1].text, "...a", 4), 0);
    expect_label(&err.label[1], "WRONG");
    cr_expect_str_eq(err.label[1].text + strlen(err.label[1].text) - 4, "a...");

    lml_error_label(&err, "\x1b\xc2\x9b 5", 5, 4, 1, "two controls, three bytes, before it");
    cr_expect_str_eq(err.label[2].text, "?? 5");
    expect_label(&err.label[2], "5");

    lml_error_label(&err, "12 g", 4, 4, 9, "the end");
    expect_label(&err.label[3], "");
    cr_expect_eq(err.label[3].offset, 4);

    lml_error_label(&err, "one too many", 12, 0, 1, "");
    cr_expect_eq(err.labels, LML_ERROR_LABELS);
}
