/* The unit table. Factors are exact; one row a unit; the source is what defines or prints it. */
#include "unit/unit_table.h"

#include "unit/currency.h"

/* clang-format off */
#define NONE        {0, 0, 0, 0, 0, 0, 0}
#define MASS        {1, 0, 0, 0, 0, 0, 0}
#define LENGTH      {0, 1, 0, 0, 0, 0, 0}
#define AREA        {0, 2, 0, 0, 0, 0, 0}
#define VOLUME      {0, 3, 0, 0, 0, 0, 0}
#define TIME        {0, 0, 1, 0, 0, 0, 0}
#define TEMPERATURE {0, 0, 0, 1, 0, 0, 0}
#define PRESSURE    {1, -1, -2, 0, 0, 0, 0}
#define ENERGY      {1, 2, -2, 0, 0, 0, 0}
#define POWER       {1, 2, -3, 0, 0, 0, 0}
#define CURRENT     {0, 0, 0, 0, 1, 0, 0}
#define VOLTAGE     {1, 2, -3, 0, -1, 0, 0}
/* clang-format on */

/* Where a factor was read. */
#define WMA "Weights and Measures Act (Canada), R.S.C. 1985, c. W-6, Schedule II"
#define WMA_SI "Weights and Measures Act (Canada), R.S.C. 1985, c. W-6, Schedule I"
#define SP811_SI "NIST SP 811 (2008), section 4, Tables 1, 3 and 5"
#define SP811_USED "NIST SP 811 (2008), section 5.1.1, Table 6"
#define SP811 "NIST SP 811 (2008), Appendix B.8"
#define SP811_RATIO "NIST SP 811 (2008), section 7.10"
#define GNU "GNU units 2.22, data file 3.15"
#define PMMR "Precious Metals Marking Regulations (Canada), C.R.C., c. 1303, s. 6(4)(a)"

/* name, spellings, dimension, factor to SI, factor in words, source, name in words */
#define PLAIN(name, spellings, dimension, top, bottom, exact, source, words)                       \
    {                                                                                              \
        name, spellings, LML_UNIT_PLAIN, dimension, {top, bottom}, {0, 1}, exact, source, words    \
    }
#define RATIO(name, spellings, bottom, exact, source, words)                                       \
    {                                                                                              \
        name, spellings, LML_UNIT_RATIO, NONE, {1, bottom}, {0, 1}, exact, source, words           \
    }
#define POINT(name, spellings, top, bottom, zero_top, zero_bottom, exact, source, words)           \
    {                                                                                              \
        name, spellings, LML_UNIT_POINT, TEMPERATURE, {top, bottom}, {zero_top, zero_bottom},      \
            exact, source, words                                                                   \
    }

/* Δ is U+0394 in names and U+2206 in spellings, µ is U+00B5 and U+03BC. */
static const lml_unit_row rows[LML_U_COUNT] = {
    [LML_U_ONE] = RATIO("1", "", 1, "1", SP811_RATIO, "the number one"),

    [LML_U_KG] = PLAIN("kg", "", MASS, 1, 1, "1 kg", SP811_SI, "kilogram"),
    [LML_U_G] = PLAIN("g", "", MASS, 1, 1000, "1/1000 kg", SP811_SI, "gram"),
    [LML_U_MG] = PLAIN("mg", "", MASS, 1, 1000000, "1/1000 g", SP811_SI, "milligram"),
    [LML_U_UG] = PLAIN("µg", "μg ug", MASS, 1, 1000000000, "1/1000000 g", SP811_SI, "microgram"),
    [LML_U_OZT] =
        PLAIN("ozt", "", MASS, 19439673, 625000000, "480 grain = 31.1034768 g", WMA, "troy ounce"),
    [LML_U_DWT] = PLAIN("dwt", "", MASS, 19439673, 12500000000, "24 grain = 1.55517384 g", SP811,
                        "pennyweight"),
    [LML_U_GRAIN] =
        PLAIN("grain", "", MASS, 6479891, 100000000000, "1/7000 lb = 0.06479891 g", WMA, "grain"),
    [LML_U_LB] =
        PLAIN("lb", "", MASS, 45359237, 100000000, "453.59237 g", WMA, "avoirdupois pound"),
    [LML_U_OZ_AV] = PLAIN("oz_av", "", MASS, 45359237, 1600000000, "1/16 lb = 28.349523125 g", WMA,
                          "avoirdupois ounce"),
    [LML_U_CT] = PLAIN("ct", "", MASS, 1, 5000, "200 mg", WMA, "metric carat, of gem mass"),
    [LML_U_POINT] = PLAIN("point", "", MASS, 1, 500000, "1/100 ct = 2 mg",
                          "common practice, no source", "point, of gem mass"),
    [LML_U_TOLA] =
        PLAIN("tola", "", MASS, 58319019, 5000000000, "180 grain = 11.6638038 g", GNU, "tola"),
    [LML_U_MOMME] = PLAIN("momme", "", MASS, 3, 800, "3.75 g", GNU, "momme"),
    [LML_U_HUNDRED_G] = PLAIN("100 g", "", MASS, 1, 10, "100 g, only in /(100 g)", SP811_SI,
                              "hundred grams, of powder"),

    [LML_U_M] = PLAIN("m", "", LENGTH, 1, 1, "1 m", SP811_SI, "metre"),
    [LML_U_CM] = PLAIN("cm", "", LENGTH, 1, 100, "1/100 m", SP811_SI, "centimetre"),
    [LML_U_MM] = PLAIN("mm", "", LENGTH, 1, 1000, "1/1000 m", SP811_SI, "millimetre"),
    [LML_U_UM] = PLAIN("µm", "μm um", LENGTH, 1, 1000000, "1/1000 mm", SP811_SI, "micrometre"),
    [LML_U_IN] = PLAIN("in", "", LENGTH, 127, 5000, "25.4 mm", WMA, "inch"),
    [LML_U_FT] = PLAIN("ft", "", LENGTH, 381, 1250, "12 in = 304.8 mm", GNU, "foot"),
    [LML_U_THOU] = PLAIN("thou", "", LENGTH, 127, 5000000, "1/1000 in = 25.4 µm", GNU,
                         "thousandth of an inch"),
    [LML_U_UIN] = PLAIN("µin", "μin uin", LENGTH, 127, 5000000000, "1/1000000 in = 25.4 nm", GNU,
                        "microinch"),

    [LML_U_M2] = PLAIN("m2", "", AREA, 1, 1, "1 m2", SP811_SI, "square metre"),
    [LML_U_DM2] = PLAIN("dm2", "", AREA, 1, 100, "1/100 m2", SP811_SI, "square decimetre"),
    [LML_U_CM2] = PLAIN("cm2", "", AREA, 1, 10000, "1/10000 m2", SP811_SI, "square centimetre"),
    [LML_U_MM2] = PLAIN("mm2", "", AREA, 1, 1000000, "1/100 cm2", SP811_SI, "square millimetre"),
    [LML_U_IN2] = PLAIN("in2", "", AREA, 16129, 25000000, "6.4516 cm2", GNU, "square inch"),

    [LML_U_M3] = PLAIN("m3", "", VOLUME, 1, 1, "1 m3", SP811_SI, "cubic metre"),
    [LML_U_DM3] = PLAIN("dm3", "", VOLUME, 1, 1000, "1/1000 m3", SP811_SI, "cubic decimetre"),
    [LML_U_L] = PLAIN("L", "l", VOLUME, 1, 1000, "1 dm3", SP811_USED, "litre"),
    [LML_U_ML] = PLAIN("mL", "ml cc", VOLUME, 1, 1000000, "1 cm3", SP811_USED, "millilitre"),
    [LML_U_CM3] = PLAIN("cm3", "", VOLUME, 1, 1000000, "1/1000 dm3", SP811_SI, "cubic centimetre"),
    [LML_U_MM3] =
        PLAIN("mm3", "", VOLUME, 1, 1000000000, "1/1000 cm3", SP811_SI, "cubic millimetre"),
    [LML_U_IN3] =
        PLAIN("in3", "", VOLUME, 2048383, 125000000000, "16.387064 cm3", GNU, "cubic inch"),
    [LML_U_FLOZ_US] = PLAIN("floz_us", "", VOLUME, 473176473, 16000000000000,
                            "231/128 in3 = 29.5735295625 mL", SP811, "US fluid ounce"),
    [LML_U_FLOZ_IMP] = PLAIN("floz_imp", "", VOLUME, 454609, 16000000000,
                             "1/160 of 4.54609 L = 28.4130625 mL", WMA, "imperial fluid ounce"),

    [LML_U_S] = PLAIN("s", "", TIME, 1, 1, "1 s", SP811_SI, "second"),
    [LML_U_MIN] = PLAIN("min", "", TIME, 60, 1, "60 s", SP811_USED, "minute"),
    [LML_U_H] = PLAIN("h", "", TIME, 3600, 1, "60 min", SP811_USED, "hour"),
    [LML_U_D] = PLAIN("d", "", TIME, 86400, 1, "24 h", SP811_USED, "day"),

    [LML_U_DEGC] = POINT("°C", "degC C", 1, 1, 5463, 20, "t/°C + 273.15 = T/kelvin", WMA_SI,
                         "degree Celsius, a temperature"),
    [LML_U_DEGF] = POINT("°F", "degF F", 5, 9, 45967, 180, "(t/°F + 459.67)/1.8 = T/kelvin",
                         "NIST SP 811 (2008), Appendix B.9", "degree Fahrenheit, a temperature"),
    [LML_U_KELVIN] = POINT("kelvin", "", 1, 1, 0, 1, "1 K above absolute zero", SP811_SI,
                           "kelvin, a temperature"),
    [LML_U_DELTA_C] = PLAIN("Δ°C", "∆°C deltaC", TEMPERATURE, 1, 1, "1 K", WMA_SI,
                            "degree Celsius, a difference"),
    [LML_U_DELTA_F] = PLAIN("Δ°F", "∆°F deltaF", TEMPERATURE, 5, 9, "5/9 K",
                            "NIST SP 811 (2008), Appendix B.9", "degree Fahrenheit, a difference"),
    [LML_U_K] = PLAIN("K", "", TEMPERATURE, 1, 1, "1 K, only inside a compound unit", SP811_SI,
                      "kelvin, a difference"),

    [LML_U_PA] = PLAIN("Pa", "", PRESSURE, 1, 1, "1 N/m2", SP811_SI, "pascal"),
    [LML_U_HPA] = PLAIN("hPa", "", PRESSURE, 100, 1, "100 Pa", SP811_SI, "hectopascal"),
    [LML_U_KPA] = PLAIN("kPa", "", PRESSURE, 1000, 1, "1000 Pa", SP811_SI, "kilopascal"),
    [LML_U_MPA] = PLAIN("MPa", "", PRESSURE, 1000000, 1, "1000 kPa", SP811_SI, "megapascal"),
    [LML_U_MBAR] = PLAIN("mbar", "", PRESSURE, 100, 1, "100 Pa", SP811, "millibar"),
    [LML_U_BAR] = PLAIN("bar", "", PRESSURE, 100000, 1, "100000 Pa", SP811, "bar"),
    [LML_U_ATM] = PLAIN("atm", "", PRESSURE, 101325, 1, "101325 Pa", SP811, "standard atmosphere"),
    [LML_U_MMHG] = PLAIN("mmHg", "", PRESSURE, 26664477483, 200000000,
                         "13595.1 kg/m3 * 9.80665 m/s2 * 1 mm = 133.322387415 Pa", SP811,
                         "conventional millimetre of mercury"),
    [LML_U_INHG] = PLAIN("inHg", "", PRESSURE, 3386388640341, 1000000000,
                         "25.4 mmHg = 3386.388640341 Pa", SP811, "conventional inch of mercury"),
    [LML_U_TORR] = PLAIN("torr", "", PRESSURE, 20265, 152, "1/760 atm", SP811, "torr"),
    [LML_U_PSI] = PLAIN("psi", "", PRESSURE, 8896443230521, 1290320000, "1 lb * 9.80665 m/s2 / in2",
                        SP811, "pound-force per square inch"),

    [LML_U_J] = PLAIN("J", "", ENERGY, 1, 1, "1 N m", SP811_SI, "joule"),
    [LML_U_KJ] = PLAIN("kJ", "", ENERGY, 1000, 1, "1000 J", SP811_SI, "kilojoule"),
    [LML_U_CAL_TH] =
        PLAIN("cal_th", "", ENERGY, 523, 125, "4.184 J", SP811, "thermochemical calorie"),
    [LML_U_CAL_IT] =
        PLAIN("cal_IT", "", ENERGY, 10467, 2500, "4.1868 J", SP811, "International Table calorie"),
    [LML_U_WH] = PLAIN("Wh", "", ENERGY, 3600, 1, "3600 J", SP811, "watt hour"),
    [LML_U_KWH] = PLAIN("kWh", "", ENERGY, 3600000, 1, "3.6 MJ", SP811, "kilowatt hour"),
    [LML_U_BTU_IT] = PLAIN("Btu_IT", "", ENERGY, 52752792631, 50000000,
                           "1 cal_IT * lb * Δ°F/(g·K) = 1055.05585262 J", SP811,
                           "International Table British thermal unit"),
    [LML_U_W] = PLAIN("W", "", POWER, 1, 1, "1 J/s", SP811_SI, "watt"),
    [LML_U_KW] = PLAIN("kW", "", POWER, 1000, 1, "1000 W", SP811_SI, "kilowatt"),
    [LML_U_A] = PLAIN("A", "", CURRENT, 1, 1, "1 A", SP811_SI, "ampere"),
    [LML_U_MA] = PLAIN("mA", "", CURRENT, 1, 1000, "1/1000 A", SP811_SI, "milliampere"),
    [LML_U_V] = PLAIN("V", "", VOLTAGE, 1, 1, "1 W/A", SP811_SI, "volt"),

    [LML_U_PERCENT] = RATIO("%", "", 100, "1/100", SP811_RATIO, "per cent"),
    [LML_U_PER_MILLE] = RATIO("‰", "", 1000, "1/1000", "common practice, no source",
                              "per mille, parts per thousand"),
    [LML_U_PPM] = RATIO("ppm", "", 1000000, "1/1000000", SP811_RATIO, "parts per million"),
    [LML_U_DELTA_PER_MILLE] =
        RATIO("Δ‰", "∆‰", 1000, "1/1000, with a metal", "common practice, no source",
              "per mille, a fineness difference"),
    [LML_U_KT] =
        {"kt",
         "",
         LML_UNIT_KARAT,
         NONE,
         {1, 24},
         {0, 1},
         "1/24 gold by mass",
         PMMR,
         "karat, of gold"},
};

/* What every currency code shares; the code itself is in the value's dimension. */
static const lml_unit_row money = {
    "", "", LML_UNIT_CURRENCY, {0, 0, 0, 0, 0, 1, 0}, {1, 1}, {0, 1}, "1", "ISO 4217", "currency"};

size_t lml_unit_count(void)
{
    return LML_U_COUNT;
}

const lml_unit_row *lml_unit_at(size_t index)
{
    return index == LML_UNIT_MONEY ? &money : &rows[index < LML_U_COUNT ? index : LML_U_ONE];
}

/* Whether `word` is one of the blank-separated words of `list`. */
static bool is_among(lml_span word, const char *list)
{
    for (const char *at = list; *at;) {
        const char *end = at;
        while (*end && *end != ' ')
            end++;
        if (lml_span_equal(word, lml_span_between(at, end)))
            return true;
        at = *end ? end + 1 : end;
    }
    return false;
}

/* Those that nearly every value is written in, the most common first. */
static const uint8_t usual[] = {
    LML_U_PER_MILLE,       LML_U_DEGC, LML_U_G, LML_U_MIN, LML_U_MM, LML_U_PERCENT,
    LML_U_DELTA_PER_MILLE, LML_U_DEGF, LML_U_H, LML_U_CM3, LML_U_DWT};

/* Those with other spellings. */
static const uint8_t spelled[] = {
    LML_U_UG,   LML_U_UM,   LML_U_UIN,     LML_U_L,       LML_U_ML,
    LML_U_DEGC, LML_U_DEGF, LML_U_DELTA_C, LML_U_DELTA_F, LML_U_DELTA_PER_MILLE};

enum { LONGEST = 8 /* bytes, of floz_imp */ };

unsigned lml_unit_table_find(lml_span word)
{
    for (size_t i = 0; i < sizeof usual; i++)
        if (lml_span_is(word, rows[usual[i]].name))
            return usual[i];
    if (word.length > LONGEST || lml_currency_by_code(word))
        return LML_U_COUNT;
    for (unsigned id = 1; id < LML_U_COUNT; id++)
        if (id != LML_U_HUNDRED_G && lml_span_is(word, rows[id].name))
            return id;
    for (size_t i = 0; i < sizeof spelled; i++)
        if (is_among(word, rows[spelled[i]].spellings))
            return spelled[i];
    return LML_U_COUNT;
}

/* Rows that are a power of another row. */
static const struct {
    uint8_t id, root;
    int8_t power;
} powers[] = {
    {LML_U_M2, LML_U_M, 2},   {LML_U_CM2, LML_U_CM, 2}, {LML_U_MM2, LML_U_MM, 2},
    {LML_U_IN2, LML_U_IN, 2}, {LML_U_M3, LML_U_M, 3},   {LML_U_CM3, LML_U_CM, 3},
    {LML_U_MM3, LML_U_MM, 3}, {LML_U_IN3, LML_U_IN, 3},
};
enum { POWERS = sizeof powers / sizeof *powers };

unsigned lml_unit_table_with_power(unsigned id, int power)
{
    for (size_t i = 0; i < POWERS; i++)
        if (powers[i].root == id && powers[i].power == power)
            return powers[i].id;
    return LML_U_COUNT;
}

unsigned lml_unit_table_root(unsigned id, int *power)
{
    for (size_t i = 0; i < POWERS; i++)
        if (powers[i].id == id) {
            *power = powers[i].power;
            return powers[i].root;
        }
    *power = 1;
    return id;
}
