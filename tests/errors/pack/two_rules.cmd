. "$(dirname "$0")/../make_pack.sh"
lemel new rule hours -q; before=$(state)
adopt --unsigned
