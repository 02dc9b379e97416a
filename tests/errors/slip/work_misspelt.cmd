. "$(dirname "$0")/slip.sh"
slip '16s,work,works,'
