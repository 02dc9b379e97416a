. "$(dirname "$0")/slip.sh"
line 'if charged == 120 then sheet.client:line("Two hours", charged) end'
