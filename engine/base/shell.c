#include "base/shell.h"

#include "base/ascii.h"

#include <string.h>

/* What no shell takes for anything but itself; XCU 2.2 lists what does not. */
static bool is_plain(lml_span word)
{
    static const char PLAIN[] = "-./:,+@%";
    size_t i = 0;
    while (i < word.length &&
           (lml_ascii_is_name(word.at[i]) || memchr(PLAIN, word.at[i], strlen(PLAIN))))
        i++;
    return word.length > 0 && i == word.length;
}

/* A command reads a file -x.json as an option, and ./-x.json as the file. */
static const char *before(lml_span word)
{
    return word.length > 0 && word.at[0] == '-' ? "./" : "";
}

/* Within single quotes nothing escapes a single quote: they are closed, and opened again. */
static lml_span letter(const char *at)
{
    return *at == '\'' ? lml_span_of("'\\''") : (lml_span){at, 1};
}

void lml_shell_add_word(lml_builder *out, lml_span word)
{
    if (is_plain(word)) {
        lml_builder_add_text(out, before(word));
        lml_builder_add_span(out, word);
        return;
    }
    lml_builder_add_char(out, '\'');
    lml_builder_add_text(out, before(word));
    for (size_t i = 0; i < word.length; i++)
        lml_builder_add_span(out, letter(word.at + i));
    lml_builder_add_char(out, '\'');
}

const char *lml_shell_word(lml_span word, char out[LML_SHELL_WORD])
{
    const char *quote = is_plain(word) ? "" : "'";
    size_t used = strlen(quote) + strlen(before(word));
    memcpy(out, quote, strlen(quote));
    memcpy(out + strlen(quote), before(word), strlen(before(word)));
    for (size_t i = 0; i < word.length; i++) {
        lml_span one = quote[0] ? letter(word.at + i) : (lml_span){word.at + i, 1};
        if (used + one.length + sizeof "'" > LML_SHELL_WORD)
            break;
        memcpy(out + used, one.at, one.length);
        used += one.length;
    }
    memcpy(out + used, quote, strlen(quote) + 1);
    return out;
}
