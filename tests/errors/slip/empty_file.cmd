. "$(dirname "$0")/slip.sh"
: >recipes/bench_time.lua; try
