#include "sheet/html_remark.h"

#include "base/shell.h"
#include "sheet/html_figure.h"
#include "sheet/layout.h"
#include "sheet/remark.h"

static bool is_level(const lml_json *remark, const char *level)
{
    return lml_span_is(lml_html_text(remark, "level"), level);
}

static const char triangle[] =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"tri\" viewBox=\"0 0 10 9\" "
    "aria-hidden=\"true\"><path d=\"M5 .6 9.6 8.5H.4z\" fill=\"none\" stroke=\"#111\" "
    "stroke-width=\"1\" stroke-linejoin=\"round\"/><path d=\"M5 3v3M5 6.8v.9\" stroke=\"#111\" "
    "stroke-width=\"1\"/></svg>";

/* The code's own name as words, without its recipe and without a number at its end: "hot-flask",
 * "unwatched-1". */
static lml_span hazard_of(const lml_json *remark)
{
    lml_span code = lml_html_text(remark, "code");
    for (size_t i = code.length; i > 0; i--)
        if (code.at[i - 1] == '/') {
            code = (lml_span){code.at + i, code.length - i};
            break;
        }
    size_t n = code.length;
    while (n > 0 && lml_span_digit_at(code, n - 1))
        n--;
    if (n < code.length && n > 1 && code.at[n - 1] == '-')
        code.length = n - 1;
    return code;
}

/* How many letters of the text say the hazard's word again: "Molten metal: face shield". */
static size_t said_again(lml_span word, lml_span text)
{
    size_t i = 0;
    for (; i < word.length && i < text.length; i++) {
        char w = word.at[i] == '-' ? ' ' : word.at[i], t = text.at[i];
        if (w != (t >= 'A' && t <= 'Z' ? (char)(t - 'A' + 'a') : t))
            return 0;
    }
    bool whole = i == word.length && (i == text.length || text.at[i] == ' ' || text.at[i] == ':');
    return whole ? i : 0;
}

size_t lml_html_remark_hazard(const lml_json *remark, char word[LML_HTML_HAZARD])
{
    lml_span code = hazard_of(remark);
    size_t used = 0;
    for (size_t i = 0; i < code.length && used + 1 < LML_HTML_HAZARD; i++) {
        char c = code.at[i];
        c = c == '-' ? ' ' : c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
        if ((c >= 'A' && c <= 'Z') || c == ' ' || lml_ascii_is_digit(c))
            word[used++] = c;
    }
    word[used] = '\0';
    return said_again(code, lml_remark_text(remark));
}

/* The triangle stays with the first word, unless that is too long for a line. */
static void put_hazard(lml_html *h, lml_span words)
{
    enum { TOGETHER = 24 };
    const char *blank = words.length > 0 ? memchr(words.at, ' ', words.length) : NULL;
    size_t first = blank ? (size_t)(blank - words.at) : words.length;
    bool together = first <= TOGETHER;
    lml_html_put(h, together ? "<b class=\"word\"><span class=\"first\">" : "<b class=\"word\">");
    lml_html_put(h, triangle);
    lml_html_put(h, LML_NO_BREAK);
    lml_escape_put(h->out, (lml_span){words.at, first});
    lml_html_put(h, together ? "</span>" : "");
    lml_escape_put(h->out, (lml_span){words.at + first, words.length - first});
    lml_html_put(h, "</b>");
}

static void draw_caution(lml_html *h, const lml_json *remark)
{
    lml_span text = lml_remark_text(remark);
    char word[LML_HTML_HAZARD];
    size_t again = lml_html_remark_hazard(remark, word);
    lml_html_put(h, "<p class=\"caution\">");
    put_hazard(h, again > 0 ? (lml_span){text.at, again} : lml_span_of(word));
    lml_html_put(h, again > 0 ? "" : " ");
    lml_html_figure_put_text(h, (lml_span){text.at + again, text.length - again});
    lml_html_put(h, "</p>\n");
}

static void put_how_to_confirm(lml_html *h, const lml_json *remark)
{
    lml_span file =
        lml_html_text(lml_json_member(lml_json_member(h->result, "inputs"), "job"), "file");
    bool kept = file.length > 5 && memcmp(file.at + file.length - 5, ".json", 5) == 0;
    lml_builder word = lml_builder_on(h->out->alloc, 0);
    lml_shell_add_word(&word, kept ? file : lml_span_of("JOB"));
    if (lml_builder_status(&word, NULL) != LML_OK)
        h->out->status = word.status;
    lml_html_put(h, " <span class=\"why\">To go on: <code>lemel confirm ");
    lml_escape_put(h->out, lml_builder_span(&word));
    lml_builder_free(&word);
    lml_html_put(h, " ");
    lml_escape_put_member(h->out, remark, "code");
    lml_html_put(h, h->typed.length > 0 ? " " : "");
    lml_escape_put(h->out, h->typed);
    lml_html_put(h, " --by WHO --reason WHY</code></span>");
}

/* The bench works by the reason, which says what is done; what was asked is behind it. */
static void put_agreed(lml_html *h, const lml_json *remark)
{
    lml_html_put(h, "<b>");
    lml_html_figure_put_sentence(h, remark, "reason");
    lml_html_put(h, "</b> <span class=\"why\">(");
    lml_escape_put_member(h->out, remark, "by");
    lml_html_put(h, ": ");
    lml_html_figure_put_text(h, lml_remark_first_clause(lml_html_text(remark, "text")));
    lml_html_put(h, ")</span>");
}

static void put_confirmed(lml_html *h, const lml_json *remark)
{
    lml_html_put(h, " <span class=\"why\">Confirmed");
    if (lml_html_text(remark, "by").length > 0) {
        lml_html_put(h, " by ");
        lml_escape_put_member(h->out, remark, "by");
    }
    lml_html_put(h, ":</span> <b>");
    lml_html_figure_put_sentence(h, remark, "reason");
    lml_html_put(h, "</b>");
}

void lml_html_remark_draw(lml_html *h, const lml_json *remark)
{
    static const struct {
        const char *level, *working, *client;
    } words[] = {{"stop", "STOP", "STOP"},
                 {"confirm", "ASK", "TO DECIDE"},
                 {"confirmed", "Agreed", "Agreed"},
                 {"", "Note", "Note"}};
    if (is_level(remark, "caution")) {
        draw_caution(h, remark);
        return;
    }
    size_t i = 0;
    while (words[i].level[0] && !is_level(remark, words[i].level))
        i++;
    lml_builder_add_format(h->out, "<p class=\"remark %s\"><b class=\"lv\">%s</b> <span>",
                           words[i].level[0] ? words[i].level : "note",
                           h->working ? words[i].working : words[i].client);
    bool agreed = lml_html_text(remark, "reason").length > 0 &&
                  !lml_json_yes(lml_json_member(remark, "lapsed"));
    if (agreed && h->working)
        put_agreed(h, remark);
    else
        lml_html_figure_put_text(h, lml_remark_text(remark));
    if (agreed && !h->working)
        put_confirmed(h, remark);
    if (h->working && lml_remark_holds(remark)) {
        lml_html_put(h, " <span class=\"why\">[");
        lml_escape_put_member(h->out, remark, "code");
        lml_html_put(h, "]</span>");
        if (lml_json_yes(lml_json_member(remark, "lapsed")))
            lml_html_put(h, " <span class=\"why\">It was confirmed before, for other words: "
                            "confirm it again.</span>");
    }
    if (h->working && is_level(remark, "confirm"))
        put_how_to_confirm(h, remark);
    lml_html_put(h, "</span></p>\n");
}
