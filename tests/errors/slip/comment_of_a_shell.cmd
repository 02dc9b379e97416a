. "$(dirname "$0")/slip.sh"
line '# a comment'
