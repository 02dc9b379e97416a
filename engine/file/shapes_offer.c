/* What a job's file holds of its offers and of its end. */
#include "file/shapes.h"
#include "value/wanted.h"

#define COUNT(fields) (sizeof(fields) / sizeof *(fields))

static const lml_shape anything = {.wanted = LML_WANT_ANYTHING};

/* ---- offers ---- */

static const char *const offer_whats[] = {"offered", "accepted", "not accepted", "withdrawn", NULL};

#define DIGEST_FIELD(NAME, TITLE)                                                                  \
    {                                                                                              \
        .wanted = LML_WANT_TEXT, .name = NAME, .title = TITLE, .optional = true,                   \
        .example = "sha256:9f86d081..."                                                            \
    }

static const lml_shape offer_fields[] = {
    {.wanted = LML_WANT_CHOICE,
     .name = "what",
     .title = "Whether it was offered, accepted, not accepted after all, or withdrawn",
     .choices = offer_whats},
    {.wanted = LML_WANT_MOMENT, .name = "at", .title = "When", .example = "2026-11-24T10:30"},
    {.wanted = LML_WANT_TEXT,
     .name = "by",
     .title = "Who offered, accepted or withdrew it, or corrects it",
     .optional = true,
     .example = "O.F."},
    {.wanted = LML_WANT_TEXT,
     .name = "reason",
     .title = "Why it was withdrawn or is corrected, or why an odd acceptance is valid",
     .optional = true,
     .example = "the stone is not to be had"},
    {.wanted = LML_WANT_MONEY,
     .name = "paid",
     .title = "What was paid when it was accepted",
     .optional = true},
    {.wanted = LML_WANT_YES_NO,
     .name = "late",
     .title = "It was accepted after it had expired",
     .optional = true},
    {.wanted = LML_WANT_TEXT,
     .name = "recipe",
     .title = "The recipe it was calculated with",
     .optional = true,
     .example = "remake"},
    {.wanted = LML_WANT_RECORD,
     .name = "promised",
     .title = "What was promised, by name",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_RECORD,
     .name = "worked",
     .title = "Digests of the recipes and rules it is based on",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_RECORD,
     .name = "given",
     .title = "Digests of what the job gave at that time, by name",
     .optional = true,
     .of = &anything},
    DIGEST_FIELD("scripts", "Digest of the scripts it is based on"),
    DIGEST_FIELD("settings", "Digest of the settings that were used"),
    DIGEST_FIELD("job", "Digest of the job at that time"),
    DIGEST_FIELD("house", "Digest of the house's settings"),
    DIGEST_FIELD("prices", "Digest of the price list"),
    {.wanted = LML_WANT_TEXT,
     .name = "lemel",
     .title = "Which lemel wrote it",
     .optional = true,
     .example = LML_VERSION},
    {.wanted = LML_WANT_TEXT,
     .name = "digest",
     .title = "Digest of this entry and those before it, which shows up a change by hand",
     .example = "sha256:9f86d081..."},
};
const lml_shape lml_shapes_offer = {.wanted = LML_WANT_RECORD,
                                    .title = "An offer, or its outcome",
                                    .fields = offer_fields,
                                    .field_count = COUNT(offer_fields)};

/* ---- closing ---- */

const lml_shape lml_shapes_closing_fields[LML_SHAPES_CLOSING_FIELDS] = {
    {.wanted = LML_WANT_TEXT,
     .name = "recipe",
     .title = "The recipe that closes the job",
     .optional = true,
     .default_text = "closing",
     .example = "closing"},
    {.wanted = LML_WANT_MOMENT,
     .name = "date",
     .title = "Date of the invoice",
     .optional = true,
     .example = "2026-12-04"},
    {.wanted = LML_WANT_RECORD,
     .name = "given",
     .title = "What the closing needs that is in neither offer nor record",
     .optional = true,
     .of = &anything},
    {.wanted = LML_WANT_RECORD,
     .name = "house",
     .title = "Allowances of the closing instead of the house's",
     .optional = true,
     .of = &anything},
};
