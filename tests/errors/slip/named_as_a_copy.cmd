. "$(dirname "$0")/slip.sh"
cp "$base" "recipes/bench_time (1).lua"; lemel check bench_time
