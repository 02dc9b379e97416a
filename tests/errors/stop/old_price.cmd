. "$(dirname "$0")/quote.sh"
quote date=2026-11-25T10:00
