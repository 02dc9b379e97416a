. "$(dirname "$0")/slip.sh"
cp "$base" recipes/bench_time.lua.txt; lemel check bench_time
