. "$(dirname "$0")/../make_pack.sh"
lemel pack
