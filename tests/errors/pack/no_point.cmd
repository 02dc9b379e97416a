. "$(dirname "$0")/../make_pack.sh"
sed "s/rule \"hours\"/rule \"hour\"/" mail/bench/recipes/rule_hours.lua > mail/bench/recipes/rule_hour.lua && sums
adopt --unsigned
