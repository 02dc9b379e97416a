. "$(dirname "$0")/offer.sh"
quiet --at 2026-11-23
