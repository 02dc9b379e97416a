. "$(dirname "$0")/remake.sh"
asks metal-of-target "$examples/jobs/cuff-links.json" "target=752 ‰"
