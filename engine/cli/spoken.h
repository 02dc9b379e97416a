/* Spoken: what a caller says of a piece, word for word, in the order in which they say it: its
 * weight, its fineness, how many they are, and what they are called. A word that is none of these
 * is part of the name, or the piece ends before it: none is dropped.
 *
 *     lml_spoken_piece p = {.count = 0};
 *     size_t end = lml_spoken_read_piece(&words, 0, words.count, &p);   "two bands of 6 g each"
 */
#ifndef LML_CLI_SPOKEN_H
#define LML_CLI_SPOKEN_H

#include "base/builder.h"
#include "base/span.h"

enum { LML_SPOKEN_WORDS = 64, LML_SPOKEN_TEXT = 16 };

/* `text` has one blank between words, so that several in a row are one span. */
typedef struct lml_said_words {
    lml_builder text;
    size_t at[LML_SPOKEN_WORDS], end[LML_SPOKEN_WORDS], count;
    bool comma[LML_SPOKEN_WORDS]; /* behind that word */
    size_t values;                /* the first NAME=VALUE of the command line */
} lml_said_words;

/* Both as words: from `first`, up to `end`. */
typedef struct lml_phrase {
    size_t first, end;
} lml_phrase;

/* A piece, or several of one kind. What is not said has no words. */
typedef struct lml_spoken_piece {
    lml_phrase all, mass, metal, how_many;
    size_t name[LML_SPOKEN_WORDS], names; /* its words, which need not be in a row */
    lml_phrase spoken;                    /* "gold" of "18 kt gold" */
    int count;                            /* 0: not said */
    bool each, together;
    bool named; /* before its mass and its metal were both said */
} lml_spoken_piece;

lml_span lml_spoken_words(const lml_said_words *s, lml_phrase p);
/* In small letters or capitals. */
bool lml_spoken_is_word(const lml_said_words *s, size_t word, const char *wanted);
bool lml_spoken_is_number(const lml_said_words *s, size_t word);
/* "14 kt", "925 ‰ Ag", "sterling"; anything else is the name of a metal. */
bool lml_spoken_is_fineness(lml_span text);
/* A fineness that has no unit, written with it: "585 gold" as "585 ‰ Au". */
bool lml_spoken_write(lml_span text, char out[LML_SPOKEN_TEXT]);
/* The name of an alloy, where no fineness is said; empty if one is. */
lml_phrase lml_spoken_find_alloy(const lml_said_words *s, size_t end);
/* Adds to the piece; returns where it ends, at what is of the next one or is too much. */
size_t lml_spoken_read_piece(const lml_said_words *s, size_t at, size_t end, lml_spoken_piece *p);
/* Whether its mass and its metal are said. */
bool lml_spoken_is_whole(const lml_spoken_piece *p);
/* "18 kt platinum" */
bool lml_spoken_is_of_two_metals(const lml_said_words *s, const lml_spoken_piece *p);

#endif
