. "$(dirname "$0")/../make_pack.sh"
key lena trusted; sign lena; lemel pack -q mail/bench title="Another" 2>/dev/null
adopt --unsigned
