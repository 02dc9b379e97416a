#include "file/shapes.h"
#include "unit/currency.h"
#include "read/read.h"
#include "unit/unit.h"
#include "value/wanted.h"
#include "value/write.h"

#define COUNT(fields) (sizeof(fields) / sizeof *(fields))
#define SCHEMA_FIELD                                                                               \
    {                                                                                              \
        .wanted = LML_WANT_TEXT, .name = "$schema",                                                \
        .title = "Location of this file's schema, for editors", .optional = true,                  \
        .example = "job.schema.json"                                                               \
    }

/* Files of before 0.2 do not say it, and are of version 1. */
static lml_status check_version(const lml_json *node, lml_error *err)
{
    if (lml_json_number(node) <= LML_SHAPES_VERSION)
        return LML_OK;
    lml_span version = lml_json_raw(node);
    lml_json_fail(node, err, LML_BAD_DATA,
                  "a later lemel wrote this file: it is version %.*s, but this lemel reads %d",
                  (int)version.length, version.at, LML_SHAPES_VERSION);
    lml_error_hint(err, "install the later lemel; nothing else in the file was checked");
    return LML_BAD_DATA;
}

#define VERSION_FIELD                                                                              \
    {                                                                                              \
        .wanted = LML_WANT_WHOLE, .name = LML_SHAPE_VERSION,                                       \
        .title = "Version of this kind of file; 1 if left out", .optional = true, .from = "1",     \
        .example = "1", .check = check_version                                                     \
    }

static const lml_shape anything = {.wanted = LML_WANT_ANYTHING};

/* ---- job ---- */

/* The first origin is "not stated", which nobody writes. */
static const char *const origins[] = {
#define X(id, words) words,
    LML_ORIGIN_MAP(X)
#undef X
        NULL};

/* The sides of the metal account; without one an entry is a measurement and no more. */
static const char *const ways[] = {"in",      "added", "piece", "returned", "kept",
                                   "settled", "sent",  "here",  "melted",   NULL};

static const lml_shape entry_fields[] = {
    {.wanted = LML_WANT_MOMENT,
     .name = "at",
     .title = "When it was weighed or measured",
     .example = "2026-11-26T14:20"},
    {.wanted = LML_WANT_TEXT,
     .name = "what",
     .title = "Name of the figure on the bench sheet",
     .example = "raw casting"},
    {.wanted = LML_WANT_MASS,
     .name = "mass",
     .title = "Reading of the scale",
     .optional = true,
     .from = "0 g"},
    {.wanted = LML_WANT_FINENESS,
     .name = "fineness",
     .title = "Fineness it is counted at",
     .optional = true,
     .metal = LML_Au,
     .any_metal = true},
    {.wanted = LML_WANT_TEXT,
     .name = "assay",
     .title = "Which test the fineness comes from",
     .note = "figures of one test share its error; \"calculated\" if it was worked out from what "
             "went in",
     .optional = true,
     .example = "button of 24 November"},
    {.wanted = LML_WANT_OWNER, .name = "owner", .title = "Whose metal it is", .optional = true},
    {.wanted = LML_WANT_CHOICE,
     .name = "way",
     .title = "Which side of the metal account it belongs to",
     .note =
         "in: brought by its owner; added: the studio's, from now on the owner's; piece: in the "
         "finished piece; returned: handed back; kept: stays with the studio by agreement; "
         "settled: "
         "gone to the studio with the closing, because its owner owed metal or it was credited or "
         "bought; sent: at the refiner's, in the parcel that what names; here: lies here still, "
         "such as button, "
         "sprues and lemel; melted: gone back into the crucible for the same job, out of what from "
         "names",
     .optional = true,
     .choices = ways},
    {.wanted = LML_WANT_TEXT,
     .name = "from",
     .title = "What lies here that it was taken out of",
     .note = "as its entry is called; of another job, with the name of that file before it",
     .optional = true,
     .example = "red-ring-closing: button"},
    {.wanted = LML_WANT_MOMENT,
     .name = "corrects",
     .title = "When the weighing of the same name and way was written down that this one replaces",
     .optional = true,
     .example = "2026-11-27T08:38"},
    {.wanted = LML_WANT_CHOICE,
     .name = "origin",
     .title = "How the figure is known",
     .optional = true,
     .choices = origins + 1},
    {.wanted = LML_WANT_LENGTH, .name = "length", .title = "A measured length", .optional = true},
    {.wanted = LML_WANT_VOLUME, .name = "volume", .title = "A measured volume", .optional = true},
    {.wanted = LML_WANT_TEMPERATURE,
     .name = "temperature",
     .title = "A temperature reading",
     .optional = true},
    {.wanted = LML_WANT_TIME, .name = "time", .title = "How long it took", .optional = true},
    {.wanted = LML_WANT_GAUGE,
     .name = "vacuum",
     .title = "A reading of a vacuum gauge, of either kind",
     .optional = true,
     .example = "21.5 inHg vac"},
    {.wanted = LML_WANT_CURRENT, .name = "current", .title = "A current reading", .optional = true},
    {.wanted = LML_WANT_WHOLE, .name = "count", .title = "How many", .optional = true, .from = "0"},
    {.wanted = LML_WANT_TEXT,
     .name = "by",
     .title = "Who weighed or measured it",
     .optional = true,
     .example = "O.F."},
    {.wanted = LML_WANT_TEXT,
     .name = "note",
     .title = "Other notes",
     .optional = true,
     .example = "sprues still on"},
};
const lml_shape lml_shapes_record_entry = {.wanted = LML_WANT_RECORD,
                                           .title = "What was weighed or measured",
                                           .fields = entry_fields,
                                           .field_count = COUNT(entry_fields)};

static const lml_shape confirmed_fields[] = {
    {.wanted = LML_WANT_TEXT,
     .name = "reason",
     .title = "Why it is accepted",
     .example = "client insists, told of porosity"},
    {.wanted = LML_WANT_TEXT, .name = "by", .title = "Who decided", .example = "O.F."},
    {.wanted = LML_WANT_TEXT,
     .name = "text",
     .title = "The text that was accepted, word for word; lemel confirm writes it",
     .optional = true, /* without it the point is open */
     .example = "Old metal is 63 % of the charge"},
    {.wanted = LML_WANT_TEXT,
     .name = "figure",
     .title = "From lemel 0.1.0; no longer used",
     .optional = true,
     .example = "63 %"},
};
static const lml_shape confirmed = {.wanted = LML_WANT_RECORD,
                                    .title = "A point that was confirmed",
                                    .fields = confirmed_fields,
                                    .field_count = COUNT(confirmed_fields)};

static const lml_shape readings = {.wanted = LML_WANT_RECORD,
                                   .title = "What was read together, by its place in the job",
                                   .of = &anything};
static const lml_shape file_name = {
    .wanted = LML_WANT_TEXT, .title = "A job's file", .example = "cuff-links.json"};

static const lml_shape job_fields[] = {
    VERSION_FIELD,
    SCHEMA_FIELD,
    {.wanted = LML_WANT_TEXT, .name = "recipe", .title = "The recipe to run", .example = "remake"},
    {.wanted = LML_WANT_TEXT,
     .name = "made",
     .title = "The command that made the file and may rewrite it",
     .optional = true,
     .example = "lemel ask"},
    {.wanted = LML_WANT_TEXT,
     .name = "title",
     .title = "Name of the job",
     .optional = true,
     .example = "Two rings into one"},
    {.wanted = LML_WANT_TEXT,
     .name = "client",
     .title = "Whose job it is, as it is printed",
     .optional = true,
     .example = "Tobiah Merrowick"},
    {.wanted = LML_WANT_MOMENT,
     .name = "date",
     .title = "Date of the job",
     .optional = true,
     .example = "2026-11-24"},
    {.wanted = LML_WANT_RECORD,
     .name = "given",
     .title = "What the recipe asks",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_LIST,
     .name = "jobs",
     .title = "Other jobs that the recipe reads, by file, counted from the folder of this one",
     .optional = true,
     .example = "[\"cuff-links.json\"]",
     .of = &file_name},
    {.wanted = LML_WANT_LIST,
     .name = LML_LISTED,
     .title = "What came of these jobs; lemel puts it in, nobody writes it",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_YES_NO,
     .name = "loose",
     .title = "Whether given may also set allowances, as on the command line",
     .optional = true},
    {.wanted = LML_WANT_RECORD,
     .name = "house",
     .title = "Allowances of this job instead of the house's",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_BY_NAME,
     .name = "confirmed",
     .title = "Points that were confirmed, by recipe/code",
     .optional = true,
     .of = &confirmed},
    {.wanted = LML_WANT_LIST,
     .name = "record",
     .title = "What was weighed and measured; entries are only added",
     .optional = true,
     .of = &lml_shapes_record_entry},
    {.wanted = LML_WANT_LIST,
     .name = "readings",
     .title = "From how many readings a spread was found, or the readings; for lemel sure",
     .optional = true,
     .of = &readings},
    {.wanted = LML_WANT_LIST,
     .name = "offers",
     .title = "Offers to the client and their outcome; lemel offer adds to it",
     .optional = true,
     .of = &lml_shapes_offer},
    {.wanted = LML_WANT_RECORD,
     .name = "closing",
     .title = "How the job ends; lemel close runs it",
     .optional = true,
     .fields = lml_shapes_closing_fields,
     .field_count = LML_SHAPES_CLOSING_FIELDS},
    {.wanted = LML_WANT_TEXT,
     .name = "notes",
     .title = "Other notes",
     .optional = true,
     .example = "engraving inside stays legible"},
};
const lml_shape lml_shapes_job = {.wanted = LML_WANT_RECORD,
                                  .title = "A job",
                                  .fields = job_fields,
                                  .field_count = COUNT(job_fields)};

/* ---- house ---- */

const char *lml_shapes_currency_of(const lml_json *house)
{
    uint16_t own = lml_currency_of_place(lml_json_text(lml_json_member(house, "place")));
    return own ? lml_currency_at(own)->code : "EUR";
}

static lml_status check_currency(const lml_json *node, lml_error *err)
{
    lml_span code = lml_json_text(node);
    if (lml_currency_by_code(code))
        return LML_OK;
    lml_json_fail(node, err, LML_BAD_VALUE, "\"%.*s\" is not a currency", (int)code.length,
                  code.at);
    lml_error_hint(err, "write its ISO 4217 code: three capitals, such as %s",
                   lml_shapes_currency_of(lml_json_holder(node)));
    return LML_BAD_VALUE;
}

/* The kind that an entry of `units` is for: "mass", or "mass_bench" for one page only. */
static lml_wanted kind_of_entry(lml_span name)
{
    lml_wanted kind = lml_wanted_by_name(name);
    size_t end = name.length;
    while (kind >= LML_WANTED_COUNT && end > 0 && name.at[end - 1] != '_')
        end--;
    return kind < LML_WANTED_COUNT || end == 0 ? kind
                                               : lml_wanted_by_name((lml_span){name.at, end - 1});
}

static lml_status check_unit(const lml_json *node, lml_error *err)
{
    lml_span unit = lml_json_text(node), name = lml_json_name(node);
    lml_wanted kind = kind_of_entry(name);
    lml_unit read;
    lml_dimension dimension;
    lml_status status = lml_unit_read(unit, &read, &dimension, err);
    if (status)
        return lml_json_place(node, status, err);
    if (kind == LML_WANT_ANYTHING || kind >= LML_WANT_NUMBER) {
        lml_json_fail(node, err, LML_BAD_VALUE, "\"%.*s\" is not a kind of figure",
                      (int)name.length, name.at);
        lml_error_hint(err, "such as mass, length, temperature, vacuum or volume");
        return LML_BAD_VALUE;
    }
    lml_value example, shown;
    if (kind == LML_WANT_MONEY || kind == LML_WANT_PRICE ||
        lml_read_value(lml_span_of(lml_wanted_example(kind)), kind, LML_Au, &example, NULL) ||
        lml_write_as(&example, unit, &shown, NULL) == LML_OK)
        return LML_OK;
    lml_json_fail(node, err, LML_BAD_VALUE, "%s cannot be printed in %.*s", lml_wanted_words(kind),
                  (int)unit.length, unit.at);
    lml_error_hint(err, "name a unit of that kind; an example is %s", lml_wanted_example(kind));
    return LML_BAD_VALUE;
}

static const lml_shape unit_name = {.wanted = LML_WANT_TEXT,
                                    .title = "The unit to print it in, such as g, mm, °C or kPa",
                                    .example = "g",
                                    .check = check_unit};

#define UNIT_FIELD(kind, words, unit)                                                              \
    {                                                                                              \
        .wanted = LML_WANT_TEXT, .name = kind, .title = "The unit to print " words " in",          \
        .optional = true, .example = unit, .check = check_unit                                     \
    }

static const lml_shape unit_fields[] = {
    UNIT_FIELD("mass", "masses", "g"),
    UNIT_FIELD("length", "lengths", "mm"),
    UNIT_FIELD("temperature", "temperatures", "°C"),
    UNIT_FIELD("vacuum", "depths of vacuum", "inHg"),
};

static const char *const papers[] = {"A4", "Letter", NULL};
static const char *const days[] = {"Fri 27 Nov", "Fri Nov 27", NULL};

static const lml_shape house_confirmed_fields[] = {
    {.wanted = LML_WANT_TEXT,
     .name = "code",
     .title = "The point, as recipe/code",
     .example = "mark/row-from-memory"},
    {.wanted = LML_WANT_TEXT,
     .name = "digest",
     .title = "Of its text: of other words it is another point",
     .example = "sha256:..."},
    {.wanted = LML_WANT_TEXT,
     .name = "text",
     .title = "What was accepted, to be read",
     .optional = true,
     .example = "The row for Malta is from memory"},
    {.wanted = LML_WANT_TEXT,
     .name = "reason",
     .title = "Why it is accepted",
     .example = "the assay office says so"},
    {.wanted = LML_WANT_TEXT, .name = "by", .title = "Who decided", .example = "O.F."},
    {.wanted = LML_WANT_MOMENT,
     .name = "until",
     .title = "The last day for which it holds",
     .example = "2027-12-31"},
};
static const lml_shape house_confirmed = {.wanted = LML_WANT_RECORD,
                                          .title = "A point that is confirmed for all jobs",
                                          .fields = house_confirmed_fields,
                                          .field_count = COUNT(house_confirmed_fields)};

#define NOTES_FIELD                                                                                \
    {                                                                                              \
        .wanted = LML_WANT_BY_NAME, .name = "notes",                                               \
        .title = "Notes for people, by what they are about", .optional = true,                     \
        .of = &(const lml_shape)                                                                   \
        {                                                                                          \
            .wanted = LML_WANT_TEXT                                                                \
        }                                                                                          \
    }

static const lml_shape house_fields[] = {
    VERSION_FIELD,
    SCHEMA_FIELD,
    NOTES_FIELD,
    {.wanted = LML_WANT_TEXT,
     .name = "name",
     .title = "The studio's name, as it is printed",
     .optional = true,
     .example = "Studio Lemel"},
    {.wanted = LML_WANT_TEXT,
     .name = "place",
     .title = "Where it is; laws and taxes depend on it",
     .optional = true,
     .example = "CA-QC"},
    {.wanted = LML_WANT_TEXT,
     .name = "currency",
     .title = "Its currency",
     .optional = true,
     .example = "CAD",
     .check = check_currency},
    {.wanted = LML_WANT_RECORD,
     .name = "units",
     .title = "The units to print, by kind (mass, length, ...)",
     .optional = true,
     .fields = unit_fields,
     .field_count = COUNT(unit_fields),
     .of = &unit_name},
    {.wanted = LML_WANT_CHOICE,
     .name = "paper",
     .title = "The paper that sheets are printed on",
     .note = "left out: Letter where the place is in the US, Canada or Mexico, else A4",
     .optional = true,
     .choices = papers},
    {.wanted = LML_WANT_CHOICE,
     .name = "days",
     .title = "How sheets write a day",
     .note = "left out: Fri 27 Nov",
     .optional = true,
     .choices = days},
    {.wanted = LML_WANT_LENGTH,
     .name = "altitude",
     .title = "Altitude above sea level",
     .optional = true,
     .from = "-500 m",
     .to = "9000 m",
     .example = "233 m"},
    {.wanted = LML_WANT_BY_NAME,
     .name = "stock",
     .title = "The studio's own alloys, by name",
     .optional = true,
     .of = &(const lml_shape){.wanted = LML_WANT_ALLOY}},
    {.wanted = LML_WANT_LIST,
     .name = "confirmed",
     .title = "Points that are confirmed for all jobs; lemel confirm --all adds to it",
     .optional = true,
     .of = &house_confirmed},
};
const lml_shape lml_shapes_house = {.wanted = LML_WANT_RECORD,
                                    .title = "A studio",
                                    .note = "Every other name is an allowance: a general one "
                                            "(\"button\") or one recipe's (\"need.button\")",
                                    .fields = house_fields,
                                    .field_count = COUNT(house_fields),
                                    .of = &anything};

/* ---- prices ---- */

#define PRICE_FIELDS                                                                               \
    {.wanted = LML_WANT_PRICE, .name = "price", .title = "The price", .example = "98.50 USD/g"},   \
        {.wanted = LML_WANT_MOMENT,                                                                \
         .name = "at",                                                                             \
         .title = "Date and time of the price",                                                    \
         .example = "2026-11-24T09:00"},                                                           \
    {                                                                                              \
        .wanted = LML_WANT_TEXT, .name = "from", .title = "Who quoted it",                         \
        .example = "refiner, buying"                                                               \
    }

static const lml_shape past_fields[] = {PRICE_FIELDS};
static const lml_shape past = {.wanted = LML_WANT_RECORD,
                               .title = "An earlier price",
                               .fields = past_fields,
                               .field_count = COUNT(past_fields)};
static const lml_shape price_fields[] = {
    PRICE_FIELDS,
    {.wanted = LML_WANT_LIST,
     .name = "history",
     .title = "Former prices",
     .optional = true,
     .of = &past},
};
static const lml_shape price = {.wanted = LML_WANT_RECORD,
                                .title = "A price",
                                .fields = price_fields,
                                .field_count = COUNT(price_fields)};
static const lml_shape prices_fields[] = {
    VERSION_FIELD,
    SCHEMA_FIELD,
    NOTES_FIELD,
    {.wanted = LML_WANT_BY_NAME, .name = "prices", .title = "Prices, by metal", .of = &price},
};
const lml_shape lml_shapes_prices = {.wanted = LML_WANT_RECORD,
                                     .title = "Prices of metal",
                                     .fields = prices_fields,
                                     .field_count = COUNT(prices_fields)};

bool lml_shapes_is_later(const lml_json *root)
{
    const lml_json *version = lml_json_member(root, LML_SHAPE_VERSION);
    return lml_json_kind_of(version) == LML_JSON_NUMBER &&
           lml_json_number(version) > LML_SHAPES_VERSION;
}

const lml_shape *lml_shapes_named(lml_span name)
{
    if (lml_span_is(name, "job"))
        return &lml_shapes_job;
    if (lml_span_is(name, "house"))
        return &lml_shapes_house;
    return lml_span_is(name, "prices") ? &lml_shapes_prices : NULL;
}
