. "$(dirname "$0")/../make_pack.sh"
head -c 1100000 /dev/zero > mail/bench/READ.txt
adopt --unsigned
