#include "file/ring_size.h"

#include "read/read.h"

#include <stdio.h>
#include <string.h>

/* A system, an example of its sizes, and the countries whose own it is, by their codes of ISO
 * 3166-1 and as they are called. Which country uses which: the charts of scripts/ring_sizes.lua,
 * named after theirs; of those under ISO (ISO 8653, the inside circumference in mm) from memory,
 * unverified. */
static const struct {
    const char *system, *example;
    bool letters;
    const char *countries; /* a line each */
} systems[] = {
    {"US", "6 1/4", false, "US\nUnited States\nUSA\n"},
    {"CA", "6 1/4", false, "CA\nCanada\n"},
    {"UK", "L 1/2", true, "GB\nUK\nUnited Kingdom\n"},
    {"IE", "L 1/2", true, "IE\nIreland\n"},
    {"AU", "L 1/2", true, "AU\nAustralia\n"},
    {"NZ", "L 1/2", true, "NZ\nNew Zealand\n"},
    {"JP", "12", false, "JP\nJapan\n"},
    {"CH", "12.5", false, "CH\nSwitzerland\n"},
    {"IT", "12.5", false, "IT\nItaly\n"},
    {"ES", "12.5", false, "ES\nSpain\n"},
    {"ISO", "52.5", false,
     "DE\nGermany\nAT\nAustria\nFR\nFrance\nBE\nBelgium\nNL\nNetherlands\nLU\nDK\nDenmark\nSE\nSwed"
     "en\n"
     "NO\nNorway\nFI\nFinland\nPT\nPortugal\nPL\nPoland\nCZ\n"},
};
enum { SYSTEMS = sizeof systems / sizeof *systems };

/* The words of a size by letters: "L", "L 1/2", "Z+1", "Z+1 1/2". */
static bool is_letter_size(lml_span size)
{
    if (!size.length || size.at[0] < 'A' || size.at[0] > 'Z')
        return false;
    size_t used = 1;
    if (size.at[0] == 'Z' && size.length >= 3 && size.at[1] == '+' && size.at[2] >= '1' &&
        size.at[2] <= '9')
        used = 3;
    lml_span rest = {size.at + used, size.length - used};
    return !rest.length || lml_span_is(rest, " 1/2") || lml_span_is(rest, " ½") ||
           lml_span_is(rest, "½");
}

static bool is_number_size(lml_span text)
{
    lml_value size;
    return !lml_read_value(text, LML_WANT_NUMBER, LML_NO_METAL, &size, NULL) && size.amount >= 0 &&
           size.amount < 200;
}

static bool is_size_of(size_t system, lml_span size)
{
    return systems[system].letters ? is_letter_size(size) : is_number_size(size);
}

/* The system of the house's country; SYSTEMS where it is not known. */
static size_t system_of(const lml_json *house)
{
    lml_span place = lml_span_trim(lml_json_text(lml_json_member(house, "place")));
    if (place.length > 2 && place.at[2] == '-')
        place.length = 2; /* AU-VIC */
    size_t i = 0;
    while (i < SYSTEMS &&
           (place.length == 0 || !lml_span_is_line_of(place, lml_span_of(systems[i].countries))))
        i++;
    return i;
}

bool lml_ring_size_read(lml_span text, const lml_json *house, char out[LML_RING_SIZE_TEXT])
{
    text = lml_span_trim(text);
    for (size_t i = 0; i < SYSTEMS; i++) {
        size_t length = strlen(systems[i].system);
        if (lml_span_starts(text, systems[i].system) && text.length > length &&
            text.at[length] == ' ' &&
            is_size_of(i, (lml_span){text.at + length + 1, text.length - length - 1}))
            return snprintf(out, LML_RING_SIZE_TEXT, "%.*s", LML_SPAN_SHOWN(text)) <
                   LML_RING_SIZE_TEXT;
    }
    size_t own = system_of(house);
    return own < SYSTEMS && is_size_of(own, text) &&
           snprintf(out, LML_RING_SIZE_TEXT, "%s %.*s", systems[own].system, LML_SPAN_SHOWN(text)) <
               LML_RING_SIZE_TEXT;
}

const char *lml_ring_size_example(const lml_json *house)
{
    size_t own = system_of(house);
    return own < SYSTEMS ? systems[own].example : NULL;
}
