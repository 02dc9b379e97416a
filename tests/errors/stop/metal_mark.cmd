. "$(dirname "$0")/remake.sh"
asks metal-mark "$examples/jobs/cuff-links.json" "mark=18K" "target=752 ‰"
