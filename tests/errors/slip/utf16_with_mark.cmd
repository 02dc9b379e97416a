. "$(dirname "$0")/slip.sh"
{ printf '\377\376'; sed 's/./&\n/g' "$base" | tr '\n' '\0'; } >recipes/bench_time.lua; try
