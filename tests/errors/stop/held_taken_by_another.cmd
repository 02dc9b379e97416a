. "$(dirname "$0")/held.sh"
job brooch "$(entry 2026-12-03T10:00 'weighed button' '4.00 g' Nils added 'ring: button')"
charge
