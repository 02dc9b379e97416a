. "$(dirname "$0")/../make_pack.sh"
echo >> mail/bench/recipes/polish.lua
adopt --unsigned
