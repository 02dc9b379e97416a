. "$(dirname "$0")/slip.sh"
cp "$base" recipes/bench_time.txt; lemel check bench_time
