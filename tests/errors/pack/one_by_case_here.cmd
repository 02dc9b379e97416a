. "$(dirname "$0")/../make_pack.sh"
mv mail/bench/recipes/polish.lua mail/bench/recipes/Cast.lua && sums
adopt --unsigned
