/* Canned results drawn at many widths. What is checked is what a reader relies on: lines fit,
 * figures are whole and line up, a withheld figure is never printed, and a client sees nothing that
 * is the bench's. */
#include <criterion/criterion.h>

#include "file/json.h"
#include "file/store.h"
#include "sheet/sheet.h"
#include "base/letter.h"

#include <stdio.h>
#include <string.h>

typedef struct drawn {
    lml_alloc heap;
    lml_json_document *doc;
    lml_builder text;
    lml_status status;
    lml_error error;
} drawn;

static drawn draw_text(const char *json, const char *page, size_t width, bool bold)
{
    drawn d = {.heap = lml_alloc_heap()};
    lml_error err = {.status = LML_OK};
    cr_assert_eq(lml_json_read(&d.heap, lml_span_of(json), NULL, "canned", &d.doc, &err), LML_OK,
                 "%s", err.message);
    static lml_alloc heap;
    heap = d.heap;
    d.text = lml_builder_on(&heap, 0);
    lml_sheet_look look = {.page = page, .width = width, .bold = bold};
    d.status = lml_sheet_draw(lml_json_root(d.doc), &look, &d.text, &d.error);
    return d;
}

static void done(drawn *d)
{
    lml_builder_free(&d->text);
    lml_json_free(d->doc);
}

static char *canned(const char *name)
{
    static char text[1 << 16];
    char path[500];
    static lml_alloc heap;
    heap = lml_alloc_heap();
    lml_builder b = lml_builder_on(&heap, 0);
    snprintf(path, sizeof path, "%s/tests/sheet/%s", LML_SOURCE_DIR, name);
    cr_assert_eq(lml_store_read(path, sizeof text - 1, &b, NULL), LML_OK, "%s", path);
    memcpy(text, b.at, b.length + 1);
    lml_builder_free(&b);
    return text;
}

/* A result around one page's entries. */
static const char *around(const char *page, const char *entries, const char *more)
{
    static char text[1 << 15];
    snprintf(text, sizeof text,
             "{ \"lemel\": \"0.1.0\", \"job\": { \"recipe\": \"need\" }, \"worked\": [], "
             "\"results\": {}, \"withheld\": [], \"settings\": {}, \"sheets\": { \"%s\": [ %s ] }, "
             "\"remarks\": [] %s }",
             page, entries, more);
    return text;
}

/* The line of the text that holds `part`, copied. */
static const char *line_with(const drawn *d, const char *part)
{
    static char lines[4][400];
    static int next;
    const char *at = strstr(d->text.at, part);
    cr_assert(at, "\"%s\" is not in:\n%s", part, d->text.at);
    while (at > d->text.at && at[-1] != '\n')
        at--;
    char *line = lines[next++ % 4];
    snprintf(line, sizeof lines[0], "%.*s", (int)strcspn(at, "\n"), at);
    return line;
}

/* At which column of its line `part` starts. */
static size_t column_of(const char *line, const char *part)
{
    const char *at = strstr(line, part);
    cr_assert(at, "\"%s\" is not in \"%s\"", part, line);
    return lml_letter_columns_of(lml_span_between(line, at));
}

Test(sheet, no_line_is_wider_than_the_page_and_none_ends_in_a_blank)
{
    for (size_t width = 40; width <= 110; width++) {
        drawn d = draw_text(canned("stopped.json"), NULL, width, false);
        cr_assert_eq(d.status, LML_OK);
        for (const char *at = d.text.at; *at;) {
            size_t length = strcspn(at, "\n");
            cr_expect_leq(lml_letter_columns_of((lml_span){at, length}), width, "at %zu: %.*s",
                          width, (int)length, at);
            cr_expect(length == 0 || at[length - 1] != ' ', "a blank ends: %.*s|", (int)length, at);
            at += length + (at[length] == '\n');
        }
        done(&d);
    }
}

Test(sheet, figures_stay_whole_at_every_width)
{
    static const char *const figures[] = {"45.93 g",  "1,054.9 g",    "Au750 yellow 3N", "960 °C",
                                          "15:40",    "1,149.00 USD", "18.252 g Au",     "31.2 g",
                                          "585 ‰ Au", "1,240.92 USD", "0.96 g/cm3",      "0.5 %"};
    for (size_t width = 40; width <= 110; width++) {
        drawn d = draw_text(canned("stopped.json"), NULL, width, false);
        for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
            cr_expect(strstr(d.text.at, figures[i]), "%s is broken at %zu:\n%s", figures[i], width,
                      d.text.at);
        done(&d);
    }
}

/* Side by side each page says what it says one under the other, line for line, and never beyond the
 * paper. */
Test(sheet, landscape_holds_every_line_of_a_page_that_is_half_as_wide)
{
    drawn one = draw_text(canned("stopped.json"), "bench", 78, false);
    lml_builder wide = lml_builder_on(one.text.alloc, 0);
    lml_sheet_look look = {.page = "bench", .width = 80, .bold = true, .landscape = true};
    cr_assert_eq(lml_sheet_draw(lml_json_root(one.doc), &look, &wide, NULL), LML_OK);
    size_t lines = 0, wide_lines = 0;
    for (const char *at = wide.at; *at; wide_lines++) {
        size_t length = strcspn(at, "\n");
        cr_expect_leq(lml_letter_columns_of((lml_span){at, length}), 160, "%.*s", (int)length, at);
        at += length + (at[length] == '\n');
    }
    const char *body = strstr(one.text.at, "===\n");
    cr_assert(body);
    for (const char *at = body + 4; *at; lines++) {
        char line[400];
        size_t length = strcspn(at, "\n");
        snprintf(line, sizeof line, "%.*s", (int)length, at);
        cr_expect(strstr(wide.at, line), "\"%s\" is lost in:\n%s", line, wide.at);
        at += length + (at[length] == '\n');
    }
    cr_expect_lt(wide_lines, lines);
    lml_builder_free(&wide);
    done(&one);
}

#define MASS(text) "{ \"kind\": \"mass\", \"text\": \"" text "\" }"
/* A page of so many lines, a heading, and so many more; drawn in landscape. */
static void draw_folded(const char *page, int before, int after, drawn *d, lml_builder *wide)
{
    static char entries[1 << 14];
    size_t at = 0;
    for (int i = 0; i < before + after; i++) {
        const char *comma = i > 0 ? "," : "";
        if (i == before)
            at += (size_t)snprintf(entries + at, sizeof entries - at,
                                   "%s{ \"is\": \"heading\", \"text\": \"Next\" }", comma);
        at += (size_t)snprintf(
            entries + at, sizeof entries - at,
            "%s{ \"is\": \"line\", \"label\": \"Row %d\", \"value\": " MASS("1 g") " }",
            i == before ? "," : comma, i);
    }
    *d = draw_text(around(page, entries, ""), page, 78, false);
    *wide = lml_builder_on(d->text.alloc, 0);
    lml_sheet_look look = {.page = page, .width = 80, .landscape = true};
    cr_assert_eq(lml_sheet_draw(lml_json_root(d->doc), &look, wide, NULL), LML_OK);
}

/* A run of lines that is added up or ticked off is read down: it is not torn apart for a shorter
 * column. */
Test(sheet, landscape_folds_at_a_heading_or_not_at_all)
{
    drawn d;
    lml_builder wide;
    draw_folded("client", 45, 25, &d, &wide);
    const char *next = strstr(wide.at, "Next");
    cr_assert(next);
    const char *line = next;
    while (line > wide.at && line[-1] != '\n')
        line--;
    cr_expect(strstr(line, "Row 0 ") && strstr(line, "Row 0 ") < next,
              "the heading heads the second column:\n%s", wide.at);
    lml_builder_free(&wide);
    done(&d);
    draw_folded("client", 70, 0, &d, &wide);
    for (const char *at = wide.at; (at = strstr(at, "Row ")); at++) {
        size_t length = strcspn(at, "\n");
        cr_expect_not(length > 60 && strstr(at + 4, "Row ") < at + length,
                      "one run in two columns:\n%s", wide.at);
    }
    lml_builder_free(&wide);
    done(&d);
    draw_folded("client", 10, 10, &d, &wide);
    cr_expect(strstr(wide.at, "\n Next\n"), "a short page for the client stays in one column:\n%s",
              wide.at);
    lml_builder_free(&wide);
    done(&d);
    draw_folded("bench", 10, 10, &d, &wide);
    cr_expect_not(strstr(wide.at, "\n Next\n"), "a bench page is folded:\n%s", wide.at);
    lml_builder_free(&wide);
    done(&d);
}

Test(sheet, a_width_below_forty_counts_as_forty)
{
    drawn narrow = draw_text(canned("stopped.json"), NULL, 5, false);
    drawn forty = draw_text(canned("stopped.json"), NULL, 40, false);
    cr_expect_str_eq(narrow.text.at, forty.text.at);
    done(&narrow);
    done(&forty);
}

#define LINE(label, value, more)                                                                   \
    "{ \"is\": \"line\", \"label\": \"" label "\", \"value\": " value more " }"

Test(sheet, decimal_points_of_a_run_stand_in_one_column)
{
    drawn d =
        draw_text(around("metal",
                         LINE("Piece", MASS("1,204.5 g"), "") "," LINE(
                             "Button", MASS("9 g"), "") "," LINE("Loss", MASS("-0.125 g"), ""),
                         ""),
                  NULL, 80, false);
    size_t point = column_of(line_with(&d, "Piece"), ".5 g");
    cr_expect_eq(column_of(line_with(&d, "Button"), "9 g") + 1, point);
    cr_expect_eq(column_of(line_with(&d, "Loss"), ".125 g"), point);
    done(&d);
}

Test(sheet, characters_of_two_columns_do_not_push_figures_aside)
{
    drawn d = draw_text(
        around("metal",
               LINE("戒指", MASS("1.5 g"), "") "," LINE("Ring", MASS("2.5 g"), "") "," LINE(
                   "Bague e\xcc\x81mail", MASS("3.5 g"), ""),
               ""),
        NULL, 80, false);
    size_t column = column_of(line_with(&d, "Ring"), "2.5 g");
    cr_expect_eq(column_of(line_with(&d, "戒指"), "1.5 g"), column);
    cr_expect_eq(column_of(line_with(&d, "Bague"), "3.5 g"), column);
    done(&d);
}

Test(sheet, an_empty_box_named_for_the_record_stands_beside_its_figure)
{
    drawn d = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(line_with(&d, "Raw casting"), "45.93 g"));
    cr_expect(strstr(line_with(&d, "Raw casting"), "[            ] raw casting"));
    cr_expect(strstr(line_with(&d, "] tree"), "[            ] tree"));
    done(&d);
}

Test(sheet, where_a_figure_came_from_is_said_beside_it)
{
    drawn d = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(d.text.at, "9 g (assumed)"));
    cr_expect(strstr(line_with(&d, "Au750"), "(client says)"));
    cr_expect(strstr(d.text.at, "Assumed: need.wax_density 0.96 g/cm3; melt_loss 0.5 %."));
    cr_expect_not(strstr(d.text.at, "need.button"), "the house has set it");
    done(&d);
}

Test(sheet, a_withheld_figure_prints_do_not_and_why)
{
    for (size_t width = 40; width <= 80; width += 40) {
        drawn d = draw_text(canned("stopped.json"), "bench", width, false);
        cr_expect(strstr(line_with(&d, "Metal to weigh out  "), "DO NOT"));
        cr_expect(strstr(d.text.at, "The charge is larger"));
        done(&d);
    }
    drawn d = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(line_with(&d, "DO NOT  "), "The charge is larger than the crucible holds:"));
    done(&d);
}

Test(sheet, a_note_that_says_nothing_says_so)
{
    const char *note = "{ \"is\": \"remark\", \"level\": \"note\", \"code\": \"need/n\", \"text\": "
                       "\"\342\200\246\" }";
    drawn d = draw_text(around("bench", note, ""), NULL, 80, false);
    cr_expect(strstr(d.text.at, "    (Something is left out here until this is resolved.)\n"));
    done(&d);
}

Test(sheet, a_withheld_list_prints_do_not_once)
{
    static char json[1 << 15];
    snprintf(json, sizeof json, "%s",
             around("bench",
                    "{ \"is\": \"grid\", \"columns\": [\"Lot\", \"Half\"], \"withheld\": true, "
                    "\"withheld_by\": \"need/s\", \"rows\": [] }",
                    ""));
    strcpy(
        strstr(json, "\"remarks\": []"),
        "\"remarks\": [ { \"level\": \"stop\", \"code\": \"need/s\", \"text\": \"too hot\" } ] }");
    drawn d = draw_text(json, NULL, 80, false);
    cr_expect(strstr(d.text.at, "    Lot  Half\n    DO NOT  too hot\n"), "%s", d.text.at);
    done(&d);
}

/* What came in and what went out are read across: their columns are where the other's are. */
Test(sheet, grids_of_the_same_columns_are_aligned)
{
#define CELL(text) "{ \"kind\": \"text\", \"value\": \"" text "\", \"text\": \"" text "\" }"
#define GRID(first, second, row, figure)                                                           \
    "{ \"is\": \"grid\", \"columns\": [\"" first "\", \"" second                                   \
    "\"], \"rows\": [[" CELL(row) ", " CELL(figure) "]] }"
    drawn d =
        draw_text(around("metal",
                         GRID("In", "Mass", "a ring of the client's", "1 g") ", " GRID(
                             "Out", "Mass", "lemel", "2 g") ", " GRID("Owed", "By", "x", "me"),
                         ""),
                  "metal", 80, false);
    const char *in = strstr(d.text.at, "    In  "), *out = strstr(d.text.at, "    Out "),
               *owed = strstr(d.text.at, "    Owed  By\n");
    cr_assert(in && out, "%s", d.text.at);
    cr_expect_eq(strstr(in, "Mass") - in, strstr(out, "Mass") - out, "%s", d.text.at);
    cr_expect(owed, "%s", d.text.at);
    done(&d);
#undef GRID
#undef CELL
}

Test(sheet, a_reason_for_many_figures_is_read_once_a_run)
{
    const char *lines = "{ \"is\": \"line\", \"label\": \"A\", \"withheld\": true, \"of\": \"a\" },"
                        "{ \"is\": \"line\", \"label\": \"B\", \"withheld\": true, \"of\": \"b\" }";
    static char json[1 << 15];
    snprintf(json, sizeof json, "%s", around("bench", lines, ""));
    char *remarks = strstr(json, "\"remarks\": []");
    strcpy(remarks,
           "\"remarks\": [ { \"level\": \"note\", \"code\": \"need/n\", \"text\": \"no\" }, "
           "{ \"level\": \"stop\", \"code\": \"need/s\", \"text\": \"too hot\", "
           "\"withholds\": [ \"need.a\", \"need.b\" ] } ] }");
    drawn d = draw_text(json, NULL, 80, false);
    cr_expect(strstr(line_with(&d, "A  DO NOT"), "too hot"));
    cr_expect(strstr(line_with(&d, "B  DO NOT"), "for the same reason"));
    done(&d);
}

Test(sheet, a_reason_is_not_guessed_where_it_could_be_several)
{
    static char json[1 << 15];
    snprintf(json, sizeof json, "%s",
             around("bench", "{ \"is\": \"line\", \"label\": \"A\", \"withheld\": true }", ""));
    strcpy(strstr(json, "\"remarks\": []"),
           "\"remarks\": [ { \"level\": \"stop\", \"code\": \"need/s\", \"text\": \"too hot\" }, "
           "{ \"level\": \"confirm\", \"code\": \"need/t\", \"text\": \"too cold\" } ] }");
    drawn d = draw_text(json, NULL, 80, false);
    cr_expect(strstr(line_with(&d, "A  DO NOT"), "the reasons are beside STOP and ASK"));
    done(&d);
}

Test(sheet, a_paragraph_never_parts_a_number_from_its_unit)
{
    for (size_t width = 40; width <= 90; width++) {
        drawn d =
            draw_text(around("bench",
                             "{ \"is\": \"text\", \"text\": \"Heat the flask to 580 °C within 90 "
                             "min and hold it there for 1 h; then cool it at 3.5 Δ°C/min to 480 "
                             "°C before the pour.\" }",
                             ""),
                      NULL, width, false);
        static const char *const figures[] = {"580 °C", "90 min", "1 h", "3.5 °C/min", "480 °C"};
        for (size_t i = 0; i < 5; i++)
            cr_expect(strstr(d.text.at, figures[i]), "%s at %zu", figures[i], width);
        cr_expect_not(strstr(d.text.at, "Δ")); /* a mark for files, not for a bench */
        done(&d);
    }
}

Test(sheet, a_total_stands_under_a_rule_as_wide_as_the_figures)
{
    drawn d = draw_text(canned("stopped.json"), "client", 80, false);
    const char *total = line_with(&d, "1,240.92 USD");
    const char *rule = line_with(&d, "------------\n");
    cr_expect_eq(column_of(rule, "------------"), column_of(total, "1,240.92 USD"));
    cr_expect_eq(strlen(rule), column_of(rule, "-") + strlen("1,240.92 USD"));
    cr_expect(strstr(d.text.at, rule) < strstr(d.text.at, total));
    done(&d);
}

Test(sheet, a_client_sees_nothing_that_is_the_bench_s)
{
    drawn d = draw_text(canned("stopped.json"), "client", 80, false);
    static const char *const hidden[] = {"[  ",     "nothing", "hidden",    "Assumed", "Worked by",
                                         "STOPPED", "need/",   "confirmed", "BENCH"};
    for (size_t i = 0; i < sizeof hidden / sizeof hidden[0]; i++)
        cr_expect_not(strstr(d.text.at, hidden[i]), "\"%s\" is in:\n%s", hidden[i], d.text.at);
    cr_expect(strstr(d.text.at, "Cuff links for a retired brakeman"));
    cr_expect(strstr(d.text.at, "Slagrose Casting Loft, Tue 24 Nov 2026"));
    done(&d);
}

Test(sheet, a_client_is_told_of_an_open_point_without_codes_and_boxes)
{
    drawn d = draw_text(around("client",
                               "{ \"is\": \"remark\", \"level\": \"confirm\", \"code\": \"a/b\", "
                               "\"text\": \"The price is old.\" }",
                               ""),
                        NULL, 80, false);
    cr_expect(strstr(d.text.at, "TO DECIDE The price is old."));
    cr_expect_not(strstr(d.text.at, "a/b"));
    done(&d);
}

/* However long what a recipe prints before it, a stop stands at the top and is counted at the end.
 */
Test(sheet, a_stop_cannot_be_pushed_out_of_sight)
{
    enum { LINES = 4000 };
    static char result[LINES * 2 + 2000];
    char *to = result + sprintf(result, "{ \"lemel\": \"0.2.0\", \"job\": { \"recipe\": \"need\" "
                                        "}, \"worked\": [], \"stopped\": true,"
                                        " \"results\": {}, \"settings\": {}, \"sheets\": { "
                                        "\"bench\": [ { \"is\": \"text\", \"text\": \"");
    for (int i = 0; i < LINES; i++)
        to += sprintf(to, "\\n");
    sprintf(to, "\" } ] }, \"remarks\": [ { \"level\": \"stop\", \"code\": \"need/crucible\", "
                "\"text\": \"Too much\" },"
                " { \"level\": \"confirm\", \"code\": \"need/ratio\", \"text\": \"Odd\" } ] }");
    drawn d = draw_text(result, "bench", 80, false);
    const char *top = strstr(d.text.at, "STOP Too much [need/crucible]"),
               *open = strstr(d.text.at, "ASK Odd [need/ratio]");
    cr_assert(top && open);
    cr_expect(top - d.text.at < 500 && open - d.text.at < 500);
    cr_expect(strstr(d.text.at, "1 stop and 1 open point on this job: see above."));
    done(&d);
}

/* A program that embeds the library may run without gates; nobody who reads a page of it can miss
 * that. */
Test(sheet, a_result_without_gates_says_so_first)
{
    drawn d = draw_text(
        "{ \"lemel\": \"0.2.0\", \"job\": { \"recipe\": \"need\" }, \"worked\": [], \"gates\": "
        "null,"
        " \"results\": {}, \"settings\": {}, \"sheets\": { \"client\": [ { \"is\": \"text\","
        " \"text\": \"Yours\" } ] }, \"remarks\": [] }",
        "client", 80, false);
    cr_expect(strstr(d.text.at, "RUN WITHOUT GATES") &&
              strstr(d.text.at, "RUN WITHOUT GATES") < strstr(d.text.at, "FOR THE CLIENT"));
    done(&d);
}

/* A client need not read what the studio is paid by its refiner. */
Test(sheet, a_client_is_not_told_why_a_figure_is_withheld)
{
    drawn d = draw_text(
        "{ \"lemel\": \"0.1.0\", \"job\": { \"recipe\": \"need\" }, \"worked\": [], \"results\": "
        "{},"
        " \"settings\": {}, \"sheets\": { \"client\": [ { \"is\": \"line\", \"label\": \"You pay\","
        " \"withheld\": true, \"of\": \"price\" } ] }, \"remarks\": [ { \"level\": \"confirm\","
        " \"code\": \"need/credit\", \"text\": \"A refiner pays 287.01 USD\","
        " \"withholds\": [ \"price\" ] } ] }",
        "client", 80, false);
    cr_expect(strstr(line_with(&d, "You pay"), "DO NOT  not resolved yet: please ask the studio"));
    cr_expect_not(strstr(d.text.at, "287.01"));
    done(&d);
}

/* In a narrow window it goes on in the next line, as the shell takes it, and no word of it is cut.
 */
Test(sheet, an_open_point_says_how_it_is_confirmed)
{
    for (size_t width = 40; width <= 80; width += 20) {
        drawn d = draw_text(canned("stopped.json"), "bench", width, false);
        const char *at = strstr(d.text.at, "lemel confirm");
        cr_assert(at);
        char joined[200] = "", *to = joined;
        for (; *at && to - joined < 120; at++)
            if (at[0] == '\\' && at[1] == '\n')
                at++;
            else if (*at != ' ' || to == joined || to[-1] != ' ')
                *to++ = *at;
        cr_expect(strstr(joined, "charge/old-metal-share --by WHO --reason WHY"), "%s", joined);
        done(&d);
    }
}

/* Who has to mend something reads it where it stands, and a client only that the page is no offer
 * yet. */
Test(sheet, a_stopped_job_says_so_on_the_pages_that_it_concerns)
{
    const char *more = ", \"stopped\": true";
    drawn bench = draw_text(around("bench", LINE("Piece", MASS("1 g"), ""), more), NULL, 80, false);
    drawn card = draw_text(around("card", LINE("Piece", MASS("1 g"), ""), more), "card", 80, false);
    drawn held = draw_text(
        around("card", "{ \"is\": \"line\", \"label\": \"Mark\", \"withheld\": true }", more),
        "card", 80, false);
    drawn grid = draw_text(around("metal",
                                  "{ \"is\": \"part\", \"recipe\": \"a\", \"entries\": [ { \"is\": "
                                  "\"grid\", \"columns\": [\"Due\"],"
                                  " \"rows\": [ [ { \"withheld\": true } ] ] } ] }",
                                  more),
                           "metal", 80, false);
    drawn client =
        draw_text(around("client", LINE("Piece", MASS("1 g"), ""), more), "client", 80, false);
    cr_expect(strstr(bench.text.at, "STOPPED."));
    cr_expect_not(strstr(card.text.at, "STOPPED."));
    cr_expect(strstr(held.text.at, "STOPPED."));
    cr_expect(strstr(grid.text.at, "STOPPED."));
    cr_expect(strstr(client.text.at, "NOT FINAL."));
    cr_expect_not(strstr(client.text.at, "STOPPED."));
    done(&bench);
    done(&card);
    done(&held);
    done(&grid);
    done(&client);
}

Test(sheet, levels_of_remarks_are_plain_words)
{
    drawn d = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(d.text.at, "\nSTOP The charge is larger"));
    cr_expect(strstr(d.text.at, "\nASK The client's old metal"));
    cr_expect(strstr(d.text.at, "\n  ! Investment dust"));
    cr_expect(strstr(d.text.at, "\n    The mould ran full"));
    cr_expect(strstr(d.text.at, "Confirmed by O.F.: client insists (Old price)"));
    done(&d);
}

/* A remark about a line stands after the run that the line is in; a moment in it is said as people
 * do. */
Test(sheet, a_remark_stands_beside_what_it_concerns)
{
    drawn d = draw_text(
        around(
            "bench",
            "{ \"is\": \"remark\", \"level\": \"note\", \"code\": \"a/b\", \"text\": \"Light since "
            "2026-11-27T03:06\", \"concerns\": \"tree\" }, { \"is\": \"line\", \"act\": "
            "\"measure\", "
            "\"label\": \"Tree\", \"record\": \"tree\" }, { \"is\": \"text\", \"text\": \"Rinse\" "
            "}",
            ""),
        NULL, 80, false);
    const char *said = strstr(d.text.at, "Light since Fri 27 Nov 2026 03:06");
    cr_expect(said && strstr(said, "Rinse") && said > strstr(d.text.at, "] tree"), "%s", d.text.at);
    done(&d);
}

/* Long names of a flow go on below, and its figures stay whole. */
Test(sheet, a_flow_of_long_names)
{
    static const char long_name[] =
        "what was left of the button, as much of it as the studio put in";
    char entry[900];
    snprintf(
        entry, sizeof entry,
        "{ \"is\": \"flow\", \"moves\": [ { \"from\": \"ring\", \"to\": \"%s\", \"value\": " MASS(
            "7.672 g") " } ], \"places\": [ { \"name\": \"ring\", \"column\": 0 }, { \"name\": "
                       "\"%s\", \"column\": 1, \"mark\": \"lost\" } ] }",
        long_name, long_name);
    for (size_t width = 60; width <= 80; width += 20) {
        drawn d = draw_text(around("metal", entry, ""), "metal", width, false);
        cr_expect(strstr(d.text.at, "7.672 g"), "%s", d.text.at);
        done(&d);
    }
}

Test(sheet, a_remark_that_stands_nowhere_ends_the_bench_sheet)
{
    drawn d = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(d.text.at, "STOP This alloy holds nickel. [gate/nickel]"));
    done(&d);
}

static char *unseen(const char *page, bool nothing)
{
    static char text[8000];
    drawn d = draw_text(canned("stopped.json"), NULL, 80, false);
    d.text.length = 0;
    lml_sheet_look look = {.page = page, .width = 80};
    cr_assert_eq(lml_sheet_draw_unseen(lml_json_root(d.doc), &look, nothing, &d.text, NULL),
                 LML_OK);
    snprintf(text, sizeof text, "%.*s", (int)d.text.length, d.text.at);
    done(&d);
    return text;
}

Test(sheet, what_is_left_out_is_told_aside)
{
    cr_expect_str_eq(unseen(NULL, false), "");
    cr_expect_str_eq(unseen("bench", false), "");
    cr_expect_not(strstr(unseen("client", false), "Investment dust")); /* it goes with its page */
    cr_expect(strstr(unseen("client", false), "This alloy holds nickel."));
    cr_expect(strstr(unseen("client", false), "The charge is larger"));
    cr_expect(strstr(unseen(NULL, true), "\n  ! Investment dust"));
}

Test(sheet, a_grid_too_wide_folds_and_repeats_its_first_column)
{
    drawn wide = draw_text(canned("stopped.json"), "metal", 80, false);
    drawn narrow = draw_text(canned("stopped.json"), "metal", 40, false);
    static const char *const headings[] = {"Owner", "In", "Piece", "Returned", "Kept", "Lost"};
    for (size_t i = 0; i < 6; i++) {
        cr_expect(strstr(wide.text.at, headings[i]));
        cr_expect(strstr(narrow.text.at, headings[i]));
    }
    const char *first = strstr(narrow.text.at, "client");
    cr_expect(first && strstr(first + 1, "client"), "the second band names its rows");
    const char *once = strstr(wide.text.at, "client");
    cr_expect_not(once && strstr(once + 1, "client"), "nothing folds at 80:\n%s", wide.text.at);
    done(&wide);
    done(&narrow);
}

Test(sheet, a_figure_to_copy_is_marked_and_on_a_clients_page_stands_apart)
{
    drawn plain = draw_text(canned("stopped.json"), "bench", 80, false);
    cr_expect(strstr(plain.text.at, "\n>>  Flask out of the kiln at  15:40\n"));
    drawn client = draw_text(
        around("client",
               LINE("Tax", MASS("1 g"), "") "," LINE(
                   "You pay", MASS("2 g"), ", \"big\": true") "," LINE("Deposit", MASS("3 g"), ""),
               ""),
        "client", 80, false);
    cr_expect(strstr(client.text.at, "\n\n>>  You pay  2 g\n\n"), "%s", client.text.at);
    done(&client);
    cr_expect_not(strchr(plain.text.at, '\033'));
    drawn bold = draw_text(canned("stopped.json"), "bench", 80, true);
    cr_expect(strstr(bold.text.at, "\033[1m15:40\033[0m"));
    cr_expect(strstr(bold.text.at, "\033[1mDO NOT\033[0m"));
    done(&plain);
    done(&bold);
}

Test(sheet, what_a_recipe_wrote_cannot_steer_the_terminal)
{
    drawn d = draw_text(
        around("bench",
               "{ \"is\": \"text\", \"text\": \"a\\u001b[2Jb\\u009bc\\u202ed\\u0007\" },"
               "{ \"is\": \"line\", \"label\": \"x\\u001b]0;y\", \"value\": { \"kind\": \"text\", "
               "\"value\": \"1\\r2\" } }",
               ""),
        NULL, 80, false);
    cr_expect(strstr(d.text.at, "a?[2Jb?c?d?"));
    for (const char *at = d.text.at; *at; at++)
        cr_expect(*at == '\n' || (unsigned char)*at >= ' ', "byte %d", *at);
    done(&d);
}

Test(sheet, results_are_drawn_when_a_recipe_draws_no_sheet)
{
    drawn d =
        draw_text("{ \"lemel\": \"0.1.0\", \"job\": { \"recipe\": \"need\" }, \"worked\": [], "
                  "\"results\": { \"piece\": { \"kind\": \"mass\", \"text\": \"45.9 g\" }, "
                  "\"round\": { \"kind\": \"yes_no\", \"value\": true }, \"lots\": { \"kind\": "
                  "\"list\", \"value\": [ { \"kind\": \"record\", \"value\": { \"name\": { "
                  "\"kind\": \"text\", \"value\": \"a\" }, \"n\": { \"kind\": \"number\", "
                  "\"value\": 3 } } }, { \"kind\": \"text\", \"value\": \"b\" } ] } }, "
                  "\"withheld\": [ \"charge\" ], \"sheets\": {}, \"remarks\": [] }",
                  NULL, 80, false);
    cr_assert_eq(d.status, LML_OK);
    cr_expect(strstr(line_with(&d, "piece"), "45.9 g"));
    cr_expect(strstr(line_with(&d, "round"), "yes"));
    cr_expect(strstr(line_with(&d, "lots"), "name a, n 3, b"));
    cr_expect(strstr(line_with(&d, "charge"), "DO NOT"));
    done(&d);
}

Test(sheet, a_page_that_holds_nothing_is_refused_by_name)
{
    drawn d = draw_text(around("bench",
                               "{ \"is\": \"part\", \"recipe\": \"a\", \"title\": \"A\", "
                               "\"entries\": [] }",
                               ""),
                        "bench", 80, false);
    cr_expect_eq(d.status, LML_NOT_FOUND);
    cr_expect(strstr(d.error.message, "bench"));
    done(&d);
    d = draw_text("{ \"a\": 1 }", NULL, 80, false);
    cr_expect_eq(d.status, LML_FAULT);
    done(&d);
}

/* A worker's answer is not trusted: any value in it may be missing or of another kind. */
Test(sheet, any_value_may_be_null_without_harm)
{
    const char *json = canned("stopped.json");
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc;
    cr_assert_eq(lml_json_read(&heap, lml_span_of(json), NULL, "canned", &doc, NULL), LML_OK);
    static char text[1 << 16];
    size_t drawn_once = 0;
    const char *base = lml_json_source_text(doc).at;
    const lml_json *stack[64];
    int depth = 0;
    stack[0] = lml_json_first(lml_json_root(doc));
    while (depth >= 0) {
        const lml_json *node = stack[depth];
        if (!node) {
            depth--;
            if (depth >= 0)
                stack[depth] = lml_json_next(stack[depth]);
            continue;
        }
        size_t at = (size_t)(lml_json_raw(node).at - base), length = lml_json_raw(node).length;
        snprintf(text, sizeof text, "%.*snull%s", (int)at, base, base + at + length);
        for (size_t width = 40; width <= 80; width += 40) {
            drawn d = draw_text(text, NULL, width, false);
            cr_expect(d.status == LML_OK || d.status == LML_FAULT);
            drawn_once += d.status == LML_OK;
            done(&d);
        }
        if (lml_json_count(node) > 0)
            stack[++depth] = lml_json_first(node);
        else
            stack[depth] = lml_json_next(node);
    }
    cr_expect_gt(drawn_once, 300);
    lml_json_free(doc);
}

Test(sheet, every_failed_allocation_is_reported_and_leaks_nothing)
{
    const char *json = canned("stopped.json");
    lml_alloc heap = lml_alloc_heap();
    lml_json_document *doc;
    cr_assert_eq(lml_json_read(&heap, lml_span_of(json), NULL, "canned", &doc, NULL), LML_OK);
    lml_sheet_look look = {.width = 80};
    bool through = false;
    for (uint64_t n = 1; n < 2000 && !through; n++) {
        lml_meter meter = {.under = heap, .fail_at = n};
        lml_alloc metered = lml_alloc_metered(&meter);
        lml_builder out = lml_builder_on(&metered, 0);
        lml_status status = lml_sheet_draw(lml_json_root(doc), &look, &out, NULL);
        through = meter.fail_at != 0; /* it never came to the Nth */
        cr_expect_eq(status, through ? LML_OK : LML_NO_MEMORY, "at allocation %d", (int)n);
        lml_builder_free(&out);
        cr_expect_eq(meter.used, 0, "%d bytes are left at allocation %d", (int)meter.used, (int)n);
    }
    cr_expect(through);
    lml_json_free(doc);
}

/* ---- what several recipes say together ---- */

#define HOT "\"is\": \"remark\", \"level\": \"caution\", \"text\": \"The flask is hot\""

/* At its first place: said again at the end, it is not drawn away from where it is first needed. */
Test(sheet, a_caution_that_two_steps_give_stands_once_at_its_first_place)
{
    drawn d = draw_text(
        around(
            "bench",
            "{ \"is\": \"part\", \"recipe\": \"day\", \"title\": \"Day\", \"entries\": [ { " HOT
            ", \"code\": \"day/hot\" }, { \"is\": \"text\", \"text\": \"Load the kiln\" } ] },"
            "{ \"is\": \"part\", \"recipe\": \"pour\", \"title\": \"Pour\", \"entries\": [ { " HOT
            ", \"code\": \"pour/hot\" }, { \"is\": \"text\", \"text\": \"Quench\" } ] }",
            ""),
        "bench", 80, false);
    const char *said = strstr(d.text.at, "The flask is hot");
    cr_assert(said);
    cr_expect_not(strstr(said + 1, "The flask is hot"));
    cr_expect_lt(said, strstr(d.text.at, "Load the kiln"));
    done(&d);
}

Test(sheet, what_is_assumed_is_listed_at_the_back_when_there_is_one)
{
    const char *json =
        "{ \"lemel\": \"0.1.0\", \"job\": { \"recipe\": \"need\" }, \"worked\": [], \"results\": "
        "{},"
        " \"settings\": { \"need.skull\": { \"kind\": \"mass\", \"text\": \"0.3 g\", \"from\": "
        "\"default\" },"
        " \"quote.stones\": { \"kind\": \"list\", \"value\": [], \"from\": \"default\" } },"
        " \"sheets\": { \"bench\": [ { \"is\": \"text\", \"text\": \"Weigh\" } ],"
        " \"cost\": [ { \"is\": \"text\", \"text\": \"Why\" } ] }, \"remarks\": [] }";
    drawn bench = draw_text(json, "bench", 80, false);
    cr_expect(
        strstr(bench.text.at, "The cost sheet lists 2 assumed figures and the recipes used."));
    cr_expect_not(strstr(bench.text.at, "need.skull"));
    done(&bench);
    drawn cost = draw_text(json, "cost", 80, false);
    cr_expect(strstr(cost.text.at, "Assumed: need.skull 0.3 g. quote.stones none."));
    done(&cost);
}

/* One heading for a recipe that only hands on; none where that is all there is, for the head says
 * it. */
Test(sheet, a_recipe_that_only_hands_on_is_one_heading)
{
    static const char part[] =
        "{ \"is\": \"part\", \"recipe\": \"own\", \"title\": \"Own metal\", \"entries\": [ { "
        "\"is\":"
        " \"part\", \"recipe\": \"quote\", \"title\": \"Cost and profit\", \"entries\": [ { \"is\":"
        " \"text\", \"text\": \"You pay\" } ] } ] }";
    char both[600];
    snprintf(both, sizeof both, "{ \"is\": \"text\", \"text\": \"For you\" }, %s", part);
    for (int beside = 0; beside < 2; beside++) {
        drawn d = draw_text(around("client", beside ? both : part, ""), "client", 80, false);
        cr_expect_eq(strstr(d.text.at, "Own metal") != NULL, beside == 1);
        cr_expect_not(strstr(d.text.at, "Cost and profit"));
        cr_expect(strstr(d.text.at, "You pay"));
        done(&d);
    }
}
