#include "cli/help.h"
#include "base/letter.h"
#include "sheet/layout.h"

enum { LEFT = 2, COLUMN = 24 };

static void entry(lml_layout *layout, const char *left, const char *right)
{
    lml_span name = lml_span_of(left), words = lml_span_of(right);
    if (LEFT + lml_letter_columns_of(name) + 2 > COLUMN) {
        lml_layout_text(layout, LEFT, name);
        lml_layout_text(layout, COLUMN, words);
        return;
    }
    lml_cell cells[] = {{name, LEFT, COLUMN - LEFT, false},
                        {words, COLUMN, layout->width - COLUMN, false}};
    lml_layout_row(layout, cells, 2);
}

static void options(lml_layout *layout, const lml_command *command)
{
    lml_layout_gap(layout);
    lml_layout_text(layout, 0, lml_span_of("options:"));
    for (size_t i = 0; i < LML_OPTIONS; i++) {
        const lml_option_row *row = lml_option_at((lml_option)i);
        if (row->commands && (!command || !lml_option_fits(row, command->name)))
            continue;
        lml_builder name = lml_layout_scratch(layout);
        if (row->brief)
            lml_builder_add_format(&name, "%s, ", row->brief);
        lml_builder_add_text(&name, row->name);
        if (row->value)
            lml_builder_add_format(&name, " %s", row->value);
        if (lml_builder_status(&name, NULL) == LML_OK)
            entry(layout, name.at, row->help);
        lml_layout_scrap(layout, &name);
    }
}

static void whole(lml_layout *layout)
{
    lml_builder_add_text(layout->out, "  lemel run jobs/cuff-links.json\n"
                                      "  lemel reckon \"1 ozt\" as g\n\n"
                                      "usage: lemel COMMAND ... [options]\n\ncommands:\n");
    for (size_t i = 0; i < lml_command_count(); i++)
        entry(layout, lml_command_at(i)->name, lml_command_at(i)->summary);
    options(layout, NULL);
    lml_builder_add_text(
        layout->out, "\nlemel COMMAND --help tells more.\n"
                     "exit status: 0 done, 1 stopped or with an open point, or a proof failed,\n"
                     "64 wrong usage, 65 bad data or a faulty recipe, 66 no such file,\n"
                     "70 internal error, 74 could not write, "
                     "79 a limit was reached\n");
}

void lml_help_write(const lml_command *command, size_t width, lml_builder *out)
{
    lml_layout layout = {.out = out, .width = width < LML_LAYOUT_LEAST ? LML_LAYOUT_LEAST : width};
    if (!command) {
        whole(&layout);
        return;
    }
    /* Not wrapped: an example is there to be copied. */
    lml_builder_add_format(out, "  %s\n  %s\n\n", command->examples[0], command->examples[1]);
    lml_builder_add_format(out, "usage: lemel %s%s%s [options]\n\n", command->name,
                           command->words[0] ? " " : "", command->words);
    lml_builder about = lml_layout_scratch(&layout);
    lml_builder_add_format(&about, "%s.\n\n%s", command->summary, command->details);
    if (about.at && about.at[0] >= 'a' && about.at[0] <= 'z')
        about.at[0] = (char)(about.at[0] - 'a' + 'A');
    lml_layout_text(&layout, 0, (lml_span){about.at, about.length});
    lml_layout_scrap(&layout, &about);
    options(&layout, command);
}
