/* A JSON value held against a JSON Schema (2020-12): the keywords that Lemel's schemas use, and a
 * failure for any other. Patterns are POSIX extended expressions, which the few of ours are too. */
#ifndef LML_TESTS_JSON_SCHEMA_H
#define LML_TESTS_JSON_SCHEMA_H

#include <cjson/cJSON.h>
#include <criterion/criterion.h>
#include <regex.h>
#include <stdio.h>
#include <string.h>

static inline bool schema_fits(const cJSON *root, const cJSON *schema, const cJSON *value,
                               char *why, size_t size);

static inline bool schema_misfit(char *why, size_t size, const cJSON *value, const char *what)
{
    snprintf(why, size, "%s: %s", value->string ? value->string : "an item", what);
    return false;
}

static inline bool schema_has_type(const cJSON *value, const char *type)
{
    if (strcmp(type, "object") == 0)
        return cJSON_IsObject(value);
    if (strcmp(type, "array") == 0)
        return cJSON_IsArray(value);
    if (strcmp(type, "string") == 0)
        return cJSON_IsString(value);
    if (strcmp(type, "boolean") == 0)
        return cJSON_IsBool(value);
    if (strcmp(type, "null") == 0)
        return cJSON_IsNull(value);
    if (strcmp(type, "number") == 0)
        return cJSON_IsNumber(value);
    cr_assert_str_eq(type, "integer", "a type that JSON Schema does not have");
    return cJSON_IsNumber(value) && value->valuedouble == (double)(long long)value->valuedouble;
}

static inline bool schema_members_fit(const cJSON *root, const cJSON *schema, const cJSON *value,
                                      char *why, size_t size)
{
    const cJSON *properties = cJSON_GetObjectItemCaseSensitive(schema, "properties");
    const cJSON *others = cJSON_GetObjectItemCaseSensitive(schema, "additionalProperties");
    const cJSON *name, *member;
    cJSON_ArrayForEach(name, cJSON_GetObjectItemCaseSensitive(schema, "required")) if (
        !cJSON_GetObjectItemCaseSensitive(
            value, name->valuestring)) return schema_misfit(why, size, value, name->valuestring);
    cJSON_ArrayForEach(member, value)
    {
        const cJSON *own = cJSON_GetObjectItemCaseSensitive(properties, member->string);
        if (!own && cJSON_IsFalse(others))
            return schema_misfit(why, size, member, "is not known");
        if (own ? !schema_fits(root, own, member, why, size)
                : others && !schema_fits(root, others, member, why, size))
            return false;
    }
    return true;
}

static inline bool schema_any_fits(const cJSON *root, const cJSON *choices, const cJSON *value,
                                   char *why, size_t size)
{
    const cJSON *choice;
    cJSON_ArrayForEach(choice,
                       choices) if (schema_fits(root, choice, value, why, size)) return true;
    return false;
}

static inline bool schema_text_fits(const char *pattern, const char *text)
{
    regex_t expression;
    cr_assert_eq(regcomp(&expression, pattern, REG_EXTENDED | REG_NOSUB), 0, "%s", pattern);
    bool fits = regexec(&expression, text, 0, NULL, 0) == 0;
    regfree(&expression);
    return fits;
}

static inline bool schema_is_among(const cJSON *choices, const cJSON *value)
{
    const cJSON *choice;
    cJSON_ArrayForEach(choice, choices) if (cJSON_Compare(choice, value, true)) return true;
    return false;
}

/* "why" names the member and what is wrong with it. */
static inline bool schema_fits(const cJSON *root, const cJSON *schema, const cJSON *value,
                               char *why, size_t size)
{
    const cJSON *word, *item;
    cJSON_ArrayForEach(word, schema)
    {
        const char *is = word->string;
        if (strcmp(is, "$ref") == 0) {
            static const char local[] = "#/$defs/";
            cr_assert_eq(strncmp(word->valuestring, local, sizeof local - 1), 0);
            const cJSON *shared = cJSON_GetObjectItemCaseSensitive(root, "$defs");
            shared = cJSON_GetObjectItemCaseSensitive(shared, word->valuestring + sizeof local - 1);
            cr_assert(shared, "%s leads nowhere", word->valuestring);
            if (!schema_fits(root, shared, value, why, size))
                return false;
        } else if (strcmp(is, "type") == 0) {
            if (!schema_has_type(value, word->valuestring))
                return schema_misfit(why, size, value, word->valuestring);
        } else if (strcmp(is, "enum") == 0) {
            if (!schema_is_among(word, value))
                return schema_misfit(why, size, value, "is none of the choices");
        } else if (strcmp(is, "pattern") == 0) {
            if (cJSON_IsString(value) && !schema_text_fits(word->valuestring, value->valuestring))
                return schema_misfit(why, size, value, word->valuestring);
        } else if (strcmp(is, "minimum") == 0) {
            if (cJSON_IsNumber(value) && value->valuedouble < word->valuedouble)
                return schema_misfit(why, size, value, "is too small");
        } else if (strcmp(is, "maximum") == 0) {
            if (cJSON_IsNumber(value) && value->valuedouble > word->valuedouble)
                return schema_misfit(why, size, value, "is too large");
        } else if (strcmp(is, "items") == 0) {
            if (cJSON_IsArray(value))
                cJSON_ArrayForEach(
                    item, value) if (!schema_fits(root, word, item, why, size)) return false;
        } else if (strcmp(is, "anyOf") == 0) {
            if (!schema_any_fits(root, word, value, why, size))
                return false;
        } else {
            static const char known[] =
                " properties required additionalProperties $defs $schema title "
                "description examples ";
            char padded[80];
            snprintf(padded, sizeof padded, " %s ", is);
            cr_assert(strstr(known, padded), "the check knows no keyword %s", is);
        }
    }
    return !cJSON_IsObject(value) || schema_members_fit(root, schema, value, why, size);
}

#endif
