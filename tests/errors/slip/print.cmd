. "$(dirname "$0")/slip.sh"
line 'print(labour)'
