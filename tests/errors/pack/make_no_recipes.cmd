. "$(dirname "$0")/../make_pack.sh"
rm mail/bench/recipes/*; lemel pack mail/bench
