. "$(dirname "$0")/../make_pack.sh"
rm mail/bench/pack.json
adopt --unsigned
