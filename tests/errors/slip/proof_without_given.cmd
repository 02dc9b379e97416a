. "$(dirname "$0")/slip.sh"
slip '25s/rate = "68 USD\/h"//'
