. "$(dirname "$0")/remake.sh"
asks mark-below "$examples/jobs/cuff-links.json" "mark=10K"
