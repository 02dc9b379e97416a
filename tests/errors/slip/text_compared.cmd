. "$(dirname "$0")/slip.sh"
line 'if charged > "2 h" then sheet.client:line("Long", charged) end'
