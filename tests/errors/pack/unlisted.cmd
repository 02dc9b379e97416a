. "$(dirname "$0")/../make_pack.sh"
echo hello > mail/bench/READ.txt
adopt --unsigned
