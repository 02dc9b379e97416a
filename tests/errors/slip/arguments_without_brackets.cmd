. "$(dirname "$0")/slip.sh"
line 'sheet.client:line "a", charged'
