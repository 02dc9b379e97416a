# What the job took of it already is there for it still: 9.60 g, and not 3.60 g.
. "$(dirname "$0")/held.sh"
clasp "$(entry 2026-12-04T10:00 'weighed old button' '6.00 g' Nils added 'ring: button')"
charge 'lots[0].mass=9.60 g' && charge 'lots[0].mass=9.70 g'
