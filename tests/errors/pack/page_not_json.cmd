. "$(dirname "$0")/../make_pack.sh"
echo "{" > mail/bench/pack.json
adopt --unsigned
