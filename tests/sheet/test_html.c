/* Sheets in HTML. What is checked is what a reader relies on: every figure is there, nothing of
 * what is withheld is, no text becomes markup, and it asks for nothing. */
#include <criterion/criterion.h>

#include "file/json.h"
#include "sheet/escape.h"
#include "sheet/html.h"
#include "sheet/typeset.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROOM = 1 << 16 };
static lml_alloc heap;

/* JSON is written here with ' for ", a figure as <mass 270 g>, a moment as <moment 2026-11-27>, and
 * @ for EVIL. */
#define EVIL "</style></title></svg><script>evil()</script>&quot;\\\"' onload='x"

static size_t put_figure(const char *text, char *out)
{
    char kind[40], value[80], unit[40] = "";
    int taken = 0;
    cr_assert(sscanf(text, "<%39[a-z_] %79[^ >]%n", kind, value, &taken) == 2, "%s", text);
    int more = 0;
    if (text[taken] == ' ')
        sscanf(text + taken, " %39[^>]%n", unit, &more);
    bool words = strcmp(kind, "moment") == 0 || strcmp(kind, "time_of_day") == 0;
    sprintf(out,
            words ? "{\"kind\":\"%s\",\"value\":\"%s\",\"text\":\"%s%s\"}"
                  : "{\"kind\":\"%s\",\"value\":%s,\"text\":\"%s %s\"",
            kind, value, value, unit);
    if (!words)
        sprintf(out + strlen(out), ",\"unit\":\"%s\"}", unit);
    return (size_t)(taken + more) + 1;
}

static const char *spell(const char *text)
{
    static char out[ROOM];
    char *at = out;
    while (*text) {
        if (*text == '<') {
            text += put_figure(text, at);
            at += strlen(at);
        } else if (*text == '@') {
            memcpy(at, EVIL, strlen(EVIL));
            at += strlen(EVIL);
            text++;
        } else {
            *at++ = *text == '\'' ? '"' : *text;
            text++;
        }
    }
    *at = '\0';
    return out;
}

static char *draw_result(const char *text, const char *pages, lml_html_paper paper)
{
    heap = lml_alloc_heap();
    lml_json_document *doc = NULL;
    lml_error err = {.status = LML_OK};
    const char *json = spell(text);
    cr_assert_eq(lml_json_read(&heap, lml_span_of(json), NULL, "canned", &doc, &err), LML_OK,
                 "%s\n%s", err.message, json);
    lml_builder b = lml_builder_on(&heap, 0);
    lml_html_look look = {.pages = pages, .paper = paper};
    cr_assert_eq(lml_html_draw(lml_json_root(doc), &look, &b, &err), LML_OK, "%s", err.message);
    char *html = strdup(b.at);
    lml_builder_free(&b);
    lml_json_free(doc);
    return html;
}

static char *draw_entries(const char *page, const char *entries, const char *more)
{
    static char text[ROOM];
    snprintf(text, sizeof text,
             "{ 'lemel': '0.2.0', 'job': { 'recipe': 'need', 'title': 'A ring' }, 'worked': [], "
             "'results': {}, 'settings': {}, 'sheets': { '%s': [ %s ] } %s }",
             page, entries, more);
    return draw_result(text, NULL, LML_PAPER_OF_HOUSE);
}

static void expect_on(const char *page, const char *entries, const char *markup)
{
    char *html = draw_entries(page, entries, "");
    cr_expect(strstr(html, markup), "%s\nshould have %s\n%s", entries, markup,
              strstr(html, "<body>"));
    free(html);
}

static void expect(const char *entries, const char *markup)
{
    expect_on("bench", entries, markup);
}

Test(html, one_document_that_asks_for_nothing)
{
    char *html = draw_entries("bench", "", "");
    cr_expect(strncmp(html, "<!DOCTYPE html>\n<html", 20) == 0);
    cr_expect(strstr(html, "<head><meta http-equiv=\"Content-Security-Policy\" "
                           "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>"));
    static const char *const never[] = {"<script", "src=",  "href=",      "url(http",
                                        "@import", "<link", "javascript:"};
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        cr_expect(!strstr(html, never[i]), "%s", never[i]);
    free(html);
}

Test(html, paper_is_the_house_s_or_the_one_asked_for)
{
    static const char text[] =
        "{ 'job': { 'recipe': 'r' }, 'results': {}, 'sheets': {}, 'house': { "
        "'paper': 'Letter' } }";
    char *html = draw_result(text, NULL, LML_PAPER_OF_HOUSE);
    cr_expect(strstr(html, "@page { size: letter;"));
    free(html);
    html = draw_result(text, NULL, LML_PAPER_A4);
    cr_expect(strstr(html, "@page { size: A4;"));
    free(html);
}

Test(html, what_is_done_with_a_line)
{
    expect("{ 'is': 'line', 'act': 'weigh', 'label': 'Powder', 'record': 'powder', 'value': <mass "
           "270 g> }",
           "<div class=\"row weigh\"><span class=\"lab\">Powder</span><span "
           "class=\"fig\"><b>270</b><i>g</i></span><span "
           "class=\"box\"><small>powder</small><u>g</u></span>");
    expect("{ 'is': 'line', 'act': 'set', 'label': 'Furnace', 'value': <temperature 1832 °F>, "
           "'also': <temperature 1000 °C> }",
           "<b>1832</b><i>°F</i></span><span class=\"also\">1000 °C</span><span "
           "class=\"tick\"></span>");
    expect("{ 'is': 'line', 'act': 'measure', 'label': 'Held', 'least': <time 60 min>, 'record': "
           "'held' }",
           "<b>60</b><i>min</i><i>or more</i>");
    expect("{ 'is': 'line', 'act': 'tick', 'label': 'POUR', 'record': 'poured' }",
           "<div class=\"row do gate\"><span class=\"tick\"></span>");
    expect(
        "{ 'is': 'line', 'act': 'tick', 'label': 'Quench', 'least': <time 8 min>, 'most': <time 12 "
        "min>, 'at': <moment 2026-11-26T14:10>, 'till': <moment 2026-11-26T14:14> }",
        "<small>8 to 12 min</small><span class=\"fig\"><b>14:10</b><i>Thu 26 Nov</i></span> "
        "<small>until 14:14</small>");
    expect(
        "{ 'is': 'line', 'label': 'Poured at', 'value': { 'kind': 'time_of_day', 'value': '14:02', "
        "'text': '14:02' } }",
        "<b class=\"words\">14:02</b>");
    expect("{ 'is': 'line', 'label': 'Flask', 'value': { 'kind': 'text', 'value': 'A' } }",
           "<b class=\"words\">A</b>");
    expect("{ 'is': 'line', 'label': 'Wall', 'value': <length 5 mm>, 'least': <length 4 mm>, "
           "'most': <length 6 mm> }",
           "<small>4 to 6 mm</small>");
    expect("{ 'is': 'line', 'act': 'measure', 'label': 'Tree', 'record': 'tree', 'recorded': { "
           "'at': '2026-11-26T14:50', 'text': '37.66 g' } }",
           "<span class=\"box done\"><small>tree</small><b>37.66 g</b><u>Thu 26 Nov 14:50</u>");
}

Test(html, moments_and_long_times_are_said_as_people_say_them)
{
    static const char start[] =
        "{ 'is': 'line', 'label': 'Starts', 'value': <moment 2026-11-27T03:06> }";
    expect(start, "<b>03:06</b><i>Fri 27 Nov</i>");
    char *html = draw_entries("bench", start, ", 'house': { 'days': 'Fri Nov 27' }");
    cr_expect(strstr(html, "<b>03:06</b><i>Fri Nov 27</i>"));
    free(html);
    expect("{ 'is': 'line', 'label': 'Delay', 'value': <time 306 min> }",
           "<b>5</b><i>h</i> <b>06</b><i>min</i>");
    expect("{ 'is': 'line', 'label': 'Hold', 'value': <time 90 min> }", "<b>90</b><i>min</i>");
}

Test(html, a_ladder_for_a_tared_scale)
{
    static const char lots[] =
        "{ 'is': 'line', 'act': 'weigh', 'label': 'ring A', 'value': <mass 13.651 g>, 'shows': "
        "<mass 13.651 g> }, { 'is': 'line', 'act': 'weigh', 'label': 'ring B', 'value': <mass "
        "3.749 g>, 'shows': <mass 17.400 g> }, { 'is': 'total', 'label': 'Charge', 'value': <mass "
        "17.400 g> }";
    expect(lots, "<td class=\"add\"><b>3.749</b></td><td class=\"sum\">17.400</td>");
    expect(lots, "<th class=\"add\">add, g</th>");
}

Test(html, the_slurry_s_clock)
{
    static const char clock[] =
        "{ 'is': 'line', 'act': 'tick', 'label': 'Pour', 'after': <time 4.5 min>, 'latest': <time "
        "6.5 min> }, { 'is': 'line', 'act': 'tick', 'label': 'Leave', 'after': <time 6 min> }";
    expect(clock, "<td class=\"t\">4:30</td>");
    expect(clock, "by 6:30");
    expect(clock, "from 4.5 min to 6.5 min</desc>");
}

Test(html, a_fineness_against_its_mark)
{
    static const char line[] =
        "{ 'is': 'line', 'label': 'Fineness', 'value': { 'kind': 'fineness', 'value': 587, 'unit': "
        "'‰ Au', 'text': '587.0 ‰ Au', 'sd': 3.6 }, 'least': <fineness 583.3 ‰ Au>, 'chance': "
        "<ratio 15.4 %> }";
    expect(line, "<figure class=\"mark\">");
    expect(line, ">least 583.3 ‰ Au</text>");
    expect(line, ">chance 15.4 %</text>");
}

Test(html, grids_signs_and_headings)
{
    expect("{ 'is': 'grid', 'columns': [ 'Piece', 'Mass', 'Done' ], 'rows': [ [ { 'kind': 'text', "
           "'value': 'ring' }, <mass 3 g>, { 'box': true } ], [ null, { 'withheld': true }, null ] "
           "], 'total': [ null, <mass 3 g>, null ] }",
           "<th>Piece</th><th class=\"r\">Mass</th><th>Done</th>");
    expect_on("client", "{ 'is': 'sign', 'label': 'Agreed', 'who': [ 'Client', 'Date' ] }",
              "<span class=\"lab\">Agreed</span><span class=\"sign\"><small>Client</small></span>");
    expect("{ 'is': 'part', 'recipe': 'melt', 'title': 'The melt', 'entries': [ { 'is': 'text', "
           "'text': 'Dry.' } ] }, { 'is': 'heading', 'text': 'After' }, { 'is': 'text', 'text': "
           "'Rinse.' }",
           "<span class=\"n\">2</span><span>After</span></h2>\n<p>Rinse.</p>");
}

/* Where a caution begins with its own hazard the word is not said twice. */
Test(html, a_hazard_is_named_once)
{
    expect("{ 'is': 'remark', 'level': 'caution', 'code': 'melt/molten-metal', 'text': 'Molten "
           "metal: face shield' }",
           "Molten</span> metal</b>: face shield</p>");
    expect("{ 'is': 'remark', 'level': 'caution', 'code': 'melt/damp', 'text': 'Dampness throws' }",
           "DAMP</span></b> Dampness throws</p>");
}

/* Widths of Helvetica, which are those of Arial: Adobe's font metrics (Core 14, Helvetica.afm:
 * H 722, e 556, l 222, o 556; bold: H 722, e 556, l 278, o 611), in thousandths of the size. */
Test(html, widths_of_letters)
{
    double mm = 10 * 25.4 / 72 / 1000;
    lml_span hello = lml_span_of("Hello");
    cr_expect(fabs(lml_typeset_width(hello, 10, false) - 2278 * mm) < 1e-9);
    cr_expect(fabs(lml_typeset_width(hello, 10, true) - 2445 * mm) < 1e-9);
    lml_typeset t = {.width = 2278 * mm + .01, .lines = 1};
    lml_typeset_run(&t, lml_span_of("Hello Hello"), 10, false);
    cr_expect_eq(t.lines, 2);
    lml_typeset_run(&t, lml_span_of("HelloHelloHello"), 10, false); /* broken within the word */
    cr_expect_eq(t.lines, 5);
}

/* Each width from blank to tilde times its code, added up, as the metrics of another font of these
 * widths give it: NimbusSans-Regular.afm and NimbusSans-Bold.afm of the base 35 fonts, 2020-09-10.
 */
Test(html, widths_of_all_letters)
{
    double mm = 10 * 25.4 / 72 / 1000, plain = 0, heavy = 0;
    for (char c = ' '; c <= '~'; c++) {
        plain += c * lml_typeset_width((lml_span){&c, 1}, 10, false) / mm;
        heavy += c * lml_typeset_width((lml_span){&c, 1}, 10, true) / mm;
    }
    cr_expect(fabs(plain - 3946269) < 1e-3, "%.3f", plain);
    cr_expect(fabs(heavy - 4160423) < 1e-3, "%.3f", heavy);
}

/* The text of a page is not lost where it does not fit: the page takes the tightest setting, then
 * a second sheet of paper, and its last cautions stand in the shorter column. */
Test(html, cautions_at_the_end_stand_where_there_is_room)
{
    static const char entries[] =
        "{ 'is': 'part', 'recipe': 'a', 'entries': [ { 'is': 'heading', 'text': 'A' }, { 'is': "
        "'text', 'text': 'Rinse.' } ] }, { 'is': 'part', 'recipe': 'b', 'entries': [ { 'is': "
        "'heading', 'text': 'B' }, { 'is': 'text', 'text': 'Rinse it well, dry it well, weigh it "
        "well, and write down what the scale says before it goes into the drawer of the bench' }, "
        "{ 'is': 'text', 'text': 'Then rest.' } ] }, { 'is': 'remark', 'level': 'caution', "
        "'code': 'a/burn', 'text': 'It burns' }";
    char *html = draw_entries("bench", entries, "");
    const char *second = strstr(html, "</div><div>"), *burn = strstr(html, "BURN");
    cr_expect(burn && second && burn < second, "%s", strstr(html, "<body>"));
    free(html);
}

/* In the house's form; a client reads the year too. */
Test(html, dates_in_sentences)
{
    static const char text[] = "{ 'is': 'text', 'text': 'From 2026-11-27T03:06 to 06:30, of "
                               "2026-11-27T03:06:11, by 2026-11-24, as X-2026-11-24' }";
    char *html = draw_entries("bench", text, ", 'house': { 'days': 'Fri Nov 27' }");
    cr_expect(strstr(html, "From Fri\302\240Nov\302\24027,\302\2402026\302\24003:06 to 06:30, of "
                           "2026-11-27T03:06:11, by "
                           "Tue\302\240Nov\302\24024,\302\2402026, as X-2026-11-24"),
              "%s", strstr(html, "<body>"));
    free(html);
    expect_on("client", text, "<p>From Fri\302\24027\302\240Nov\302\2402026\302\24003:06 to 06:30");
    expect("{ 'is': 'text', 'text': 'It waits up to 427 min, held 90 min or 120 min.' }",
           "<p>It waits up to 7\302\240h\302\24007\302\240min, held "
           "90\302\240min or 2\302\240h.</p>");
    expect("{ 'is': 'remark', 'level': 'note', 'code': 'a/b', 'text': 'At 2026-11-27T03:06' }",
           "<span>At Fri\302\24027\302\240Nov\302\2402026\302\24003:06</span>");
    html = draw_result("{ 'lemel': '0.2.0', 'job': { 'recipe': 'need', 'date': '2026-11-24' }, "
                       "'worked': [], 'results': {}, 'settings': {}, 'sheets': { 'bench': [ { "
                       "'is': 'text', 'text': 'At 2026-11-27T03:06, read 2026-03-26' } ] } }",
                       NULL, LML_PAPER_OF_HOUSE);
    cr_expect(strstr(html, "At Fri\302\24027\302\240Nov\302\24003:06, read "
                           "Thu\302\24026\302\240Mar\302\2402026"),
              "%s", strstr(html, "<body>"));
    free(html);
}

/* A remark about a line stands after the run that the line is in, wherever it was written. */
Test(html, a_remark_stands_beside_what_it_concerns)
{
    static const char entries[] =
        "{ 'is': 'remark', 'level': 'note', 'code': 'a/b', 'text': 'Too light', 'concerns': 'tree' "
        "}, { 'is': 'line', 'act': 'measure', 'label': 'Tree', 'record': 'tree' }, { 'is': 'line', "
        "'act': 'measure', 'label': 'Button', 'record': 'button' }, { 'is': 'text', 'text': "
        "'Rinse' }";
    char *html = draw_entries("bench", entries, "");
    const char *said = strstr(html, "Too light"), *button = strstr(html, "Button"),
               *rinse = strstr(html, "Rinse");
    cr_expect(said && button && rinse && button < said && said < rinse, "%s", html);
    cr_expect(said && !strstr(said + 1, "Too light"));
    free(html);
}

/* What no sheet of paper holds breaks before a part, and each sheet has its head. */
Test(html, a_bench_page_too_long_for_one_sheet)
{
    static char entries[ROOM / 2];
    char *to = entries;
    for (int part = 0; part < 9; part++) {
        to += sprintf(to, "%s{ 'is': 'part', 'recipe': 'melt', 'title': 'Part %d', 'entries': [",
                      part > 0 ? ", " : "", part);
        for (int i = 0; i < 9; i++)
            to += sprintf(to,
                          "%s{ 'is': 'line', 'act': 'set', 'label': 'Step', 'value': <mass 5 g> }",
                          i > 0 ? ", " : "");
        to += sprintf(to, "] }");
    }
    char *html = draw_entries("bench", entries, "");
    cr_expect(strstr(html, "<b>1 of 2</b>") && strstr(html, "<b>2 of 2</b>"));
    cr_expect(!strstr(html, "of 3</b>"));
    const char *second = strstr(html, "<b>2 of 2</b>");
    cr_expect(second && strstr(second, "<article class=\"card") &&
              strstr(second, ">Part 8</span>") && !strstr(second, ">Part 0</span>"));
    free(html);
    html = draw_entries("bench", "{ 'is': 'text', 'text': 'Rinse.' }", "");
    cr_expect(!strstr(html, " of 1</b>"));
    free(html);
}

static size_t count_of(const char *text, const char *sought)
{
    size_t count = 0;
    for (; (text = strstr(text, sought)); text++)
        count++;
    return count;
}

/* One part taller than a sheet of paper: it is cut between its rows, no row is lost, and every
 * sheet has its head and its number. */
static void expect_cut(const char *entries, const char *row, size_t rows)
{
    char *html = draw_entries("bench", entries, ""), said[60];
    size_t sheets = count_of(html, "<section");
    cr_expect(sheets > 1 && count_of(html, "<header class=\"work\">") == sheets);
    for (size_t i = 1; i <= sheets; i++) {
        sprintf(said, "<b>%zu of %zu</b>", i, sheets);
        cr_expect_eq(count_of(html, said), 1, "%s", said);
    }
    cr_expect_eq(count_of(html, row), rows);
    cr_expect_eq(count_of(html, "<tr class=\"total\">"), 1);
    cr_expect_eq(count_of(html, "<span class=\"n\">"), 2);
    cr_expect_geq(count_of(html, ">The charge, continued</span>"), sheets);
    free(html);
}

Test(html, a_part_taller_than_a_sheet)
{
    enum { ROWS = 100 };
    static const char open[] = "{ 'is': 'part', 'title': 'The charge', 'entries': [ ",
                      close[] = " ] }, { 'is': 'part', 'title': 'The melt', 'entries': [ { 'is': "
                                "'text', 'text': 'Dry.' } ] }";
    static char entries[ROOM / 2];
    char *to = entries + sprintf(entries, "%s", open);
    for (int i = 0; i < ROWS; i++)
        to += sprintf(to,
                      "{ 'is': 'line', 'act': 'weigh', 'label': 'lot', 'value': <mass 1 g>, "
                      "'shows': <mass %d g> }, ",
                      i + 1);
    sprintf(to, "{ 'is': 'total', 'label': 'Charge', 'value': <mass 100 g> }%s", close);
    expect_cut(entries, "<td class=\"add\"><b>1</b>", ROWS);
    to = entries + sprintf(entries, "%s{ 'is': 'grid', 'columns': [ 'What' ], 'rows': [", open);
    for (int i = 0; i < 2 * ROWS; i++)
        to += sprintf(to, "%s[ <mass 2 g> ]", i > 0 ? ", " : "");
    sprintf(to, "], 'total': [ <mass 400 g> ] }%s", close);
    expect_cut(entries, "<td class=\"r\">2", 2 * ROWS);
}

Test(html, remarks)
{
    expect("{ 'is': 'remark', 'level': 'caution', 'code': 'day/hot-flask-1', 'text': 'It burns' }",
           "HOT</span> FLASK</b> It burns</p>");
    expect("{ 'is': 'remark', 'level': 'confirm', 'code': 'charge/chance', 'text': 'A chance' }",
           "<code>lemel confirm JOB charge/chance --by WHO --reason WHY</code>");
    expect("{ 'is': 'remark', 'level': 'confirmed', 'code': 'a/b', 'text': 'A chance', 'by': "
           "'O.F.', 'reason': 'tested' }",
           "<b>tested</b> <span class=\"why\">(O.F.: A chance)</span>");
}

static const char curve[] =
    "{ 'is': 'curve', 'title': 'Burnout', 'from': <temperature 20 °C>, 'loaded': <moment "
    "2026-11-26T22:00>, 'nobody': { 'from': <time_of_day 22:00>, 'to': <time_of_day 06:30> }, "
    "'alone_most': <temperature 400 °C>, 'steps': [ { 'to': <temperature 150 °C>, 'begins': "
    "<moment "
    "2026-11-27T03:06>, 'there': <moment 2026-11-27T03:50>, 'ends': <moment 2026-11-27T05:20>, "
    "'hold': <time 90 min> }, { 'to': <temperature 730 °C>, 'begins': <moment 2026-11-27T05:20>, "
    "'there': <moment 2026-11-27T08:00>, 'ends': <moment 2026-11-27T10:00> } ] }";

Test(html, a_curve)
{
    static const char *const drawn[] = {"<article class=\"card wide\">",
                                        ">nobody there 22:00 to 06:30</text>",
                                        ">not above 400 °C</text>",
                                        ">starts 03:06</text>",
                                        ">730</text>",
                                        ">Fri 27 Nov</text>"};
    for (size_t i = 0; i < sizeof drawn / sizeof *drawn; i++)
        expect(curve, drawn[i]);
    char marks[4000];
    snprintf(marks, sizeof marks,
             "%s, { 'is': 'line', 'act': 'tick', 'label': 'Pour A', 'at': <moment "
             "2026-11-27T14:08>, 'till': <moment 2026-11-27T14:12> }",
             curve);
    expect(marks, "<span class=\"n\">1</span> <b>14:08</b><small>to 14:12</small>");
    expect(marks, "<tr class=\"day\"><td colspan=\"3\">Fri 27 Nov</td></tr>");
}

Test(html, a_flow)
{
    static const char flow[] =
        "{ 'is': 'flow', 'title': 'Metal', 'moves': [ { 'from': 'ring', 'to': 'melt', 'value': "
        "<mass 7 "
        "g> }, { 'from': 'melt', 'to': 'piece', 'value': <mass 6 g> }, { 'from': 'melt', 'to': "
        "'gone', "
        "'value': <mass 1 g> } ], 'places': [ { 'name': 'ring', 'column': 0, 'owner': 'client', "
        "'value': <mass 7 g> }, { 'name': 'melt', 'column': 1, 'value': <mass 7 g> }, { 'name': "
        "'piece', 'column': 2, 'value': <mass 6 g> }, { 'name': 'gone', 'column': 2, 'mark': "
        "'lost', "
        "'value': <mass 1 g> } ] }";
    expect_on("metal", flow,
              "<desc>ring to melt: 7 g; melt to piece: 6 g; melt to gone: 1 g; </desc>");
    expect_on("metal", flow, ">client</text>");
    expect_on("metal", flow, ">lost or open</text>");
    expect_on("metal", flow, ">melt 7 g</text>");
}

Test(html, a_section)
{
    static const char section[] =
        "{ 'is': 'section', 'vessel': { 'name': 'A', 'diameter': <length 63.5 mm>, 'height': "
        "<length "
        "76.2 mm> }, 'body': { 'diameter': <length 42 mm>, 'height': <length 50.7 mm>, 'foot': "
        "<length "
        "9 mm> }, 'wall': { 'value': <length 10.75 mm>, 'least': <length 11 mm>, 'under': true }, "
        "'top': { 'value': <length 16.5 mm> }, 'fill': <length 76.2 mm> }, { 'is': 'line', 'act': "
        "'weigh', 'label': 'Powder', 'value': <mass 270 g> }";
    static const char *const drawn[] = {
        ">10.75 !</text>", ">16.5</text>", ">fill to the rim</text>",
        "10.75 mm beside it, at least 11 mm", "</figure><div><div class=\"stack\">"};
    for (size_t i = 0; i < sizeof drawn / sizeof *drawn; i++)
        expect(section, drawn[i]);
}

static const char stopped[] =
    ", 'stopped': true, 'remarks': [ { 'level': 'stop', 'code': 'need/no', "
    "'text': 'Too thin by far', 'withholds': [ 'need.out' ] } ]";

Test(html, what_is_withheld_is_not_drawn)
{
    static const char *const pictures[] = {"curve", "flow", "section"};
    for (size_t i = 0; i < sizeof pictures / sizeof *pictures; i++) {
        char entry[200];
        snprintf(entry, sizeof entry, "{ 'is': '%s', 'withheld': true, 'withheld_by': 'need/no' }",
                 pictures[i]);
        char *html = draw_entries("bench", entry, stopped);
        cr_expect(!strstr(html, "class=\"pic\""), "%s", pictures[i]);
        cr_expect(strstr(html, "DO NOT</b> <small>Too thin by far</small>"), "%s", pictures[i]);
        free(html);
    }
    char *html = draw_entries("bench",
                              "{ 'is': 'grid', 'columns': [ 'Lot', 'Half' ], 'withheld': true, "
                              "'withheld_by': 'need/no', 'rows': [] }",
                              stopped);
    cr_expect(strstr(html, "<tbody><tr><td colspan=\"2\"><span class=\"held\"><b class=\"donot\">"
                           "DO NOT</b> <small>Too thin by far</small></span></td></tr></tbody>"));
    free(html);
    html = draw_entries("bench",
                        "{ 'is': 'line', 'act': 'weigh', 'label': 'Metal', 'of': 'out', "
                        "'withheld': true, 'record': 'charge' }",
                        stopped);
    cr_expect(strstr(html, "DO NOT</b> <small>Too thin by far</small>"));
    cr_expect(!strstr(html, "class=\"box") && !strstr(html, "<span class=\"tick"));
    cr_expect(strstr(html, "STOPPED.") &&
              strstr(html, "<b class=\"lv\">STOP</b> <span>Too thin by far"));
    free(html);
}

/* Where the reasons of a stop fill sheets of their own, those are counted; what follows them starts
 * on the sheet on which they end, or on the next. */
Test(html, sheets_of_reasons_are_counted)
{
    enum { REASONS = 60 };
    static char more[ROOM / 2];
    size_t at = (size_t)snprintf(more, sizeof more, ", 'stopped': true, 'remarks': [ ");
    for (int i = 0; i < REASONS; i++)
        at += (size_t)snprintf(
            more + at, sizeof more - at,
            "%s{ 'level': 'stop', 'code': 'need/no-%d', 'text': 'What was weighed and what was "
            "said differ by more than the scale can explain, so weigh it again before anything is "
            "melted, and ask whoever weighed it first' }",
            i > 0 ? ", " : "", i);
    snprintf(more + at, sizeof more - at, " ]");
    char *html = draw_entries("bench", "{ 'is': 'line', 'label': 'A', 'value': <mass 3 g> }", more);
    cr_expect(strstr(html, "<b>1 of 3</b>"));
    free(html);
}

/* A note of which an ellipsis is left says that something is left out, as a sentence does. */
Test(html, a_note_that_says_nothing_says_so)
{
    static const char note[] =
        "{ 'is': 'remark', 'level': 'note', 'code': 'need/n', 'text': '\342\200\246' }";
    char *html = draw_entries("bench", note, stopped);
    cr_expect(strstr(html, "<span>(Something is left out here until this is resolved.)</span>"));
    cr_expect_not(strstr(html, "<span>\342\200\246</span>"));
    free(html);
}

/* A name that is wider than its place in a picture is cut, and the picture does not run over. */
Test(html, a_long_name_is_cut_in_a_picture)
{
    char entry[600], name[200];
    memset(name, 'm', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    snprintf(entry, sizeof entry,
             "{ 'is': 'flow', 'places': [ { 'name': '%s', 'column': 0, 'value': <mass 3 g> }, { "
             "'name': 'melt', 'column': 1, 'value': <mass 3 g> } ], 'moves': [ { 'from': '%s', "
             "'to': 'melt', 'value': <mass 3 g> } ] }",
             name, name);
    char *html = draw_entries("metal", entry, "");
    const char *drawn = strstr(html, "</desc>");
    cr_assert(drawn, "%s", html);
    cr_expect(strstr(drawn, "mmm\342\200\246</text>"));
    cr_expect_not(strstr(drawn, name));
    free(html);
}

/* Why is the studio's own business: a refiner's terms, a doubt about the metal. */
Test(html, a_client_is_not_told_why_a_figure_is_withheld)
{
    static const char *const entries[] = {
        "{ 'is': 'line', 'label': 'You pay', 'of': 'out', 'withheld': true }",
        "{ 'is': 'total', 'label': 'You pay', 'of': 'out', 'withheld': true }",
        "{ 'is': 'grid', 'columns': [ 'You pay' ], 'withheld': true, 'withheld_by': 'need/no', "
        "'rows': [] }",
        "{ 'is': 'flow', 'withheld': true, 'withheld_by': 'need/no' }"};
    for (size_t i = 0; i < sizeof entries / sizeof *entries; i++) {
        char *html = draw_entries("client", entries[i], stopped);
        cr_expect(strstr(html, "DO NOT</b> <small>not resolved yet: please ask the studio"), "%s",
                  entries[i]);
        cr_expect_not(strstr(html, "Too thin by far"), "%s", entries[i]);
        free(html);
    }
}

/* Markup in every text that a result can hold. */
Test(html, no_text_becomes_markup)
{
    static const char entries[] =
        "{ 'is': 'part', 'recipe': '@', 'title': '@', 'entries': [ { 'is': 'heading', 'text': '@' "
        "}, { "
        "'is': 'text', 'text': '@' }, { 'is': 'line', 'act': '@', 'label': '@', 'owner': '@', "
        "'origin': "
        "'@', 'record': '@', 'value': { 'kind': '@', 'value': '@', 'unit': '@', 'text': '1 @' }, "
        "'recorded': { 'at': '@', 'text': '@' } }, { 'is': 'line', 'act': 'tick', 'label': '@', "
        "'at': { "
        "'kind': 'moment', 'value': '@', 'text': '@' } }, { 'is': 'grid', 'columns': [ '@' ], "
        "'rows': [ "
        "[ { 'kind': 'text', 'value': '@' } ], [ { 'box': true, 'record': '@' } ] ] }, { 'is': "
        "'sign', "
        "'label': '@', 'who': [ '@' ] }, { 'is': 'remark', 'level': '@', 'code': '@', 'text': '@', "
        "'by': '@', 'reason': '@' }, { 'is': 'remark', 'level': 'caution', 'code': '@', 'text': "
        "'@' }, "
        "{ 'is': 'curve', 'title': '@', 'from': { 'text': '1 @' }, 'nobody': { 'from': { 'value': "
        "'@' } "
        "}, 'steps': [ { 'to': { 'text': '2 @' }, 'name': '@' } ] }, { 'is': 'flow', 'title': '@', "
        "'moves': [ { 'from': '@', 'to': 'b@', 'value': { 'value': 1, 'text': '@' } } ], 'places': "
        "[ { "
        "'name': '@', 'column': 0, 'owner': '@', 'value': { 'value': 1, 'text': '@' } }, { 'name': "
        "'b@', 'column': 1, 'value': { 'value': 1, 'text': '@' } } ] }, { 'is': 'section', "
        "'title': "
        "'@', 'vessel': { 'name': '@', 'diameter': { 'value': 5, 'text': '5 @' }, 'height': { "
        "'value': "
        "5, 'text': '5 @' } }, 'body': { 'name': '@' }, 'wall': { 'value': { 'text': '1 @' } } } ] "
        "}";
    static char text[ROOM];
    static const char *const pages[] = {"bench", "client", "@"};
    for (size_t i = 0; i < 3; i++) {
        snprintf(
            text, sizeof text,
            "{ 'lemel': '@', 'job': { 'recipe': '@', 'title': '@', 'client': '@', 'date': '@' }, "
            "'house': { 'name': '@', 'days': '@' }, 'inputs': { 'job': { 'file': '@' } }, "
            "'worked': [ { 'recipe': '@', 'version': '@', 'house_rule': '@' } ], 'results': {}, "
            "'settings': { 'a': { 'kind': 'text', 'value': '@', 'from': 'default' } }, 'sheets': { "
            "'%s': [ %s ] }, 'stopped': true, 'remarks': [ { 'level': 'stop', 'code': '@', 'text': "
            "'@' } ] }",
            pages[i], entries);
        char *html = draw_result(text, NULL, LML_PAPER_OF_HOUSE);
        cr_expect(!strstr(html, "<script"), "%s", pages[i]);
        cr_expect(!strstr(html, "onload='"), "%s", pages[i]);
        size_t styles = 0;
        for (char *at = html; (at = strstr(at, "</style>")); at++)
            styles++;
        cr_expect_eq(styles, 1);
        free(html);
    }
}

Test(html, escape)
{
    heap = lml_alloc_heap();
    static const struct {
        const char *text, *escaped;
    } rows[] = {{"a < b & c > \"d\" 'e'", "a &lt; b &amp; c &gt; &quot;d&quot; &#39;e&#39;"},
                {"one\ntwo\tthree", "one two three"},
                {"\033[31mred\a", "?[31mred?"},
                {"\xE2\x80\xAEturned", "?turned"},
                {"\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D", "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D"},
                {"\xEF\xBF\xBF\xFF", "??"},
                {"580 °C", "580 °C"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        lml_builder b = lml_builder_on(&heap, 0);
        lml_escape_put(&b, lml_span_of(rows[i].text));
        cr_expect_str_eq(b.at, rows[i].escaped);
        lml_builder_free(&b);
    }
}

Test(html, a_title_of_four_thousand_letters_and_an_empty_page)
{
    static char title[4001], text[6000];
    memset(title, 'w', 4000);
    snprintf(
        text, sizeof text,
        "{ 'job': { 'recipe': 'r', 'title': '%s' }, 'results': { 'out': <mass 1 g> }, 'titles': "
        "{ 'out': 'What comes out' }, 'sheets': { 'bench': [] } }",
        title);
    char *html = draw_result(text, NULL, LML_PAPER_OF_HOUSE);
    cr_expect(strstr(html, title));
    cr_expect(strstr(html, "<td>What comes out</td><td class=\"v\"><span class=\"fig\"><b>1</b>"));
    free(html);
}

/* Sixty lots and the marks of twelve flasks: none is lost. */
Test(html, many)
{
    static char entries[ROOM / 2];
    size_t used = 0;
    for (int i = 1; i <= 60; i++)
        used +=
            (size_t)snprintf(entries + used, sizeof entries - used,
                             "{ 'is': 'line', 'act': 'weigh', 'label': 'lot %d', 'value': <mass "
                             "1 g>, 'shows': <mass %d g> }, ",
                             i, i);
    used += (size_t)snprintf(entries + used, sizeof entries - used,
                             "{ 'is': 'total', 'label': 'All', 'value': <mass 60 g> }, %s", curve);
    for (int i = 1; i <= 36; i++)
        used +=
            (size_t)snprintf(entries + used, sizeof entries - used,
                             ", { 'is': 'line', 'act': 'tick', 'label': 'hand %d', 'at': <moment "
                             "2026-11-27T%02d:%02d> }",
                             i, 10 + i / 12, i % 12 * 5);
    expect(entries, "lot 60");
    expect(entries, "hand 36");
}

Test(html, pages_are_chosen_by_name)
{
    static const char text[] = "{ 'job': { 'recipe': 'r' }, 'results': {}, 'sheets': { 'bench': [ "
                               "{ 'is': 'text', 'text': 'on "
                               "the bench' } ], 'client': [ { 'is': 'text', 'text': 'for you' } ], "
                               "'metal': [ { 'is': 'text', "
                               "'text': 'fine gold' } ] } }";
    char *html = draw_result(text, "client,metal", LML_PAPER_OF_HOUSE);
    cr_expect(!strstr(html, "on the bench"));
    cr_expect(strstr(html, "for you") && strstr(html, "fine gold"));
    free(html);
    html = draw_result(text, "all", LML_PAPER_OF_HOUSE);
    cr_expect(strstr(html, "on the bench") && strstr(html, "for you"));
    free(html);
}
