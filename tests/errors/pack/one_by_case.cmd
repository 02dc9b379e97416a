. "$(dirname "$0")/../make_pack.sh"
sed "s/5 g/6 g/; s/10 min/12 min/" mail/bench/recipes/polish.lua > mail/bench/recipes/Polish.lua
adopt --unsigned
