/* What kind of value is expected: the kinds an ask, an allowance or a give may name.
 *
 * The reader takes the kind that is expected, because the bench's short forms ("14K" for a
 * fineness, "40 mL/(100 g)" for a ratio) and the refusals ("a pressure where a vacuum is asked")
 * depend on it. TEXT to BY_NAME are shapes of a file rather than values with a unit; they are here
 * so that there is one list.
 */
#ifndef LML_VALUE_WANTED_H
#define LML_VALUE_WANTED_H

#include "value/value.h"

/* name in recipes and JSON, an example in the value grammar, words for a message */
#define LML_WANTED_MAP(X)                                                                          \
    X(ANYTHING, "anything", "12.5 g", "a value")                                                   \
    X(MASS, "mass", "12.5 g", "a mass")                                                            \
    X(FINE_MASS, "fine_mass", "7.5 g Au", "a fine mass")                                           \
    X(LENGTH, "length", "63.5 mm", "a length")                                                     \
    X(AREA, "area", "8.1 cm2", "an area")                                                          \
    X(VOLUME, "volume", "6 cm3", "a volume")                                                       \
    X(TIME, "time", "45 min", "a time")                                                            \
    X(TEMPERATURE, "temperature", "960 °C", "a temperature")                                       \
    X(TEMPERATURE_DIFFERENCE, "temperature_difference", "75 Δ°C", "a temperature difference")      \
    X(RATE, "rate", "3 Δ°C/min", "a rate (something per time)")                                    \
    X(RATIO, "ratio", "0.5 %", "a ratio")                                                          \
    X(FINENESS, "fineness", "585 ‰", "a fineness")                                                 \
    X(DENSITY, "density", "0.96 g/cm3", "a density")                                               \
    X(PRESSURE, "pressure", "75.7 kPa", "a pressure")                                              \
    X(VACUUM, "vacuum", "21.5 inHg vac", "a vacuum")                                               \
    X(GAUGE, "gauge", "21.5 inHg vac", "a reading of a vacuum gauge")                              \
    X(ENERGY, "energy", "15.4 kJ", "an energy")                                                    \
    X(POWER, "power", "1500 W", "a power")                                                         \
    X(CURRENT, "current", "0.2 A", "a current")                                                    \
    X(MONEY, "money", "42.00 USD", "an amount of money")                                           \
    X(PRICE, "price", "98.50 USD/g", "a price (money per something)")                              \
    X(NUMBER, "number", "0.93", "a number")                                                        \
    X(WHOLE, "whole", "2", "a whole number")                                                       \
    X(TEXT, "text", "cuff links", "a text")                                                        \
    X(CHOICE, "choice", "wax", "one of the named choices")                                         \
    X(YES_NO, "yes_no", "true", "true or false")                                                   \
    X(MOMENT, "moment", "2026-11-24T14:20", "a moment")                                            \
    X(TIME_OF_DAY, "time_of_day", "22:00", "a time of day")                                        \
    X(WEEKDAY, "weekday", "Saturday", "a weekday")                                                 \
    X(ALLOY, "alloy", "Au750 yellow 3N", "an alloy")                                               \
    X(ASSAY, "assay", "585 ‰ Au", "an assay")                                                      \
    X(RING_SIZE, "ring_size", "US 6 1/4", "a ring size")                                           \
    X(OWNER, "owner", "client", "an owner")                                                        \
    X(LIST, "list", "[ ... ]", "a list")                                                           \
    X(RECORD, "record", "{ ... }", "a record")                                                     \
    X(BY_NAME, "by_name", "{ \"name\": ... }", "a set of named entries")
typedef enum lml_wanted {
#define X(id, name, example, words) LML_WANT_##id,
    LML_WANTED_MAP(X)
#undef X
        LML_WANTED_COUNT
} lml_wanted;

const char *lml_wanted_name(lml_wanted w);
const char *lml_wanted_example(lml_wanted w);
const char *lml_wanted_words(lml_wanted w);
/* Zero in a unit of the kind, as "0 g", where a negative value makes no sense; else NULL. */
const char *lml_wanted_nothing(lml_wanted w);
/* LML_WANTED_COUNT when unknown. */
lml_wanted lml_wanted_by_name(lml_span name);
/* Whether a finished value is of that kind: LML_OK or LML_BAD_VALUE ("a mass is needed, 3.1 mL is a
 * volume"). For the shapes (TEXT ... BY_NAME, ALLOY, ASSAY, RING_SIZE) always LML_BAD_VALUE. */
lml_status lml_wanted_check(lml_wanted w, const lml_value *v, lml_error *err);
/* Whether the kind is written with a unit, or otherwise as a value in quotes. */
bool lml_wanted_has_unit(lml_wanted w);

#endif
