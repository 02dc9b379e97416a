. "$(dirname "$0")/../make_pack.sh"
sed -i "s|\"recipes/polish|\"/recipes/polish|" mail/bench/pack.json
adopt --unsigned
