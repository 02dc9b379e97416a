#include "face/engine.h"

#include "face/tries.h"

#include "base/letter.h"
#include "base/locale.h"
#include "read/memo.h"
#include "report/advice.h"
#include "report/answer.h"
#include "report/declare.h"
#include "run/allow.h"
#include "run/engine.h"
#include "run/gate.h"
#include "report/prove.h"
#include "report/result.h"
#include "run/warm.h"
#include "face/job.h"
#include "face/output.h"
#include "run/work.h"
#include "file/shapes.h"
#include "report/schema.h"

#include <string.h>

enum {
    STEPS = 50000000,
    MEMORY = 64 << 20,
    SOURCE = 256 << 10,
    JOB = 4 << 20,
    RESULT = 4 << 20,
};

lml_engine *lml_engine_new(const lml_engine_options *options)
{
    lml_alloc alloc = options && options->alloc.resize ? options->alloc : lml_alloc_heap();
    lml_engine *engine = lml_alloc_get(&alloc, sizeof *engine);
    if (!engine)
        return NULL;
    memset(engine, 0, sizeof *engine);
    engine->alloc = alloc;
    lml_limits limits = options ? options->limits : (lml_limits){0};
    engine->limits = (lml_limits){.steps = limits.steps ? limits.steps : STEPS,
                                  .memory = limits.memory ? limits.memory : MEMORY,
                                  .source = limits.source ? limits.source : SOURCE,
                                  .job = limits.job ? limits.job : JOB,
                                  .result = limits.result ? limits.result : RESULT};
    engine->interrupt = options ? options->interrupt : NULL;
    engine->interrupt_self = options ? options->interrupt_self : NULL;
    engine->without_gates = options && options->without_gates;
    engine->prepare = lml_allow_prepare;
    engine->push_setting = lml_result_push_setting;
    engine->shelf.alloc = &engine->alloc;
    engine->memo = lml_memo_new(&engine->alloc);
    return engine;
}

void lml_engine_free(lml_engine *engine)
{
    if (!engine)
        return;
    lml_tries_close(engine);
    lml_warm_drop(engine);
    lml_shelf_free(&engine->shelf);
    lml_alloc alloc = engine->alloc;
    lml_memo_free(engine->memo, &alloc);
    lml_alloc_free(&alloc, engine, sizeof *engine);
}

const lml_alloc *lml_engine_alloc(const lml_engine *engine)
{
    return &engine->alloc;
}

const lml_json *lml_engine_house(const lml_engine *engine)
{
    return lml_shelf_house(&engine->shelf);
}

const lml_json *lml_engine_prices(const lml_engine *engine)
{
    return lml_shelf_prices(&engine->shelf);
}

lml_limits lml_engine_limits(const lml_engine *engine)
{
    return engine ? engine->limits : (lml_limits){0};
}

const char *lml_version(void)
{
    return LML_VERSION;
}

void lml_text_free(lml_engine *engine, lml_text *text)
{
    if (!engine || !text)
        return;
    if (text->text)
        lml_alloc_free(&engine->alloc, text->text, text->size);
    *text = (lml_text){0};
}

const char *lml_engine_recipe(const lml_engine *engine, size_t index)
{
    for (size_t i = 0; engine && i < engine->shelf.count; i++)
        if (engine->shelf.items[i]->kind == LML_PUT_RECIPE && index-- == 0)
            return engine->shelf.items[i]->name;
    return NULL;
}

/* ---- the shelf ---------------------------------------------------------------------------------
 */

static lml_status put_file(lml_engine *engine, const lml_shape *shape, lml_span text,
                           const char *shown, lml_json_document **slot,
                           char digest[LML_DIGEST_TEXT], lml_error *err)
{
    lml_json_document *doc;
    lml_json_limits limits = {.size = engine->limits.job};
    lml_status status = lml_json_read(&engine->alloc, text, &limits, shown, &doc, err);
    if (status)
        return status;
    lml_json_remember(doc, engine->memo);
    status = lml_shape_check(shape, lml_json_root(doc), err);
    if (status) {
        lml_json_free(doc);
        return status;
    }
    lml_json_free(*slot);
    *slot = doc;
    lml_digest_of(text, digest);
    return LML_OK;
}

/* Invisible characters in a recipe could make it look different from what Lua reads. */
static lml_status refuse_hidden(lml_span text, const char *shown, lml_error *err)
{
    uint32_t code;
    size_t at = text.length > 0 && text.at[0] == 0x1b
                    ? text.length
                    : lml_letter_find_hidden(text, "\n\r\t", &code),
           line = 1;
    if (at == text.length)
        return LML_OK;
    for (size_t i = 0; i < at; i++)
        line += text.at[i] == '\n';
    lml_fail(err, LML_BAD_RECIPE, "%s:%zu: the line has %s (U+%04X)", shown, line,
             lml_letter_fault(code), (unsigned)code);
    lml_error_hint(err, "remove it; it often comes with text copied from a web page");
    return LML_BAD_RECIPE;
}

/* A carriage return by itself is the end of a line for Lua, but not in many editors: what follows a
 * comment then seems to belong to it. */
static bool is_lone_return(lml_span text, size_t at)
{
    return text.at[at] == '\r' && (at + 1 == text.length || text.at[at + 1] != '\n');
}

enum { BLANKS_MOST = 160 }; /* wider than any page: nobody would see what follows them */

/* Code where no reader looks. */
static lml_status refuse_out_of_sight(lml_span text, const char *shown, lml_error *err)
{
    size_t line = 1, blanks = 0;
    for (size_t i = 0; i < text.length; i++) {
        char c = text.at[i];
        if (is_lone_return(text, i)) {
            lml_fail(err, LML_BAD_RECIPE, "%s:%zu: the line has a carriage return on its own",
                     shown, line);
            lml_error_hint(err, "save the text with plain line endings (LF, or CR and LF)");
            return LML_BAD_RECIPE;
        }
        if (blanks > BLANKS_MOST && c != ' ' && c != '\t' && c != '\r' && c != '\n') {
            lml_fail(err, LML_BAD_RECIPE, "%s:%zu: there is more text after %zu blanks", shown,
                     line, blanks);
            lml_error_hint(err, "remove the blanks; nobody would see text so far to the right");
            return LML_BAD_RECIPE;
        }
        blanks = c == ' ' || c == '\t' ? blanks + 1 : 0;
        line += c == '\n';
    }
    return LML_OK;
}

/* What a program that embeds the library may get wrong. */
static lml_status check_put(lml_put what, const char *name, const char *text, const char *shown,
                            lml_error *err)
{
    bool named = what == LML_PUT_RECIPE || what == LML_PUT_OWN_RECIPE || what == LML_PUT_SCRIPT;
    if (!named && what != LML_PUT_HOUSE && what != LML_PUT_PRICES)
        return lml_fail(err, LML_BAD_DATA,
                        "lml_engine_put takes a recipe, a script, a house or prices, not kind %d",
                        (int)what);
    if (named && (!name || !name[0]))
        return lml_fail(err, LML_BAD_DATA, "%s: a recipe or a script cannot be put without a name",
                        shown && shown[0] ? shown : "lml_engine_put");
    if (!text || !shown)
        return lml_fail(err, LML_BAD_DATA, "lml_engine_put: the %s of %s is NULL",
                        text ? "shown name" : "text",
                        name && name[0]         ? name
                        : what == LML_PUT_HOUSE ? "the house"
                                                : "the prices");
    return LML_OK;
}

static lml_status check_text(const lml_engine *engine, lml_put kind, const char *name,
                             lml_span text, const char *shown, lml_error *err)
{
    if (text.length > engine->limits.source) {
        lml_fail(err, LML_LIMIT, "%s is %zu bytes long, but at most %zu are read", shown,
                 text.length, engine->limits.source);
        lml_error_hint(err, "split it: a script that it requires can hold its tables");
        return LML_LIMIT;
    }
    if (lml_built_in_find(kind, name, text)) /* tests put each without this */
        return LML_OK;
    lml_status status = lml_text_refuse_mark(text, shown, err);
    if (status)
        return status;
    status = lml_text_check_utf8(text, err);
    if (!status)
        status = refuse_hidden(text, shown, err);
    if (!status && text.length > 0 && text.at[0] == 0x1b)
        status = lml_fail(err, LML_BAD_RECIPE, "%s is compiled Lua, but only text is read", shown);
    if (!status)
        status = refuse_out_of_sight(text, shown, err);
    return lml_error_context(err, status, "in %s", shown);
}

static lml_status check_name(const char *name, const char *shown, lml_error *err)
{
    if (lml_shelf_can_name(lml_span_of(name)))
        return LML_OK;
    lml_fail(err, LML_USAGE, "%s: \"%s\" is not a valid name for a recipe or script", shown, name);
    if (err)
        lml_error_hint(err, "use up to %d letters a to z, digits, _ and -, not starting with -",
                       LML_NAME_MOST);
    return LML_USAGE;
}

static lml_status put_item(lml_engine *engine, lml_put what, lml_put kind, const char *name,
                           lml_span text, const char *shown, lml_error *err)
{
    lml_item *item;
    lml_status status = lml_shelf_put(&engine->shelf, kind, name, text, shown, &item, err);
    if (!status)
        item->is_own = what == LML_PUT_OWN_RECIPE;
    return lml_error_context(err, status, "in %s", shown);
}

static lml_status put(lml_engine *engine, lml_put what, const char *name, const char *text,
                      size_t length, const char *shown, lml_error *err)
{
    lml_span span = {text, length};
    engine->house_checked = false;
    lml_warm_drop(engine);
    if (what == LML_PUT_HOUSE)
        return put_file(engine, &lml_shapes_house, span, shown, &engine->shelf.house,
                        engine->shelf.house_digest, err);
    if (what == LML_PUT_PRICES)
        return put_file(engine, &lml_shapes_prices, span, shown, &engine->shelf.prices,
                        engine->shelf.prices_digest, err);
    lml_status status = check_name(name, shown, err);
    if (status)
        return status;
    lml_error why;
    lml_put kind = what == LML_PUT_OWN_RECIPE ? LML_PUT_RECIPE : what;
    status = check_text(engine, kind, name, span, shown, &why);
    if (!status)
        return put_item(engine, what, kind, name, span, shown, err);
    if (kind == LML_PUT_RECIPE &&
        lml_shelf_put_refused(&engine->shelf, LML_PUT_RECIPE, name, shown, &why, err))
        return LML_NO_MEMORY;
    if (err)
        *err = why;
    return status;
}

lml_status lml_engine_put(lml_engine *engine, lml_put what, const char *name, const char *text,
                          size_t length, const char *shown, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}) || check_put(what, name, text, shown, err))
        return LML_BAD_DATA;
    lml_locale entered = lml_locale_enter();
    lml_status status = put(engine, what, name, text, length, shown, err);
    lml_locale_leave(entered);
    return status;
}

/* ---- the rest ----------------------------------------------------------------------------------
 */

typedef lml_status report(lml_run *run, const char *recipe, lml_builder *b, lml_error *err);

static lml_status on_recipe(lml_engine *engine, const char *recipe, report *f, lml_text *out,
                            lml_error *err)
{
    lml_run run;
    lml_builder b = lml_builder_on(&engine->alloc, engine->limits.result);
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_run_open(&run, engine, err);
    if (!status) {
        status = f(&run, recipe, &b, err);
        lml_run_close(&run);
    }
    lml_locale_leave(entered);
    return lml_output_take(&b, status, out, err);
}

lml_status lml_engine_inspect(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"recipe", recipe}, {"out", out}))
        return LML_BAD_DATA;
    return on_recipe(engine, recipe, lml_declare_write, out, err);
}

lml_status lml_engine_prove(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"recipe", recipe}, {"out", out}))
        return LML_BAD_DATA;
    lml_status status = lml_job_need_gates(engine, err);
    return status ? status : on_recipe(engine, recipe, lml_prove_write, out, err);
}

lml_status lml_engine_reach(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"recipe", recipe}, {"out", out}))
        return LML_BAD_DATA;
    engine->reach = true;
    lml_status status = lml_engine_prove(engine, recipe, out, err);
    engine->reach = false;
    return status;
}

lml_status lml_engine_schema(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"out", out}))
        return LML_BAD_DATA;
    return on_recipe(engine, recipe, lml_schema_write, out, err);
}

lml_status lml_engine_advise(lml_engine *engine, const char *recipe, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"recipe", recipe}, {"out", out}))
        return LML_BAD_DATA;
    return on_recipe(engine, recipe, lml_advice_write, out, err);
}

lml_status lml_engine_check_value(lml_engine *engine, const char *recipe, const char *field,
                                  const char *text, lml_text *out, lml_error *err)
{
    if (LML_NEED(err, {"engine", engine}, {"recipe", recipe}, {"field", field}, {"text", text}))
        return LML_BAD_DATA;
    lml_run run;
    lml_builder b = lml_builder_on(&engine->alloc, engine->limits.result);
    lml_locale entered = lml_locale_enter();
    lml_status status = lml_run_open(&run, engine, err);
    if (!status) {
        status = lml_answer_write(&run, recipe, field, text, &b, err);
        lml_run_close(&run);
    }
    lml_locale_leave(entered);
    return lml_output_take(&b, status, out, err);
}
