/* A page's text in two columns, so that a long bench sheet fits on one sheet of paper. */
#include "sheet/fold.h"
#include "base/letter.h"

static lml_span next_line(lml_span *rest)
{
    size_t length = 0;
    while (length < rest->length && rest->at[length] != '\n')
        length++;
    lml_span line = {rest->at, length};
    size_t taken = length < rest->length ? length + 1 : length;
    *rest = (lml_span){rest->at + taken, rest->length - taken};
    return line;
}

static size_t count_lines(lml_span text)
{
    size_t count = 0;
    while (text.length > 0) {
        next_line(&text);
        count++;
    }
    return count;
}

/* A page that is given away and as short as this is in one column: a letter is not read in two. */
enum { SHORT = 60 };

/* Whether a part or a heading begins there. */
static bool begins_at(const lml_page *page, size_t at)
{
    for (size_t i = 0; i < page->starts; i++)
        if (page->start[i] == at)
            return true;
    return false;
}

/* Where the second column begins: at the part, the heading or the line after an empty one that
 * leaves the longer column shortest, so that no run of lines is torn apart; at the end where there
 * is none. */
static size_t choose_fold(const lml_page *page, size_t start, lml_span text)
{
    size_t all = count_lines(text), above = 0, least = all, at = text.length;
    bool after_gap = false;
    if (!page->working && all <= SHORT)
        return at;
    for (lml_span rest = text; rest.length > 0; above++) {
        size_t here = text.length - rest.length, longer = above > all - above ? above : all - above;
        if (longer < least && (after_gap || begins_at(page, start + here))) {
            least = longer;
            at = here;
        }
        after_gap = next_line(&rest).length == 0;
    }
    return at;
}

void lml_fold(lml_page *page, size_t start, size_t width)
{
    lml_layout *layout = &page->layout;
    if (lml_builder_status(layout->out, NULL) != LML_OK || layout->out->length == start)
        return;
    lml_builder copy = lml_layout_scratch(layout);
    lml_builder_add(&copy, layout->out->at + start, layout->out->length - start);
    if (lml_builder_status(&copy, NULL) == LML_OK) {
        lml_span text = {copy.at, copy.length};
        size_t fold = choose_fold(page, start, text);
        lml_span left = {text.at, fold}, right = {text.at + fold, text.length - fold};
        layout->out->length = start;
        while (left.length > 0 || right.length > 0) {
            lml_span one = next_line(&left), other = next_line(&right);
            lml_builder_add_span(layout->out, one);
            if (other.length > 0) {
                lml_builder_add_repeat(layout->out, ' ',
                                       width + LML_FOLD_GAP - lml_letter_columns_of(one));
                lml_builder_add_span(layout->out, other);
            }
            lml_builder_add_char(layout->out, '\n');
        }
    }
    lml_layout_scrap(layout, &copy);
}
