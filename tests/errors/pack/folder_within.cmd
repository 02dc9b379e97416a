. "$(dirname "$0")/../make_pack.sh"
mkdir mail/bench/jobs
adopt --unsigned
