. "$(dirname "$0")/slip.sh"
line 'local n = math.floor(2.5)'
