. "$(dirname "$0")/../make_pack.sh"
adopt
