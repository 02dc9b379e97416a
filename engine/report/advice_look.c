#include "report/advice_look.h"

#include <string.h>

void lml_advice_look_tell(lml_advice_look *k, int line, const lml_error *words)
{
    k->tell(k->self, line, words->message, words->hint);
}

void lml_advice_look_refuse(lml_advice_look *k, int line, const lml_error *words)
{
    k->tell_wrong(k->self, line, words->message, words->hint);
}

bool lml_advice_look_is(const lml_advice_look *k, int i, const char *text)
{
    return i >= 0 && i < k->count && lml_token_is(k->token[i], text);
}

lml_scanner lml_advice_look_behind(const lml_advice_look *k, int i)
{
    lml_token t = k->token[i];
    return (lml_scanner){t.text.at + t.text.length, k->source.at + k->source.length, t.line};
}

int lml_advice_look_index(const lml_advice_look *k, int from, lml_token t)
{
    int i = from;
    while (t.kind != LML_TOKEN_END && i < k->count && k->token[i].text.at < t.text.at)
        i++;
    return t.kind == LML_TOKEN_END ? k->count : i;
}

lml_span lml_advice_look_text(const lml_advice_look *k, int from, int to)
{
    lml_span last = k->token[to - 1].text;
    lml_span all = lml_span_between(k->token[from].text.at, last.at + last.length);
    bool fits = all.length <= LML_ADVICE_LOOK_SHOWN && !memchr(all.at, '\n', all.length);
    return fits ? all : lml_span_of("this");
}

lml_span lml_advice_look_unquoted(lml_span text)
{
    if (text.length < 2 || text.at[0] == '[' || memchr(text.at, '\\', text.length))
        return (lml_span){text.at, 0};
    return (lml_span){text.at + 1, text.length - 2};
}
