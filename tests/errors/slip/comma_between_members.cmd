. "$(dirname "$0")/slip.sh"
slip '5s/},$/}\n    more = ask.mass { "More", optional = true },/'
