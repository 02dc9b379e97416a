. "$(dirname "$0")/../make_pack.sh"
lemel adopt -q mail/bench --unsigned; before=$(state); sed -i "s/Time to polish/Time at the wheel/" mail/bench/recipes/polish.lua; sums
adopt --unsigned
