#include "terminal/argument.h"

#include <string.h>

static const lml_option_row rows[LML_OPTIONS] = {
#define X(id, name, brief, value, commands, help) {name, brief, value, commands, help},
    LML_OPTION_MAP(X)
#undef X
};

const lml_option_row *lml_option_at(lml_option option)
{
    return &rows[option];
}

bool lml_option_fits(const lml_option_row *row, const char *command)
{
    for (const char *at = row->commands; at && *at;) {
        size_t length = strcspn(at, " ");
        if (lml_span_is((lml_span){at, length}, command))
            return true;
        at += length + strspn(at + length, " ");
    }
    return !row->commands;
}

/* LML_OPTIONS when there is none. `name` ends at a '=' or its end. */
static lml_option find(lml_span name)
{
    for (size_t i = 0; i < LML_OPTIONS; i++)
        if (lml_span_is(name, rows[i].name) || (rows[i].brief && lml_span_is(name, rows[i].brief)))
            return (lml_option)i;
    return LML_OPTIONS;
}

static bool ends(lml_span text, const char *with)
{
    size_t length = strlen(with);
    return text.length > length && memcmp(text.at + text.length - length, with, length) == 0;
}

static lml_status refuse_unknown(lml_span name, lml_error *err)
{
    lml_nearest near = lml_nearest_to(name);
    for (size_t i = 0; i < LML_OPTIONS; i++)
        lml_nearest_offer(&near, lml_span_of(rows[i].name));
    lml_fail(err, LML_USAGE, "there is no option %.*s", (int)name.length, name.at);
    if (ends(name, ".json") || ends(name, ".lua"))
        lml_error_hint(err, "a file of that name is written ./%.*s", LML_SPAN_SHOWN(name));
    else if (lml_nearest_found(&near))
        lml_error_hint(err, "did you mean %.*s?", (int)near.best.length, near.best.at);
    else
        lml_error_hint(err, "lemel --help lists them");
    return LML_USAGE;
}

static bool is_option(const char *word)
{
    return word[0] == '-' && word[1] != '\0' && !(word[1] >= '0' && word[1] <= '9') &&
           word[1] != '.';
}

lml_status lml_arguments_read(int argc, char **argv, const char **word, lml_arguments *out,
                              lml_error *err)
{
    *out = (lml_arguments){.word = word};
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        if (!ended && strcmp(argv[i], "--") == 0) {
            ended = true;
            continue;
        }
        if (ended || !is_option(argv[i])) {
            word[out->words++] = argv[i];
            continue;
        }
        const char *equals = strchr(argv[i], '=');
        lml_span name = equals ? lml_span_between(argv[i], equals) : lml_span_of(argv[i]);
        lml_option option = find(name);
        if (option == LML_OPTIONS)
            return refuse_unknown(name, err);
        const lml_option_row *row = &rows[option];
        if (out->given[option])
            return lml_fail(err, LML_USAGE, "%s is given twice: leave one out", row->name);
        out->given[option] = true;
        if (!row->value) {
            if (equals)
                return lml_fail(err, LML_USAGE,
                                "%s takes no value: leave out what follows the =", row->name);
            continue;
        }
        if (!equals && i + 1 == argc)
            return lml_fail(err, LML_USAGE, "%s needs a value: %s %s", row->name, row->name,
                            row->value);
        out->value[option] = equals ? equals + 1 : argv[++i];
    }
    return LML_OK;
}

/* Only what has sheets is drawn as HTML. */
static lml_status check_format(const lml_arguments *arguments, const char *command, lml_error *err)
{
    const char *format = arguments->value[LML_OPTION_FORMAT];
    const char *paper = arguments->value[LML_OPTION_PAPER];
    bool html = format && strcmp(format, "html") == 0;
    bool sheets = lml_option_fits(&rows[LML_OPTION_SHEET], command);
    if (html && !sheets) {
        lml_fail(err, LML_USAGE, "lemel %s prints no HTML", command);
        lml_error_hint(err, "--format html is for sheets, as of lemel run and lemel close");
        return LML_USAGE;
    }
    if (format && !html && strcmp(format, "text") != 0 && strcmp(format, "json") != 0) {
        lml_fail(err, LML_USAGE, "there is no format \"%s\"", format);
        lml_error_hint(err, sheets ? "write --format text, --format json or --format html"
                                   : "write --format text or --format json");
        return LML_USAGE;
    }
    if (paper && strcmp(paper, "A4") != 0 && strcmp(paper, "Letter") != 0) {
        lml_fail(err, LML_USAGE, "there is no paper \"%s\"", paper);
        lml_error_hint(err, "write --paper A4 or --paper Letter");
        return LML_USAGE;
    }
    if (paper && !html) {
        lml_fail(err, LML_USAGE, "--paper says what HTML is printed on, but %s is printed",
                 format ? format : "text");
        lml_error_hint(err, "add --format html, or leave out --paper");
        return LML_USAGE;
    }
    return LML_OK;
}

lml_status lml_arguments_fit(const lml_arguments *arguments, const char *command, lml_error *err)
{
    for (size_t i = 0; i < LML_OPTIONS; i++)
        if (arguments->given[i] && !lml_option_fits(&rows[i], command)) {
            lml_fail(err, LML_USAGE, "lemel %s takes no %s", command, rows[i].name);
            lml_error_hint(err, "%s belongs to lemel %.*s", rows[i].name,
                           (int)strcspn(rows[i].commands, " "), rows[i].commands);
            return LML_USAGE;
        }
    lml_status status = check_format(arguments, command, err);
    if (status != LML_OK)
        return status;
    if (arguments->given[LML_OPTION_REPLACE] && !arguments->given[LML_OPTION_OUTPUT] &&
        strcmp(command, "adopt") != 0 && strcmp(command, "new") != 0) {
        lml_fail(err, LML_USAGE,
                 "--replace says that a file may be replaced, but no file is named");
        lml_error_hint(err, "name it with -o FILE, or leave --replace out");
        return LML_USAGE;
    }
    return LML_OK;
}
