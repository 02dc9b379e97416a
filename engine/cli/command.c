#include "cli/command.h"
#include "cli/cmd.h"

#include <string.h>

static const lml_command commands[] = {
    {"run",
     "TARGET [NAME=VALUE ...]",
     "run a job file, or a recipe with the values given here",
     lml_cmd_run,
     {"lemel run jobs/cuff-links.json",
      "lemel run need wax=\"2.85 g\" sprues=\"0.31 g\" metal=\"Au750 yellow 3N\" button=\"9 g\" "
      "crucible=\"6 cm3\""},
     "TARGET is a job file, - for a job on standard input, the name of a recipe, or a recipe "
     "file.\n\n"
     "NAME=VALUE sets what the recipe asks for or allows, in place of what the job says. A dotted "
     "NAME reaches into a record (metal.density=\"15.4 g/cm3\"); a VALUE that starts with [ or { "
     "is read as JSON.\n\n"
     "A lot of the charge whose from names what it is taken out of the safe (from=\"red-ring: "
     "button\") is compared with the records of all jobs when --book names their folder: it is a "
     "stop "
     "when there is less, or when it is another owner's.\n\n"
     "The bench sheet is printed, or the first with content; --sheet names others (--sheet "
     "client,metal), and all prints every one. --format json prints the result as JSON. The exit "
     "status is 1 if a rule stopped something or a point is not confirmed."},
    {"enquiry",
     "MASS [NAME in] METAL [from MASS [NAME] FINENESS ...] [NAME=VALUE ...]",
     "a first answer on the telephone: a price range, and whether the old metal is enough",
     lml_cmd_enquiry,
     {"lemel enquiry a 6 g ring in 14 kt from 9 g of old 18 kt",
      "lemel enquiry \"4 dwt\" \"yellow 18K\" guessed_hours=\"3..6 h\""},
     "Type it as it is said, in quotation marks or not. MASS and METAL are of the new piece; METAL "
     "is a fineness or the name of an alloy. After from (or they bring) comes what the client has, "
     "a "
     "MASS and a FINENESS each. The recipe enquiry answers with the house's rates and prices, "
     "always as a range; NAME=VALUE sets what it asks for or allows."},
    {"ask",
     "RECIPE -o JOB | JOB [PATH] | house.json [SETTING]",
     "fill in a job or a studio's settings, question by question",
     lml_cmd_ask,
     {"lemel ask remake -o jobs/two-rings.json", "lemel ask jobs/cuff-links.json old_metal[0]"},
     "Each question is printed with what it takes, and the default in [ ]. "
     "Enter accepts that; < goes one question back; - leaves out the rest of this part (an entry, "
     "or "
     "all under the heading; of a list, that there are no more); -- removes the answer, "
     "--- the whole entry; ? explains more, and asks what is seldom needed too; ! or the end of "
     "the "
     "input stops. An answer that cannot be taken is asked "
     "again.\n\n"
     "The file holds every answer as soon as it is given; lemel ask JOB goes on where it stopped. "
     "After the last question the job is run: settings that the house lacks are asked, points to "
     "confirm are shown, and the sheet is printed.\n\n"
     "Only a job that lemel ask made is filled in like this. In any other, name what to ask with "
     "PATH, such as given.wax: that is put in, and all else stays as it is."},
    {"close",
     "JOB [NAME=VALUE ...]",
     "the end of a job: the invoice and the rest of the client's metal",
     lml_cmd_close,
     {"lemel close jobs/cuff-links.json", "lemel close jobs/cuff-links.json --sheet client"},
     "The job's \"closing\", or NAME=VALUE, gives the date of the invoice and whatever is in "
     "neither "
     "the offer nor the record; without a \"closing\" the invoice is dated today, or as date=DAY "
     "says. Lines, credit, deposit, metal price and agreements come from the accepted "
     "offer, the weighings from the record. It uses the recipe closing, or the one that "
     "\"closing\" names. NAME=VALUE sets what that recipe asks for or allows.\n\n"
     "It prints the invoice and the account of the metal; otherwise output and exit status are as "
     "with lemel run."},
    {"batch",
     "JOB ...",
     "run many jobs at once",
     lml_cmd_batch,
     {"lemel batch jobs > results.jsonl", "lemel batch - < jobs.jsonl > results.jsonl"},
     "JOB is a job file or a folder of them. With - each line of standard input is a job. Each "
     "result is one line of JSON, in the order of the jobs; a job that fails gives a line with "
     "\"error\" instead, and the rest go on. With --keep the results are also saved in that "
     "FOLDER, for compare.\n\n"
     "The exit status is 65 if a job failed, otherwise 1 if a rule stopped something in one."},
    {"compare",
     "OLD NEW JOB ...",
     "what a changed rule does to past jobs",
     lml_cmd_compare,
     {"lemel compare quote my/quote.lua jobs --within \"0.1 %\"",
      "lemel compare old/remake.lua remake jobs/cuff-links.json"},
     "OLD and NEW are recipes, by name or as files. The name of OLD says which recipe both stand "
     "for: each JOB is run twice, with OLD and then with NEW under that name, whether the job "
     "names that recipe itself or a recipe that uses it. JOB is a job file or a folder of them. "
     "Results that batch --keep FOLDER saved for the same jobs are reused with --keep FOLDER.\n\n"
     "Differences are printed, the largest change first, with the sums over all jobs and the jobs "
     "that now stop or no longer stop. The exit status is 1 if a figure moved by more than "
     "--within or a job ends differently, 65 if a job failed."},
    {"learn",
     "ALLOWANCE JOB ... [NAME=VALUE ...]",
     "what recorded jobs say about an allowance",
     lml_cmd_learn,
     {"lemel learn need.history jobs was=\"105 %\"", "lemel learn melt_loss jobs/*.json"},
     "JOB is a job file or a folder of them. Each is run, and what was recorded is compared with "
     "what was expected: need.history (the metal that a charge used), melt_loss, or seated.A (the "
     "gauge with flask A). The recipe learn gives the mean, what is enough for the next job, what "
     "differs, and the line for house.json. NAME=VALUE sets what it asks for: was, the figure the "
     "house has now, and purpose.\n\n"
     "A job that says nothing about the allowance, or cannot be run, is left out and named. A job "
     "whose record has an entry called misrun, mixed or estimated is not used."},
    {"book",
     "JOB ...",
     "the metal in the safe: whose it is, and where",
     lml_cmd_book,
     {"lemel book jobs", "lemel book jobs --at 2026-11-30"},
     "JOB is a job file or a folder of them. Their records are added up by owner and metal: what "
     "is here, lot by lot, in grams and fine grams, what is at a refiner, and what was not "
     "weighed since, with where it was weighed last. With --at nothing later than that moment "
     "counts. No job is run, and no file is changed.\n\n"
     "An entry whose from names what it was taken out of (from=\"button\", or from=\"red-ring: "
     "button\" for another job) is deducted there. Metal of the owner client belongs to one job; "
     "a named owner has one account over all jobs. A weighing that is in two files is counted "
     "once.\n\n"
     "The exit status is 1 if the records cannot be right: more is taken than there is, or from "
     "something no job has."},
    {"check",
     "TARGET ...",
     "read and check, without running",
     lml_cmd_check,
     {"lemel check jobs/cuff-links.json", "lemel check jobs/*.json recipes/need.lua"},
     "Each TARGET is a job file, house.json, prices.json or a recipe. All faults are listed at "
     "once, one TARGET after the other; with a job, its settings and prices are checked too.\n\n"
     "A recipe also gets advice, which changes nothing: on an ask or an allowance that is never "
     "read, a give that is never set, a value compared with a bare number, a figure without a "
     "source, a missing proof. With --strict the exit status is then 1."},
    {"prove",
     "[RECIPE ...]",
     "run the recipes' own proofs",
     lml_cmd_prove,
     {"lemel prove", "lemel prove need recipes/quote.lua"},
     "A proof is a worked example that a recipe carries and must reproduce. Without a RECIPE all "
     "available recipes are proved. Recipes that come with lemel are proved with lemel's own "
     "rules; lemel then says which of their proofs the house's rules change. --reach lists the "
     "lines of a recipe, and its stops and points to confirm, that none of its proofs cover, and "
     "then "
     "the lines of scripts: all of them, or with a RECIPE the studio's own that it requires. The "
     "exit status is 1 if a proof failed."},
    {"reckon",
     "EXPRESSION [as UNIT]",
     "one calculation, with units",
     lml_cmd_reckon,
     {"lemel reckon \"1 ozt\" as g", "lemel reckon 'Q\"2 dwt\" + Q\"1 g\"'"},
     "EXPRESSION is a value, or a calculation with values in Lua. The result is in the unit of "
     "the first value unless `as` names another."},
    {"recipes",
     "[--rules [POINT ...]]",
     "the available recipes and house rules",
     lml_cmd_recipes,
     {"lemel recipes", "lemel recipes --rules hours"},
     "The studio's own recipes are in the folder recipes/ beside house.json; one with the name of "
     "a recipe that comes with lemel replaces it. So does a house rule, "
     "recipes/rule_POINT.lua.\n\n"
     "--rules shows for each rule point, or for those named, what a rule is given and what it "
     "answers."},
    {"inspect",
     "RECIPE",
     "what it asks, allows, gives, uses; its digest; its proofs",
     lml_cmd_inspect,
     {"lemel inspect need", "lemel inspect recipes/quote.lua --format json"},
     "Nothing is run: this is what the recipe says about itself. For a recipe that asks for much, "
     "only what a job must give is shown, with the names of the rest; --all lists every ask, and "
     "every allowance of the recipe and of the recipes it uses."},
    {"record",
     "JOB WHAT [READING] [NAME=VALUE ...] | JOB --all BOX=READING ...",
     "enter what was weighed or measured in a job file",
     lml_cmd_record,
     {"lemel record jobs/cuff-links.json \"raw casting\" \"31.02 g\"",
      "lemel record jobs/cuff-links.json --all \"flask=540 °C\" \"flask held=65 min\" "
      "\"metal=960 °C\" --at now"},
     "WHAT is the name on the bench sheet. The kind of a READING says what was measured; if the "
     "sheet shows it in another unit, the answer gives both. Owner and fineness of a mass are "
     "taken from the sheet unless NAME=VALUE gives others. NAME is mass, fineness, assay, way, "
     "from, owner, origin, length, volume, temperature, time, vacuum, current, count, by or note. "
     "Without --at the time is now.\n\n"
     "A mass with a way (in, added, piece, returned, kept, settled, sent, here) counts in the "
     "metal "
     "account; without one it is only a measurement. from names what it was taken out of: button, "
     "or red-ring: button for another job. A WHAT that no box on the job's sheets has is "
     "recorded, with a remark.\n\n"
     "With --all each argument is a box and its reading: all are recorded at the same time, or "
     "none. A name that no box has, or that two boxes share, and a reading of the wrong kind are "
     "refused. A mass of more than one and a half times what the sheet prints or was weighed "
     "before, or of less than two thirds, is refused unless --anyway is given.\n\n"
     "The entry is put in where its moment belongs, and every other byte of the file stays as it "
     "is: what was forgotten can be recorded later, with --at. Of two entries of one name the "
     "later moment counts. A moment in the future or more than a year from the job's date is "
     "refused unless --anyway is given, and one before the metal was handed over in any case."},
    {"confirm",
     "JOB RECIPE/CODE [NAME=VALUE ...] --by WHO --reason WHY [--all --until DATE]",
     "enter a decision in a job file",
     lml_cmd_confirm,
     {"lemel confirm jobs/cuff-links.json charge/old-metal-share --by O.F. --reason \"told of "
      "porosity\"",
      "lemel confirm jobs/cuff-links.json mark/row-from-memory --all --until 2027-12-31 --by O.F. "
      "--reason \"asked the assay office\""},
     "The job is run, and the point with that code is entered under `confirmed` word for word, as "
     "its sheet shows it. If its text, or any figure in it, changes later, the point is open "
     "again. NAME=VALUE is for a job that was run, or closed, with settings on the command "
     "line.\n\n"
     "Every other byte of the file stays as it is. A confirmation that no longer holds is "
     "replaced by the new one."},
    {"offer",
     "JOB [--accepted | --not-accepted | --withdrawn]",
     "enter an offer to the client in a job file",
     lml_cmd_offer,
     {"lemel offer jobs/cuff-links.json --by O.F.",
      "lemel offer jobs/cuff-links.json --accepted --by \"T. Merrowick\" --paid deposit"},
     "The job is run, and what its recipe promises is entered in the job: lines, price, deposit, "
     "the metal price with its date, how long the offer holds, and the digests of recipes, rules, "
     "settings, house and prices. No offer is made while there is a stop or an unconfirmed "
     "point.\n\n"
     "From then on deposit, invoice and closing use the offer; a later price or rule changes the "
     "cost sheet, not the promise. --accepted says who accepted it, --withdrawn with --reason who "
     "withdrew it; --at says when (default: now). A new offer replaces one that is open. An offer "
     "that has expired, or whose job has changed since, is accepted only with --anyway and a "
     "--reason. Offers are only added; one that was changed by hand is refused, because its "
     "digest no longer matches. After acceptance no new offer is made: a change is a variation "
     "that both sides sign. --not-accepted with --reason takes back an acceptance that was "
     "entered by mistake."},
    {"price",
     "METAL PRICE --at MOMENT --from WHO",
     "set a metal's price in the price list; the old price goes into its history",
     lml_cmd_price,
     {"lemel price Au \"2650.30 USD/ozt\" --at 2026-11-24T09:00 --from \"refiner, buying\"",
      "lemel price Pd \"36.00 USD/g\" --at now --from \"refiner, selling\""},
     "METAL is its symbol: Au, Ag, Pt, Pd. The list is prices.json of the studio, or the file "
     "named with --prices; it is written whole or not at all, and no price is lost. A price that "
     "is earlier than the current one, or in another currency, is refused, and so is one three "
     "times as high or a third as high, more than a year later, or of a moment in the future, "
     "unless --anyway is given."},
    {"new",
     "studio [NAME=VALUE ...] | job RECIPE NAME | recipe NAME | rule POINT | annotations",
     "a studio, a job, a recipe or a house rule to start from, or the words of recipes for an "
     "editor",
     lml_cmd_new,
     {"lemel new job remake cuff-links", "lemel new rule hours"},
     "A studio is a house.json in the current folder, jobs/example.json, an invented job to "
     "look at, and an empty folder recipes/. At a terminal each setting is asked, and the price of "
     "gold at the end; lemel ask "
     "house.json goes on where you stopped. With --quiet, or without a terminal, what NAME=VALUE "
     "does not set is left as an empty text, and lemel check house.json says for each how to write "
     "it.\n\n"
     "A job is written to jobs/NAME.json of the studio, with today's date, an empty text for "
     "everything its recipe needs or usually gets, in the order of the work, and the names of "
     "everything else in its notes. lemel check says for each how to write it.\n\n"
     "A recipe is written to recipes/NAME.lua of the studio, with comments on each line that may "
     "be changed and proofs that pass. An existing file or recipe of that name is left alone.\n\n"
     "A rule is written to recipes/rule_POINT.lua: what the point is given and answers, and "
     "lemel's own answer to change. lemel recipes --rules lists the points.\n\n"
     "annotations writes .lemel/words.lua and .luarc.json for editors with the Lua language "
     "server, which then know every word of recipes; and .luacheckrc for luacheck. --replace "
     "rewrites them."},
    {"adopt",
     "FILE|PACK",
     "add a recipe or a pack from elsewhere to the studio, once its proofs pass",
     lml_cmd_adopt,
     {"lemel adopt downloads/polish.lua", "lemel adopt downloads/bench_rules --merge"},
     "What it asks for, allows and gives is shown beside the recipe of the same name in the "
     "studio: what was added, is gone or was changed. It is copied into recipes/ whole or not at "
     "all; an existing one is replaced only with --replace. A recipe whose proofs fail, or that "
     "has none, is refused with status 1 unless --unproved is given.\n\n"
     "A PACK is a folder made by lemel pack: all of it is adopted, or nothing. It must be signed "
     "by someone in the studio's allowed_signers, or have the digest given with --digest, or be "
     "taken with --unsigned. Files changed here are merged with --merge, or replaced with "
     "--replace.\n\n"
     "recipes/proved.txt lists what was proved, by digest; lemel run says when a recipe is not in "
     "it."},
    {"pack",
     "FOLDER [NAME=VALUE ...]",
     "make a folder of recipes, rules and scripts into a pack for other studios",
     lml_cmd_pack,
     {"lemel pack bench_rules title=\"Rules of our bench\" version=1.0.0 licence=CC0-1.0",
      "lemel pack bench_rules version=1.1.0"},
     "FOLDER has recipes/, and optionally scripts/ and a page to read. pack.json is written into "
     "it: what the pack is, and the SHA-256 of every file. NAME is name, title, about, version or "
     "licence; what is not given stays as it was."},
    {"again",
     "RESULT [JOB] [NAME=VALUE ...]",
     "run the job of a saved result again, and say what differs and why",
     lml_cmd_again,
     {"lemel run jobs/cuff-links.json --format json -o result.json", "lemel again result.json"},
     "RESULT is the JSON printed by lemel run; it says which job, house, prices, recipes and "
     "scripts it came from. The job is found where it was, or named here; typed values are typed "
     "again. The exit status is 0 if every figure, sheet and remark is exactly the same, "
     "otherwise 1."},
    {"sure",
     "JOB [FIGURE ...] [NAME=VALUE ...]",
     "how far off the figures of a job may be, and why",
     lml_cmd_sure,
     {"lemel sure jobs/cuff-links.json price charge",
      "lemel sure jobs/cuff-links.json --draws 1000"},
     "The job is run again and again, each time with different values of whatever it, or the "
     "house, gives with a spread: \"12.4 g ± 0.1 g\" is a standard deviation, \"12.3..12.5 g\" "
     "anything between. For each FIGURE (all that the recipe gives, if none is named) lemel "
     "prints the likely value, its standard deviation, the range of 95 % of the runs, and which "
     "spreads cause it. Stops and open points are counted; a point that the job confirms counts "
     "as confirmed in each run.\n\n"
     "The runs end when more of them would not change anything that is printed (JCGM 101), at "
     "50,000 at the latest. The same job gives the same numbers, on every machine and with any "
     "--workers."},
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
     "what a figure becomes with another input, or which input gives a wanted figure",
     lml_cmd_what,
     {"lemel what jobs/cuff-links.json price by markup=\"10..30 %\"",
      "lemel what jobs/cuff-links.json price=\"1200 USD\" by rates.bench=\"50..90 USD/h\""},
     "The job is run with INPUT at some ten steps of its range, and the FIGURE of each run is "
     "printed, or what withholds it. With a WISH lemel searches the range for where the figure is "
     "that much: each such place is named, between two neighbouring steps of the input if the "
     "figure jumps past the wish, or that there is none. INPUT is named as on the command line of "
     "lemel run; it can also be what the house sets. A point that the job confirms counts as "
     "confirmed in each run. At most 200 runs."},
    {"schema",
     "job|house|prices|result|RECIPE",
     "the JSON Schema of a file, for editors and other programs",
     lml_cmd_schema,
     {"lemel schema house -o house.schema.json", "lemel schema need -o need.schema.json"},
     "The schema of a RECIPE is that of a job for it: its asks are under given, the allowances of "
     "it and of the recipes it uses under house. A file may name its schema under \"$schema\"."},
    {"alloys",
     "[WORD ...]",
     "the metals a job can name: the house's and lemel's",
     lml_cmd_alloys,
     {"lemel alloys", "lemel alloys yellow 14K"},
     "Each with its fineness, colour and melting range, the richest first. With a WORD only names "
     "that contain it; upper and lower case are the same."},
    {"units",
     "[UNIT]",
     "the known units, with their exact size and source",
     lml_cmd_units,
     {"lemel units", "lemel units ozt"},
     "A UNIT may be compound, such as g/cm3. A unit with two meanings is refused, and both are "
     "named."},
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
    lml_error_hint(err, "lemel --help lists the commands; a recipe is run with lemel run");
    return LML_USAGE;
}
