#include "sheet/entries.h"
#include "sheet/remark.h"

static lml_span member_text(const lml_json *record, const char *name)
{
    return lml_json_text(lml_json_member(record, name));
}

static bool is(const lml_json *entry, const char *kind)
{
    return lml_span_is(member_text(entry, "is"), kind);
}

static bool is_same(const lml_json *a, const lml_json *b)
{
    return lml_span_equal(member_text(a, "code"), member_text(b, "code")) &&
           lml_span_equal(member_text(a, "text"), member_text(b, "text"));
}

const lml_entries_kind *lml_entries_kind_of(lml_span page)
{
    static const lml_entries_kind kinds[] = {
        {"bench", "BENCH SHEET", true},
        {"piece", "THE PIECE", true},
        {"client", "FOR THE CLIENT", false},
        {"metal", "METAL STATEMENT", true},
        {"receipt", "RECEIPT", false},
        {"consent", "CONSENT", false},
        {"card", "CARD", true},
        {"cost", "COST SHEET", true},
        {"", "SHEET", true},
    };
    const lml_entries_kind *as = kinds;
    while (as->name[0] && !lml_span_is(page, as->name))
        as++;
    return as;
}

bool lml_entries_names(const char *asked, lml_span page)
{
    lml_span rest = lml_span_of(asked);
    if (!asked || lml_span_is(rest, "all"))
        return true;
    while (rest.length > 0) {
        const char *comma = memchr(rest.at, ',', rest.length);
        size_t length = comma ? (size_t)(comma - rest.at) : rest.length;
        if (lml_span_equal(lml_span_trim((lml_span){rest.at, length}), page))
            return true;
        length += comma != NULL;
        rest = (lml_span){rest.at + length, rest.length - length};
    }
    return false;
}

const lml_json *lml_entries_of(const lml_json *result, const char *page)
{
    return lml_json_member(lml_json_member(result, "sheets"), page);
}

bool lml_entries_any(const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e))
        if (!is(e, "part") || lml_entries_any(lml_json_member(e, "entries")))
            return true;
    return false;
}

const lml_json *lml_entries_only_part(const lml_json *entries)
{
    const lml_json *only = NULL;
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        bool part = is(e, "part");
        if (part && !lml_entries_any(lml_json_member(e, "entries")))
            continue;
        if (!part || only)
            return NULL;
        only = e;
    }
    return only;
}

bool lml_entries_same_words(const lml_json *a, const lml_json *b)
{
    return lml_span_equal(member_text(a, "level"), member_text(b, "level")) &&
           lml_span_equal(member_text(a, "text"), member_text(b, "text"));
}

/* A remark is known by its level and text, or by its code and text. */
typedef struct known_by {
    const char *name; /* of the first */
    lml_span first, text;
} known_by;

static known_by known_of(const lml_json *remark, const char *name)
{
    return (known_by){name, member_text(remark, name), member_text(remark, "text")};
}

static const lml_json *find(const lml_json *entries, const known_by *sought)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        const lml_json *found = NULL;
        lml_span what = member_text(e, "is");
        if (lml_span_is(what, "part"))
            found = find(lml_json_member(e, "entries"), sought);
        else if (lml_span_is(what, "remark") &&
                 lml_span_equal(member_text(e, sought->name), sought->first) &&
                 lml_span_equal(member_text(e, "text"), sought->text))
            found = e;
        if (found)
            return found;
    }
    return NULL;
}

const lml_json *lml_entries_first_alike(const lml_json *entries, const lml_json *remark)
{
    known_by words = known_of(remark, "level");
    return find(entries, &words);
}

bool lml_entries_said_before(const lml_json *entries, const lml_json *remark)
{
    bool once = lml_span_is(member_text(remark, "level"), "caution") ||
                lml_span_is(member_text(remark, "text"), "\342\200\246"); /* an ellipsis */
    return once && lml_entries_first_alike(entries, remark) != remark;
}

bool lml_entries_have(const lml_json *entries, const lml_json *remark)
{
    known_by itself = known_of(remark, "code");
    return find(entries, &itself) != NULL;
}

bool lml_entries_have_anywhere(const lml_json *result, const lml_json *remark)
{
    const lml_json *page = lml_json_first(lml_json_member(result, "sheets"));
    for (; page; page = lml_json_next(page))
        if (lml_entries_have(page, remark))
            return true;
    return false;
}

bool lml_entries_at_head(const lml_json *result, const lml_json *remark)
{
    const lml_json *r = lml_json_first(lml_json_member(result, "remarks"));
    while (r && !is_same(r, remark))
        r = lml_json_next(r);
    return r && lml_remark_holds(r);
}

static bool is_line(const lml_json *entry)
{
    return is(entry, "line") || is(entry, "box") || is(entry, "total");
}

static const lml_json *line_called(const lml_json *entries, lml_span what)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        const lml_json *found =
            is(e, "part") ? line_called(lml_json_member(e, "entries"), what) : NULL;
        if (is_line(e) && (lml_span_equal(member_text(e, "record"), what) ||
                           lml_span_equal(member_text(e, "of"), what)))
            found = e;
        if (found)
            return found;
    }
    return NULL;
}

static void find_asides(const lml_json *page, const lml_json *entries, lml_entries_asides *out)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        if (is(e, "part"))
            find_asides(page, lml_json_member(e, "entries"), out);
        if (!is(e, "remark") || out->count == LML_ENTRIES_ASIDES)
            continue;
        lml_span what = member_text(e, "concerns");
        const lml_json *line = what.length > 0 ? line_called(page, what) : NULL;
        if (line) {
            out->at[out->count].remark = e;
            out->at[out->count++].line = line;
        }
    }
}

void lml_entries_find_asides(const lml_json *page, lml_entries_asides *out)
{
    out->count = 0;
    find_asides(page, page, out);
}

const lml_json *lml_entries_line_of(const lml_entries_asides *asides, const lml_json *remark)
{
    for (size_t i = 0; i < asides->count; i++)
        if (asides->at[i].remark == remark)
            return asides->at[i].line;
    return NULL;
}

void lml_entries_concerning(const lml_entries_asides *asides, const lml_json *line,
                            lml_entries_use *use, void *data)
{
    for (size_t i = 0; i < asides->count; i++)
        if (asides->at[i].line == line)
            use(data, asides->at[i].remark);
}

static bool row_withholds(const lml_json *cells)
{
    for (const lml_json *cell = lml_json_first(cells); cell; cell = lml_json_next(cell))
        if (lml_json_yes(lml_json_member(cell, "withheld")))
            return true;
    return false;
}

bool lml_entries_withhold(const lml_json *entries)
{
    for (const lml_json *e = lml_json_first(entries); e; e = lml_json_next(e)) {
        bool itself = lml_json_yes(lml_json_member(e, "withheld")) ||
                      (is(e, "remark") && lml_remark_holds(e)) ||
                      row_withholds(lml_json_member(e, "total"));
        if (itself || lml_entries_withhold(lml_json_member(e, "entries")))
            return true;
        const lml_json *row = lml_json_first(lml_json_member(e, "rows"));
        for (; row; row = lml_json_next(row))
            if (row_withholds(row))
                return true;
    }
    return false;
}
