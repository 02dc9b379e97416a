. "$(dirname "$0")/../make_pack.sh"
mv mail/bench/scripts mail/elsewhere && ln -s ../elsewhere mail/bench/scripts
adopt --unsigned
