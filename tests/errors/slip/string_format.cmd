. "$(dirname "$0")/slip.sh"
line 'local t = string.format("%d", 5)'
