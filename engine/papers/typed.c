#include "papers/typed.h"

#include <stdio.h>

lml_typed_key lml_typed_read_key(lml_span typed)
{
    return typed.length == 0           ? LML_TYPED_NOTHING
           : lml_span_is(typed, "<")   ? LML_TYPED_BACK
           : lml_span_is(typed, "-")   ? LML_TYPED_PAST
           : lml_span_is(typed, "--")  ? LML_TYPED_OUT
           : lml_span_is(typed, "---") ? LML_TYPED_WHOLE
           : lml_span_is(typed, "?")   ? LML_TYPED_MORE
                                       : LML_TYPED_ANSWER;
}

static bool is_same_letter(char a, char b)
{
    char low = (char)(a | 0x20);
    return a == b || (low >= 'a' && low <= 'z' && low == (char)(b | 0x20));
}

static bool begins_with(lml_span whole, lml_span start)
{
    for (size_t i = 0; i < start.length; i++)
        if (i == whole.length || !is_same_letter(whole.at[i], start.at[i]))
            return false;
    return true;
}

lml_status lml_typed_read_yes(lml_span typed, bool *yes, lml_error *err)
{
    static const char *const words[] = {"yes", "true", "no", "false"};
    for (int i = 0; i < 4; i++)
        if (typed.length > 0 && begins_with(lml_span_of(words[i]), typed)) {
            *yes = i < 2;
            return LML_OK;
        }
    lml_fail(err, LML_BAD_VALUE, "\"%.*s\" is neither yes nor no", LML_SPAN_SHOWN(typed));
    lml_error_hint(err, "type y or n");
    return LML_BAD_VALUE;
}

/* "C" for "°C": not every keyboard has that sign. */
static lml_span without_degree(lml_span option)
{
    static const char DEGREE[] = "\302\260";
    if (!lml_span_starts(option, DEGREE))
        return option;
    return (lml_span){option.at + strlen(DEGREE), option.length - strlen(DEGREE)};
}

/* The option itself, or the one that begins so. A text that begins none is passed on as it is: its
 * refusal names the nearest. */
static lml_status read_choice(const lml_json *ask, lml_span typed, lml_span *out, lml_error *err)
{
    char all[200] = "";
    size_t used = 0, count = 0;
    const lml_json *o = lml_json_first(lml_json_member(ask, "options"));
    *out = typed;
    for (; o; o = lml_json_next(o)) {
        lml_span option = lml_json_text(o), plain = without_degree(option);
        if ((option.length == typed.length && begins_with(option, typed)) ||
            (plain.length == typed.length && begins_with(plain, typed))) {
            *out = option;
            return LML_OK;
        }
        if (!begins_with(option, typed))
            continue;
        if (count++ == 0)
            *out = option;
        if (used < sizeof all)
            used += (size_t)snprintf(all + used, sizeof all - used, "%s%.*s", used ? ", " : "",
                                     LML_SPAN_SHOWN(option));
    }
    if (count < 2)
        return LML_OK;
    lml_fail(err, LML_BAD_VALUE, "\"%.*s\" begins %zu of the choices", LML_SPAN_SHOWN(typed),
             count);
    lml_error_hint(err, "type more of one of them: %s", all);
    return LML_BAD_VALUE;
}

/* The two that every job has are written small. */
static lml_span read_owner(lml_span typed)
{
    static const char *const known[] = {"client", "studio"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (typed.length == strlen(known[i]) && begins_with(lml_span_of(known[i]), typed))
            return lml_span_of(known[i]);
    return typed;
}

/* The end of a figure from 100 to 1000 at the start of the text, or NULL. */
static const char *end_of_stamp(lml_span text)
{
    size_t digits = 0, end = 0;
    for (; lml_span_digit_at(text, end) || (end > 0 && end < text.length && text.at[end] == '.');
         end++)
        digits += memchr(text.at, '.', end + 1) == NULL;
    bool thousand = digits == 4 && lml_span_starts(text, "1000");
    return digits == 3 || thousand ? text.at + end : NULL;
}

/* "585" and "562 +- 6" as they are read off a stamp or an instrument, in thousandths: no keyboard
 * has the sign. */
static bool put_thousandths(lml_span typed, lml_builder *out)
{
    static const char *const signs[] = {"±", "+-", "+/-"};
    const char *end = end_of_stamp(typed);
    if (!end)
        return false;
    lml_span rest = lml_span_trim(lml_span_between(end, typed.at + typed.length));
    lml_span spread = {"", 0};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (lml_span_starts(rest, signs[i]))
            spread =
                lml_span_trim(lml_span_between(rest.at + strlen(signs[i]), rest.at + rest.length));
    size_t figure = 0;
    while (lml_span_digit_at(spread, figure) ||
           (figure > 0 && figure < spread.length && spread.at[figure] == '.'))
        figure++;
    if (figure < spread.length || (rest.length > 0 && figure == 0))
        return false;
    lml_builder_add_span(out, lml_span_between(typed.at, end));
    lml_builder_add_text(out, " ‰");
    if (figure > 0)
        lml_builder_add_format(out, " ± %.*s ‰", LML_SPAN_SHOWN(spread));
    return true;
}

lml_status lml_typed_read(const lml_step *step, lml_span typed, lml_builder *out, lml_error *err)
{
    const lml_json *shape = lml_step_shape(step);
    lml_span kind = lml_json_text(lml_json_member(shape, "kind")), text = typed;
    lml_status status = LML_OK;
    bool yes = false;
    if (lml_span_is(kind, "choice")) {
        status = read_choice(shape, typed, &text, err);
    } else if (lml_span_is(kind, "owner")) {
        text = read_owner(typed);
    } else if (lml_span_is(kind, "yes_no")) {
        status = lml_typed_read_yes(typed, &yes, err);
        text = lml_span_of(yes ? "true" : "false");
    }
    if (status != LML_OK)
        return status;
    if ((lml_span_is(kind, "fineness") || lml_span_is(kind, "assay")) &&
        put_thousandths(typed, out))
        return lml_builder_status(out, err);
    lml_builder_add_span(out, text);
    return lml_builder_status(out, err);
}
