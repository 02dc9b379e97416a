. "$(dirname "$0")/slip.sh"
slip '17s/:up_to/.up_to/'
