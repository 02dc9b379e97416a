. "$(dirname "$0")/closing.sh"
close date=2026-12-06
