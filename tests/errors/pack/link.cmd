. "$(dirname "$0")/../make_pack.sh"
ln -s /etc/hostname mail/bench/recipes/host.lua
adopt --unsigned
