. "$(dirname "$0")/slip.sh"
slip '21s/labour =/labor =/'
