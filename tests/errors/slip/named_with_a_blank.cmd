. "$(dirname "$0")/slip.sh"
cp "$base" "recipes/bench time.lua"; lemel check bench_time
