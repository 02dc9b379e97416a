#include "cli/prompt.h"

#include "file/faults.h"
#include "sheet/complain.h"
#include "sheet/layout.h"
#include "value/wanted.h"

#include <stdio.h>
#include <string.h>

static lml_span text_of(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is(const lml_json *record, const char *name, const char *text)
{
    return lml_span_is(text_of(record, name), text);
}

void lml_prompt_write_keys(lml_span title, lml_builder *out)
{
    lml_layout_put(out, title);
    lml_builder_add_text(out, "\n"
                              "Enter  accepts what is in [ ]   <  one question back\n"
                              "-      leaves out the rest of this part\n"
                              "--     removes what is in [ ]     ---  removes the whole entry\n"
                              "?      explains more     !  saves and stops\n");
}

static void put_indent(lml_builder *out, const lml_json *question)
{
    size_t depth = (size_t)lml_json_number(lml_json_member(question, "depth"));
    lml_builder_add_repeat(out, ' ', 2 * (depth < 1 ? 1 : depth));
}

static void put_heading(const lml_json *question, char heading[LML_PROMPT_HEADING],
                        lml_builder *out)
{
    const lml_json *head = lml_json_member(question, "heading");
    lml_span title = text_of(head, "title");
    char own[LML_PROMPT_HEADING];
    snprintf(own, sizeof own, "%.*s", LML_SPAN_SHOWN(title));
    if (strcmp(own, heading) == 0)
        return;
    memcpy(heading, own, sizeof own);
    if (title.length == 0)
        return;
    int questions = (int)lml_json_number(lml_json_member(head, "questions")),
        due = (int)lml_json_number(lml_json_member(head, "due"));
    lml_builder_add_char(out, '\n');
    lml_layout_put(out, title);
    if (questions > 0) /* none: one answered before is asked again */
        lml_builder_add_format(out, " (%d question%s", questions, questions == 1 ? "" : "s");
    if (due > 0)
        lml_builder_add_format(out, ", %d needed", due);
    lml_builder_add_text(out, questions > 0 ? ")\n" : "\n");
}

static void put_faults(const lml_json *question, lml_builder *out)
{
    const lml_json *f = lml_json_first(lml_json_member(question, "faults"));
    for (; f; f = lml_json_next(f)) {
        lml_builder text = lml_builder_on(out->alloc, 0);
        lml_error error;
        lml_faults_read(f, &error);
        lml_complain_write(&error, &text);
        lml_span rest = {text.at ? text.at : "", text.length};
        if (lml_builder_status(&text, NULL) != LML_OK)
            out->status = text.status;
        while (rest.length > 0) {
            const char *end = memchr(rest.at, '\n', rest.length);
            size_t length = end ? (size_t)(end - rest.at) + 1 : rest.length;
            lml_builder_add_text(out, "    ");
            lml_builder_add(out, rest.at, length);
            rest = (lml_span){rest.at + length, rest.length - length};
        }
        lml_builder_free(&text);
    }
}

static void put_line(lml_builder *out, const char *label, lml_span text)
{
    if (text.length == 0)
        return;
    lml_builder_add_format(out, "    %s", label);
    lml_layout_put(out, text);
    lml_builder_add_char(out, '\n');
}

static void put_titles(lml_builder *out, const char *label, const lml_json *titles)
{
    if (lml_json_count(titles) > 0)
        lml_builder_add_format(out, "    %s\n", label);
    for (const lml_json *t = lml_json_first(titles); t; t = lml_json_next(t))
        put_line(out, "  ", lml_json_text(t));
}

/* Of an alloy: the house's own by name; lemel's are many. */
static void put_names(lml_builder *out, const lml_json *stock)
{
    enum { NAMES_MOST = 8 };
    lml_builder names = lml_builder_on(out->alloc, 0);
    const lml_json *name = lml_json_first(stock);
    for (size_t i = 0; name && i < NAMES_MOST; name = lml_json_next(name), i++) {
        lml_builder_add_text(&names, i > 0 ? ", " : "");
        lml_builder_add_span(&names, lml_json_text(name));
    }
    if (name)
        lml_builder_add_text(&names, ", ...");
    if (lml_builder_status(&names, NULL) != LML_OK)
        out->status = names.status;
    put_line(out, "in the house's stock: ", lml_builder_span(&names));
    if (stock)
        lml_builder_add_text(out, "    lemel alloys lists all names\n");
    lml_builder_free(&names);
}

/* What is known of an ask that nobody wrote a note for: what it takes, and whether it may be left
 * out. */
static void put_kind(const lml_json *question, lml_builder *out)
{
    bool due = lml_json_yes(lml_json_member(question, "due"));
    lml_wanted kind = lml_wanted_by_name(text_of(question, "kind"));
    lml_span example = text_of(question, "example");
    if (is(question, "takes", "yes")) {
        lml_builder_add_text(out, "    y: its questions follow; n or Enter: none\n");
    } else if (is(question, "takes", "name")) {
        lml_builder_add_text(out, "    a name of your own; Enter: no more\n");
    } else if (kind < LML_WANTED_COUNT) {
        lml_builder_add_format(out, "    %s", lml_wanted_words(kind));
        if (example.length > 0) {
            lml_builder_add_text(out, ", such as ");
            lml_layout_put(out, example);
        }
        lml_builder_add_text(out, due ? "; needed\n" : "; may be left out\n");
    }
}

static void put_more(const lml_json *question, lml_builder *out)
{
    const lml_json *more = lml_json_member(question, "more");
    if (!more)
        return;
    lml_span note = text_of(more, "note"), from = text_of(more, "from"), to = text_of(more, "to"),
             source = text_of(more, "source");
    const lml_json *unfolded = lml_json_member(more, "unfolded"),
                   *before = lml_json_member(more, "unfolded_before");
    put_line(out, "", note);
    put_names(out, lml_json_member(more, "stock"));
    put_line(out, "at least ", from);
    put_line(out, "at most ", to);
    put_line(out, "source of the default: ", source);
    put_titles(out, "asked too, after this one:", unfolded);
    put_titles(out, "before this one; < goes back there:", before);
    if (note.length + from.length + to.length + source.length == 0 &&
        !lml_json_member(more, "stock") && lml_json_count(unfolded) + lml_json_count(before) == 0)
        put_kind(question, out);
}

static void put_options(const lml_json *question, lml_builder *out)
{
    const lml_json *o = lml_json_first(lml_json_member(question, "options"));
    for (size_t i = 0; o; o = lml_json_next(o), i++) {
        lml_builder_add_text(out, i > 0 ? ", " : "");
        lml_layout_put(out, lml_json_text(o));
    }
}

/* How it is written, in brackets. */
static void put_form(const lml_json *question, lml_builder *out)
{
    lml_span example = text_of(question, "example");
    bool due = lml_json_yes(lml_json_member(question, "due"));
    bool yes = is(question, "kind", "yes_no") || is(question, "takes", "yes");
    bool options = lml_json_member(question, "options") && !is(question, "takes", "name");
    bool form = yes || options || example.length > 0;
    if (!due && !form)
        return;
    lml_builder_add_text(out, due ? "  (needed" : "  (");
    lml_builder_add_text(out, due && form ? ": " : "");
    if (yes) {
        lml_builder_add_text(out, "y or n");
    } else if (options) {
        put_options(question, out);
    } else if (form) {
        lml_builder_add_text(out, "as ");
        lml_layout_put(out, example);
    }
    lml_builder_add_char(out, ')');
}

/* What holds when nothing is typed. */
static void put_standing(const lml_json *question, lml_builder *out)
{
    const lml_json *said = lml_json_member(question, "said");
    lml_span standing = text_of(question, "default");
    bool opens = lml_json_yes(lml_json_member(question, "opens"));
    const char *behind = standing.length > 0 ? ", assumed" : "";
    if (said && !opens) {
        standing =
            lml_json_kind_of(said) == LML_JSON_TEXT ? lml_json_text(said) : lml_json_raw(said);
        behind = "";
    } else if (opens) {
        standing = lml_span_of(lml_json_yes(lml_json_member(question, "first")) ? "Enter: none"
                                                                                : "Enter: no more");
    } else if (standing.length == 0 && lml_json_yes(lml_json_member(question, "due"))) {
        lml_builder_add_text(out, ": ");
        return;
    } else if (standing.length == 0) {
        standing = lml_span_of(is(question, "takes", "yes") ? "no" : "left out");
    }
    if (is(question, "kind", "yes_no") && !opens)
        standing = lml_span_is(standing, "true")    ? lml_span_of("yes")
                   : lml_span_is(standing, "false") ? lml_span_of("no")
                                                    : standing;
    lml_builder_add_text(out, " [");
    lml_layout_put(out, standing);
    lml_builder_add_format(out, "%s]: ", behind);
}

void lml_prompt_write_told(const lml_json *question, lml_builder *out)
{
    put_line(out, "= ", text_of(question, "told"));
}

void lml_prompt_write(const lml_json *question, char heading[LML_PROMPT_HEADING], lml_builder *out)
{
    lml_span entry = text_of(question, "entry");
    lml_prompt_write_told(question, out);
    put_faults(question, out);
    put_more(question, out);
    if (heading)
        put_heading(question, heading, out);
    put_indent(out, question);
    if (entry.length > 0) {
        lml_layout_put(out, entry);
        lml_builder_add_text(out, ": ");
    }
    lml_span title = text_of(question, "title"), list = text_of(question, "list");
    bool first = lml_json_yes(lml_json_member(question, "first")),
         more = lml_json_yes(lml_json_member(question, "opens")) && !first;
    if (list.length > 0 && !lml_span_equal(list, title)) {
        lml_layout_put(out, list);
        lml_builder_add_text(out, first ? " (the first): " : " (the next): ");
    }
    lml_layout_put(out, title);
    if (is(question, "takes", "yes"))
        lml_builder_add_text(out, more ? ": one more?" : ": any?");
    else if (is(question, "takes", "name"))
        lml_builder_add_text(out, first ? ": name of the first" : ": name of the next");
    put_form(question, out);
    put_standing(question, out);
}
