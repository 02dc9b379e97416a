. "$(dirname "$0")/../make_pack.sh"
mv mail/bench/recipes/polish.lua mail/bench/recipes/cast.lua && sums
adopt --unsigned
