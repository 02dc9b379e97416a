. "$(dirname "$0")/../data/offer.sh"
quiet --paid deposit --at 2026-11-24T10:30
