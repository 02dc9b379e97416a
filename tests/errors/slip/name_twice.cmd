. "$(dirname "$0")/slip.sh"
slip '9s/$/\n    rate = ask.price { "An hour of the apprentice" },/'
