#include "report/reach.h"

#include "cell/code_lines.h"
#include "cell/what.h"
#include "shelf/token.h"

#include <stdio.h>
#include <string.h>

static size_t count_lines(lml_span text)
{
    size_t lines = 1;
    for (size_t i = 0; i < text.length; i++)
        lines += text.at[i] == '\n';
    return lines;
}

/* :stop("code" or :confirm("code". One whose code is calculated is a line like others. */
static void find_stops(lml_reach *reach, lml_span text)
{
    lml_scanner s = lml_scanner_on(text);
    lml_token before[3] = {{0}}; /* ":" "stop" "(" */
    for (lml_token t = lml_token_next(&s); t.kind != LML_TOKEN_END; t = lml_token_next(&s)) {
        bool names = lml_token_is(before[0], ":") &&
                     (lml_token_is(before[1], "stop") || lml_token_is(before[1], "confirm")) &&
                     lml_token_is(before[2], "(") && t.kind == LML_TOKEN_TEXT && t.text.length > 2;
        if (lml_token_is(t, "..") && before[2].kind == LML_TOKEN_TEXT && reach->stops > 0 &&
            reach->stop[reach->stops - 1].code.at == before[2].text.at + 1)
            reach->stop[reach->stops - 1].goes_on = true;
        if (names && reach->stops < LML_REACH_STOPS)
            reach->stop[reach->stops++] =
                (lml_reach_stop){.code = {t.text.at + 1, t.text.length - 2}, .line = t.line};
        before[0] = before[1];
        before[1] = before[2];
        before[2] = t;
    }
}

static lml_status open_text(lml_reach *reach, const lml_item *item, lml_error *err)
{
    lml_reach_text *t = &reach->texts[reach->count];
    *t = (lml_reach_text){.item = item,
                          .room = count_lines((lml_span){item->text, item->length}) + 1};
    snprintf(t->chunk, sizeof t->chunk, "@%s", item->shown);
    t->is_line = lml_alloc_get(reach->alloc, t->room);
    t->came = lml_alloc_get(reach->alloc, t->room);
    reach->count++;
    if (!t->is_line || !t->came)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while counting the lines of %s",
                        item->shown);
    memset(t->is_line, 0, t->room);
    memset(t->came, 0, t->room);
    return LML_OK;
}

/* Once the text was loaded. */
static lml_status find_lines(lml_reach_text *t, lml_error *err)
{
    if (lml_code_lines((lml_span){t->item->code, t->item->code_length}, t->is_line, t->room))
        return LML_OK;
    return lml_fail(err, LML_FAULT,
                    "this Lua stores compiled code in an unknown format, so "
                    "the lines of %s cannot be counted",
                    t->item->shown);
}

lml_status lml_reach_open(lml_reach *out, const lml_alloc *alloc, const lml_shelf *shelf,
                          const lml_item *item, lml_error *err)
{
    *out = (lml_reach){.alloc = alloc};
    out->texts = lml_alloc_get(alloc, (shelf->count + 1) * sizeof *out->texts);
    out->room = shelf->count + 1;
    if (!out->texts)
        return lml_fail(err, LML_NO_MEMORY, "out of memory while counting lines");
    lml_status status = open_text(out, item, err);
    for (size_t i = 0; i < shelf->count && status == LML_OK; i++)
        if (shelf->items[i]->kind == LML_PUT_SCRIPT)
            status = open_text(out, shelf->items[i], err);
    if (status == LML_OK)
        find_stops(out, (lml_span){item->text, item->length});
    return status == LML_OK ? find_lines(&out->texts[0], err) : status;
}

void lml_reach_close(lml_reach *reach)
{
    for (size_t i = 0; i < reach->count; i++) {
        const lml_reach_text *t = &reach->texts[i];
        if (t->is_line)
            lml_alloc_free(reach->alloc, t->is_line, t->room);
        if (t->came)
            lml_alloc_free(reach->alloc, t->came, t->room);
    }
    if (reach->texts)
        lml_alloc_free(reach->alloc, reach->texts, reach->room * sizeof *reach->texts);
    *reach = (lml_reach){.alloc = reach->alloc};
}

/* The chunk itself only declares, on lines that a function may share. */
static void on_line(void *self, lua_State *L, lua_Debug *at)
{
    lml_reach *reach = self;
    if (at->currentline <= 0 || !lua_getinfo(L, "S", at) || strcmp(at->what, "main") == 0)
        return;
    size_t line = (size_t)at->currentline;
    for (size_t i = 0; i < reach->count; i++) {
        lml_reach_text *t = &reach->texts[i];
        if (line >= t->room || strcmp(at->source, t->chunk) != 0)
            continue;
        t->came[line] = t->took_part = true;
        return;
    }
}

void lml_reach_watch(lml_reach *reach, lml_box *box)
{
    box->on_line = on_line;
    box->on_line_self = reach;
    lml_box_start_count(box);
}

/* `code` is "recipe/code". */
static void note_code(lml_reach *reach, lml_span code)
{
    size_t name = strlen(reach->texts[0].item->name);
    if (code.length <= name || memcmp(code.at, reach->texts[0].item->name, name) != 0 ||
        code.at[name] != '/')
        return;
    lml_span own = lml_span_between(code.at + name + 1, code.at + code.length);
    for (size_t i = 0; i < reach->stops; i++) {
        lml_reach_stop *stop = &reach->stop[i];
        bool begins =
            own.length > stop->code.length && memcmp(own.at, stop->code.at, stop->code.length) == 0;
        stop->came = stop->came || lml_span_equal(stop->code, own) || (stop->goes_on && begins);
    }
}

void lml_reach_note(lua_State *L, int part, lml_reach *reach)
{
    int top = lua_gettop(L);
    lml_box_need_stack(L, 10);
    lua_getfield(L, part, "remarks");
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, top + 1); i++) {
        lua_rawgeti(L, top + 1, i);
        lua_getfield(L, -1, "level");
        lua_getfield(L, -2, "code");
        const char *level = lua_tostring(L, -2);
        if (strcmp(level, "stop") == 0 || strcmp(level, "confirm") == 0)
            note_code(reach, lml_what_need_text(L, -1, "a code"));
        lua_settop(L, top + 1);
    }
    lua_getfield(L, part, "within");
    const int within = lua_gettop(L);
    for (lua_Integer i = 1; i <= (lua_Integer)lua_rawlen(L, within); i++, lua_settop(L, within)) {
        lua_rawgeti(L, within, i);
        lml_reach_note(L, within + 1, reach);
    }
    lua_settop(L, top);
}

/* The members "lines" and "missed". */
static void put_lines(const lml_reach_text *t, lml_json_writer *w)
{
    int64_t lines = 0;
    for (size_t n = 1; n < t->room; n++)
        lines += t->is_line[n];
    lml_json_write_name(w, lml_span_of("lines"));
    lml_json_write_whole(w, lines);
    lml_json_write_name(w, lml_span_of("missed"));
    lml_json_write_open_list(w);
    for (size_t n = 1; n < t->room; n++)
        if (t->is_line[n] && !t->came[n])
            lml_json_write_whole(w, (int64_t)n);
    lml_json_write_close(w);
}

static void put_stops(const lml_reach *reach, lml_json_writer *w)
{
    lml_json_write_name(w, lml_span_of("stops"));
    lml_json_write_whole(w, (int64_t)reach->stops);
    lml_json_write_name(w, lml_span_of("missed_stops"));
    lml_json_write_open_list(w);
    for (size_t i = 0; i < reach->stops; i++) {
        if (reach->stop[i].came)
            continue;
        lml_json_write_open_record(w);
        lml_json_write_name(w, lml_span_of("code"));
        lml_json_write_text(w, reach->stop[i].code);
        lml_json_write_name(w, lml_span_of("line"));
        lml_json_write_whole(w, reach->stop[i].line);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
}

lml_status lml_reach_write(lml_reach *reach, lml_json_writer *w, lml_error *err)
{
    lml_status status = LML_OK;
    lml_json_write_name(w, lml_span_of("reach"));
    lml_json_write_open_record(w);
    put_lines(&reach->texts[0], w);
    put_stops(reach, w);
    lml_json_write_name(w, lml_span_of("scripts"));
    lml_json_write_open_list(w);
    for (size_t i = 1; i < reach->count && status == LML_OK; i++) {
        lml_reach_text *t = &reach->texts[i];
        if (!t->took_part)
            continue;
        status = find_lines(t, err);
        lml_json_write_open_record(w);
        lml_json_write_member(w, "script", t->item->name);
        lml_json_write_member(w, "file", t->item->shown);
        put_lines(t, w);
        lml_json_write_close(w);
    }
    lml_json_write_close(w);
    lml_json_write_close(w);
    return status;
}
