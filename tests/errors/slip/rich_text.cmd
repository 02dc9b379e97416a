. "$(dirname "$0")/slip.sh"
{ printf '{\\rtf1\\ansi\n'; cat "$base"; } >recipes/bench_time.lua; try
