/* Argument: the words of a command line, read by one table that also gives the help.
 *
 * Options may be anywhere; "--" ends them; "-5 g" is a value, not an option. An unknown option or
 * one that the command does not take is refused with the nearest name. Nothing is guessed.
 */
#ifndef LML_TERMINAL_ARGUMENT_H
#define LML_TERMINAL_ARGUMENT_H

#include "base/text.h"

/* id, long name, short name, name of its value or NULL, the commands that take it or NULL for all,
 * help */
#define LML_OPTION_MAP(X)                                                                          \
    X(HOUSE, "--house", NULL, "FILE", NULL,                                                        \
      "the studio's settings [house.json beside or above the job, else here]")                     \
    X(PRICES, "--prices", NULL, "FILE", NULL,                                                      \
      "the metal prices [prices.json beside the settings]")                                        \
    X(FORMAT, "--format", NULL, "text|json|html", NULL, "how to print [text]; html for sheets")    \
    X(SHEET, "--sheet", NULL, "NAMES", "run close enquiry learn alloys",                           \
      "sheets to print: bench, client,metal, or all")                                              \
    X(PAPER, "--paper", NULL, "A4|Letter", "run close enquiry learn alloys",                       \
      "what sheets in HTML are printed on [as the house says, else A4]")                           \
    X(LANDSCAPE, "--landscape", NULL, NULL, "run close enquiry learn alloys",                      \
      "two columns side by side, for a page printed on its long side")                             \
    X(DIGITS, "--digits", NULL, "N", "reckon", "round to N significant digits")                    \
    X(AT, "--at", NULL, "MOMENT", "record price offer book run again why sure what",               \
      "when it was weighed, quoted, offered, or the day of the book; now reads the clock")         \
    X(BOOK, "--book", NULL, "JOBS", "run again why sure what",                                     \
      "the folder of the jobs whose records say what lies in the safe")                            \
    X(FROM, "--from", NULL, "WHO", "price", "who quoted it")                                       \
    X(ANYWAY, "--anyway", NULL, NULL, "price record offer",                                        \
      "accept a price far from the current one, an entry with an odd date, or an "                 \
      "acceptance that is late or of a job that has changed")                                      \
    X(BY, "--by", NULL, "WHO", "confirm offer", "who decides, offers, accepts or withdraws it")    \
    X(REASON, "--reason", NULL, "WHY", "confirm offer", "why it is accepted, or withdrawn")        \
    X(ACCEPTED, "--accepted", NULL, NULL, "offer", "the client accepted the offer")                \
    X(WITHDRAWN, "--withdrawn", NULL, NULL, "offer", "the studio withdrew the offer")              \
    X(NOT_ACCEPTED, "--not-accepted", NULL, NULL, "offer",                                         \
      "it was entered as accepted by mistake")                                                     \
    X(PAID, "--paid", NULL, "MONEY", "offer",                                                      \
      "with --accepted: what was paid then; deposit means the deposit in full")                    \
    X(OWNER, "--owner", NULL, "WHO", "record", "whose metal it is")                                \
    X(UNTIL, "--until", NULL, "DATE", "confirm",                                                   \
      "with --all: the last day of a job for which it holds")                                      \
    X(PAGE, "--page", NULL, NULL, "inspect",                                                       \
      "as a page to print: what it does, asks and gives, its stops and sources")                   \
    X(ALL, "--all", NULL, NULL, "record inspect confirm",                                          \
      "record: several readings, each \"BOX=READING\"; inspect: every ask and allowance; "         \
      "confirm: for all jobs of the house")                                                        \
    X(WITHIN, "--within", NULL, "MEASURE", "compare",                                              \
      "how far figures may move: \"0.1 %\" of each, or \"0.5 g\" for masses")                      \
    X(KEEP, "--keep", NULL, "FOLDER", "batch compare",                                             \
      "batch: save results there; compare: reuse them from there")                                 \
    X(WORKERS, "--workers", NULL, "N", "batch compare sure",                                       \
      "number of processes [one per processor]")                                                   \
    X(DEPTH, "--depth", NULL, "N", "why", "how many steps down are shown, 1 to 100 [4]")           \
    X(RECIPE, "--recipe", NULL, "NAME", "run",                                                     \
      "the recipe that the job is run with, if not its own: receipt")                              \
    X(WHY, "--why", NULL, NULL, "run", "put the steps that lead to each figure into the JSON")     \
    X(DRAWS, "--draws", NULL, "N", "sure",                                                         \
      "at most so many runs, 100 to 50000; fewer when the answer is stable before [50000]")        \
    X(CLOSING, "--closing", NULL, NULL, "sure why what",                                           \
      "of the closing of the job, in its place")                                                   \
    X(AFRESH, "--afresh", NULL, NULL, "why", "as though nothing had been offered yet")             \
    X(STEPS, "--steps", NULL, "N", NULL, "step limit per job [50000000]")                          \
    X(MEMORY, "--memory", NULL, "SIZE", NULL, "memory limit per worker [128 MiB]")                 \
    X(SECONDS, "--seconds", NULL, "N", NULL, "time limit per job [10]")                            \
    X(OUTPUT, "--output", "-o", "FILE", NULL, "write to FILE, whole or not at all")                \
    X(REPLACE, "--replace", NULL, NULL, NULL, "overwrite an existing file")                        \
    X(STRICT, "--strict", NULL, NULL, "check", "end with status 1 when there is advice")           \
    X(RULES, "--rules", NULL, NULL, "recipes", "the points where a house may set its own rule")    \
    X(REACH, "--reach", NULL, NULL, "prove",                                                       \
      "list the lines and stops of a recipe that no proof covers")                                 \
    X(UNPROVED, "--unproved", NULL, NULL, "adopt", "adopt a recipe that is not proved")            \
    X(UNSIGNED, "--unsigned", NULL, NULL, "adopt", "adopt a pack whose maker is unknown")          \
    X(DIGEST, "--digest", NULL, "SHA256", "adopt",                                                 \
      "adopt only the recipe or pack with that digest")                                            \
    X(MERGE, "--merge", NULL, NULL, "adopt", "merge the changes made here with those of the pack") \
    X(QUIET, "--quiet", "-q", NULL, NULL, "say only what was asked for")                           \
    X(VERBOSE, "--verbose", "-v", NULL, NULL,                                                      \
      "show the sandbox limits, and of an error the line of lemel's recipe")                       \
    X(HELP, "--help", "-h", NULL, NULL, "this help")                                               \
    X(VERSION, "--version", NULL, NULL, NULL, "the version")

typedef enum lml_option {
#define X(id, ...) LML_OPTION_##id,
    LML_OPTION_MAP(X)
#undef X
        LML_OPTIONS
} lml_option;

typedef struct lml_option_row {
    const char *name, *brief, *value, *commands, *help;
} lml_option_row;
const lml_option_row *lml_option_at(lml_option option);
/* Whether the command of that name takes it. */
bool lml_option_fits(const lml_option_row *row, const char *command);

typedef struct lml_arguments {
    bool given[LML_OPTIONS];
    const char *value[LML_OPTIONS]; /* NULL when it takes none */
    const char **word;              /* the rest, in order; the caller's array of argc */
    size_t words;
} lml_arguments;

/* Read argv[1] on. `word` must have room for argc. LML_USAGE. */
lml_status lml_arguments_read(int argc, char **argv, const char **word, lml_arguments *out,
                              lml_error *err);
/* Refuse an option that `command` does not take. LML_USAGE. */
lml_status lml_arguments_fit(const lml_arguments *arguments, const char *command, lml_error *err);

#endif
