. "$(dirname "$0")/../make_pack.sh"
lemel adopt -q mail/bench --unsigned; sed -i "s/two minutes/2 minutes/" recipes/polish.lua; before=$(state); sed -i "s/5 times 2/2 times 5/" mail/bench/recipes/polish.lua; lemel pack -q mail/bench version=1.1.0
adopt --unsigned --merge
