. "$(dirname "$0")/../make_pack.sh"
rm mail/bench/pack.json; lemel pack mail/bench licence=CC0-1.0
