. "$(dirname "$0")/closing.sh"
close date=2026-11-30
