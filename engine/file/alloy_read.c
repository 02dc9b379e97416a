#include "file/alloy_read.h"
#include "value/wanted.h"
#include <string.h>

/* ---- parts by metal ---- */

static lml_status read_part(const lml_json *node, lml_metal *metal, lml_value *part, lml_error *err)
{
    lml_span name = lml_json_name(node);
    *metal = lml_metal_by_symbol(name);
    if (*metal == LML_NO_METAL) {
        lml_nearest nearest = lml_nearest_to(name);
        for (int m = LML_NO_METAL + 1; m < LML_METALS; m++) {
            lml_nearest_offer(&nearest, lml_span_of(lml_metal_symbol((lml_metal)m)));
            if (lml_span_is(name, lml_metal_name((lml_metal)m)))
                nearest = (lml_nearest){.wanted = name,
                                        .best = lml_span_of(lml_metal_symbol((lml_metal)m))};
        }
        lml_json_fail(node, err, LML_BAD_DATA, "\"%.*s\" is not a known metal", (int)name.length,
                      name.at);
        lml_error_hint(err,
                       lml_nearest_found(&nearest) ? "did you mean %s?"
                                                   : "write its chemical symbol, such as Au%s",
                       lml_nearest_found(&nearest) ? nearest.best.at : "");
        return LML_BAD_DATA;
    }
    /* A percentage alone may be of anything; beside the metal's name it is plain. */
    lml_span text = lml_json_text(node);
    bool percent = text.length && text.at[text.length - 1] == '%';
    lml_shape shape = {.wanted = percent ? LML_WANT_RATIO : LML_WANT_FINENESS, .metal = *metal};
    lml_status status = lml_shape_value(&shape, node, part, err);
    if (!status && !percent && part->metal != *metal)
        status = lml_json_fail(node, err, LML_MISMATCH, "a fineness of %s is entered under %s",
                               lml_metal_name((lml_metal)part->metal), lml_metal_symbol(*metal));
    return status;
}

lml_status lml_alloy_read_parts(const lml_json *record, lml_composition *parts,
                                lml_composition *deviation, lml_error *err)
{
    memset(parts, 0, sizeof *parts);
    memset(deviation, 0, sizeof *deviation);
    for (const lml_json *m = lml_json_first(record); m; m = lml_json_next(m)) {
        lml_metal metal;
        lml_value part;
        lml_status status = read_part(m, &metal, &part, err);
        if (status)
            return status;
        parts->part[metal] = part.amount;
        deviation->part[metal] = lml_value_deviation(&part);
    }
    return LML_OK;
}

/* ---- alloys ---- */

static lml_status check_composition(const lml_json *node, lml_error *err)
{
    lml_composition parts, deviation;
    lml_status status = lml_alloy_read_parts(node, &parts, &deviation, err);
    return status ? status : lml_json_place(node, lml_composition_check(&parts, err), err);
}

static lml_status check_alloy(const lml_json *node, lml_error *err)
{
    lml_alloy alloy;
    return lml_alloy_read(node, &alloy, err);
}

const lml_shape lml_alloy_read_part = {.wanted = LML_WANT_TEXT, .example = "585 ‰"};

enum {
    COMPOSITION,
    DENSITY,
    LIQUID_DENSITY,
    SOLIDUS,
    LIQUIDUS,
    RANGES,
    SOURCE = RANGES + LML_ALLOY_RANGES,
    NOTE,
    ALLOY_FIELDS
};
static const lml_shape alloy_fields[ALLOY_FIELDS] = {
    [COMPOSITION] = {.wanted = LML_WANT_BY_NAME,
                     .name = "composition",
                     .title = "Parts by mass, by metal; they add up to 1000 ‰",
                     .example = "{ \"Au\": \"585 ‰\", ... }",
                     .of = &lml_alloy_read_part,
                     .check = check_composition},
    [DENSITY] = {.wanted = LML_WANT_DENSITY,
                 .name = "density",
                 .title = "Density at room temperature",
                 .optional = true,
                 .example = "13.3 g/cm3"},
    [LIQUID_DENSITY] = {.wanted = LML_WANT_DENSITY,
                        .name = "liquid_density",
                        .title = "Density when molten",
                        .optional = true,
                        .example = "12.1 g/cm3"},
    [SOLIDUS] = {.wanted = LML_WANT_TEMPERATURE,
                 .name = "solidus",
                 .title = "Temperature where melting starts",
                 .optional = true},
    [LIQUIDUS] = {.wanted = LML_WANT_TEMPERATURE,
                  .name = "liquidus",
                  .title = "Temperature where all is molten",
                  .optional = true},
    [RANGES + LML_ALLOY_POUR] = {.wanted = LML_WANT_TEMPERATURE,
                                 .name = "pour",
                                 .title = "Poured at, from its supplier's sheet",
                                 .optional = true,
                                 .example = "950..1000 °C"},
    [RANGES + LML_ALLOY_FLASK] = {.wanted = LML_WANT_TEMPERATURE,
                                  .name = "flask",
                                  .title = "Flask at, from its supplier's sheet",
                                  .optional = true,
                                  .example = "450..600 °C"},
    [RANGES + LML_ALLOY_QUENCH] = {.wanted = LML_WANT_TIME,
                                   .name = "quench",
                                   .title = "Quenched so long after the pour, from its supplier's "
                                            "sheet",
                                   .optional = true,
                                   .example = "8..12 min"},
    [RANGES + LML_ALLOY_SUPERHEAT] = {.wanted = LML_WANT_TEMPERATURE_DIFFERENCE,
                                      .name = "superheat",
                                      .title = "Poured above its liquidus by, from its supplier's "
                                               "sheet",
                                      .optional = true,
                                      .example = "50..100 Δ°C"},
    [SOURCE] = {.wanted = LML_WANT_TEXT,
                .name = "source",
                .title = "Source of these figures",
                .optional = true},
    [NOTE] = {.wanted = LML_WANT_TEXT, .name = "note", .title = "Other notes", .optional = true},
};

const lml_shape lml_alloy_read_shape = {.wanted = LML_WANT_RECORD,
                                        .title = "An alloy",
                                        .fields = alloy_fields,
                                        .field_count = ALLOY_FIELDS,
                                        .check = check_alloy};

bool lml_alloy_read_is_name(const lml_json *node)
{
    return lml_json_kind_of(node) == LML_JSON_TEXT;
}

/* An optional figure of the record: *known stays LML_UNKNOWN when it is not there. */
static lml_status read_figure(const lml_json *record, int field, lml_value *value, lml_known *known,
                              lml_error *err)
{
    const lml_json *node = lml_json_member(record, alloy_fields[field].name);
    if (!node)
        return LML_OK;
    lml_status status = lml_shape_value(&alloy_fields[field], node, value, err);
    if (!status)
        *known = LML_GIVEN;
    return status;
}

static lml_status read_ranges(const lml_json *record, lml_alloy *a, lml_error *err)
{
    for (int i = 0; i < LML_ALLOY_RANGES; i++) {
        const lml_shape *field = &alloy_fields[RANGES + i];
        const lml_json *node = lml_json_member(record, field->name);
        lml_value v;
        if (!node)
            continue;
        lml_status status = lml_shape_value(field, node, &v, err);
        if (!status)
            status = lml_json_place(node, lml_alloy_range_of(&v, &a->range[i], err), err);
        if (status)
            return status;
    }
    return LML_OK;
}

/* As much of a text as fits, cut at a whole character. */
static void copy_text(char *to, size_t size, lml_span text)
{
    size_t used = 0;
    uint32_t code;
    for (size_t bytes;
         (bytes = lml_utf8_next((lml_span){text.at + used, text.length - used}, &code)) > 0 &&
         used + bytes < size;)
        used += bytes;
    if (used)
        memcpy(to, text.at, used);
    to[used] = 0;
}

lml_status lml_alloy_read(const lml_json *node, lml_alloy *out, lml_error *err)
{
    lml_alloy a;
    lml_composition ignored;
    lml_value density = {0}, liquid = {0}, solidus = {0}, liquidus = {0};
    memset(&a, 0, sizeof a);
    lml_status status =
        lml_alloy_read_parts(lml_json_member(node, "composition"), &a.composition, &ignored, err);
    if (!status)
        status = read_figure(node, DENSITY, &density, &a.density_known, err);
    if (!status)
        status = read_figure(node, LIQUID_DENSITY, &liquid, &a.liquid_density_known, err);
    if (!status)
        status = read_figure(node, SOLIDUS, &solidus, &a.solidus_known, err);
    if (!status)
        status = read_figure(node, LIQUIDUS, &liquidus, &a.liquidus_known, err);
    if (!status)
        status = read_ranges(node, &a, err);
    if (status)
        return status;
    a.density = density.amount;
    a.density_deviation = lml_value_deviation(&density);
    a.liquid_density = liquid.amount;
    a.solidus = solidus.amount;
    a.liquidus = liquidus.amount;
    copy_text(a.name, sizeof a.name, lml_json_name(node));
    copy_text(a.source, sizeof a.source, lml_json_text(lml_json_member(node, "source")));
    status = lml_alloy_check(&a, err);
    if (!status)
        *out = a;
    return lml_json_place(node, status, err);
}
