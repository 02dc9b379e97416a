. "$(dirname "$0")/../make_pack.sh"
lemel pack mail/bench author=me
