# The charge is not weighed out. What was done all the same is recorded with --anyway, and the gate is told then too.
examples=$(dirname "$0")/../../../examples
cp "$examples/house.json" "$examples/prices.json" .
cp "$examples/jobs/cuff-links.json" links.json
lemel record links.json "weighed ring A" "13.651 g" --at 2026-11-27T08:30 -q
lemel record links.json lit --at 2026-11-27T13:00
lemel record links.json lit --at 2026-11-27T13:00 --anyway -q
