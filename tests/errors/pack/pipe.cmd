. "$(dirname "$0")/../make_pack.sh"
mkfifo mail/bench/recipes/wait.lua
adopt --unsigned
