. "$(dirname "$0")/slip.sh"
slip '5s/bench", /bench, /'
