. "$(dirname "$0")/../make_pack.sh"
sed -i "s/\"licence\"/\"license\"/" mail/bench/pack.json
adopt --unsigned
