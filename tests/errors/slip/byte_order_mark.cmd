. "$(dirname "$0")/slip.sh"
{ printf '\357\273\277'; cat "$base"; } >recipes/bench_time.lua; try
