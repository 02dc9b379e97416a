# A button in another unit than the sheet's, read in dwt for g: it is a part of its tree.
examples=$(dirname "$0")/../../../examples
cp "$examples/house.json" "$examples/prices.json" .
cp "$examples/jobs/cuff-links.json" links.json
lemel record links.json tree "28.58 g" --at 2026-11-27T14:50 -q
lemel record links.json button "18.4 dwt" --at 2026-11-27T15:00
lemel record links.json button "28.61 g" --at 2026-11-27T15:00
