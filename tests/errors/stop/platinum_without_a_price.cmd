# Platinum in the bag, and none in the price list.
. "$(dirname "$0")/intake.sh"
pieces '[{"name": "ring", "gross": "8 g", "stamp": "18K"}, {"name": "band", "gross": "5 g", "stamp": "950PLAT"}]'
