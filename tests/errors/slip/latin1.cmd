. "$(dirname "$0")/slip.sh"
sed "2s/Bench time/Caf$(printf '\351')/" "$base" >recipes/bench_time.lua; try
