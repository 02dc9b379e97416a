#include "cli/command.h"
#include "cli/cmd.h"

#include <string.h>

static const lml_command commands[] = {
    {"run",
     "TARGET [NAME=VALUE ...]",
     "work a job file, or a recipe with the values given here",
     lml_cmd_run,
     {"lemel run jobs/cuff-links.json",
      "lemel run need wax=\"2.85 g\" sprues=\"0.31 g\" metal=\"Au750 yellow 3N\" button=\"9 g\" "
      "crucible=\"6 cm3\""},
     "TARGET is a job file, - for a job on standard input, the name of a recipe, or a recipe's "
     "file.\n\n"
     "NAME=VALUE sets what the recipe asks or allows, in place of what the job says. A dotted "
     "NAME reaches into a record (metal.density=\"15.4 g/cm3\"); a VALUE that starts with [ or { "
     "is read as JSON.\n\n"
     "The bench sheet is printed, or the first with something on it; --sheet names others "
     "(--sheet client,metal), and all prints every one. The result as "
     "JSON comes with --format json. The exit status is 1 when a rule stopped something or a "
     "point is not confirmed."},
    {"enquiry",
     "MASS METAL [from MASS FINENESS ...] [NAME=VALUE ...]",
     "a first answer on the telephone: a price range, and whether the old metal is enough",
     lml_cmd_enquiry,
     {"lemel enquiry \"6 g\" 14kt from \"9 g\" 18kt",
      "lemel enquiry \"4 dwt\" \"yellow 18K\" guessed_hours=\"3..6 h\""},
     "MASS and METAL are of the new piece; METAL is a fineness or a metal's name. What stands "
     "behind from is what they have, a MASS and a FINENESS each. The recipe enquiry answers with "
     "the "
     "house's rates and prices, always a range; NAME=VALUE sets what it asks or allows."},
    {"ask",
     "RECIPE -o JOB | JOB [PATH]",
     "fill in a job, question by question",
     lml_cmd_ask,
     {"lemel ask remake -o jobs/two-rings.json", "lemel ask jobs/cuff-links.json old_metal[0]"},
     "Each question is printed with what it takes, and what holds when nothing is said in [ ]. "
     "Enter takes that; < goes one question back; - leaves out the rest of this part (an entry, or "
     "all under the heading; of a list, that there are no more); ? tells more, and asks what is "
     "seldom needed too; ! or the end of the input stops. An answer that cannot be taken is asked "
     "again.\n\n"
     "The file holds every answer as soon as it is given; lemel ask JOB goes on where it stopped. "
     "After the last question the job is run: settings that the house lacks are asked, points to "
     "confirm are shown, and the sheet is printed.\n\n"
     "Only a job that lemel ask made is filled in like this. In any other, name what to ask with "
     "PATH, such as given.wax: that is put in, and all else stays as it is."},
    {"close",
     "JOB [NAME=VALUE ...]",
     "the end of a job: invoice, and what is left of the metal",
     lml_cmd_close,
     {"lemel close jobs/cuff-links.json --sheet client", NULL},
     "The job's \"closing\" says the day of the invoice and what neither the offer nor the record "
     "does. Lines, credit, deposit, the metal's price and what was agreed come from the offer that "
     "was accepted, the weighings from the record. It is worked by the recipe closing, or the one "
     "that \"closing\" names. NAME=VALUE sets what that recipe asks or allows.\n\n"
     "What is printed, and the exit status, are as with lemel run."},
    {"batch",
     "JOB ...",
     "work many jobs at once",
     lml_cmd_batch,
     {"lemel batch jobs > results.jsonl", "lemel batch - < jobs.jsonl > results.jsonl"},
     "JOB is a job file or a folder of them. With - each line of standard input is a job. Each "
     "result is one line of JSON, in the order of the jobs; what could not be worked gives a line "
     "with \"error\" instead, and the rest goes on. With --keep what came of each is also kept in "
     "that "
     "FOLDER, for compare.\n\n"
     "The exit status is 65 when a job could not be worked, else 1 when a rule stopped something "
     "in one."},
    {"compare",
     "OLD NEW JOB ...",
     "what a changed rule does to past jobs",
     lml_cmd_compare,
     {"lemel compare quote my/quote.lua jobs --within \"0.1 %\"",
      "lemel compare old/remake.lua remake jobs/cuff-links.json"},
     "OLD and NEW are recipes, by name or as files. The name of OLD says which recipe both stand "
     "for: each JOB is worked twice, with OLD and then with NEW under that name, whether the job "
     "names that recipe itself or a recipe that uses it. JOB is a job file or a folder of them. "
     "What "
     "batch --keep FOLDER kept of the same jobs is taken from there with --keep FOLDER.\n\n"
     "What differs is printed, the largest change first, with the sums over all jobs and the jobs "
     "that stop, or no longer stop. The exit status is 1 when a figure moved by more than --within "
     "or a job ends otherwise, 65 when a job could not be worked."},
    {"learn",
     "ALLOWANCE JOB ... [NAME=VALUE ...]",
     "what recorded jobs say about an allowance",
     lml_cmd_learn,
     {"lemel learn need.history jobs was=\"105 %\"", "lemel learn melt_loss jobs/*.json"},
     "JOB is a job file or a folder of them. Each is run, and what was recorded is held against "
     "what was expected: need.history (the metal that a charge used), melt_loss, or seated.A (the "
     "gauge with flask A). The recipe learn says the mean, what is enough for the next job, what "
     "differs, and the line for house.json. NAME=VALUE sets what it asks: was, the figure that the "
     "house has now, and purpose.\n\n"
     "A job that says nothing of the allowance, or that cannot be run, is left out and named. One "
     "whose record has an entry called misrun, mixed or estimated teaches nothing."},
    {"book",
     "JOB ...",
     "the metal in the safe: whose it is, and where",
     lml_cmd_book,
     {"lemel book jobs", "lemel book jobs --at 2026-11-30"},
     "JOB is a job file or a folder of them. Their records are added up by owner and metal: what "
     "lies here, lot by lot, in grams and fine grams, what is at a refiner's, and what was not "
     "weighed since, with where it was weighed last. With --at nothing later than that moment "
     "counts. No job is worked, and no file is changed.\n\n"
     "An entry whose from names what it was taken out of (from=\"button\", of another job "
     "from=\"red-ring: button\") is taken off there. Metal of the owner client is that of one "
     "job; an owner with a name has one account over all jobs. A weighing that two files hold is "
     "counted once.\n\n"
     "The exit status is 1 when the records cannot be right: more is taken than there is, or from "
     "what no job has."},
    {"check",
     "TARGET ...",
     "read and check, without working",
     lml_cmd_check,
     {"lemel check jobs/cuff-links.json", "lemel check jobs/*.json recipes/need.lua"},
     "Each TARGET is a job file, house.json, prices.json or a recipe. Everything wrong is said at "
     "once, one TARGET after the other; with a job come the settings and prices that it is worked "
     "with.\n\n"
     "A recipe gets advice too, which changes nothing: on an ask or an allowance that nothing "
     "reads, a give "
     "that nothing sets, a value compared with a bare number, a figure without a source, a missing "
     "proof. With --strict the exit status is then 1."},
    {"prove",
     "[RECIPE ...]",
     "run the recipes' own proofs",
     lml_cmd_prove,
     {"lemel prove", "lemel prove need recipes/quote.lua"},
     "A proof is a worked example that a recipe carries and must reproduce. Without a RECIPE all "
     "within reach are proved. What comes with lemel is proved with lemel's own rules; then is "
     "said which of "
     "its proofs the house's rules change. --reach says which lines of a recipe, and which of its "
     "stops and points to confirm, none of its proofs comes by. The exit status is 1 when a proof "
     "failed."},
    {"reckon",
     "EXPRESSION [as UNIT]",
     "one sum, with units",
     lml_cmd_reckon,
     {"lemel reckon \"1 ozt\" as g", "lemel reckon 'Q\"2 dwt\" + Q\"1 g\"'"},
     "EXPRESSION is a value, or a sum of values in Lua. The answer comes in the unit of the first "
     "value unless `as` says otherwise."},
    {"recipes",
     "[--rules [POINT ...]]",
     "the recipes and house rules within reach",
     lml_cmd_recipes,
     {"lemel recipes", "lemel recipes --rules hours"},
     "The studio's own recipes stand in the folder recipes/ beside house.json; one of the same "
     "name as a recipe that comes with lemel takes its place. So does a house rule, "
     "recipes/rule_POINT.lua.\n\n"
     "--rules says of each rule point, or of those named, what a rule is told and what it "
     "answers."},
    {"inspect",
     "RECIPE",
     "what it asks, allows, gives, uses; its digest; its proofs",
     lml_cmd_inspect,
     {"lemel inspect need", "lemel inspect recipes/quote.lua --format json"},
     "Nothing is worked: this is what the recipe says about itself. A recipe that asks much is "
     "shown with what a job must say and the names of the rest; --all lists every ask, and every "
     "allowance of it and of the recipes that it uses."},
    {"record",
     "JOB WHAT [READING] [NAME=VALUE ...] | JOB --all BOX=READING ...",
     "put what was weighed or measured into a job file",
     lml_cmd_record,
     {"lemel record jobs/cuff-links.json \"raw casting\" \"31.02 g\"",
      "lemel record jobs/cuff-links.json --all \"flask=540 °C\" \"flask held=65 min\" "
      "\"metal=960 °C\" --at now"},
     "WHAT is named as on the bench sheet. Of a READING the kind says what was measured; where the "
     "sheet shows it in another unit, the answer is in both. Owner and fineness of a mass are as "
     "the sheet has them, unless NAME=VALUE says otherwise. NAME is mass, fineness, assay, way, "
     "from, owner, origin, length, volume, temperature, time, vacuum, current, count, by or note. "
     "Without --at it is now.\n\n"
     "A mass with a way "
     "(in, added, "
     "piece, returned, kept, sent, here) counts in the metal account; without one it is a "
     "measurement. What it was taken out of is from: button, of another job red-ring: button. A "
     "WHAT that no box of the job's sheets is called by is recorded, and remarked upon.\n\n"
     "With --all each word is a box and what was read: all are recorded at one moment, or none is. "
     "A "
     "name that no box has, or that two boxes share, and a reading of the wrong kind are "
     "refused.\n\n"
     "The entry is put behind the last one, and every other byte of the file stays as it is. A "
     "record only grows: an entry that is earlier than the last one is refused, and so is one that "
     "is more than a "
     "year from the job's date, or that has not come yet, unless --anyway is said."},
    {"confirm",
     "JOB RECIPE/CODE --by WHO --reason WHY [--all --until DATE]",
     "put what a person decided into a job file",
     lml_cmd_confirm,
     {"lemel confirm jobs/cuff-links.json charge/old-metal-share --by O.F. --reason \"told of "
      "porosity\"",
      "lemel confirm jobs/cuff-links.json mark/row-from-memory --all --until 2027-12-31 --by O.F. "
      "--reason \"asked the assay office\""},
     "The job is run, and the point of that code, as its sheet shows it, is put under `confirmed` "
     "word for "
     "word. When its text, or any figure in it, is another one later, the point is open again.\n\n"
     "Every other byte of the file stays as it is. A point that was confirmed before, for other "
     "words, is "
     "refused until that entry is taken out.\n\n"
     "With --all the entry goes into house.json and holds for all jobs up to the date of --until: "
     "only for a point that says so, such as a row of law that was looked up. It holds for these "
     "words alone, by their digest."},
    {"offer",
     "JOB [--accepted | --withdrawn]",
     "put what is promised to the client into a job file",
     lml_cmd_offer,
     {"lemel offer jobs/cuff-links.json --by O.F.",
      "lemel offer jobs/cuff-links.json --accepted --by \"T. Merrowick\" --paid deposit"},
     "The job is run, and what its recipe promises is put into the job: lines, price, deposit, the "
     "metal's price with its moment, how long it stands, and the digests of recipes, rules, "
     "settings, house and prices. Nothing is offered while a stop or a point that is not confirmed "
     "stands.\n\n"
     "From then on deposit, invoice and closing read the offer; a later price or rule moves the "
     "cost sheet, not the promise. --accepted says who took it, --withdrawn with --reason who took "
     "it back; --at says when, and is now when nothing is said. An offer that has run out is "
     "accepted only with --anyway and a --reason. Offers are only added; one that was changed by "
     "hand is refused, for its digest is another's. What was accepted is not offered again: a "
     "change is a variation that both sign."},
    {"price",
     "METAL PRICE --at MOMENT --from WHO",
     "set a metal's price in the price list; the former one goes to its history",
     lml_cmd_price,
     {"lemel price Au \"2650.30 USD/ozt\" --at 2026-11-24T09:00 --from \"refiner, buying\"",
      "lemel price Pd \"36.00 USD/g\" --at now --from \"refiner, selling\""},
     "METAL is its symbol: Au, Ag, Pt, Pd. The list is prices.json of the studio, or the file that "
     "--prices names; it is written whole or not at all, and no price is lost. A price that is "
     "earlier than the one that stands, or of another currency, is refused, and so is one that is "
     "three times as much or a third of it, or more than a year later, unless --anyway is said."},
    {"new",
     "studio [NAME=VALUE ...] | job RECIPE NAME | recipe NAME | rule POINT | annotations",
     "a studio, a job, a recipe or a house rule to start from, or the words of recipes for an "
     "editor",
     lml_cmd_new,
     {"lemel new job remake cuff-links", "lemel new rule hours"},
     "A studio is a house.json in the current folder: its name, place, currency, altitude and "
     "units, "
     "and what the recipes of the main job need from a house. What no NAME=VALUE gives is an empty "
     "text, and lemel check house.json says of each how it is written.\n\n"
     "A job is written as jobs/NAME.json of the studio, with today's date, an empty text for all "
     "that its recipe must be told, and the names of what it may be told in its notes. lemel check "
     "says of each how it is written.\n\n"
     "The recipe is written as recipes/NAME.lua of the studio, says line by line what may be "
     "changed, and "
     "has proofs that pass. A file or a recipe of that name is left alone.\n\n"
     "A rule is written as recipes/rule_POINT.lua: what the point is told and answers, and lemel's "
     "own answer to "
     "change. lemel recipes --rules lists the points.\n\n"
     "annotations writes .lemel/words.lua and .luarc.json for editors with the Lua language "
     "server: they "
     "then know every word of recipes; and .luacheckrc for luacheck. --replace writes them anew."},
    {"adopt",
     "FILE|PACK",
     "take a recipe or a pack from elsewhere into the studio, once its proofs pass",
     lml_cmd_adopt,
     {"lemel adopt downloads/polish.lua", "lemel adopt downloads/bench_rules --merge"},
     "What it asks, allows and gives is shown beside the recipe of the same name that stands "
     "within reach: what was added, is gone, was changed. It is copied into recipes/ whole or not "
     "at all; "
     "one "
     "that stands there already is replaced only with --replace. A recipe whose proofs fail, or "
     "that "
     "has none, is refused with status 1 unless --unproved is said.\n\n"
     "A PACK is a folder that lemel pack made: all of it is taken in, or nothing. It is signed by "
     "somebody whom the studio's allowed_signers lists, or has the digest that --digest says, or "
     "is "
     "taken with --unsigned. What was changed here is merged with --merge, replaced with "
     "--replace.\n\n"
     "recipes/proved.txt lists what was proved, by digest; lemel run says when a recipe is not in "
     "it."},
    {"pack",
     "FOLDER [NAME=VALUE ...]",
     "make a folder of recipes, rules and scripts a pack for other studios",
     lml_cmd_pack,
     {"lemel pack bench_rules title=\"Rules of our bench\" version=1.0.0 licence=CC0-1.0",
      "lemel pack bench_rules version=1.1.0"},
     "FOLDER holds recipes/, and scripts/ and a page to read where there is one. pack.json is "
     "written "
     "into it: what the pack is, and the SHA-256 of every file. NAME is name, title, about, "
     "version "
     "or licence; what it said before it says again."},
    {"again",
     "RESULT [JOB] [NAME=VALUE ...]",
     "work the job of a saved result again, and say what comes out otherwise and why",
     lml_cmd_again,
     {"lemel run jobs/cuff-links.json --format json -o result.json", "lemel again result.json"},
     "RESULT is what lemel run printed as JSON; it says which job, house, prices, recipes and "
     "scripts "
     "it came from. The job is found where it was, or named here; values that were typed are typed "
     "again. The exit status is 0 when every figure, sheet and remark is the same bit for bit, "
     "else "
     "1."},
    {"sure",
     "JOB [FIGURE ...] [NAME=VALUE ...]",
     "how far off the figures of a job may be, and what makes them so",
     lml_cmd_sure,
     {"lemel sure jobs/cuff-links.json price charge",
      "lemel sure jobs/cuff-links.json --draws 1000"},
     "The job is run again and again, each time with other values of what it, or the house, writes "
     "with a spread: \"12.4 g ± 0.1 g\" is a standard deviation, \"12.3..12.5 g\" anything "
     "between. "
     "For each FIGURE (all that the recipe gives, when none is named) the likely value is printed, "
     "its standard deviation, between what it lies in 95 % of the runs, and which spreads make it "
     "so. "
     "Stops and open points are counted; a point that the job confirms counts as confirmed in each "
     "run.\n\n"
     "Runs end when more of them would move nothing that is printed (JCGM 101), at 50,000 at the "
     "latest. The same job gives the same numbers, on every machine and with any --workers."},
    {"why",
     "JOB FIGURE [NAME=VALUE ...]",
     "where a figure of a job comes from, step by step",
     lml_cmd_why,
     {"lemel why jobs/cuff-links.json price", "lemel why jobs/cuff-links.json charge --depth 8"},
     "FIGURE is named as in the result: price, weigh[0].mass. What it was made of stands below it, "
     "each "
     "with the line of the recipe or script where it was worked out, down to what the job or the "
     "house "
     "says, what was assumed, and its source. A step that was shown before is not shown again; "
     "--depth "
     "says how far down. --format json has all of them."},
    {"what",
     "JOB FIGURE[=WISH] by INPUT=LOW..HIGH [NAME=VALUE ...]",
     "what a figure becomes when one input is another, or which input makes it what is wished",
     lml_cmd_what,
     {"lemel what jobs/cuff-links.json price by markup=\"10..30 %\"",
      "lemel what jobs/cuff-links.json price=\"1200 USD\" by rates.bench=\"50..90 USD/h\""},
     "The job is run with INPUT at some ten steps of its range, and the FIGURE of each run is "
     "printed, "
     "or what withholds it. With a WISH the range is searched for where the figure is that much: "
     "each "
     "such place is named, between two neighbouring steps of the input where it steps over the "
     "wish, "
     "or that there is none. INPUT is named as on the command line of lemel run; what the house "
     "sets "
     "can be one too. A point that the job confirms counts as confirmed in each run. At most 200 "
     "runs."},
    {"schema",
     "job|house|prices|result|RECIPE",
     "the JSON Schema of a file, for editors and other programs",
     lml_cmd_schema,
     {"lemel schema house -o house.schema.json", "lemel schema need -o need.schema.json"},
     "That of a RECIPE is the schema of a job for it: what it asks stands under given, what it and "
     "the recipes that it uses allow under house. A file may name its schema under \"$schema\"."},
    {"alloys",
     "[WORD ...]",
     "the metals that a job can name: the house's and lemel's",
     lml_cmd_alloys,
     {"lemel alloys", "lemel alloys yellow 14K"},
     "Each with its fineness, colour and melting range, the richest first. With a WORD only names "
     "that have it; upper and lower case are alike."},
    {"units",
     "[UNIT]",
     "the units it reads, with their exact size and source",
     lml_cmd_units,
     {"lemel units", "lemel units ozt"},
     "A UNIT may be a compound, such as g/cm3. What could mean two things is refused with both "
     "meanings."},
};
enum { COMMANDS = sizeof commands / sizeof commands[0] };

size_t lml_command_count(void)
{
    return COMMANDS;
}

const lml_command *lml_command_at(size_t index)
{
    return &commands[index];
}

lml_status lml_command_named(const char *name, const lml_command **out, lml_error *err)
{
    lml_nearest near = lml_nearest_to(lml_span_of(name));
    for (size_t i = 0; i < COMMANDS; i++) {
        if (strcmp(commands[i].name, name) == 0) {
            *out = &commands[i];
            return LML_OK;
        }
        lml_nearest_offer(&near, lml_span_of(commands[i].name));
    }
    lml_fail(err, LML_USAGE, "there is no command \"%s\"", name);
    if (lml_nearest_found(&near)) {
        lml_error_hint(err, "did you mean lemel %.*s?", (int)near.best.length, near.best.at);
        return LML_USAGE;
    }
    lml_error_hint(err, "lemel --help lists the commands; a recipe is worked with lemel run");
    return LML_USAGE;
}
