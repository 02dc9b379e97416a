. "$(dirname "$0")/slip.sh"
slip '5s/from = "0 min"/from = "10 h", to = "1 h"/'
