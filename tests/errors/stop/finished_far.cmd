. "$(dirname "$0")/remake.sh"
asks finished-far "$examples/jobs/red-ring.json" finished='2 g'
