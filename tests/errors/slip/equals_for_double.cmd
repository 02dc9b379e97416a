. "$(dirname "$0")/slip.sh"
line 'if labour = Q "100 USD" then sheet.client:line("Just", labour) end'
