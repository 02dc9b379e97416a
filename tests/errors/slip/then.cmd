. "$(dirname "$0")/slip.sh"
line 'if labour > Q "100 USD" sheet.client:line("Much", labour) end'
