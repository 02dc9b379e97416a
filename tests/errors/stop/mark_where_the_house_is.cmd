mark() { lemel run mark mark=14K body='10 g' "$@" date=2026-11-24 --sheet piece -q >sheet 2>&1; status=$?; grep -hA3 '^STOP \|^ASK ' sheet >&2; return $status; }
echo '{ "name": "Hollow Lane", "place": "US" }' >house.json
mark body_fineness='565 ‰ Au ± 1 ‰ Au'
echo '{ "name": "Hollow Lane", "place": "Ruritania" }' >house.json
mark body_fineness='590 ‰ Au ± 1 ‰ Au'
