. "$(dirname "$0")/../make_pack.sh"
sed -i "s/level = 1,/level = 1, uses = { \"buffing\" },/" mail/bench/recipes/polish.lua && sums
adopt --unsigned
