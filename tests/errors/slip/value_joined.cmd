. "$(dirname "$0")/slip.sh"
slip '19s/"Time charged"/"Time " .. charged/'
