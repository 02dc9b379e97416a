. "$(dirname "$0")/slip.sh"
slip '8s/$/\n    worked = ask.time { "Worked" },/'
