#include "sheet/picture_flow.h"

#include "sheet/html_figure.h"
#include "sheet/svg.h"
#include "sheet/typeset.h"

#include <stdio.h>

enum { PLACES_MOST = 64, MOVES_MOST = 200, OWNERS_MOST = 6 };

typedef enum fill { OF_STUDIO, OF_BOTH, GONE, OF_OWNER /* and up: by owner */ } fill;

typedef struct place {
    const lml_json *entry;
    lml_span name;
    double amount, y, out_at, in_at;
    unsigned column;
    bool gives;
    int owner; /* -1 not known, -2 several */
    fill fill;
} place;

typedef struct flow {
    lml_svg s;
    place places[PLACES_MOST];
    size_t count, owners;
    lml_span owner[OWNERS_MOST];
    unsigned last, hatch; /* columns; the first of the hatchings */
    double k, left, right, top, room;
    bool tight; /* figure and name on one line */
} flow;

enum { TALLEST = 150 }; /* a sheet of paper has 265 */
static const double bar = 3, label_high = 7;
static const double name_size = 2.6 * 72 / 25.4, figure_size = 3.3 * 72 / 25.4; /* in points */
static const double middle_high = 3, middle_line = 3.3, middle_size = 3 * 72 / 25.4;

static const lml_json *member(const lml_json *record, const char *name)
{
    return lml_json_member(record, name);
}

static place *find(flow *f, lml_span name)
{
    for (size_t i = 0; i < f->count; i++)
        if (lml_span_equal(f->places[i].name, name))
            return &f->places[i];
    return NULL;
}

static const lml_json *moves_of(const lml_json *entry)
{
    return lml_json_first(member(entry, "moves"));
}

/* ---- whose it is ------------------------------------------------------------------------------
 */

static int owner_number(flow *f, lml_span name)
{
    for (size_t i = 0; i < f->owners; i++)
        if (lml_span_equal(f->owner[i], name))
            return (int)i;
    if (f->owners == OWNERS_MOST)
        return -2;
    f->owner[f->owners] = name;
    return (int)f->owners++;
}

/* As told, else that of its sources, where they are of one owner. */
static void find_owners(flow *f, const lml_json *entry)
{
    for (size_t i = 0; i < f->count; i++) {
        lml_span owner = lml_html_text(f->places[i].entry, "owner");
        f->places[i].owner = owner.length > 0 ? owner_number(f, owner) : -1;
    }
    for (unsigned column = 1; column <= f->last; column++)
        for (const lml_json *m = moves_of(entry); m; m = lml_json_next(m)) {
            place *from = find(f, lml_html_text(m, "from")), *to = find(f, lml_html_text(m, "to"));
            if (!from || !to || lml_html_text(to->entry, "owner").length > 0)
                continue;
            if (lml_json_number(member(to->entry, "column")) != column)
                continue;
            to->owner = to->owner == -1 ? from->owner : to->owner == from->owner ? to->owner : -2;
        }
    for (size_t i = 0; i < f->count; i++) {
        place *p = &f->places[i];
        lml_span mark = lml_html_text(p->entry, "mark");
        if (lml_span_is(mark, "lost") || lml_span_is(mark, "open"))
            p->fill = GONE;
        else if (p->owner < 0)
            p->fill = OF_BOTH;
        else if (lml_span_is(f->owner[p->owner], "studio"))
            p->fill = OF_STUDIO;
        else
            p->fill = (fill)(OF_OWNER + p->owner);
    }
}

static const char *fill_with(const flow *f, fill with, char out[LML_SVG_URL])
{
    if (with == OF_STUDIO)
        return "#e2e2e2";
    if (with == OF_BOTH)
        return "#b8b8b8";
    return lml_svg_hatched(f->hatch + (with == GONE ? 0 : 1 + (unsigned)(with - OF_OWNER)), out);
}

/* ---- where it is --------------------------------------------------------------------------
 */

static void read_places(flow *f, const lml_json *entry)
{
    const lml_json *p = lml_json_first(member(entry, "places"));
    for (; p && f->count < PLACES_MOST; p = lml_json_next(p)) {
        place *at = &f->places[f->count++];
        *at = (place){.entry = p,
                      .name = lml_html_text(p, "name"),
                      .amount = lml_json_number(member(member(p, "value"), "value")),
                      .column = (unsigned)lml_json_number(member(p, "column"))};
        at->amount = at->amount > 0 ? at->amount : 0;
        f->last = at->column > f->last ? at->column : f->last;
    }
    for (const lml_json *m = moves_of(entry); m; m = lml_json_next(m)) {
        place *from = find(f, lml_html_text(m, "from"));
        if (from)
            from->gives = true;
    }
    for (size_t i = 0; i < f->count; i++)
        if (!f->places[i].gives)
            f->places[i].column = f->last;
}

static double column_x(const flow *f, unsigned column)
{
    return f->last == 0 ? f->left : f->left + (f->right - f->left) * column / f->last;
}

/* Words above a place between the ends, no wider than what is free beside it. */
typedef struct label {
    lml_span line[2];
    unsigned lines;
    bool figure_below;
    double room;
} label;

static lml_span take_words(lml_span *rest, double room)
{
    size_t fits = 0;
    for (size_t i = 1; i <= rest->length; i++) {
        if (i < rest->length && rest->at[i] != ' ')
            continue;
        if (fits > 0 && lml_typeset_width((lml_span){rest->at, i}, middle_size, true) > room)
            break;
        fits = i;
    }
    lml_span line = {rest->at, fits};
    fits += fits < rest->length;
    *rest = (lml_span){rest->at + fits, rest->length - fits};
    return line;
}

static label label_of(const flow *f, const place *p)
{
    lml_span value = lml_html_text(member(p->entry, "value"), "text"), rest = p->name;
    label l = {.room = column_x(f, 1) - column_x(f, 0) - bar - 1, .lines = 1};
    double both = lml_typeset_width(p->name, middle_size, true) +
                  lml_typeset_width(value, middle_size, true) + 1;
    l.figure_below = both > l.room;
    l.line[0] = l.figure_below ? take_words(&rest, l.room) : p->name;
    if (l.figure_below && rest.length > 0)
        l.line[l.lines++] = rest; /* cut where it is longer still */
    return l;
}

static double label_height(const label *l)
{
    return (l->lines + l->figure_below) * middle_line;
}

static bool is_at_end(const flow *f, const place *p)
{
    return p->column == 0 || p->column == f->last;
}

/* How high a place is drawn with its words: beside it at both ends, else above it. */
static double slot_of(const flow *f, const place *p)
{
    double high = p->amount * f->k + 1.4;
    if (!is_at_end(f, p)) {
        label l = label_of(f, p);
        return high + label_height(&l);
    }
    double least = f->tight ? 3.3 : label_high;
    return high < least ? least : high;
}

static double column_height(const flow *f, unsigned column)
{
    double high = 0;
    for (size_t i = 0; i < f->count; i++)
        if (f->places[i].column == column)
            high += slot_of(f, &f->places[i]);
    return high;
}

static void scale(flow *f)
{
    double most = 0;
    for (unsigned c = 0; c <= f->last; c++) {
        double sum = 0;
        for (size_t i = 0; i < f->count; i++)
            if (f->places[i].column == c)
                sum += f->places[i].amount;
        most = sum > most ? sum : most;
    }
    f->k = most > 0 ? 26 / most : 0;
    f->room = 34;
    for (unsigned c = 0; c <= f->last; c++)
        f->tight = f->tight || column_height(f, c) > TALLEST;
    for (unsigned c = 0; c <= f->last; c++) {
        double high = column_height(f, c);
        f->room = high + 2 > f->room ? high + 2 : f->room;
    }
}

static void stand(flow *f)
{
    for (unsigned c = 0; c <= f->last; c++) {
        size_t count = 0;
        for (size_t i = 0; i < f->count; i++)
            count += f->places[i].column == c;
        double free = (f->room - column_height(f, c)) / (double)(count + 1), y = f->top + free;
        for (size_t i = 0; i < f->count; i++) {
            place *p = &f->places[i];
            if (p->column != c)
                continue;
            double slot = slot_of(f, p), spare = slot - p->amount * f->k;
            p->y = y + (is_at_end(f, p) ? spare / 2 : spare - .7);
            p->out_at = p->in_at = p->y;
            y += slot + free;
        }
    }
}

/* ---- drawn ------------------------------------------------------------------------------------
 */

static void draw_move(flow *f, const lml_json *move)
{
    place *from = find(f, lml_html_text(move, "from")), *to = find(f, lml_html_text(move, "to"));
    double amount = lml_json_number(member(member(move, "value"), "value"));
    if (!from || !to || !(amount > 0))
        return;
    double high = amount * f->k, x1 = column_x(f, from->column) + bar, x2 = column_x(f, to->column);
    double y1 = from->out_at, y2 = to->in_at, middle = (x1 + x2) / 2,
           least = high > .25 ? high : .25;
    char hatch[LML_SVG_URL];
    from->out_at += high;
    to->in_at += high;
    lml_svg_begin(&f->s);
    lml_svg_move(&f->s, x1, y1);
    lml_svg_bend(&f->s, middle, y1, middle, y2, x2, y2);
    lml_svg_to(&f->s, x2, y2 + least);
    lml_svg_bend(&f->s, middle, y2 + least, middle, y1 + least, x1, y1 + least);
    lml_svg_end(&f->s, true,
                (lml_svg_pen){.fill = fill_with(f, to->fill == GONE ? GONE : from->fill, hatch),
                              .stroke = "#777",
                              .width = .12});
}

/* A column at a time, and the moves of each place in the order of where they go, so that they
 * seldom cross. */
static void draw_moves(flow *f, const lml_json *entry)
{
    for (size_t to = 0; to < f->count; to++)
        for (const lml_json *m = moves_of(entry); m; m = lml_json_next(m))
            if (lml_span_equal(lml_html_text(m, "to"), f->places[to].name))
                draw_move(f, m);
}

/* Where there are so many that two lines each would not go onto a sheet of paper. */
static void draw_tight(lml_html *h, flow *f, const place *p, lml_svg_type type, double at, double y)
{
    lml_span value = lml_html_text(member(p->entry, "value"), "text");
    double gap = lml_typeset_width(value, name_size, true) + 1;
    double name_at = type.anchor == LML_SVG_END ? at - gap : at + gap;
    type.bold = true;
    lml_svg_begin_text(&f->s, at, y, type);
    lml_html_figure_put_plain(h, member(p->entry, "value"));
    lml_svg_end_text(&f->s);
    type.bold = false;
    lml_svg_text_within(&f->s, name_at, y, type, p->name,
                        type.anchor == LML_SVG_END ? name_at : f->s.width - name_at);
}

static void draw_middle(lml_html *h, flow *f, const place *p)
{
    label l = label_of(f, p);
    double at = column_x(f, p->column) + bar / 2, y = p->y - 1.1 - label_height(&l);
    lml_svg_type type = {.size = middle_high, .anchor = LML_SVG_MIDDLE, .bold = true, .halo = true};
    for (unsigned i = 0; l.figure_below && i < l.lines; i++)
        lml_svg_text_within(&f->s, at, y += middle_line, type, l.line[i], l.room);
    lml_svg_begin_text(&f->s, at, y + middle_line, type);
    if (!l.figure_below) {
        lml_escape_put(h->out, p->name);
        lml_html_put(h, " ");
    }
    lml_html_figure_put_plain(h, member(p->entry, "value"));
    lml_svg_end_text(&f->s);
}

static void draw_place(lml_html *h, flow *f, const place *p)
{
    double x = column_x(f, p->column), high = p->amount * f->k, middle = p->y + high / 2;
    char hatch[LML_SVG_URL];
    bool first = p->column == 0, last = p->column == f->last && !first;
    bool back = lml_span_is(lml_html_text(p->entry, "mark"), "back");
    lml_svg_rect(&f->s, x, p->y, bar, high > .5 ? high : .5,
                 (lml_svg_pen){.fill = fill_with(f, p->fill, hatch), .width = .3});
    lml_svg_anchor anchor = first ? LML_SVG_END : LML_SVG_START;
    double at = first ? x - 1.4 : x + bar + 1.4;
    if (!first && !last) {
        draw_middle(h, f, p);
        return;
    }
    if (f->tight) {
        draw_tight(h, f, p, (lml_svg_type){.size = 2.6, .anchor = anchor}, at, middle + .9);
        return;
    }
    lml_svg_begin_text(&f->s, at, middle - .1,
                       (lml_svg_type){.size = 3.3, .anchor = anchor, .bold = true});
    lml_html_figure_put_plain(h, member(p->entry, "value"));
    lml_svg_end_text(&f->s);
    lml_svg_text_within(&f->s, at, middle + 2.8,
                        (lml_svg_type){.size = 2.6, .anchor = anchor, .bold = back}, p->name,
                        first ? at : f->s.width - at);
}

static bool has_fill(const flow *f, fill with)
{
    size_t i = 0;
    while (i < f->count && f->places[i].fill != with)
        i++;
    return i < f->count;
}

/* What the fills mean: the owners, then "together" and "lost or open"; empty where none has it. */
static lml_span key_name(const flow *f, size_t i)
{
    if (i < f->owners)
        return f->owner[i];
    if (i == f->owners)
        return lml_span_of(f->owners > 1 && has_fill(f, OF_BOTH) ? "together" : NULL);
    return lml_span_of(has_fill(f, GONE) ? "lost or open" : NULL);
}

static void draw_key(flow *f)
{
    char hatch[LML_SVG_URL];
    double x = f->left + bar, room = f->s.width - x, all = 0;
    for (size_t i = 0; i < f->owners + 2; i++)
        all += 8 + lml_typeset_width(key_name(f, i), name_size, false);
    double most = all <= room ? room : room / (double)(f->owners + 2) - 8;
    for (size_t i = 0; i < f->owners + 2; i++) {
        lml_span name = key_name(f, i);
        if (name.length == 0)
            continue;
        fill with = i >= f->owners                ? (i == f->owners ? OF_BOTH : GONE)
                    : lml_span_is(name, "studio") ? OF_STUDIO
                                                  : (fill)(OF_OWNER + i);
        lml_svg_rect(&f->s, x, 1.4, 3, 2.4,
                     (lml_svg_pen){.fill = fill_with(f, with, hatch), .width = .2});
        lml_svg_text_within(&f->s, x + 3.8, 3.5, (lml_svg_type){.size = 2.6}, name, most);
        double wide = lml_typeset_width(name, name_size, false);
        x += 8 + (wide < most ? wide : most);
    }
}

/* Room for the longest name and figure of a column; never more than a third of the width. */
static double room_for(const flow *f, unsigned column, double width)
{
    double most = 16;
    for (size_t i = 0; i < f->count; i++) {
        lml_span value = lml_html_text(member(f->places[i].entry, "value"), "text");
        double needs = lml_typeset_width(f->places[i].name, name_size, true) + 3;
        double figure = lml_typeset_width(value, figure_size, true) + 3;
        needs = f->tight ? figure + needs : figure > needs ? figure : needs;
        if (f->places[i].column == column && needs > most)
            most = needs;
    }
    return most < width / 3 ? most : width / 3;
}

static void set_sides(flow *f, double width)
{
    f->left = room_for(f, 0, width);
    f->right = width - bar - room_for(f, f->last, width);
}

static void draw_hatchings(lml_html *h, flow *f)
{
    static const int angles[OWNERS_MOST] = {45, 0, 90, -45, 20, 70};
    f->hatch = h->ids + 1;
    h->ids += 1 + OWNERS_MOST;
    lml_svg_hatch(&f->s, f->hatch, .8, .15, -45);
    for (unsigned i = 0; i < OWNERS_MOST; i++)
        lml_svg_hatch(&f->s, f->hatch + 1 + i, 1.3, .38, angles[i]);
}

void lml_picture_flow_draw(lml_html *h, const lml_json *entry)
{
    flow f = {.top = 7};
    lml_span title = lml_html_text(entry, "title");
    double width = h->width - (h->working ? 0 : 14);
    read_places(&f, entry);
    find_owners(&f, entry);
    set_sides(&f, width);
    scale(&f);
    set_sides(&f, width); /* where it is tight figure and name are on one line */
    stand(&f);
    lml_html_put(h, "<figure class=\"flow\">");
    if (title.length > 0) {
        lml_html_put(h, "<figcaption><b>");
        lml_escape_put(h->out, title);
        lml_html_put(h, "</b></figcaption>");
    }
    f.s = lml_svg_open(h->out, width, f.top + f.room + 1,
                       title.length > 0 ? title : lml_span_of("Where it goes"));
    for (const lml_json *m = moves_of(entry); m; m = lml_json_next(m)) {
        lml_escape_put_member(h->out, m, "from");
        lml_html_put(h, " to ");
        lml_escape_put_member(h->out, m, "to");
        lml_html_put(h, ": ");
        lml_html_figure_put_plain(h, member(m, "value"));
        lml_html_put(h, "; ");
    }
    lml_svg_end_desc(&f.s);
    draw_hatchings(h, &f);
    draw_key(&f);
    draw_moves(&f, entry);
    for (size_t i = 0; i < f.count; i++)
        draw_place(h, &f, &f.places[i]);
    lml_svg_close(&f.s);
    if (lml_json_yes(member(entry, "foretold")))
        lml_html_put(h, "<figcaption>As expected beforehand; the scale decides.</figcaption>");
    lml_html_put(h, "</figure>\n");
}
