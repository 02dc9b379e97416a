# A stamp that names its metal and not how fine, and a drop that turns blue.
. "$(dirname "$0")/intake.sh"
pieces '[{"name": "chain", "gross": "8 g", "stamp": "SILVER", "wish": "melt"}, {"name": "fork", "gross": "50 g", "stamp": "800 SILBER", "wish": "melt", "tests": [{"method": "silver drop", "drop": "dark blue"}]}]'
