#include "sheet/typeset.h"

#include "base/utf8.h"

/* From the blank on, in thousandths of the size: read from Liberation Sans 1.07.4, whose widths
 * are those of Arial and of Helvetica. */
static const unsigned short plain[] = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};
static const unsigned short heavy[] = {
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584};

static double width_of(uint32_t code, double points, bool bold)
{
    static const double points_in_mm = 72 / 25.4;
    /* 278 and 400, of a blank that holds and of °, are the font's. The others are guesses: 600 for
     * small accented letters, which have 500 to 611, and too little for capitals and Cyrillic; from
     * 0x1100 on a full square, which — and ‰ are, and East Asian letters, and the rest is not. */
    unsigned wide = 600;
    if (code >= ' ' && code < ' ' + sizeof plain / sizeof *plain)
        wide = bold ? heavy[code - ' '] : plain[code - ' '];
    else if (code == 0xA0)
        wide = 278;
    else if (code == 0xB0)
        wide = 400;
    else if (code >= 0x1100)
        wide = 1000;
    return wide * points / 1000 / points_in_mm;
}

double lml_typeset_width(lml_span text, double points, bool bold)
{
    double wide = 0;
    uint32_t code;
    for (size_t n; (n = lml_utf8_next(text, &code)) > 0;
         text = (lml_span){text.at + n, text.length - n})
        wide += width_of(code, points, bold);
    return wide;
}

void lml_typeset_put(lml_typeset *t, double width)
{
    if (t->at > 0 && t->at + width > t->width) {
        t->lines++;
        t->at = 0;
    }
    for (t->at += width; t->at > t->width && t->width > 1; t->at -= t->width)
        t->lines++; /* broken where it must */
}

void lml_typeset_run(lml_typeset *t, lml_span text, double points, bool bold)
{
    double blank = width_of(' ', points, bold);
    while (text.length > 0) {
        const char *end = memchr(text.at, ' ', text.length);
        size_t length = end ? (size_t)(end - text.at) : text.length;
        lml_typeset_put(t, lml_typeset_width((lml_span){text.at, length}, points, bold));
        t->at += end ? blank : 0;
        length += end != NULL;
        text = (lml_span){text.at + length, text.length - length};
    }
}
