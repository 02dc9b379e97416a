. "$(dirname "$0")/book.sh"
job band '' ', "given": { "lots": [ { "name": "old button", "metal": "585 ‰ Au", "mass": "12.00 g", "from": "ring: button" } ] }'
lemel book jobs
