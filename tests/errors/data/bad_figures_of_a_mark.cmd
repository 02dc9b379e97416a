. "$(dirname "$0")/bad.sh"
job=jobs/marked.json
figure='Mark  '
cat >$job <<'JOB'
{ "recipe": "mark", "date": "2026-01-10", "given": { "mark": "750", "destination": "UK", "body": "10 g", "body_fineness": "760 ‰ Au ± 1 ‰ Au" } }
JOB
# mark WHAT NAME=VALUE ...: 750 for the United Kingdom on 10 g at 760, but for what is named here
mark() { try "$@"; }
mark sound
mark 'body zero' body='0 g'
mark 'body negative' body='-10 g'
mark 'body a thousandfold' body='10000 g'
mark 'body in carats' body='50 ct'
mark 'body in ounces' body='0.32 ozt'
mark 'body a length' body='10 mm'
mark 'body bare' body=10
job=mark
mark 'body missing' mark=750 destination=UK body_fineness='760 ‰ Au'
mark 'fineness missing' mark=750 destination=UK body='10 g'
mark 'body twice' destination=UK body='10 g' body='11 g' body_fineness='760 ‰ Au'
job=jobs/marked.json
mark 'fineness zero' body_fineness='0 ‰ Au'
mark 'fineness negative' body_fineness='-5 ‰ Au'
mark 'fineness a thousandfold' body_fineness='760000 ‰ Au'
mark 'fineness of one' body_fineness=0.76
mark 'fineness in karats' body_fineness='18 kt'
mark 'fineness hardly known' body_fineness='760 ‰ Au ± 300 ‰ Au'
mark 'fineness of silver' body_fineness='925 ‰ Ag'
mark 'fineness of copper' body_fineness='900 ‰ Cu'
mark 'solder without its fineness' solder='0.2 g'
mark 'solder zero' solder='0 g'
mark 'solder negative' solder='-0.2 g' solder_fineness='755 ‰ Au'
mark 'solder a thousandfold' solder='200 g' solder_fineness='755 ‰ Au' article_mass='11 g'
mark 'solder in carats' solder='1 ct' solder_fineness='755 ‰ Au'
mark 'solder of silver' solder='0.2 g' solder_fineness='650 ‰ Ag'
mark 'solder of copper' solder='0.2 g' solder_fineness='900 ‰ Cu'
mark 'a part of nothing' parts='[{ "what": "T-bars", "mass": "0 g", "fineness": "760 ‰" }]'
mark 'a part in carats' parts='[{ "what": "T-bars", "mass": "5 ct", "fineness": "760 ‰" }]'
mark 'a part too poor' parts='[{ "what": "T-bars", "mass": "1 g", "fineness": "585 ‰" }]'
mark 'a part without a fineness' parts='[{ "what": "T-bars", "mass": "1 g" }]'
mark 'a part of steel' parts='[{ "what": "pin", "mass": "1 g", "fineness": "900 ‰ Fe" }]'
mark 'two marks wanted on one metal' parts='[{ "what": "bezel", "mass": "1 g", "fineness": "930 ‰ Ag", "mark": "925" },
    { "what": "claws", "mass": "1 g", "fineness": "810 ‰ Ag", "mark": "800" }]'
mark 'a mark wanted on a part of the body' parts='[{ "what": "bezel", "mass": "1 g", "fineness": "760 ‰", "mark": "585" }]'
mark 'a part of silver' parts='[{ "what": "back", "mass": "8 g", "fineness": "930 ‰ Ag" }]'
mark 'a silver back among base metal' other='[{ "what": "silver back", "mass": "8 g" }]'
mark 'a pin of nothing' other='[{ "what": "steel pin", "mass": "0 g" }]'
mark 'a pin in carats' other='[{ "what": "steel pin", "mass": "1 ct" }]'
mark 'total zero' article_mass='0 g'
mark 'total of the metal alone' article_mass='10 g'
mark 'total below its metal' article_mass='9.99 g'
mark 'total a thousandfold' article_mass='10000 g'
mark 'mark zero' mark=0
mark 'mark of karats without K' mark=18
mark 'mark of one' mark=0.75
mark 'mark of platinum' mark=950
mark 'mark in karats' mark=18K
mark 'mark twice' mark='585 750'
mark 'mark empty' mark=
mark 'place unknown' destination=Atlantis
mark 'two places' destination='UK, US'
mark 'place by another name' destination=scotland
mark 'date of another century' date=1800-01-01
mark 'date to come' date=3026-01-01
mark 'date of no month' date=2026-13-01
mark 'sold after the day' destination=US date=2026-04-01 sold=2027-04-01
mark 'chance negative' chance_below_mark='-1 %'
mark 'chance a thousandfold' chance_below_mark='5000 %'
mark 'spread a thousandfold' assay_spread='1000 ‰'
