# Nothing is weighed out or read: the gate is shut, and what is done all the same is told.
examples=$(dirname "$0")/../../../examples
cp "$examples/house.json" "$examples/prices.json" .
cp "$examples/jobs/cuff-links.json" links.json
lemel record links.json "ring A" "13.651 g" --at 2026-11-24T11:00 -q
lemel record links.json lit --at 2026-11-27T13:00
lemel record links.json poured --at 2026-11-27T13:00
lemel record links.json lit --at 2026-11-27T13:00 --anyway -q
