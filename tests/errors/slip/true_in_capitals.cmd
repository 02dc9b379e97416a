. "$(dirname "$0")/slip.sh"
line 'local b = True'
