. "$(dirname "$0")/../day.sh"
# No line of it is shown: it may be any file.
echo 'secret' >jobs/letter.json
day '"cuff-links.json", "letter.json"'
lemel run jobs/day.json
