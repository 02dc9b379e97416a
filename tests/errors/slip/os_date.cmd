. "$(dirname "$0")/slip.sh"
line 'local d = os.date()'
