. "$(dirname "$0")/../make_pack.sh"
ulimit -f 1
adopt --unsigned
