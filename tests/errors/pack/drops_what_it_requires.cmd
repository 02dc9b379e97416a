. "$(dirname "$0")/../make_pack.sh"
lemel adopt -q mail/bench --unsigned
rm mail/bench/scripts/bench_tables.lua
lemel pack -q mail/bench version=2.0.0
before=$(state)
adopt --unsigned
