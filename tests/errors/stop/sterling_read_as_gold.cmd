# 925 that a test found, without its metal: a bare figure is gold, and the stamp says silver.
. "$(dirname "$0")/intake.sh"
pieces '[{"name": "spoon", "gross": "40 g", "stamp": "925", "wish": "melt", "cadmium": "none found", "tests": [{"method": "xrf cut", "found": "925 ‰ ± 5 ‰"}]}]'
