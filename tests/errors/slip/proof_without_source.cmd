. "$(dirname "$0")/slip.sh"
slip '26s/, source = "worked example of our own"//'
