. "$(dirname "$0")/slip.sh"
sed 's/./&\n/g' "$base" | tr '\n' '\0' >recipes/bench_time.lua; try
