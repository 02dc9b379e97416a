/* new studio: a house.json, asked for at a terminal, else to be filled in; and a first job to look
 * at. */
#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/fault_list.h"
#include "cli/house_notes.h"
#include "cli/new_file.h"
#include "cli/skeleton.h"
#include "studio/find.h"
#include "terminal/clock.h"
#include "terminal/line.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char HOUSE[] = "house.json", EXAMPLE[] = "jobs/example.json",
                  A_RECIPE[] = "recipes/NAME.lua";

/* Every figure of it is invented. It has no prices, so that it is in no currency. */
static const char example[] =
    "{\n"
    "  \"file_version\": 1,\n"
    "  \"recipe\": \"remake\",\n"
    "  \"title\": \"An example: a worn ring becomes a new one\",\n"
    "  \"date\": \"DATE\",\n"
    "  \"given\": {\n"
    "    \"piece\": \"A plain band in yellow gold\",\n"
    "    \"old_metal\": [\n"
    "      { \"name\": \"worn ring\", \"stamp\": \"585\", \"gross\": \"6.20 g\", \"seen\": "
    "\"plain band, yellow gold\", \"wish\": \"melt\",\n"
    "        \"consent\": true, \"cadmium\": \"none found\", \"magnet\": \"no pull\",\n"
    "        \"tests\": [{ \"method\": \"xrf cut\", \"found\": \"583 ‰ ± 4 ‰\", \"cut\": true }] "
    "}\n"
    "    ],\n"
    "    \"metal\": \"Au585 yellow\",\n"
    "    \"wax\": \"1.05 g\",\n"
    "    \"sprues\": \"0.30 g\",\n"
    "    \"lots\": [\n"
    "      { \"name\": \"fine gold\", \"metal\": \"Au999.9 fine\" },\n"
    "      { \"name\": \"14 kt grain\", \"metal\": \"Au585 yellow\" }\n"
    "    ],\n"
    "    \"target\": \"585 ‰\",\n"
    "    \"tree\": { \"diameter\": \"30 mm\", \"height\": \"30 mm\", \"foot\": \"9 mm\", \"wax\": "
    "\"1.35 g\" },\n"
    "    \"finished\": \"13.20 g\",\n"
    "    \"policy\": \"own metal\",\n"
    "    \"client_metal\": \"worked\",\n"
    "    \"hours\": { \"bench\": \"4 h\" }\n"
    "  },\n"
    "  \"notes\": \"Every figure here is invented. Delete the file when you have seen enough.\"\n"
    "}\n";

static lml_status put_example(lml_call *call, lml_error *err)
{
    char now[LML_CLOCK_TEXT];
    const char *date = strstr(example, "DATE");
    lml_builder text = lml_builder_on(&call->alloc, 0);
    if (access(EXAMPLE, F_OK) == 0)
        return LML_OK;
    lml_status status = lml_clock_now(now, err);
    if (status != LML_OK)
        return status;
    lml_builder_add_span(&text, lml_span_between(example, date));
    lml_builder_add(&text, now, 10);
    lml_builder_add_text(&text, date + strlen("DATE"));
    status = lml_builder_status(&text, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, EXAMPLE, (lml_span){text.at, text.length}, err);
    lml_builder_free(&text);
    return status;
}

/* A word that begins like a list or a record goes in as it was typed. */
static lml_status check_json(lml_call *call, const lml_builder *text, lml_error *err)
{
    lml_json_document *doc;
    lml_status status = lml_json_read(&call->alloc, (lml_span){text->at, text->length}, NULL,
                                      "the new house.json", &doc, err);
    if (status == LML_OK)
        lml_json_free(doc);
    return status;
}

static lml_status check_words(const lml_skeleton_words *words, const lml_json *about,
                              lml_error *err)
{
    for (size_t i = 0; i < words->count; i++) {
        if (strchr(words->word[i], '=') && lml_skeleton_has(about, words->word[i]))
            continue;
        lml_fail(err, LML_USAGE, "\"%s\" is not a setting of a new studio", words->word[i]);
        lml_error_hint(err, "leave it out and add it to house.json afterwards; "
                            "lemel new studio place=US currency=USD mass=g");
        return LML_USAGE;
    }
    return LML_OK;
}

static lml_status write_house(lml_call *call, bool with_empty, lml_builder *out, lml_error *err)
{
    const lml_skeleton_words words = {call->arguments.word + 1, call->arguments.words - 1};
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_json_document *about = NULL;
    lml_json_writer w = lml_json_writer_on(out, true);
    lml_status status = lml_find_shipped(call, &kit, err);
    if (status == LML_OK)
        status = lml_ask_inspect(&kit, "studio", &about, err);
    if (status == LML_OK)
        status = check_words(&words, lml_json_root(about), err);
    if (status == LML_OK) {
        lml_skeleton_house(&w, lml_json_root(about), &words, with_empty);
        status = lml_call_end_json(&w, err);
    }
    if (status == LML_OK)
        status = check_json(call, out, err);
    lml_json_free(about);
    lml_kit_free(&kit);
    return status;
}

/* What is still open of a house that was asked for; one that is to be filled in is empty. */
static void say_open(lml_call *call)
{
    lml_kit kit = lml_kit_on(&call->alloc);
    lml_builder open = lml_builder_on(&call->alloc, 0);
    lml_json_document *faults = NULL;
    if (lml_find_kit(call, NULL, &kit, NULL) == LML_OK) {
        if (lml_fault_list_read(call, &kit, LML_FAULT_LIST_HOUSE, NULL, &faults, NULL) == LML_OK)
            lml_fault_list_tell(call, lml_json_root(faults));
        if (lml_house_notes_tell(call, &kit, &open, NULL) == LML_OK)
            lml_builder_add(&call->out, open.at, open.length);
    }
    lml_json_free(faults);
    lml_builder_free(&open);
    lml_kit_free(&kit);
}

static void say_next(lml_call *call, bool asked)
{
    if (lml_call_quiet(call))
        return;
    if (asked)
        say_open(call);
    if (!asked)
        lml_builder_add_text(&call->out,
                             "  fill in what is empty: lemel ask house.json, or by hand and then "
                             "lemel check house.json\n");
    if (access("prices.json", F_OK) != 0)
        lml_builder_add_text(&call->out, "  the price of gold: lemel price Au PRICE --from \"who "
                                         "quoted it\" --at now\n");
    lml_builder_add_text(&call->out, "  a first quote: lemel run jobs/example.json --sheet client\n"
                                     "  a job of your own: lemel ask remake -o jobs/NAME.json\n");
}

/* Here, in the current folder: a studio above or beside it is another one. */
lml_status lml_cmd_new_studio(lml_call *call, lml_error *err)
{
    bool asks = lml_line_is_shown() && !lml_call_quiet(call);
    lml_builder text = lml_builder_on(&call->alloc, 0);
    if (call->arguments.given[LML_OPTION_REPLACE]) {
        lml_fail(err, LML_USAGE, "a new studio does not replace another");
        lml_error_hint(err, "leave out --replace and start in an empty folder");
        return LML_USAGE;
    }
    lml_status status = lml_new_file_refuse_taken(
        HOUSE, "lemel ask house.json goes on with it; or start in an empty folder", err);
    if (status == LML_OK)
        status = write_house(call, !asks, &text, err);
    if (status == LML_OK)
        status = lml_new_file_put(call, HOUSE, (lml_span){text.at, text.length}, err);
    if (status == LML_OK)
        status = put_example(call, err);
    if (status == LML_OK)
        status =
            lml_find_make_folder(A_RECIPE, err); /* for who saves a recipe of their own there */
    if (status == LML_OK && asks) {
        call->arguments.word[0] = HOUSE;
        call->arguments.words = 1;
        status = lml_cmd_ask(call, err);
    }
    if (status == LML_OK)
        say_next(call, asks);
    lml_builder_free(&text);
    return status;
}
