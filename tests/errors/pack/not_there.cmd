. "$(dirname "$0")/../make_pack.sh"
rm mail/bench/recipes/polish.lua
adopt --unsigned
