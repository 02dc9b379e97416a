. "$(dirname "$0")/slip.sh"
line 'if charged != Q "2 h" then sheet.client:line("Other", charged) end'
