. "$(dirname "$0")/../make_pack.sh"
lemel adopt -q mail/bench --unsigned
sed 's/^return recipe/local bench = require("bench_tables")\nreturn recipe/' recipes/cast.lua >recipes/mine.lua
rm mail/bench/scripts/bench_tables.lua mail/bench/recipes/rule_hours.lua
lemel pack -q mail/bench version=2.0.0
before=$(state)
adopt --unsigned
