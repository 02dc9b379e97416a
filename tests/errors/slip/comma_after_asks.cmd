. "$(dirname "$0")/slip.sh"
slip '6s/},/}/'
