#include "cli/session.h"

#include "file/shapes.h"
#include "file/store.h"
#include "studio/lock.h"

#include <stdio.h>
#include <string.h>

/* ---- the file ---- */

static const char BEFORE_HOUSE[] = "{\"recipe\":\"studio\",\"house\":", AFTER_HOUSE[] = "}";

/* A record, and of no later lemel: what else is wrong in it is for lemel check. */
static lml_status check_house(const lml_session *s, lml_error *err)
{
    static const lml_shape anything = {.wanted = LML_WANT_ANYTHING};
    static const lml_shape record = {.wanted = LML_WANT_RECORD, .of = &anything};
    lml_json_document *doc = NULL;
    lml_status status = lml_json_read(&s->call->alloc, (lml_span){s->text.at, s->text.length}, NULL,
                                      s->path, &doc, err);
    const lml_json *root = doc ? lml_json_root(doc) : NULL;
    if (status == LML_OK)
        status = lml_shape_check(&record, root, err);
    const lml_json *version = status == LML_OK ? lml_json_member(root, LML_SHAPE_VERSION) : NULL;
    if (version)
        status =
            lml_shape_check(lml_shape_field(&lml_shapes_house, LML_SHAPE_VERSION), version, err);
    lml_json_free(doc);
    return status;
}

lml_status lml_session_wrap_house(lml_session *s, lml_error *err)
{
    lml_status status = check_house(s, err);
    if (status != LML_OK)
        return status;
    lml_builder job = lml_builder_on(&s->call->alloc, 0);
    lml_builder_add_text(&job, BEFORE_HOUSE);
    lml_builder_add(&job, s->text.at, s->text.length);
    lml_builder_add_text(&job, AFTER_HOUSE);
    lml_builder_free(&s->text);
    s->text = job;
    return lml_builder_status(&s->text, err);
}

/* What the file holds of the text: an answer changes nothing around the house. */
static lml_span file_bytes(const lml_session *s, const lml_builder *text)
{
    size_t before = s->is_house ? strlen(BEFORE_HOUSE) : 0,
           after = s->is_house ? strlen(AFTER_HOUSE) : 0;
    return (lml_span){text->at + before, text->length - before - after};
}

static lml_span text_in(const lml_builder *text)
{
    return (lml_span){text->at ? text->at : "", text->length};
}

/* As it is now: the person, or another lemel, may have written to it. */
static lml_status read_again(lml_session *s, lml_store_file *as_read, lml_error *err)
{
    lml_builder_free(&s->was);
    if (!s->there)
        return LML_OK;
    s->was = s->text;
    s->text = lml_builder_on(&s->call->alloc, s->was.most);
    lml_status status = lml_store_read_as(s->path, LML_STORE_SIZE, &s->text, as_read, err);
    if (status == LML_OK && s->is_house)
        status = lml_session_wrap_house(s, err);
    if (status == LML_OK && lml_span_equal(text_in(&s->was), text_in(&s->text)))
        lml_builder_free(&s->was);
    return status;
}

static lml_status write_back(lml_session *s, const lml_builder *after, lml_store_file *as_read,
                             lml_error *err)
{
    lml_span bytes = file_bytes(s, after);
    lml_status status = s->there ? lml_store_replace(s->path, bytes, as_read, err)
                                 : lml_store_write(s->path, bytes, false, err);
    if (status == LML_OK || as_read->replaced) /* for whatever fails from here on */
        lml_text_join(s->call->done, sizeof s->call->done, "all that was answered is in ", s->path,
                      ": lemel ask goes on there");
    if (status != LML_OK)
        return status;
    s->there = true;
    s->text.length = 0;
    lml_builder_add(&s->text, after->at, after->length);
    return lml_builder_status(&s->text, err);
}

lml_status lml_session_write(lml_session *s, lml_session_change change, void *self, lml_error *err)
{
    lml_lock lock;
    lml_store_file as_read = {0};
    lml_builder after = lml_builder_on(&s->call->alloc, 0);
    lml_status status = lml_lock_take(s->path, &lock, err);
    if (status == LML_OK)
        status = read_again(s, &as_read, err);
    if (status == LML_OK)
        status = change(s, self, &after, err);
    if (status == LML_OK && after.length > 0)
        status = write_back(s, &after, &as_read, err);
    lml_lock_end(&lock);
    lml_builder_free(&after);
    return status;
}

/* ---- the person ---- */

lml_status lml_session_read(lml_session *s, lml_error *err)
{
    lml_call *call = s->call;
    lml_status status = call->emit(call, err);
    if (status == LML_OK)
        status = lml_line_read(&s->reader, &s->line, &s->ended, err);
    lml_span typed = lml_span_trim((lml_span){s->line.at ? s->line.at : "", s->line.length});
    s->ended = s->ended || lml_span_is(typed, "!");
    if (status == LML_OK && !lml_line_is_shown()) { /* what is read from elsewhere is shown too */
        lml_builder_add_span(&call->out, typed);
        lml_builder_add_char(&call->out, '\n');
    } else if (status == LML_OK && s->ended && typed.length == 0) {
        lml_builder_add_char(&call->out, '\n');
    }
    return status;
}

lml_status lml_session_ask_for(lml_session *s, const char *question, char *out, size_t size,
                               lml_error *err)
{
    lml_builder_add_format(&s->call->out, "  %s [%s]: ", question, out[0] ? out : "left open");
    lml_status status = lml_session_read(s, err);
    lml_span typed = lml_span_trim((lml_span){s->line.at ? s->line.at : "", s->line.length});
    if (lml_span_is(typed, "-"))
        out[0] = '\0';
    else if (status == LML_OK && !s->ended && typed.length > 0)
        snprintf(out, size, "%.*s", LML_SPAN_SHOWN(typed));
    return status;
}

/* ---- question after question ---- */

/* A step: what was typed, and the question that follows. */
typedef struct step {
    const char *typed; /* NULL: only ask */
    lml_json_document *question;
} step;

static lml_status look(lml_session *s, const lml_builder *text, const char *typed,
                       lml_json_document **out, lml_error *err)
{
    lml_builder answer = lml_builder_on(&s->call->alloc, 0);
    const lml_ask_step asked = {{text->at ? text->at : "", text->length, s->path},
                                {.at = s->at[0] || s->missing ? s->at : NULL,
                                 .typed = typed,
                                 .under = s->under,
                                 .unfolded = s->unfolded[0] ? s->unfolded : NULL}};
    lml_status status = lml_ask_question(&s->kit, &asked, &answer, err);
    if (status == LML_OK)
        status = lml_ask_parse(s->call, &answer, out, err);
    lml_builder_free(&answer);
    return status;
}

static lml_span question_of(const lml_json_document *doc)
{
    return doc ? lml_json_raw(lml_json_member(lml_json_root(doc), "question")) : (lml_span){"", 0};
}

/* Whether the question is another one since somebody else wrote to the file. */
static bool is_another(lml_session *s)
{
    lml_json_document *before = NULL, *now = NULL;
    bool same = s->was.length == 0 || (look(s, &s->was, NULL, &before, NULL) == LML_OK &&
                                       look(s, &s->text, NULL, &now, NULL) == LML_OK &&
                                       lml_span_equal(question_of(before), question_of(now)));
    lml_json_free(before);
    lml_json_free(now);
    return !same;
}

static lml_status take_step(lml_session *s, void *self, lml_builder *after, lml_error *err)
{
    step *now = self;
    if (now->typed && is_another(s)) {
        lml_builder_add_format(&s->call->out,
                               "%s was changed by someone else meanwhile, so \"%s\" is not saved: "
                               "look at what is there now, and answer again\n",
                               s->path, now->typed);
        now->typed = NULL;
    }
    lml_status status = look(s, &s->text, now->typed, &now->question, err);
    if (status == LML_OK)
        lml_builder_add_span(after,
                             lml_json_text(lml_json_member(lml_json_root(now->question), "after")));
    return status == LML_OK ? lml_builder_status(after, err) : status;
}

static void keep(char *out, size_t size, const lml_json *question, const char *name)
{
    snprintf(out, size, "%.*s", LML_SPAN_SHOWN(lml_json_text(lml_json_member(question, name))));
}

static lml_status show_and_read(lml_session *s, const lml_json *question, bool *last,
                                lml_error *err)
{
    keep(s->at, sizeof s->at, question, "at");
    keep(s->unfolded, sizeof s->unfolded, question, "unfolded");
    *last = lml_json_yes(lml_json_member(question, "end"));
    if (*last) {
        lml_prompt_write_told(question, &s->call->out);
        return LML_OK;
    }
    lml_prompt_write(question, s->alone ? NULL : s->heading, &s->call->out);
    return lml_session_read(s, err);
}

lml_status lml_session_ask(lml_session *s, lml_error *err)
{
    step now = {NULL, NULL};
    lml_status status = LML_OK;
    bool last = false;
    while (status == LML_OK && !s->ended && !last) {
        status = lml_session_write(s, take_step, &now, err);
        if (status == LML_OK)
            status = show_and_read(s, lml_json_member(lml_json_root(now.question), "question"),
                                   &last, err);
        now.typed = s->line.at ? s->line.at : "";
        lml_json_free(now.question);
        now.question = NULL;
    }
    return status;
}

lml_status lml_session_ask_one(lml_session *s, const char *under, lml_error *err)
{
    const char *before = s->under;
    s->under = under;
    s->at[0] = '\0';
    s->alone = true;
    lml_status status = lml_session_ask(s, err);
    s->alone = false;
    s->under = before;
    return status;
}
