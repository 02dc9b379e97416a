. "$(dirname "$0")/../make_pack.sh"
sed -i "s/job.worked:up_to/job.weather:up_to/" mail/bench/recipes/rule_hours.lua && sums
adopt --unsigned
