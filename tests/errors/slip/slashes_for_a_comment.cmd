. "$(dirname "$0")/slip.sh"
line '// half an hour is added'
