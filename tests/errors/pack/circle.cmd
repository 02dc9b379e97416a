. "$(dirname "$0")/../make_pack.sh"
sed "s/level = 1,/level = 1, uses = { \"bead\" },/" mail/bench/recipes/polish.lua > mail/polish && sed "s/level = 1,/level = 1, uses = { \"polish\" },/" mail/bench/recipes/polish.lua > mail/bench/recipes/bead.lua && mv mail/polish mail/bench/recipes/polish.lua && sums
adopt --unsigned
