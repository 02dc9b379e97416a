. "$(dirname "$0")/slip.sh"
line 'switch x { }'
