. "$(dirname "$0")/../make_pack.sh"
lemel adopt -q mail/bench --unsigned
sed 's/level   = 1,/level = 1, uses = { "polish" },/' recipes/cast.lua >recipes/mine.lua
rm mail/bench/recipes/polish.lua
lemel pack -q mail/bench version=2.0.0
before=$(state)
adopt --unsigned
