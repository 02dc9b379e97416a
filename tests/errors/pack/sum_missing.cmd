. "$(dirname "$0")/../make_pack.sh"
sed -i "s|\(polish.lua\": \)\"sha256:[0-9a-f]*\"|\1\"\"|" mail/bench/pack.json
adopt --unsigned
