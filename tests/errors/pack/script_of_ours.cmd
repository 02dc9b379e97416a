. "$(dirname "$0")/../make_pack.sh"
mv mail/bench/scripts/bench_tables.lua mail/bench/scripts/gates.lua && sums
adopt --unsigned
