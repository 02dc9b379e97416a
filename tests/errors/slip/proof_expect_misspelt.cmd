. "$(dirname "$0")/slip.sh"
slip '26s/labour =/labor =/'
