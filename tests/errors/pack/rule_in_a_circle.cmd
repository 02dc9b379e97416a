. "$(dirname "$0")/../make_pack.sh"
sed -i "s/licence = \"CC0-1.0\",/licence = \"CC0-1.0\", uses = { \"quote\" },/" mail/bench/recipes/rule_hours.lua && sums
adopt --unsigned
