# Stamps of gold and platinum in one, beside silver and a piece whose number says no metal.
. "$(dirname "$0")/intake.sh"
pieces '[{"name": "ring", "gross": "8 g", "stamp": "PT900/K18", "wish": "melt"}, {"name": "spoon", "gross": "40 g", "stamp": "STER", "wish": "melt"}, {"name": "band", "gross": "5 g", "stamp": "950", "wish": "melt"}]'
