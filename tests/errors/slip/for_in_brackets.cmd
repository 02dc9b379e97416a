. "$(dirname "$0")/slip.sh"
line 'for (i = 0; i < 3; i++) { }'
