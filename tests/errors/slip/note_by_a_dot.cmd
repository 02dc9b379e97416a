. "$(dirname "$0")/slip.sh"
line 'sheet.note("long", "A long day")'
