. "$(dirname "$0")/slip.sh"
line 'local x = 0 / 0 sheet.client:line("Share", x)'
