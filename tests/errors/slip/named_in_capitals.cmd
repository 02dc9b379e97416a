. "$(dirname "$0")/slip.sh"
cp "$base" recipes/bench_time.LUA; lemel check bench_time
