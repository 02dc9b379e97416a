. "$(dirname "$0")/slip.sh"
slip '18s/= .*/= charged/'
