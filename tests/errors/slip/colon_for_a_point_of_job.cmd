. "$(dirname "$0")/slip.sh"
line 'job:worked'
