. "$(dirname "$0")/../data/offer.sh"
quiet --reason "because" --at 2026-11-24T10:30
