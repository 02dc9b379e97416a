. "$(dirname "$0")/slip.sh"
line 'sheet.client:text(text.fill("{a}"))'
