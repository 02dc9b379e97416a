/* pack: the page of a folder of recipes, so that another studio can take it in whole. */
#include "base/shell.h"
#include "cli/cmd.h"
#include "file/store.h"
#include "studio/find.h"
#include "studio/pack.h"
#include "studio/signature.h"

#include <stdio.h>
#include <string.h>

static const char *const members[] = {"name", "title", "about", "version", "licence"};
enum { MEMBERS = sizeof members / sizeof *members };

/* What the page says of the pack: as it said before, or as it is said here. */
typedef struct page {
    lml_span text[MEMBERS];
} page;

static const char *folder_name(const char *folder)
{
    const char *slash = strrchr(folder, '/');
    return slash ? slash + 1 : folder;
}

static lml_status read_page(const lml_call *call, lml_pack *pack, page *out, lml_error *err)
{
    char shown[LML_PATH + 16];
    snprintf(shown, sizeof shown, "%s/" LML_PACK_PAGE, pack->folder);
    *out = (page){{{"", 0}}};
    out->text[0] = lml_span_of(folder_name(pack->folder));
    if (!pack->has_page)
        return LML_OK;
    lml_status status =
        lml_json_read(&call->alloc, lml_builder_span(&pack->page), NULL, shown, &pack->doc, err);
    for (size_t i = 0; i < MEMBERS && status == LML_OK; i++) {
        lml_span text = lml_json_text(lml_json_member(lml_json_root(pack->doc), members[i]));
        if (text.length > 0)
            out->text[i] = text;
    }
    return status;
}

static lml_status read_words(const lml_call *call, page *out, lml_error *err)
{
    const lml_arguments *a = &call->arguments;
    for (size_t k = 1; k < a->words; k++) {
        const char *equals = strchr(a->word[k], '=');
        lml_span name = equals ? lml_span_between(a->word[k], equals) : lml_span_of(a->word[k]);
        size_t i = 0;
        while (i < MEMBERS && !lml_span_is(name, members[i]))
            i++;
        if (i == MEMBERS || !equals) {
            lml_fail(err, LML_USAGE, "a pack's page has no \"%.*s\"", (int)name.length, name.at);
            lml_error_hint(err, "name=, title=, about=, version= or licence=");
            return LML_USAGE;
        }
        out->text[i] = lml_span_of(equals + 1);
    }
    return LML_OK;
}

static lml_status refuse(const lml_pack *pack, const char *what, const char *example,
                         lml_error *err)
{
    char word[LML_SHELL_WORD];
    lml_fail(err, LML_USAGE, "the page of a pack says %s", what);
    lml_error_hint(err, "lemel pack %s %s", lml_shell_word(lml_span_of(pack->folder), word),
                   example);
    return LML_USAGE;
}

static lml_status check(const lml_pack *pack, const page *p, lml_error *err)
{
    char version[40], name[64];
    snprintf(name, sizeof name, "%.*s", (int)p->text[0].length, p->text[0].at);
    snprintf(version, sizeof version, "%.*s", (int)p->text[3].length, p->text[3].at);
    lml_pack_file file = {.path = (char[90]){""}};
    snprintf(file.path, 90, "recipes/%s.lua", name);
    char taken[64];
    if (!lml_pack_name(&file, "recipes", taken))
        return refuse(pack, "its name, of letters a to z, digits, _ and -", "name=bench_rules",
                      err);
    if (!lml_text_is_version(version))
        return refuse(pack, "its version, three numbers", "version=1.0.0", err);
    if (p->text[4].length == 0)
        return refuse(pack, "its licence: what others may do with it", "licence=CC0-1.0", err);
    size_t recipes = 0;
    for (size_t i = 0; i < pack->count; i++)
        recipes += lml_pack_name(&pack->files[i], "recipes", taken);
    if (recipes > 0)
        return LML_OK;
    lml_fail(err, LML_BAD_DATA, "%s has no recipe and no rule in recipes/", pack->folder);
    lml_error_hint(err, "put the files to be shared there");
    return LML_BAD_DATA;
}

static lml_status write_page(const lml_pack *pack, const page *p, lml_builder *out, lml_error *err)
{
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_json_write_open_record(&w);
    for (size_t i = 0; i < MEMBERS; i++) {
        if (p->text[i].length == 0)
            continue;
        lml_json_write_name(&w, lml_span_of(members[i]));
        lml_json_write_text(&w, p->text[i]);
    }
    lml_json_write_member(&w, "lemel", lml_version());
    lml_json_write_name(&w, lml_span_of("files"));
    lml_json_write_open_record(&w);
    for (size_t i = 0; i < pack->count; i++)
        lml_json_write_member(&w, pack->files[i].path, pack->files[i].digest);
    lml_json_write_close(&w);
    lml_json_write_close(&w);
    lml_builder_add_char(out, '\n');
    return lml_json_writer_end(&w, err);
}

static lml_status make(lml_call *call, lml_pack *pack, lml_error *err)
{
    char path[LML_PATH + 16], digest[LML_DIGEST_TEXT];
    page p;
    lml_builder text = lml_builder_on(&call->alloc, 0);
    lml_status status = read_page(call, pack, &p, err);
    if (status == LML_OK)
        status = read_words(call, &p, err);
    if (status == LML_OK)
        status = check(pack, &p, err);
    if (status == LML_OK)
        status = write_page(pack, &p, &text, err);
    snprintf(path, sizeof path, "%s/" LML_PACK_PAGE, pack->folder);
    bool same = status == LML_OK &&
                lml_span_equal((lml_span){text.at, text.length}, lml_builder_span(&pack->page));
    if (status == LML_OK && !same)
        status = lml_store_write(path, (lml_span){text.at, text.length}, true, err);
    if (status == LML_OK && !same)
        lml_text_join(call->done, sizeof call->done, path, " is written", "");
    if (status == LML_OK && !lml_call_quiet(call)) {
        lml_digest_of((lml_span){text.at, text.length}, digest);
        lml_builder_add_format(&call->out, "%s %s, %zu file%s\n%s\n", same ? "as it was:" : "wrote",
                               path, pack->count, pack->count == 1 ? "" : "s", digest);
        lml_builder_add_format(&call->out,
                               "  ssh-keygen -Y sign -f KEY -n " LML_SIGNATURE_SPACE " %s\n", path);
    }
    if (status == LML_OK && !same && pack->is_signed)
        lml_builder_add_format(
            &call->aside, "%s/" LML_PACK_SIGNATURE " was for the earlier page: sign it again\n",
            pack->folder);
    lml_builder_free(&text);
    return status;
}

lml_status lml_cmd_pack(lml_call *call, lml_error *err)
{
    if (call->arguments.words == 0) {
        lml_fail(err, LML_USAGE, "lemel pack needs a folder with recipes/ in it");
        lml_error_hint(err, "lemel pack bench_rules version=1.0.0 licence=CC0-1.0");
        return LML_USAGE;
    }
    char folder[LML_PATH];
    size_t length = strlen(call->arguments.word[0]);
    while (length > 1 && call->arguments.word[0][length - 1] == '/')
        length--;
    if (length >= sizeof folder)
        return lml_fail(err, LML_NO_FILE, "the path of the pack is too long");
    snprintf(folder, sizeof folder, "%.*s", (int)length, call->arguments.word[0]);
    lml_pack pack;
    lml_status status = lml_pack_gather(&call->alloc, folder, &pack, err);
    if (status == LML_OK)
        status = make(call, &pack, err);
    lml_pack_free(&pack);
    return status;
}
