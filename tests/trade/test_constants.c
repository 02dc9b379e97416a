/* The constants of scripts and the defaults of recipes against what is printed for them, and the
 * rules that have a boundary on both sides of it: a slip of the finger by a hundredth is seen here.
 *
 * constants.tsv: `of` is a script, and `what` an expression over it, called `it`; or it is
 * recipes/NAME, and `what` an ask or an allowance whose default is meant. `value` is written as the
 * source prints it, in its unit.
 *
 * boundaries.tsv: `job` is a job without its recipe; one that begins with + is put over the last
 * that does not, and null takes a member out. What `remark` and `stands` hold:
 *
 *     a code        the level it comes with, perhaps with words of it: "note: too light"; or no
 *     give NAME     given, perhaps as what: "given: 3.61 kWh"; or no
 *     pages         words that stand on them: "says: In hollows"
 *     words         error, and these are words of it
 */
#include "reference.h"
#include "shipped.h"

static bool is_number(const char *text)
{
    char *end;
    strtod(text, &end);
    return end != text && *end == '\0';
}

/* A text as Lua writes it; a number or a table as it stands. */
static void lua_literal(const char *text, char *out, size_t room)
{
    if (is_number(text) || *text == '{') {
        snprintf(out, room, "%s", text);
        return;
    }
    size_t at = 0;
    out[at++] = '"';
    for (; *text && at + 3 < room; text++) {
        if (*text == '"' || *text == '\\')
            out[at++] = '\\';
        out[at++] = *text;
    }
    snprintf(out + at, room - at, "\"");
}

/* ---- constants ---- */

/* Tables are the same when all their members are; texts that differ are compared as values. */
static const char comparing[] =
    "local function value(x) return type(x) == 'string' and (tonumber(x) or Q(x)) or x end\n"
    "local function same(a, b)\n"
    "  if type(a) == 'table' or type(b) == 'table' then\n"
    "    for key, member in pairs(a) do if not same(member, b[key]) then return false end end\n"
    "    for key in pairs(b) do if a[key] == nil then return false end end\n"
    "    return true\n"
    "  end\n"
    "  if type(a) == 'string' and type(b) == 'string' and a == b then return true end\n"
    "  if a == nil or b == nil then return false end\n"
    "  a, b = value(a), value(b)\n"
    "  if a == b then return true end\n"
    "  local apart = abs(a - b)\n"
    "  if within then return apart <= within end\n"
    "  local sized, size = pcall(abs, b)\n"
    "  return sized and apart <= 1e-9 * size\n"
    "end\n"
    "local function shown(x)\n"
    "  if type(x) ~= 'table' then return tostring(x) end\n"
    "  local list = {}\n"
    "  for key, member in pairs(x) do table.insert(list, tostring(key) .. '=' .. shown(member)) "
    "end\n"
    "  return '{' .. table.concat(list, ', ') .. '}'\n"
    "end\n"
    "return same(ours, printed) and 'same' or shown(ours)\n";

/* "solder.share" among the fields of a declaration, or NULL. */
static const cJSON *declared(const cJSON *list, const char *path)
{
    size_t length = strcspn(path, ".");
    const cJSON *one;
    cJSON_ArrayForEach(one, list)
    {
        const char *name = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(one, "name"));
        if (name && strlen(name) == length && strncmp(name, path, length) == 0)
            return path[length] ? declared(cJSON_GetObjectItemCaseSensitive(one, "fields"),
                                           path + length + 1)
                                : one;
    }
    return NULL;
}

/* The default of an ask or allowance of a recipe, as Lua writes it. */
static void default_of(lml_engine *engine, const ref_row *row, const char *recipe, char *out,
                       size_t room)
{
    lml_text text;
    lml_error e;
    cr_assert_eq(lml_engine_inspect(engine, recipe, &text, &e), LML_OK, "%s: %s", ref_where(row),
                 e.message);
    cJSON *json = cJSON_Parse(text.text);
    lml_text_free(engine, &text);
    const char *what = ref_cell(row, "what");
    const cJSON *found = declared(cJSON_GetObjectItemCaseSensitive(json, "allowances"), what);
    if (!found)
        found = declared(cJSON_GetObjectItemCaseSensitive(json, "asks"), what);
    const char *set = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(found, "default"));
    cr_assert(set, "%s: %s of %s has no default", ref_where(row), what, recipe);
    lua_literal(set, out, room);
    cJSON_Delete(json);
}

Test(constants, are_as_printed)
{
    lml_engine *engine = shipped_engine();
    const ref_table *t = ref_open("constants.tsv");
    for (size_t i = 0; i < t->count; i++) {
        const ref_row *row = &t->row[i];
        const char *of = ref_cell(row, "of"), *within = ref_cell(row, "within");
        char ours[2000], printed[2000], require[200] = "", allowed[200] = "nil", expression[8000];
        if (strncmp(of, "recipes/", 8) == 0) {
            default_of(engine, row, of + 8, ours, sizeof ours);
        } else {
            snprintf(require, sizeof require, "local it = require \"%s\"\n", of);
            snprintf(ours, sizeof ours, "%s", ref_cell(row, "what"));
        }
        lua_literal(ref_cell(row, "value"), printed, sizeof printed);
        if (*within)
            snprintf(allowed, sizeof allowed, is_number(within) ? "%s" : "Q \"%s\"", within);
        snprintf(expression, sizeof expression,
                 "(function()\n%s"
                 "local function named(list, name)\n"
                 "  for _, one in ipairs(list) do if one.name == name then return one end end\n"
                 "  error(name .. ' is not there')\n"
                 "end\n"
                 "local ours, printed, within = %s, %s, %s\n%s end)()",
                 require, ours, printed, allowed, comparing);
        lml_text answer;
        lml_error e;
        lml_status status = lml_engine_reckon(engine, expression, NULL, 0, &answer, &e);
        cr_expect_eq(status, LML_OK, "%s %s: %s", ref_where(row), ref_cell(row, "what"), e.message);
        if (status != LML_OK)
            continue;
        cr_expect_str_eq(answer.text, "same", "%s: %s is %s, printed %s (%s)", ref_where(row),
                         ref_cell(row, "what"), answer.text, ref_cell(row, "value"),
                         ref_cell(row, "source"));
        lml_text_free(engine, &answer);
    }
    lml_engine_free(engine);
}

/* ---- boundaries ---- */

/* Members of `over` put over those of `onto`, down to the last; null takes one out. */
static void put_over(cJSON *onto, const cJSON *over)
{
    const cJSON *member;
    cJSON_ArrayForEach(member, over)
    {
        cJSON *there = cJSON_GetObjectItemCaseSensitive(onto, member->string);
        if (cJSON_IsObject(there) && cJSON_IsObject(member)) {
            put_over(there, member);
            continue;
        }
        cJSON_DeleteItemFromObjectCaseSensitive(onto, member->string);
        if (!cJSON_IsNull(member))
            cJSON_AddItemToObject(onto, member->string, cJSON_Duplicate(member, true));
    }
}

static cJSON *job_of(const ref_row *row, const char **last)
{
    const char *cell = ref_cell(row, "job");
    if (*cell != '+')
        *last = cell;
    cr_assert(*last, "%s: no job goes before", ref_where(row));
    cJSON *job = cJSON_Parse(*last), *over = *cell == '+' ? cJSON_Parse(cell + 1) : NULL;
    cr_assert(job && (over || *cell != '+'), "%s: the job is no JSON", ref_where(row));
    put_over(job, over);
    cJSON_Delete(over);
    cJSON_AddStringToObject(job, "recipe", ref_cell(row, "recipe"));
    return job;
}

static bool has_code(const cJSON *remark, const char *code)
{
    const char *own = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(remark, "code"));
    const char *plain = own ? strchr(own, '/') : NULL;
    return own && (strcmp(own, code) == 0 || (plain && strcmp(plain + 1, code) == 0));
}

/* What came of it, as the column `stands` writes it; of the words only those that are looked for.
 */
static const char *stand_of(const cJSON *result, const char *code, const char *due)
{
    const char *words = strchr(due, ':');
    if (strncmp(code, "give ", 5) == 0) {
        const cJSON *give = cJSON_GetObjectItemCaseSensitive(
                        cJSON_GetObjectItemCaseSensitive(result, "results"), code + 5),
                    *value = shipped_give(result, code + 5);
        const char *printed = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(give, "text")),
                   *text = printed ? printed : cJSON_GetStringValue(value);
        if (!value || !words)
            return value ? "given" : "no";
        return !text ? "given" : strcmp(text, words + 2) == 0 ? due : text;
    }
    if (strcmp(code, "pages") == 0) {
        char *pages = cJSON_PrintUnformatted(cJSON_GetObjectItemCaseSensitive(result, "sheets"));
        bool found = words && strstr(pages, words + 2);
        cJSON_free(pages);
        return found ? due : "no";
    }
    const cJSON *remark;
    cJSON_ArrayForEach(remark, cJSON_GetObjectItemCaseSensitive(result, "remarks"))
    {
        if (!has_code(remark, code))
            continue;
        const char *level = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(remark, "level"));
        const char *text = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(remark, "text"));
        if (!words)
            return level;
        return strncmp(level, due, (size_t)(words - due)) == 0 && strstr(text, words + 2) ? due
                                                                                          : text;
    }
    return "no";
}

Test(constants, rules_turn_at_their_boundaries)
{
    lml_engine *engine = shipped_engine();
    const ref_table *t = ref_open("boundaries.tsv");
    const char *last = NULL;
    for (size_t i = 0; i < t->count; i++) {
        const ref_row *row = &t->row[i];
        cJSON *job = job_of(row, &last);
        char *text = cJSON_PrintUnformatted(job);
        const char *remark = ref_cell(row, "remark"), *due = ref_cell(row, "stands"), *stands;
        lml_text answer;
        lml_error e;
        cJSON *result = NULL;
        if (lml_engine_run(engine, text, strlen(text), "job", &answer, &e) == LML_OK) {
            result = cJSON_Parse(answer.text);
            lml_text_free(engine, &answer);
            stands = stand_of(result, remark, due);
        } else {
            stands = strstr(e.message, remark) ? "error" : e.message;
        }
        cr_expect_str_eq(stands, due, "%s: %s with %s: %s instead of %s (%s)", ref_where(row),
                         remark, ref_cell(row, "job"), stands, due, ref_cell(row, "source"));
        cJSON_Delete(result);
        cJSON_free(text);
        cJSON_Delete(job);
    }
    lml_engine_free(engine);
}
