. "$(dirname "$0")/slip.sh"
line 'if charged > Q "2 h" then sheet.client:line("Long", charged) else if charged > Q "1 h" then sheet.client:line("Short", charged) end'
