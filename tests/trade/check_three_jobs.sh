#!/bin/sh
# Three jobs from the receipt to the closing, in a studio of their own: sterling forks to a brooch, a red 14 kt ring from yellow
# scrap, a white 18 kt band with the client's palladium. One file each; the price moves between offer and closing; the book is
# added up before, between and after, and once what goes to the studio is entered. Every figure that the client and the metal account are told is reckoned again by
# three_jobs.py, which shares nothing with lemel.   check_three_jobs.sh PATH-OF-LEMEL
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 0; }
here=$(cd "$(dirname "$0")" && pwd)
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
studio=$(mktemp -d) || exit 70
trap 'rm -rf "$studio"' EXIT
cp "$here/../../examples/house.json" "$studio" && cd "$studio" || exit 70
mkdir jobs said
export LEMEL_NOW=2026-12-03T12:00
fail() { echo "three jobs: $*"; exit 1; }
quietly() { "$lemel" "$@" -q >said/last 2>&1 || { cat said/last; fail "lemel $*"; }; }

cat >prices.json <<'J'
{ "prices": {
  "Au": { "price": "97.20 USD/g", "at": "2026-11-24T08:30", "from": "invented" },
  "Ag": { "price": "1.12 USD/g", "at": "2026-11-24T08:30", "from": "invented" },
  "Pd": { "price": "34.00 USD/g", "at": "2026-11-24T08:30", "from": "invented" } } }
J
cat >jobs/brooch.json <<'J'
{ "recipe": "remake", "title": "A brooch out of five forks", "client": "Thora Wick", "date": "2026-11-24T10:00",
  "given": {
    "piece": "A brooch in sterling silver",
    "old_metal": [ { "name": "forks", "stamp": "STERLING", "gross": "96.30 g", "wish": "melt", "consent": true, "cadmium": "none found",
                     "tests": [{ "method": "xrf cut", "found": { "Ag": "924 ‰ ± 4 ‰", "Cu": "76 ‰" } }] },
                   { "name": "tray", "stamp": "EPNS", "gross": "310 g", "wish": "return" } ],
    "metal": "Ag925 sterling", "wax": "1.60 g", "sprues": "0.35 g", "wish": "35.0 g",
    "lots": [ { "name": "fine silver", "metal": "Ag999 fine", "price": "1.32 USD/g" },
              { "name": "sterling grain", "metal": "Ag925 sterling", "price": "1.27 USD/g" } ],
    "target": "930 ‰ Ag", "mark": "sterling", "tree": { "diameter": "42 mm", "height": "38 mm", "foot": "9 mm", "wax": "1.95 g" }, "pour": "2026-11-27T14:00",
    "finished": "15.40 g", "policy": "own metal", "client_metal": "worked",
    "button_to": "client",
    "hours": { "wax": "2 h", "cast": "1 h", "finish": "2.5 h" }, "consumables": "5.00 USD", "flask_cost": { "cost": "17.00 USD" } },
  "house": { "button": "13 g",
    "crucibles": [{ "name": "silver", "material": "graphite", "mass": "300 g", "rating": "100 g", "rated_in": "fine gold", "allowed": ["silver"] }],
    "furnaces": [{ "name": "tabletop", "power": "1500 W", "efficiency": "60 %", "most": "1150 °C", "stores": "1020 kJ", "crucibles": ["silver"] }] },
  "closing": { "date": "2026-12-02", "given": { "surplus": "returned" } } }
J
cat >jobs/ring.json <<'J'
{ "recipe": "remake", "title": "A red ring out of a yellow chain", "client": "Corin Asple", "date": "2026-11-24T10:00",
  "given": {
    "piece": "A ring in 14 kt red",
    "old_metal": [ { "name": "chain", "stamp": "585", "seen": "yellow chain", "gross": "19.80 g", "wish": "melt", "consent": true, "cadmium": "none found",
                     "tests": [{ "method": "xrf button", "found": { "Au": "583 ‰ ± 3 ‰", "Ag": "205 ‰", "Cu": "212 ‰" } }] } ],
    "metal": { "composition": { "Au": "585 ‰", "Ag": "90 ‰", "Cu": "325 ‰" }, "density": "13.20 g/cm3", "source": "named red in a list after ISO 8654:1987" },
    "wax": "0.70 g", "sprues": "0.30 g", "wish": "25.0 g",
    "lots": [ { "name": "fine gold", "metal": "fine gold", "price": "99.15 USD/g" }, { "name": "copper", "metal": "Cu fine", "price": "0.02 USD/g" } ],
    "target": "588 ‰", "mark": "14K", "tree": { "diameter": "42 mm", "height": "38 mm", "foot": "9 mm", "wax": "1.00 g" }, "pour": "2026-11-27T14:00",
    "finished": "8.10 g", "policy": "own metal", "client_metal": "worked", "button_to": "studio",
    "hours": { "wax": "2 h", "cast": "1.5 h", "finish": "2 h" }, "consumables": "4.00 USD", "flask_cost": { "cost": "16.00 USD" } },
  "house": { "button": "10 g" },
  "closing": { "date": "2026-12-02", "given": { "surplus": "returned", "return_fineness": "583 ‰" } } }
J
cat >jobs/band.json <<'J'
{ "recipe": "remake", "title": "A white band with palladium of the client's", "client": "Ishbel Rook", "date": "2026-11-24T10:00",
  "given": {
    "piece": "A band in 18 kt palladium white", "nickel_free": true,
    "old_metal": [ { "name": "grey ring", "stamp": "950 PALLADIUM", "gross": "7.10 g", "seen": "plain grey ring", "wish": "melt", "consent": true,
                     "cadmium": "none found", "tests": [{ "method": "xrf cut", "found": { "Pd": "949 ‰ ± 5 ‰", "Ru": "51 ‰" } }] } ],
    "metal": { "composition": { "Au": "750 ‰", "Pd": "150 ‰", "Ag": "100 ‰" }, "density": "16.37 g/cm3", "solidus": "1160 °C", "liquidus": "1220 °C", "source": "supplier's sheet" },
    "wax": "0.48 g", "sprues": "0.25 g", "wish": "22.0 g",
    "lots": [ { "name": "fine gold", "metal": "fine gold", "price": "99.15 USD/g" }, { "name": "fine silver", "metal": "Ag999 fine", "price": "1.32 USD/g" } ],
    "target": "752 ‰", "mark": "18K", "mould": "phosphate", "tree": { "diameter": "36 mm", "height": "34 mm", "foot": "9 mm", "wax": "0.73 g" },
    "slurry_temperature": "17 °C", "pour": "2026-11-28T14:00", "finished": "7.30 g", "policy": "cost and profit", "client_metal": "worked",
    "hours": { "wax": "2 h", "cast": "2 h", "finish": "2.5 h" }, "consumables": "6.00 USD", "flask_cost": { "cost": "24.00 USD" } },
  "house": { "button": "8 g",
    "phosphate_burnout": { "steps": [{ "to": "260 °C", "rate": "4 Δ°C/min", "hold": "60 min" }, { "to": "900 °C", "rate": "3 Δ°C/min", "hold": "60 min" }] } },
  "closing": { "date": "2026-12-02", "given": { "surplus": "returned", "return_fineness": "949 ‰ Pd" } } }
J

# ---- the receipt, the offer, what was brought -------------------------------------------------------------------

for job in brooch ring band; do
    quietly run jobs/$job.json --format json -o said/$job-quote.json
    quietly offer jobs/$job.json --by O.F. --at 2026-11-24T10:15
    quietly offer jobs/$job.json --accepted --by "the client" --paid deposit --at 2026-11-24T10:40
done
weighed() { # JOB MOMENT WHAT MASS FINENESS OWNER WAY ASSAY [WORD]
    quietly record jobs/$1.json "$3" "mass=$4" "fineness=$5" "owner=$6" "way=$7" "assay=$8" --at "$2" ${9:+"$9"}
}
weighed brooch 2026-11-24T10:50 forks '96.30 g' '924 ‰ Ag ± 4 ‰ Ag' client in 'the forks'
weighed ring 2026-11-24T10:51 chain '19.80 g' '583 ‰ ± 3 ‰' client in 'the chain'
weighed band 2026-11-24T10:52 'grey ring' '7.10 g' '949 ‰ Pd ± 5 ‰ Pd' client in 'the ring'
quietly book jobs --format json -o said/book-before.json

# ---- weighed out and poured ---------------------------------------------------------------------------------------

weight() { quietly record jobs/$1.json "$3" "mass=$4" --at "$2"; } # of no account: JOB MOMENT WHAT MASS
weight brooch 2026-11-27T08:29 'weighed forks' '21.00 g'
weighed brooch 2026-11-27T08:30 'rest of the forks' '75.30 g' '924 ‰ Ag ± 4 ‰ Ag' client here 'the forks'
weighed brooch 2026-11-27T08:32 'weighed sterling grain' '11.35 g' '925 ‰ Ag ± 1 ‰ Ag' client added "supplier's sheet"
weighed brooch 2026-11-27T08:34 'weighed fine silver' '2.65 g' '999 ‰ Ag ± 0.2 ‰ Ag' client added "refiner's bar"
weight ring 2026-11-27T08:39 'weighed chain' '15.00 g'
weighed ring 2026-11-27T08:40 'rest of the chain' '4.80 g' '583 ‰ ± 3 ‰' client here 'the chain'
weighed ring 2026-11-27T08:42 'weighed fine gold' '5.956 g' '999.9 ‰ ± 0.1 ‰' client added "refiner's bar"
weight ring 2026-11-27T08:44 'weighed copper' '4.044 g'
weight band 2026-11-27T08:49 'weighed grey ring' '3.246 g'
weighed band 2026-11-27T08:50 'rest of the grey ring' '3.854 g' '949 ‰ Pd ± 5 ‰ Pd' client here 'the ring'
weighed band 2026-11-27T08:52 'weighed fine gold' '16.546 g' '999.9 ‰ ± 0.1 ‰' studio in "refiner's bar"
weight band 2026-11-27T08:54 'weighed fine silver' '2.208 g'
quietly book jobs --at 2026-11-27T09:00 --format json -o said/book-between.json

for job in brooch ring band; do quietly record jobs/$job.json poured --at 2026-11-28T14:10 --anyway; done

# ---- finished, and what is left of it -------------------------------------------------------------------------------

weighed brooch 2026-11-30T16:00 filings '1.00 g' '921 ‰ Ag ± 5 ‰ Ag' client here 'the filings'
weighed brooch 2026-11-30T16:05 brooch '15.40 g' '930 ‰ Ag ± 2 ‰ Ag' client piece 'the melt'
cp jobs/brooch.json said/uncut.json # its button is handed over whole, with the studio's silver in it
weighed brooch 2026-11-30T16:10 'button and sprues, as much of it as the studio put in' '14.136 g' '930 ‰ Ag ± 2 ‰ Ag' client kept 'the melt'
weighed brooch 2026-11-30T16:11 'button and sprues, the rest' '4.114 g' '930 ‰ Ag ± 2 ‰ Ag' client here 'the melt'
quietly record said/uncut.json 'button and sprues' mass='18.25 g' fineness='930 ‰ Ag ± 2 ‰ Ag' owner=client way=here assay='the melt' --at 2026-11-30T16:10
weighed ring 2026-11-30T16:20 filings '0.70 g' '581 ‰ ± 5 ‰' client here 'the filings'
weighed ring 2026-11-30T16:25 ring '8.10 g' '588 ‰ ± 1 ‰' client piece 'the melt'
weighed ring 2026-11-30T16:30 'button and sprues' '15.90 g' '588 ‰ ± 1 ‰' client here 'the melt'
weighed band 2026-11-30T16:40 filings '0.65 g' '139 ‰ Pd ± 3 ‰ Pd' client here 'the filings'
weighed band 2026-11-30T16:45 band '7.30 g' '140 ‰ Pd ± 1 ‰ Pd' client piece 'the melt'
weighed band 2026-11-30T16:50 'button and sprues' '13.90 g' '140 ‰ Pd ± 1 ‰ Pd' client here 'the melt'
weighed band 2026-11-30T16:55 'filings, their gold' '0.65 g' '746 ‰ ± 3 ‰' studio here "the filings' button"
weighed band 2026-11-30T16:56 'band, its gold' '7.30 g' '752 ‰ ± 1 ‰' studio piece 'the melt'
weighed band 2026-11-30T16:57 'button and sprues, their gold' '13.90 g' '752 ‰ ± 1 ‰' studio here 'the melt'

# ---- gold goes up, silver down; fetched and closed ------------------------------------------------------------------

quietly price Au '101.90 USD/g' --at 2026-12-02T08:30 --from invented
quietly price Ag '1.05 USD/g' --at 2026-12-02T08:30 --from invented
quietly price Pd '35.50 USD/g' --at 2026-12-02T08:30 --from invented
# silver of the studio's that goes out with the button is not given away unsaid: it is charged, or left to the client by name
if "$lemel" close said/uncut.json -q >said/last 2>&1; then fail "the brooch: the studio's silver goes out with the button, and nothing says so"; fi
grep -q studio-metal said/last || { cat said/last; fail "the brooch: stopped, but not for the studio's silver"; }
for how in charged given; do
    sed "s/\"surplus\": \"returned\"/&, \"studio_metal\": \"$how\"/" said/uncut.json >said/last && cp said/last said/$how.json
    quietly close said/$how.json --format json -o said/brooch-$how.json
done
# most of the palladium is in the button, which is the studio's by its gold: as much is handed back out of other metal
quietly confirm jobs/band.json closing/return-mass --by O.F. --reason "out of the studio's palladium"
for job in brooch ring band; do
    quietly close jobs/$job.json --format json -o said/$job-close.json
    quietly run jobs/$job.json --format json -o said/$job-today.json
done
quietly book jobs --format json -o said/book-after.json

# ---- what goes to the studio, and what is handed back: what the closing gives is typed ---------------------------------

for job in brooch ring band; do
    "$lemel" close jobs/$job.json --sheet client 2>&1 >/dev/null | sed -n 's/^ *lemel record //p' >said/settle-$job
    for way in settled returned; do
        grep "way=$way" said/settle-$job >said/$way-$job || fail "$job: no command has the way $way"
    done
    while read -r words; do
        eval "quietly record $words --at 2026-12-02T12:00"
    done <said/settled-$job
    quietly close jobs/$job.json --format json -o said/$job-settled.json
done
quietly book jobs --format json -o said/book-settled.json
for job in brooch ring band; do
    while read -r words; do
        eval "quietly record $words --at 2026-12-02T12:30"
    done <said/returned-$job
    "$lemel" close jobs/$job.json --sheet client 2>&1 >/dev/null | grep record && fail "$job: all is handed back, and there is more to record"
    quietly check jobs/$job.json
done
quietly book jobs --format json -o said/book-back.json
[ -z "$SAVE" ] || cp -R "$studio/." "$SAVE" # to look at what was said
python3 "$here/three_jobs.py" "$studio"
