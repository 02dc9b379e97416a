. "$(dirname "$0")/held.sh"
charge --at 2026-12-03
