# What a box counts in the metal account needs the fineness that a stop withholds.
sed -i 's/^    sheet.client:line/    sheet.bench:measure("Lump", charge, { record = "lump", way = "here", way_owner = "client", fineness = Q "585 ‰ Au" * charge \/ charge, of = "charge" })\n    sheet:stop("odd", "The lump is odd")\n&/' recipes/cast.lua; lemel prove -q cast >/dev/null 2>&1
lemel record jobs/links.json lump "30 g" --at 2026-11-27T09:00; lemel record jobs/links.json --all "lump=30 g" --at 2026-11-27T09:00; lemel record jobs/links.json lump "30 g" fineness="585 ‰" --at 2026-11-27T09:00
