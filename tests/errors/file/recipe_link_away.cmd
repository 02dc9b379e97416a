# The recipe is on a share that is away: lemel's own quote must not take its place.
ln -s /nowhere/quote.lua recipes/quote.lua
lemel run jobs/links.json
