# The readings hold for ten minutes: at the last of them it is poured, a minute later no more.
examples=$(dirname "$0")/../../../examples
cp "$examples/house.json" "$examples/prices.json" .
cp "$examples/jobs/cuff-links.json" links.json
for w in "ring A=13.651 g" "ring B=3.749 g" "14K grain=10.469 g" "fine gold=1.132 g"; do lemel record links.json "weighed ${w%=*}" "${w#*=}" --at 2026-11-27T08:30 -q; done
lemel record links.json lit --at 2026-11-27T13:19 -q
lemel record links.json --all "flask=580 °C" "flask held=65 min" "metal=950 °C" "blanked=21.3 inHg vac" "blanked after=21.3 inHg vac" "gauge=18.3 inHg vac" --at 2026-11-27T13:56 -q
lemel record links.json poured --at 2026-11-27T14:07
lemel record links.json poured --at 2026-11-27T14:06 -q
