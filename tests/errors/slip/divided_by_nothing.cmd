. "$(dirname "$0")/slip.sh"
line 'local x = charged / Q "0 min"'
