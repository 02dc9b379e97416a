. "$(dirname "$0")/../make_pack.sh"
mkdir -p mail/bench/recipes; (cd mail/bench/recipes && seq 10000 | sed "s/.*/r&.lua/" | xargs touch)
adopt --unsigned
