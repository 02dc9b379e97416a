. "$(dirname "$0")/../make_pack.sh"
lemel pack -q mail/bench version=1.10.0; lemel adopt -q mail/bench --unsigned; before=$(state); lemel pack -q mail/bench version=1.9.0
adopt --unsigned
