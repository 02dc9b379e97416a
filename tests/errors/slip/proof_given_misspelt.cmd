. "$(dirname "$0")/slip.sh"
slip '25s/worked =/workd =/'
